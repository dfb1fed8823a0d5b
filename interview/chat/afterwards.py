"""After the audit the talk stays: what if, change, save, until the keeper leaves."""

from __future__ import annotations

import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from interview import assembly
from interview.chat.faces.face import Asked, Face
from interview.chat.hearing.asked_instead import thanks
from interview.chat.hearing.changes import changes_in
from interview.chat.hearing.replies import NO, word_of
from interview.chat.layers_shown import WAYS_ON, shown_layer
from interview.chat.safekeeping import Safekeeping, auto_title
from interview.chat.saving_page import WELCOME, page_settled
from interview.chat.talks.guided import Left, Talk
from interview.chat.talks.listening import hear_aside

if TYPE_CHECKING:
    from interview.advice.advise import Progress
    from interview.audit.audit import Audit
    from interview.report.page.coming import Coming

__all__ = ["JUDGING", "audit_and_stay", "offer_page", "show_advised"]

JUDGING = "Judging the tank."

_DONE = ("", *NO, "done")
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


def audit_and_stay(face: Face, talk: Talk, keeping: Safekeeping) -> int:
    """Audit, offer the page, and stay until the keeper leaves; returns the exit code.

    Raises Left where another tank is wanted; this one is saved then.

    Args:
        face: where it is shown
        talk: the conversation so far, for changes and what-ifs
        keeping: where the answers are
    """
    while True:
        title = keeping.title or auto_title(talk.interview)
        with face.working(JUDGING):
            audit = talk.ahead.audit(talk.interview, title)
        shown = show_advised(face, audit)
        code = 1 if shown.audit.grades.stop else 0
        try:
            offer_page(face, talk, shown, keeping.path)
            while not _changes(face, talk, shown, keeping.path):
                pass
        except Left as left:
            _farewell(face, keeping)
            if left.anew:
                raise
            return code
        try:
            talk.go_on()
        except Left as left:
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


def offer_page(face: Face, talk: Talk, shown: Coming, path: Path) -> None:
    """Offer to save the page till it is settled; what is told of the tank there is no name."""

    def told(line: str) -> bool:
        if talk.hear_of_illness(line):
            return True
        if changes := _tells_of_a_change(talk, line):
            face.say(_CHANGED.format(path=shlex.quote(str(path))))
        return changes

    while not page_settled(face, shown, path.with_suffix(".md"), talk.aside, told):
        pass


def _changes(face: Face, talk: Talk, shown: Coming, path: Path) -> bool:
    """Hear what is next and do it; True when an answer is to be changed. Leaving raises Left."""
    line = " ".join(hear_aside(face, _NEXT).split())
    if shown_layer(face, shown, line) or talk.aside(line, _NEXT):
        return False
    word = word_of(line)
    if word in _DONE:
        raise Left
    if (left := talk.elsewhere(line)) is not None:
        return left
    if thanks(line):
        face.say(f"{WELCOME} Enter leaves; what else would you like to see?")
    elif word == "save":
        offer_page(face, talk, shown, path)
    elif not talk.hear_of_illness(line) and _tells_of_a_change(talk, line):
        face.say(_TRIED.format(path=shlex.quote(str(path))))
        talk.what_if(line)
    else:
        face.say(
            "Type “more”, “plans”, “why …”, “what if …”, “change …”, “save” or “stop”.",
            "refusal",
        )
    return False


def _tells_of_a_change(talk: Talk, line: str) -> bool:
    """Whether a line without a command says for sure what would be otherwise."""
    heard = changes_in(talk.interview, line, supposed=True)
    return any(change.place and change.told for change in heard)


def _farewell(face: Face, keeping: Safekeeping) -> None:
    keeping.settle()
    path = keeping.path
    again = f"tankside recheck {shlex.quote(str(path))}"
    face.say(
        f"The answers are in {path}; “tankside audit” makes the page at any time. Once you have "
        f"moved something, “{again}” asks only what that touches."
    )
