"""Whether “raised it 25 cm” tells where a thing is now, or how far it was moved."""

from __future__ import annotations

from dataclasses import replace

from interview.chat.faces.face import Asked
from interview.chat.hearing.changes import LeftAt
from interview.chat.hearing.choosing import Choosing
from interview.chat.hearing.references import thing_of
from interview.chat.hearing.replies import NO, word_of
from interview.graph.interview import Place

__all__ = ["at_or_by"]


def at_or_by(talk: Choosing, place: Place, told: LeftAt) -> LeftAt:
    """Which of two readings of a move is meant; neither where only Enter is pressed."""
    thing = thing_of(talk.interview, place)
    at, by = f"at {told.amount}", f"by {told.amount}, which makes {told.by}"
    asked = Asked(
        f"{thing[:1].upper()}{thing[1:]}: at {told.amount}, or by {told.amount}?",
        "Type 1 or 2; Enter for neither, then I ask for it.",
        choices=[("at", at), ("by", by)],
        completions=("at", "by"),
    )
    while True:
        word = word_of(talk.hear(asked)).strip(" .#")
        if word in ("1", "at", at):
            return replace(told, by="")
        if word in ("2", "by", by, f"by {told.amount}"):
            return replace(told, at="")
        if word in ("", *NO, "neither"):
            return LeftAt()
        talk.face.say("Type 1 for where it is now, or 2 for how far it was moved.", "refusal")
