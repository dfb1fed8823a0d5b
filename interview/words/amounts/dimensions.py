"""What the grammar knows of each dimension: its name in a sentence, examples, usual sizes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

from interview.base.units import CORE_UNITS
from interview.words.lexicon.files import units

__all__ = ["Dimension", "dimensions", "example_for"]


@dataclass(frozen=True)
class Dimension:
    """One kind of quantity, as far as words about it go."""

    name: str
    noun: str
    """With its article: "a length"."""
    example: str
    example_us: str
    usual: tuple[float, float]
    """What a keeper can mean, in the core's unit: decides only what a mark in 1,000 is."""
    bare: tuple[float, float] | None = None
    """Numbers that need no unit here, because only one reading makes sense."""
    signed: bool = False
    hedge: float = 0.10
    """Half the width of "about", as a share of the value."""
    hedge_fixed: float = 0.0
    """The same in the core's unit, where the zero of the scale means nothing."""
    none_is_zero: bool = False
    """The words "none" and "nothing" mean 0."""

    @property
    def core_unit(self) -> str:
        """The unit of its readings."""
        return CORE_UNITS[self.name]


def _pair(row: Mapping[str, Any], key: str) -> tuple[float, float] | None:
    return (float(row[key][0]), float(row[key][1])) if key in row else None


@cache
def dimensions() -> Mapping[str, Dimension]:
    """Every dimension by its name."""
    return {name: _dimension(name, row) for name, row in units()["dimensions"].items()}


def _dimension(name: str, row: Mapping[str, Any]) -> Dimension:
    usual = _pair(row, "usual")
    assert usual is not None
    return Dimension(
        name,
        row["noun"],
        row["example"],
        row.get("example_us", row["example"]),
        usual,
        _pair(row, "bare"),
        "signed" in row,
        float(row.get("hedge", 0.1)),
        float(row.get("hedge_fixed", 0.0)),
        "none_is_zero" in row,
    )


def example_for(dimension: Dimension, region: str) -> str:
    """An answer of this dimension as the region would type it, in quotation marks."""
    shown = dimension.example_us if region == "north_america" else dimension.example
    return f'"{shown}"'
