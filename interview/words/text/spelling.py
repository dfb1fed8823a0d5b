"""Slips of the finger in the words that matter: heatr, cannister, wats, buld."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from interview.base.near_spelling import slip_of
from interview.words.lexicon.files import known_words, spelled, words

__all__ = ["mended"]

_SHORTEST, _LONGEST = 4, 16
_ENDINGS = ("s", "es", "d", "ed", "er", "ing", "ly")
_MEASURED = ("length", "volume", "mass", "duration", "power")


@cache
def _targets() -> frozenset[str]:
    """What a slip may be put right to: the longer names of things and units, and some more."""
    names = [name for thing in words().things.values() for name in thing]
    names += [name for kind in _MEASURED for unit in spelled(kind).values() for name in unit]
    spoken = re.findall(r"[a-z]+", " ".join(names))
    long = (word for word in spoken if len(word) > _SHORTEST)
    return frozenset(long) | known_words("spelled_nearly")


@cache
def _left_alone() -> frozenset[str]:
    """Ordinary words that are one letter away from a target."""
    return known_words("ordinary") | _targets()


@lru_cache(maxsize=4096)
def mended(word: str) -> str:
    """The word meant, where a letter was dropped, doubled, changed or swapped; else the word."""
    short = words().short_for.get(word)
    if short or len(word) < _SHORTEST or len(word) > _LONGEST or word in _left_alone():
        return short or word
    forms = {form for end in _ENDINGS for form in (word.removesuffix(end), word + end)}
    if not forms.isdisjoint(_targets()):
        return word
    return slip_of(word, _targets()) or word
