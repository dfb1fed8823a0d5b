"""Short replies that mean the same wherever they are typed: yes, no, leave."""

from __future__ import annotations

__all__ = ["LEAVE", "NO", "YES", "word_of"]

YES = ("y", "yes")
NO = ("n", "no")
LEAVE = ("stop", "quit", "exit")


def word_of(line: str) -> str:
    """A line as a reply: folded, without the full stop or the exclamation mark."""
    return line.casefold().strip(" .!?")
