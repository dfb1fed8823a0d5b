"""Short replies that mean the same wherever they are typed: yes, no, leave."""

from __future__ import annotations

__all__ = ["LEAVE", "NO", "YES", "word_of"]

YES = (
    *("y", "yes", "yes please", "yep", "yeah", "yea", "yup", "ok", "okay", "sure", "correct"),
    *("right", "thats right", "that's right", "yes thats right", "yes that's right"),
)
NO = ("n", "no", "no thanks", "no thank you", "nope", "nah")
LEAVE = ("stop", "quit", "exit")


def word_of(line: str) -> str:
    """A line as a reply: folded, without the full stop or the exclamation mark."""
    return line.casefold().strip(" .!?")
