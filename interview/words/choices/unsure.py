"""The many ways of saying "I don't know"."""

from __future__ import annotations

import re

from interview.words.lexicon.files import known_words
from interview.words.text.tokens import plain_words

__all__ = ["is_unsure"]

_SPEAKER = re.compile(
    r"^(?:(?:sorry|honestly|um|uh|hmm|well|oh|im|i am|ive|i have|i|we|were|to be honest|its)\s+)+"
)
_TAIL = re.compile(r"\s+(?:sorry|really|actually|tbh|to be honest|im afraid|yet|at all)$")


def is_unsure(text: str) -> bool:
    """Whether the text says nothing but that the keeper doesn't know.

    "Unknown" counts; where a choice has an option of that name, read the choice first.
    """
    if text.strip() and not text.strip().strip("?"):
        return True
    words = plain_words(text)
    if len(words) > 60:
        return False
    trimmed = _TAIL.sub("", words)
    return not known_words("unsure").isdisjoint({words, trimmed, _SPEAKER.sub("", trimmed)})
