"""Whether a line tells of a turtle that is there no more."""

from __future__ import annotations

import re

from interview.chat.hearing.replies import says
from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import said_as
from interview.words.text.tokens import plain_words

__all__ = ["has_died", "tells_of_one_gone"]

_ENDS = re.compile(r"[,;.!]|\b(?:and|but|so|as)\b", re.IGNORECASE)


def tells_of_one_gone(line: str) -> bool:
    """Whether a line, or a part of it, says that a turtle died or lives elsewhere."""
    told = (line, *_ENDS.split(line))
    return any(says(part, "turtle_left") and not _is_denied(part) for part in told)


def _is_denied(part: str) -> bool:
    """Whether it is said of none: neither turtle died; not “no, he died”."""
    return said_as("asked_instead", "none_left").search(f" {plain_words(part)} ") is not None


def has_died(line: str) -> bool:
    """Whether it died."""
    return not known_words("asked_instead", "turtle_died").isdisjoint(plain_words(line).split())
