"""Short replies that mean the same wherever they are typed: yes, no, leave."""

from __future__ import annotations

__all__ = ["LEAVE", "NO", "YES", "word_of"]

YES = ("y", "yes", "yes please", "yep", "ok", "okay", "sure")
NO = ("n", "no", "no thanks", "no thank you", "nope")
LEAVE = ("stop", "quit", "exit")


def word_of(line: str) -> str:
    """A line as a reply: folded, without the full stop or the exclamation mark."""
    return line.casefold().strip(" .!?")
