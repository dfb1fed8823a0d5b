"""Words that only hold somebody up, in front of what is said: hang on, is 24 ok."""

from __future__ import annotations

import re

from interview.words.lexicon.files import known_words
from interview.words.text.tokens import plain_words

__all__ = ["without_hold"]

_HOLDS = re.compile(
    r"(?:(?:oi|oh|no|sorry|ok|okay|but|and|well|eh|um|erm)[ ,]+)*(?:hang on|hold on|wait)"
    r"(?: (?:a|one) (?:sec|second|min|minute|moment|mo|tick))?[ ,.!…–-]+(?=\w)",
    re.IGNORECASE,
)
_LEAST_WORDS = 3
"""Of a clause behind it; “hang on, I think” names a filter."""


def without_hold(line: str, *, names: bool = False) -> str:
    """A line from where it says something, if a question or a sentence follows the interjection.

    Args:
        line: as it was typed
        names: whether the interjection is an answer to what is asked, so that it is none only in
            front of a question
    """
    held = _HOLDS.match(line)
    rest = line[held.end() :] if held else ""
    first, *others = plain_words(rest).split() or [""]
    asks = first in known_words("asked_instead", "opens")
    tells = not names and first in known_words("asked_instead", "begins")
    is_clause = first != "the" or not known_words("asked_instead", "is").isdisjoint(others[1:6])
    says = len(others) + 1 >= _LEAST_WORDS and (asks or (tells and is_clause))
    return rest if says else line
