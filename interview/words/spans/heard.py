"""What some words of a text say, and amounts as they would be typed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from interview.words.amounts.amount import written
from interview.words.amounts.spellings import Unit, label
from interview.words.lexicon.files import known_words, words
from interview.words.text.tokens import Text

__all__ = ["Heard", "heard", "hedges_around", "plain_letters", "typed"]

_SHORT = {"gallon": "gal", "quart": "qt", "pint": "pint", "fluid_ounce": "fl oz"}
_SHORT |= {"gallon/hour": "gph", "gallon/minute": "gpm"}
_PLAIN = str.maketrans("\n\t\u00a0’‘–—ıİ", "   ''--iI")
"""One character for one."""
_WIDENING = ("about", "nearly", "just_over")
"""Hedges that leave the amount what it is: no "at most"."""


@dataclass(frozen=True, slots=True)
class Heard:
    """Some characters of a text, and what they say by the type of question, or by its id."""

    start: int
    stop: int
    says: Mapping[str, str]


def plain_letters(text: str) -> str:
    """A text for patterns of letters, as long as it was: plain marks, no line breaks, no dotless i.

    Without regard to case that is an i to patterns, and to no table of words.
    """
    return text.translate(_PLAIN)


def heard(text: Text, first: int, end: int, says: Mapping[str, str]) -> Heard:
    """What some tokens say."""
    return Heard(text.tokens[first].start, text.tokens[end - 1].end, says)


def typed(number: float | str, unit: Unit) -> str:
    """An amount as it would be typed; of gallons the region tells which."""
    bare = unit.removeprefix("?")
    told = number if isinstance(number, str) else f"{number:.6g}"
    if unit.startswith("?") or bare in _SHORT:
        return f"{told} {_SHORT.get(bare, bare)}"
    return f"{told} {label(unit)}" if isinstance(number, str) else written(number, unit)


def hedges_around(text: Text, first: int, end: int) -> tuple[int, int]:
    """Where an amount begins and ends with the words that widen it."""
    before, behind = _hedges("before"), _hedges("after")
    fits = (one for one in before if text.words(max(0, first - len(one)), first) == one)
    ends = (end + len(one) for one in behind if text.words(end, end + len(one)) == one)
    return first - len(next(fits, ())), next(ends, end)


@cache
def _hedges(side: str) -> tuple[tuple[str, ...], ...]:
    listed = getattr(words(), f"hedges_{side}")
    said = {phrase for group in _WIDENING for phrase in listed.get(group, ())}
    said -= known_words("told", f"no_hedges_{side}")
    return tuple(sorted((tuple(phrase.split()) for phrase in said), key=len, reverse=True))
