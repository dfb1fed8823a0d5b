"""What a recheck asks with: how to tell a change, and a question with an answer to take."""

from __future__ import annotations

from dataclasses import replace

from interview.chat.faces.face import Asked

__all__ = ["HOW", "UNSURE", "WHAT", "with_offer"]

HOW = (
    "Type what you changed by its name, as “lamp to platform”, “water line” or “nitrate”, and I "
    "ask that question. “show” lists what is known, “stop” saves and leaves, Enter goes on."
)
UNSURE = "Then I take it that nothing else changed; “change …” takes it later, if it did."
WHAT = "What was it? One thing after the other, as “the lamp hangs at 25 cm” or “a new filter”."


def with_offer(asked: Asked, answer: str, why: str) -> Asked:
    """The question with an answer that Enter takes."""
    hint = f"{why}Enter takes that. {asked.hint}"
    return replace(asked, hint=hint, prefill=answer, before="", keeps=answer)
