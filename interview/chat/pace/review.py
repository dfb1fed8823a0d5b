"""Where a talk can end: after the first look, and at the review before the audit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

from interview.chat.faces.face import Asked, Face, Left
from interview.chat.hearing.replies import LEAVE, NO, YES, word_of
from interview.graph.interview import Interview, Place

if TYPE_CHECKING:
    from interview.audit.audit import Audit

__all__ = ["DONE", "goes_on", "reviewed"]

DONE = (
    *("done", "that is all", "thats all", "that's all", "enough", "finish", "im done", "i'm done"),
    "i am done",
)
"""What ends the questions wherever it is typed."""
_AUDIT = ("audit", "audit now", "ready")
_MORE = ("more", "go on", "continue")
_AT_THE_END = "Type yes for the audit, or “grade”, “change water line”, “back” or “stop”."
_FIRST_LOOK = "Enter goes on; “done” ends with the audit of what is known, “grade” tells more."
_FIRST_LOOK_AT_COUNTER = "Enter ends with the audit of what is known; “more” asks the rest."


class Ending(Protocol):
    """What the end of a talk needs of it."""

    interview: Interview
    face: Face
    enough: bool

    @property
    def at_counter(self) -> bool:
        """Whether a customer waits."""

    def hear(self, asked: Asked) -> str:
        """The line at a prompt, once it is no aside."""

    def judged(self) -> Audit:
        """The audit of the answers as they stand."""

    def judge_ahead(self) -> None:
        """Begin on that audit."""

    def jump(self, place: Place) -> None:
        """Ask at a place before what comes next."""

    def save(self) -> None:
        """Save what was answered."""

    def what_if(self, line: str) -> None:
        """Show the tank as it would be."""

    def change(self, name: str) -> bool:
        """Take or ask for another answer; False when none is meant."""

    def left_open(self) -> int:
        """How many questions have no value."""

    def show(self) -> None:
        """List what is known."""


def goes_on(talk: Ending) -> bool:
    """After the first look: what the rest could change; False where the keeper has enough."""
    from interview.chat.pace.enough import offer_said  # heavy: not before it is asked

    counter = talk.at_counter
    with talk.face.working("Judging what is known."):
        audit = talk.judged()
    talk.face.say(offer_said(talk.interview, audit))
    asked = Asked(
        "Shall we go on?",
        _FIRST_LOOK_AT_COUNTER if counter else _FIRST_LOOK,
        completions=("more", "done", "grade", "stop"),
    )
    while True:
        word = word_of(talk.hear(asked))
        if word in LEAVE:
            raise Left
        if word in (*YES, *_MORE) or (not word and not counter):
            return True
        if word in (*NO, *DONE, *_AUDIT, ""):
            return False
        if word.startswith("what if"):
            talk.what_if(word)
        elif not word.startswith("change"):
            talk.face.say(asked.hint)
        elif talk.change(word.removeprefix("change").strip()):
            return True


def reviewed(talk: Ending) -> bool:
    """The review before the audit; False when the keeper goes back to something."""
    interview = talk.interview
    talk.show()
    not_asked = sum(1 for _ in interview.open_places())
    if left := talk.left_open() + not_asked:
        talk.face.say(f"{left} left open; the audit says what it can't judge without them.")
    offer = "" if interview.finer else " “finer” asks the finer questions too."
    if not_asked:
        offer = f" “more” asks the {not_asked} that are left."
    asked = Asked(
        "Ready for the audit?",
        f"Press Enter or type yes; “change water line” mends an answer.{offer}",
        completions=("yes", "finer", "show", "stop"),
    )
    if talk.face.live:
        talk.judge_ahead()
    while True:
        word = word_of(talk.hear(asked))
        if word in ("", *YES, *_AUDIT, *DONE):
            return True
        if word in (*LEAVE, *NO):
            raise Left
        if word == "back" and (last := interview.previous(None)):
            talk.jump(last)
            return False
        if not_asked and word in _MORE:
            talk.enough = False
            return False
        if word == "finer":
            interview.finer, talk.enough = True, False
            talk.save()
            return False
        if word.startswith("what if"):
            talk.what_if(word)
        elif not word.startswith("change"):
            talk.face.say(_AT_THE_END)
        elif talk.change(word.removeprefix("change").strip()):
            return False
