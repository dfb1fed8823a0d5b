"""After the audit the talk stays: what if, change, save, until the keeper leaves."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from interview import assembly
from interview.chat.asked.topics_in import answer_to
from interview.chat.faces.face import Asked, Face
from interview.chat.hearing.asked_instead import asks, opens, supposes
from interview.chat.hearing.changes import changes_in
from interview.chat.hearing.people import AT_RISK
from interview.chat.hearing.replies import NO, agreed_in, says, word_of
from interview.chat.hearing.told.emergencies import said_before_all
from interview.chat.hearing.told.signs_told import SIGNS
from interview.chat.layers_shown import WAYS_ON, shown_layer
from interview.chat.safekeeping import Safekeeping, auto_title
from interview.chat.saving_page import WELCOME, page_settled
from interview.chat.talks.guided import Left, Talk
from interview.chat.talks.listening import hear_aside, say_unheard
from interview.graph.interview import Place
from interview.words.choices.absence import is_unsure
from interview.words.intents.people import heard_in
from interview.words.lexicon.files import sayings

if TYPE_CHECKING:
    from interview.advice.advise import Progress
    from interview.audit.audit import Audit
    from interview.report.page.coming import Coming

__all__ = ["JUDGING", "audit_and_stay", "change_told", "offer_page", "show_advised"]

JUDGING = "Judging the tank."

_DONE = ("", *NO, "done")
_OTHERWISE = "Where it is otherwise now, “change …” mends the answer and audits again."
_WAYS = "Type “more”, “plans”, “why …”, “what if …”, “change …”, “save” or “stop”."
_CANT_TELL = (
    "That I can't tell: nothing that I know of your tank answers it. A reptile vet can tell of the "
    "animal, an electrician of wiring, a shop of what it sells; “more” lists all that was judged."
)
_NEXT = Asked(
    "What next?",
    "“more”, “plans”, “numbers”, “buy”, “calendar”, “mishaps” and “why basking heat” show the "
    "rest; “what if the lamp is 5 cm higher” tries something; “change lamp to platform” mends an "
    "answer and audits again; “show”, “save”, “?”; Enter or “stop” leaves.",
    completions=(*WAYS_ON, "what if", "change", "show", "save", "stop"),
)
_TRIED = (
    "I try that as a what-if. If it is so already, “change …” mends the answer, or “tankside "
    "recheck {path}” later."
)

_CHANGED = (
    "That sounds like a change, not like a file's name. “tankside recheck {path}” takes it and "
    "judges the tank anew. First the page: yes, no, or a name for its file."
)
_AFTER_THE_PAGE = (
    "That sounds like a change: I take it up behind this. First the page: yes, no, or a name for "
    "its file."
)
_OF_PEOPLE = (
    "That counts: who lives with a turtle can be at risk. I take it up behind this. First the "
    "page: yes, no, or a name for its file."
)
_IS_SO = Asked(
    "Is that so now?",
    "Enter or “yes” puts it into the answers and audits again; “no” only tries it as a what-if.",
    completions=("yes", "no"),
)
_LEAST_WORDS = 4
"""Of what is told in place of a yes: an amount alone may be of anything."""
_LEAST_TOLD = 3
"""Words of what may be told of a check: she never basks."""
_YES_OR_NO = "Yes or no, please; where it is otherwise, tell it whole, as “{}”."


def audit_and_stay(face: Face, talk: Talk, keeping: Safekeeping) -> int:
    """Audit, offer the page, and stay until the keeper leaves; returns the exit code.

    Raises Left where another tank is wanted; this one is saved then.
    """
    while True:
        title = keeping.title or auto_title(talk.interview)
        with face.working(JUDGING):
            audit = talk.ahead.audit(talk.interview, title)
        shown, talk.audited = show_advised(face, audit), dict(talk.interview.answers)
        talk.advised = partial(shown.finished, face.working)
        code = 1 if shown.audit.grades.stop else 0
        try:
            goes_on = _page_offered(face, talk, shown, keeping.path)
            while not goes_on:
                goes_on = _changes(face, talk, shown, keeping.path)
        except Left as left:
            say_unheard(face, talk.unheard())
            _farewell(face, keeping)
            if left.anew:
                raise
            return code
        try:
            talk.go_on()
        except Left as left:
            say_unheard(face, talk.unheard())
            _farewell(face, keeping)
            if left.anew:
                raise
            return 130 if left.interrupted else code


def show_advised(face: Face, audit: Audit) -> Coming:
    """Show an audit part by part to somebody who sits there, at once to a pipe."""
    from interview.report.page.coming import Coming

    if face.live:
        coming = Coming(audit, assembly.advice_in_steps(audit, awaited=True))
    else:
        coming = Coming(audit, _whole(audit))
    coming.show(face, at_once=not face.live)
    return coming


def _whole(audit: Audit) -> Iterator[Progress]:
    from interview.advice.advise import Progress

    yield Progress(assembly.advice_of(audit), "")


def offer_page(
    face: Face, talk: Talk, shown: Coming, path: Path, later: list[str] | None = None
) -> None:
    """Offer to save the page till it is settled; what is told of the tank there is no name.

    Where the talk goes on behind, `later` takes the changes that are told.
    """

    def told(line: str) -> bool:
        ill, told = talk.hear_of_illness(line), talk.answered_back(line)
        if told == "":
            return True
        line = told or line
        changes = _tells_of_a_change(talk, line)
        if not changes and (ill or said_before_all(line)):
            return True
        if changes and later is not None:
            later.append(line)
            face.say(_OF_PEOPLE if talk.tells_of_people(line) else _AFTER_THE_PAGE)
        elif changes:
            face.say(_CHANGED.format(path=shlex.quote(str(path))))
        return changes

    page = path.with_suffix(".md")
    while not page_settled(face, shown, page, talk.aside, told, talk.hear_of_illness):
        pass


def change_told(face: Face, talk: Talk, shown: Coming, path: Path) -> str:
    """Stay at a recheck's page; the line that tells what is different. Leaving raises Left."""
    told: list[str] = []
    while not _changes(face, talk, shown, path, told):
        pass
    return told[0]


