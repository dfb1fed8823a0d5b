"""What a recheck asks with: how to tell a change."""

from __future__ import annotations

__all__ = ["HOW", "UNSURE", "WHAT"]

HOW = (
    "Type what you changed by its name, as “lamp to platform”, “water line” or “nitrate”, and I "
    "ask that question. “show” lists what is known, “stop” saves and leaves, Enter goes on."
)
UNSURE = "Then I take it that nothing else changed; “change …” takes it later, if it did."
WHAT = "What was it? One thing after the other, as “the lamp hangs at 25 cm” or “a new filter”."
