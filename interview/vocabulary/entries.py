"""What an entry of the vocabulary may say of a name."""

from __future__ import annotations

import math
import re
from functools import cache
from typing import Annotated, ClassVar, Literal

from interview.base.rows import Names, Row, WrongKey

__all__ = ["Endless", "Entry", "Figures", "InPicture", "Showing", "Word", "range_in"]

Showing = Literal[
    "share", "count", "per_week", "price", "water", "lit", "uv_index", "water_surface",
    "dry_surface",
]  # fmt: skip
"""What a number is where its unit alone does not tell how people speak of it."""

_RANGE = re.compile(r"([-+.\deE]+) to ([-+.\deE]+)")


@cache
def range_in(text: str) -> tuple[float, float] | None:
    """The ends of “0.02 to 0.2”; None for other words."""
    found = _RANGE.fullmatch(text.strip())
    return (float(found[1]), float(found[2])) if found else None


class Endless(Row, frozen=True):
    """What an infinite value means, and why it is; times without one are never reached."""

    EXAMPLE: ClassVar[str] = "{word: no limit, because: in that room nothing is lost}"

    word: str
    because: str


class Word(Row, frozen=True):
    """A word that stands for values beyond which a number says nothing.

    `{value}` in the reason is the number; `only` keeps the word to tables or to sentences.
    """

    EXAMPLE: ClassVar[str] = "{at_most: 0, word: already outgrown}"

    word: str
    because: str = ""
    above: float | None = None
    below: float | None = None
    at_most: float | None = None
    only: Literal["shown", "said"] | None = None

    def stands_for(self, value: float, *, spoken: bool) -> bool:
        """Whether it says this value, in a sentence or in a table."""
        if self.only and (self.only == "said") != spoken:
            return False
        return (
            (self.above is not None and value > self.above)
            or (self.below is not None and value < self.below)
            or (self.at_most is not None and value <= self.at_most)
        )


class Figures(Row, frozen=True):
    """Where a number stands in tables: the whole one, what a change moves."""

    EXAMPLE: ClassVar[str] = "{place: 90, tables: [whole, moved]}"

    place: int
    """Tables are sorted by it."""
    tables: tuple[Literal["whole", "moved"], ...] = ("whole", "moved")


class InPicture(Row, frozen=True):
    """Where a name stands in the picture of the tank."""

    EXAMPLE: ClassVar[str] = '{at: water, say: "{water_depth} of water, {water_volume}"}'

    at: Literal[
        "length", "width", "height", "rim", "water_line", "water", "bed", "platform", "ramp",
        "basking_animal", "swimming_animal", "heat_lamp", "uvb_lamp", "cover_basking",
        "cover_water", "heater", "intake",
    ]  # fmt: skip
    """The thing, line or measure that it is a fact about; what is found of it is marked there."""
    say: Annotated[str, Names("quantity", inside=True)] = ""
    """A note with names in braces, left out where one is not known; "" for no note."""


class Entry(Row, frozen=True):
    """What is known of one name, whoever asks, computes or shows it."""

    EXAMPLE: ClassVar[str] = "{unit: m, range: 0.02 to 3, meaning: lamp face to platform surface}"

    unit: str
    """The core's unit."""
    range: str = ""
    """The physical range, as “0.02 to 3”: no tank has less or more; "" where nothing is told."""
    meaning: str = ""
    """As a data sheet says it; empty where the function of that name says it."""
    label: str = ""
    """What a keeper reads for a name that no question has; else the name, unwound."""
    each_animal: bool = False
    """Whether it holds a value for each animal."""
    whole: bool = False
    """Whether it counts things."""
    signed: bool = False
    """Whether it may be below nothing though its unit and range don't say so."""
    typed: str = ""
    """What to type for it where the usual example of its unit says little."""
    shown: Showing | None = None
    endless: Endless | None = None
    words: tuple[Word, ...] = ()
    named: tuple[str, ...] = ()
    """Words for its numbers, from 0 on."""
    figures: Figures | None = None
    picture: InPicture | None = None
    rides: Literal["platform"] | None = None
    """What moves it along: a lamp's distance changes with the platform under it."""
    kept_from: Annotated[str, Names("quantity")] | None = None
    """The reading it was worked out from: it stays true when the tank is changed."""
    void_after: tuple[Annotated[str, Names("quantity")], ...] = ()
    """For a reading: the answers whose change makes another lamp, of which it says nothing."""
    read_with: Annotated[str, Names("quantity")] | None = None
    """The reading it was noted down with: by itself nobody can change it afterwards."""

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
