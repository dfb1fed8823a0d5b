"""The vocabulary: one entry for every name, with unit, physical range and meaning."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import ClassVar, Literal

import msgspec

from interview.base.rows import FileError, Row, WrongKey, read_folder

__all__ = ["Endless", "Entry", "Showing", "Word", "load", "range_in", "vocabulary"]

_HERE = Path(__file__).parent
_RANGE = re.compile(r"([-+.\deE]+) to ([-+.\deE]+)")


def range_in(text: str) -> tuple[float, float] | None:
    """The ends of “0.02 to 0.2”; None for other words."""
    found = _RANGE.fullmatch(text.strip())
    return (float(found[1]), float(found[2])) if found else None


Showing = Literal["share", "count", "per_week", "price", "water", "lit", "uv_index"]
"""What a number is where its unit alone does not tell how people speak of it."""


class Endless(Row, frozen=True):
    """What an infinite value means, and why it is; times without one are never reached."""

    example: ClassVar[str] = "{word: no limit, because: in that room nothing is lost}"

    word: str
    because: str


class Word(Row, frozen=True):
    """A word that stands for values beyond which a number says nothing.

    `{value}` in the reason is the number; `only` keeps the word to tables or to sentences.
    """

    example: ClassVar[str] = "{at_most: 0, word: already outgrown}"

    word: str
    because: str = ""
    above: float | None = None
    below: float | None = None
    at_most: float | None = None
    only: Literal["shown", "said"] | None = None

    def stands_for(self, value: float, *, spoken: bool) -> bool:
        """Whether it says this value, in a sentence or in a table."""
        here = self.only is None or (self.only == "said") == spoken
        ends = (self.above, self.below, self.at_most)
        above, below, at_most = (-math.inf if end is None else end for end in ends)
        found = (self.above is not None and value > above, value < below, value <= at_most)
        return here and any(found)


class Entry(Row, frozen=True):
    """What is known of one name, whoever asks, computes or shows it."""

    EXAMPLE: ClassVar[str] = "{unit: m, range: 0.02 to 3, meaning: lamp face to platform surface}"

    unit: str
    """The core's unit."""
    range: str = ""
    """The physical range, as “0.02 to 3”: no tank has less or more; "" where nothing is told."""
    meaning: str = ""
    """As a data sheet says it; empty where the function of that name says it."""
    each_animal: bool = False
    """Whether it holds a value for each animal."""
    shown: Showing | None = None
    endless: Endless | None = None
    words: tuple[Word, ...] = ()
    named: tuple[str, ...] = ()
    """Words for its numbers, from 0 on."""
    name: str = msgspec.field(default="", name=" name")

    def __post_init__(self) -> None:
        """Refuse a range that is none."""
        ends = range_in(self.range)
        if self.range and (ends is None or ends[0] > ends[1]):
            raise WrongKey("range", f"“{self.range}” is no range; write it as 0.02 to 3")

    @property
    def span(self) -> tuple[float, float]:
        """Both ends of the physical range, infinite where nothing is told."""
        return range_in(self.range) or (-math.inf, math.inf)

    def word_for(self, value: float, *, spoken: bool = False) -> Word | None:
        """The word that stands for a value, in a sentence (`spoken`) or in a table."""
        return next((word for word in self.words if word.stands_for(value, spoken=spoken)), None)


def load(folder: Path) -> dict[str, Entry]:
    """Every entry of a folder's files by name; FileError with file and line says what is wrong."""
    entries: dict[str, Entry] = {}
    for _, file in read_folder(folder, dict[str, Entry]):
        for name, entry in file.items():
            if name in entries:
                raise FileError(entry.where, f"{name} stands in the vocabulary already")
            entries[name] = msgspec.structs.replace(entry, name=name)
    return entries


@cache
def vocabulary() -> Mapping[str, Entry]:
    """The project's own vocabulary."""
    return load(_HERE)
