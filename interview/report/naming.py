"""How names stand in sentences."""

from __future__ import annotations

__all__ = ["capital", "spoken"]


def spoken(check: str) -> str:
    """A check's id as people say it."""
    words = "pH" if check == "ph" else check.replace("_", " ")
    return words.replace("uv ", "UV ").replace("rcd", "RCD or GFCI")


def capital(text: str) -> str:
    """The text as it begins a line, a cell or a sentence; pH stays pH."""
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]
