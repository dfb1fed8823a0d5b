"""The audit as a page in a file, saved where the keeper says."""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from interview import assembly
from interview.chat.faces.face import Asked, Face, Left
from interview.chat.hearing.replies import DONE, NO, YES, says, says_no, says_yes, word_of
from interview.chat.layers_shown import WAYS_ON, shown_layer
from interview.chat.page_file import may_be_replaced, write_dressed
from interview.chat.talks.asides import named_in
from interview.chat.talks.listening import hear_aside
from interview.graph.answers import understand
from interview.setups import SetupError
from interview.words.choices.absence import is_absent, is_unsure
from interview.words.lexicon.rules import is_said
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

if TYPE_CHECKING:
    from interview.report.page.coming import Coming

__all__ = ["WELCOME", "page_settled"]

WELCOME = "You're welcome. I'm glad if it helps."

_FOR_LATER = ("what if", "change ", "show", "how", "?")
_COMMANDS = ("back", "change", "finer", "audit")
_UNDECIDED = ("maybe", "perhaps", "possibly")
_FILE_NAME = re.compile(
    r"\S*[/\\]\S*|\S+\.[a-z]\w*|(?:~|\.{0,2}|[a-z]:)[/\\].*|.*\.(?:md|markdown|te?xt)",
    re.IGNORECASE,
)
"""What nobody types but as a file: a word with a folder or an ending, a whole path, a page."""
_NAMED = re.compile(
    r"(?:(?:y|yes|yeah|yep|ok|okay|sure|please)[ ,]+)?(?:but )?(?:(?:save|call|name) )?"
    r"(?:it |this )?(?:as |under |in |into |to )?(.+)",
    re.IGNORECASE,
)
"""What may lead up to a file's name: yes, but as study.md."""


def page_settled(
    face: Face,
    shown: Coming,
    usual: Path,
    aside: Callable[[str, Asked], bool] | None = None,
    told: Callable[[str], bool] | None = None,
    ill: Callable[[str], bool] | None = None,
) -> bool:
    """Offer to save the page; False when it could not be and another name may help.

    What can be typed anywhere is carried out (`aside`), what is `told` of the tank or an `ill`
    animal is answered: each is False where it isn't that.
    """
    asked = Asked(
        "Save this audit as Markdown?",
        f"Enter or yes saves {usual}; type another file name, or no.",
        completions=("yes", "no"),
    )
    line = hear_aside(face, asked)
    word = word_of(line)
    if word in WAYS_ON or word.startswith("why "):
        shown_layer(face, shown, line, ill)
        return False
    if says(line, "thanks"):
        face.say(f"{WELCOME} Shall I save the page, yes or no?")
        return False
    if named_in(line) == "new":
        face.say("The page is not saved; “tankside audit” makes it at any time.")
        raise Left(anew=True)
    if aside and aside(line, asked):
        return False
    spoken = plain_words(line)
    if is_said(spoken, "asked_instead", "saves"):
        return _saved(face, shown, usual)
    if is_said(spoken, "asked_instead", "saves_not") or is_absent(line):
        return True
    if line.casefold().startswith(_FOR_LATER) or word in _COMMANDS or named_in(line):
        face.say("That comes next. First the page: yes, no, or a name for its file.", "refusal")
        return False
    if is_unsure(line) or word in _UNDECIDED:
        face.say("That is no hurry: “no” goes on, and “save” offers it again.")
        return False
    if word in (*NO, *DONE, "skip") or says_no(line) or says(line, "skip"):
        return True
    if not word or says_yes(line):
        return _saved(face, shown, usual)
    named = _NAMED.fullmatch(line)
    if named and _FILE_NAME.fullmatch(named[1]):
        line = named[1]
    elif told and told(line):
        return False
    try:
        target = Path(line).expanduser()
    except RuntimeError:
        face.say(f"“{line}” is nobody's home folder. Type another name.", "refusal")
        return False
    if target.name and not target.suffix:
        target = target.with_name(f"{target.name}.md")
    if (doubt := _why_no_name(line)) and not _agreed(face, f"{doubt} Save the page as {target}?"):
        return False
    return _saved(face, shown, target)


def _saved(face: Face, shown: Coming, target: Path) -> bool:
    """Write the page, over another file only once the keeper agrees."""
    from interview.report.formats.interface import Page

    try:
        if not may_be_replaced(target) and not _agreed(
            face, f"{target} exists and is no page of mine. Write over it?"
        ):
            return False
        target.parent.mkdir(parents=True, exist_ok=True)
        today = datetime.date.today().isoformat()
        page = Page(shown.audit, shown.finished(face.working), date=today, whole=True)
        write_dressed(page, "markdown", target)
    except OSError as problem:
        said = f"{target} can't be written: {problem.strerror}."
        face.say(f"{said} Type another name.", "refusal")
        return False
    except SetupError as problem:
        face.say(f"{problem} Type another name.", "refusal")
        return False
    face.say(f"Saved {target}.")
    return True


def _agreed(face: Face, label: str) -> bool:
    """A yes, and nothing but a yes."""
    hint = "yes does; anything else asks for a name again."
    return word_of(hear_aside(face, Asked(label, hint, completions=("yes", "no")))) in YES


def _why_no_name(line: str) -> str:
    """Why a line may be meant as something else than a file's name; "" where it can't be."""
    if _FILE_NAME.fullmatch(line):
        return ""
    if _reads_like_an_answer(line):
        return f"“{line}” reads like an answer."
    return f"“{line}” may be more than a name." if len(line.split()) > 1 else ""


def _reads_like_an_answer(line: str) -> bool:
    """Whether some question of the interview would take the line."""
    for question in assembly.questionnaire():
        if question.type == "names":
            continue
        try:
            understand(question, line, assembly.lists(), "")
        except NotUnderstood:
            continue
        return True
    return False