def _page_offered(face: Face, talk: Talk, shown: Coming, path: Path) -> bool:
    """Offer to save the page, and take up what was told there; True to audit again."""
    told: list[str] = []
    goes_on = False
    try:
        offer_page(face, talk, shown, path, told)
        while told:
            goes_on |= _taken_up(face, talk, told[0], path)
            told.pop(0)
    except Left:
        say_unheard(face, told)
        raise
    return goes_on


def _changes(
    face: Face, talk: Talk, shown: Coming, path: Path, told: list[str] | None = None
) -> bool:
    """Hear what is next and do it; True when an answer is to be changed. Leaving raises Left.

    A line that tells a change goes to `told`, where it isn't taken up here.
    """
    line = " ".join(hear_aside(face, _NEXT).split())
    if shown_layer(face, shown, line, talk.hear_of_illness) or talk.aside(line, _NEXT):
        return False
    word = word_of(line)
    if word in _DONE:
        raise Left
    if told is not None and word.split()[:1] == ["change"]:
        told.append(line)
        return True
    if (left := talk.elsewhere(line)) is not None:
        return left
    if (beside := talk.answered_back(line)) == "":
        return False
    line = beside or line
    if says(line, "thanks"):
        face.say(f"{WELCOME} Enter leaves; what else would you like to see?")
    elif word == "save" and told is None:
        return _page_offered(face, talk, shown, path)
    elif word == "save":
        offer_page(face, talk, shown, path)
    elif talk.hear_of_illness(line) and not _tells_of_a_change(talk, line):
        pass
    elif told is not None and (_is_told_as_so(talk, line) or talk.tells_of_people(line)):
        told.append(line)
        return True
    elif _tells_of_a_change(talk, line):
        return _taken_up(face, talk, line, path)
    elif told is None and talk.heard_correction(line):
        return True
    elif said_before_all(line):
        pass  # nothing soothes behind that
    elif len(line.split()) >= _LEAST_TOLD and (said := answer_to(shown.audit, line, talk.advised)):
        face.say(f"{said} {_OTHERWISE}")
    elif heard_in(line).distress:
        face.say(f"{sayings().beginning.distress} “plans” shows what comes first.")
    else:
        face.say(_CANT_TELL, "note") if asks(line) else face.say(_WAYS, "refusal")
    return False


def _taken_up(face: Face, talk: Talk, line: str, path: Path) -> bool:
    """Note who is told of, and take up what else is told; True to audit again."""
    of_people = talk.tells_of_people(line)
    noted = of_people and talk.notes_people(line)
    if of_people and _places_told(talk, line) <= {AT_RISK}:
        return noted
    return _put_or_tried(face, talk, line, path) or noted


def _put_or_tried(face: Face, talk: Talk, line: str, path: Path) -> bool:
    """Put what is told as so into the answers, else try it as a what-if; True to audit again.

    What is told in place of a yes or no is taken up instead.
    """
    if _is_told_as_so(talk, line) and face.live:
        face.say(f"You told “{line}”.")
        while True:
            said = hear_aside(face, _IS_SO)
            agrees, rest = agreed_in(said)
            anew = said if agrees is None else rest
            if talk.hear_of_illness(said):
                anew = ""
            if len(anew.split()) >= _LEAST_WORDS and _tells_of_a_change(talk, anew):
                return _taken_up(face, talk, anew, path)
            if is_unsure(said) or (agrees is False and not anew):
                break
            if agrees and not anew:
                return talk.takes_so(line)
            face.say(_YES_OR_NO.format(line))
    face.say(_TRIED.format(path=shlex.quote(str(path))))
    talk.what_if(line)
    return False


def _is_told_as_so(talk: Talk, line: str) -> bool:
    """Whether all that a line changes is told as it is: no wish, no question, no maybe."""
    if opens(line) or supposes(line):
        return False
    heard = changes_in(talk.interview, line)
    return bool(heard) and all(change.place and change.told for change in heard)


def _tells_of_a_change(talk: Talk, line: str) -> bool:
    """Whether a line without a command says for sure what would be otherwise."""
    return talk.tells_of_people(line) or bool(_places_told(talk, line))


def _places_told(talk: Talk, line: str) -> set[Place]:
    """What a line says for sure would be otherwise; signs of illness were heard before."""
    return talk.news_in(line) - {SIGNS}


def _farewell(face: Face, keeping: Safekeeping) -> None:
    keeping.settle()
    path = keeping.path
    again = f"tankside recheck {shlex.quote(str(path))}"
    face.say(
        f"The answers are in {path}; “tankside audit” makes the page at any time. Once you have "
        f"moved something, “{again}” asks only what that touches."
    )
