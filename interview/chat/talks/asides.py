"""What can be typed at every prompt and answers nothing: help, what is known, the grade so far."""

from __future__ import annotations

from typing import Literal, TypeAlias, get_args

from interview.chat.faces.face import Asked, Face, Left
from interview.chat.hearing.replies import says, word_of
from interview.chat.talks.answers_so_far import show_known
from interview.graph.interview import Interview
from interview.words.lexicon.files import sayings
from interview.words.lexicon.rules import is_said
from interview.words.text.tokens import plain_words

__all__ = ["Aside", "aside_in", "carry_out", "named_in"]

Aside: TypeAlias = Literal["help", "show", "grade", "buy", "print", "new", "leave", "left"]

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
_PRINT = (
    "At the end I offer to save the audit as a page, a text file that a word processor or a "
    "browser opens and prints. “tankside audit” makes the page at any time."
)
_BOUGHT = "The audit tells what to get, and in which order; saved as a page it can be taken along."
_NEW = "This tank is kept as it is; “tankside setups” lists all that is kept."
_NOTHING_YET = "Nothing was told of this tank, so nothing is kept of it."


def named_in(line: str) -> Aside | None:
    """The aside a line goes by, wherever it is typed."""
    # “?” is all punctuation, which a reply is read without.
    word = word_of(line) or line.strip()
    if word and not word.strip("?"):
        return "help"
    spoken = plain_words(word)
    return next((name for name in get_args(Aside) if is_said(spoken, "asides", name)), None)


def aside_in(interview: Interview, asked: Asked, line: str) -> Aside | None:
    """The aside a line is; None where it is something else, or answers the question."""
    aside = named_in(line)
    if aside == "grade" and "audit" in word_of(line) and asked.place is None:
        return None  # the whole audit is meant
    if aside == "new" and (place := asked.place):  # a filter can be new, too
        question = interview.question(place)
        if question.count_of and says(line, "one_more"):
            return None  # of those that are counted
        answers = question.type != "names" and interview.takes(place, line)
        return None if answers else aside
    return aside


def carry_out(aside: Aside, interview: Interview, face: Face, asked: Asked) -> None:
    """Do what an aside asks for; `asked` is the prompt that stands.

    Raises Left where another tank is wanted, or no more today.
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
        face.say(sayings().beginning.buy if interview.next() else _BOUGHT)
    elif aside == "print":
        face.say(_PRINT)
    elif aside == "left":
        _say_left(interview, face)
    elif aside == "leave":
        raise Left
    else:
        face.say(_NEW if interview.answers else _NOTHING_YET)
        raise Left(anew=True)


def _say_left(interview: Interview, face: Face) -> None:
    """How long it still takes, and that it need not."""
    minutes, look = (round(interview.minutes_left(first_look=one)) for one in (False, True))
    if not minutes:
        face.say("That was nearly all.")
        return
    first = f"The first look takes about {look} minutes more, all" if 0 < look < minutes else "All"
    plural = "" if minutes == 1 else "s"
    face.say(
        f"{first} of it about {minutes} minute{plural}. “done” ends with the audit of what is "
        "known, “stop” saves and leaves."
    )
