"""What can be typed at every prompt and answers nothing: help, what is known, the grade so far."""

from __future__ import annotations

import re
from typing import Literal, TypeAlias

from interview.chat.faces.face import Asked, Face, Left
from interview.chat.hearing.people import WHAT_TO_BUY
from interview.chat.hearing.replies import word_of
from interview.chat.talks.answers_so_far import show_known
from interview.graph.interview import Interview, Place

__all__ = ["Aside", "aside_in", "carry_out", "named_in"]

Aside: TypeAlias = Literal["help", "show", "grade", "buy", "print", "new"]

_ROWS = (
    ("why", "why this is asked"),
    ("how", "how to measure it"),
    ("not sure", "go on with an honest assumption"),
    ("skip", "leave it open"),
    ("back", "the question before"),
    ("change …", "any earlier answer, as “change water line”"),
    ("what if …", "as “what if the water is 3 cm lower and the lamp 5 cm higher”"),
    ("show", "what is known so far; “list” does the same"),
    ("grade", "what is certain and what is likely so far"),
    ("what should I buy first", "where that will stand"),
    ("print", "how the audit gets onto paper"),
    ("next", "another tank; this one is kept"),
    ("stop", "save and leave"),
)
_WAYS: dict[Aside, re.Pattern[str]] = {
    "help": re.compile(r"\?+|(?:please )?help(?: me)?|commands"),
    "show": re.compile(
        r"show(?: me)?(?: all| everything)?|list(?: all)?|what do you know|what is known"
    ),
    "grade": re.compile(
        r"(?:the |my )?grade(?: so far| now| it| me)?|(?:the )?audit now|so far|"
        r"how (?:am i|are we|is (?:it|my tank)) doing(?: so far)?"
    ),
    "buy": re.compile(
        r"what (?:should|do|must|can) (?:i|we) (?:have to |need to )?(?:buy|get)"
        r"(?: first| next| now)?|what to buy(?: first)?|buy(?: first)?|shopping(?: list)?"
    ),
    "print": re.compile(
        r"print(?: it| this| the (?:page|audit))?|how (?:do|can) i print(?: it| this)?"
    ),
    "new": re.compile(
        r"(?:a )?(?:new|another|next)(?: (?:tank|customer|one|talk))|new|next|start (?:over|anew)"
    ),
}
_PRINT = (
    "At the end I offer to save the audit as a page, a text file that a word processor or a "
    "browser opens and prints. “tankside audit” makes the page at any time."
)
_BOUGHT = "The audit tells what to get, and in which order; saved as a page it can be taken along."
_NEW = "This tank is kept as it is; “tankside setups” lists all that is kept."


def named_in(line: str) -> Aside | None:
    """The aside a line goes by, wherever it is typed."""
    # “?” is all punctuation, which a reply is read without.
    word = word_of(line) or line.strip()
    return next((name for name, way in _WAYS.items() if way.fullmatch(word)), None)


def aside_in(interview: Interview, asked: Asked, line: str) -> Aside | None:
    """The aside a line is; None where it is something else, or answers the question."""
    aside = named_in(line)
    if aside == "grade" and "audit" in word_of(line) and asked.place is None:
        return None  # the whole audit is meant
    if aside == "new" and asked.place and _answers(interview, asked.place, line):
        return None
    return aside


def _answers(interview: Interview, place: Place, line: str) -> bool:
    """Whether a question takes the words: a filter can be new."""
    return interview.question(place).type != "names" and interview.takes(place, line)


def carry_out(aside: Aside, interview: Interview, face: Face, asked: Asked) -> None:
    """Do what an aside asks for; `asked` is the prompt that stands.

    Raises:
        Left: where another tank is wanted.
    """
    if aside == "help":
        if asked.place is None and asked.hint:
            face.say(asked.help or asked.hint, "help")
        face.listing("At any question you can type:", _ROWS)
    elif aside == "show":
        show_known(interview, face)
    elif aside == "grade":
        from interview.chat.talks.grade_so_far import show_grade_so_far  # heavy

        show_grade_so_far(interview, face)
    elif aside == "buy":
        face.say(WHAT_TO_BUY if interview.next() else _BOUGHT)
    elif aside == "print":
        face.say(_PRINT)
    else:
        face.say(_NEW)
        raise Left(anew=True)
