"""Marks that were spoken to a machine, as marks: “slider comma female period”."""

from __future__ import annotations

import re

__all__ = ["with_marks"]

_ENDS = (
    "period",
    "full stop",
    "new line",
    "new paragraph",
    "exclamation point",
    "exclamation mark",
)
_MARKS = {"comma": ",", "question mark": "?", **dict.fromkeys(_ENDS, "!")}
"""An end is an exclamation mark, which never ends an abbreviation."""
_SPOKEN = re.compile(rf"(?<=[^\W_]) ({'|'.join(_MARKS)})\b(?! of\b)", re.IGNORECASE)
_IS_DICTATED = re.compile(r"[^\W_] (?:comma|full stop)(?= |$)", re.IGNORECASE)


def with_marks(text: str) -> str:
    """A dictated text with its marks, each followed by spaces so that every place stays."""
    if not _IS_DICTATED.search(text):
        return text
    return _SPOKEN.sub(lambda said: _MARKS[said[1].casefold()].ljust(len(said[0])), text)
