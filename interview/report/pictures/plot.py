"""What a chart is made of; its numbers stand in the keeper's units."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from interview.base.show import magnitude
from interview.vocabulary.showing import shown_as

__all__ = ["Area", "Axis", "Limit", "Plot", "Series", "Spot", "in_keepers_units"]


@dataclass(frozen=True)
class Axis:
    """One direction: what it shows, its unit's label, and from where to where."""

    name: str
    label: str
    low: float
    high: float

    @property
    def titled(self) -> str:
        """Name and unit, as “lamp over the platform [cm]”."""
        return f"{self.name} [{self.label}]" if self.label else self.name

    def ticks(self, about: int = 5) -> tuple[float, ...]:
        """Round numbers along it, about so many."""
        step = _round_step((self.high - self.low) / max(about, 1))
        first = math.ceil(self.low / step - 1e-9)
        last = math.floor(self.high / step + 1e-9)
        return tuple(round(n * step, 9) for n in range(first, last + 1))


def _round_step(about: float) -> float:
    """1, 2 or 5 times a power of ten, the nearest above."""
    power = 10.0 ** math.floor(math.log10(about))
    return next(n * power for n in (1.0, 2.0, 5.0, 10.0) if n * power >= about * (1 - 1e-9))


@dataclass(frozen=True)
class Series:
    """A line through points, first or second of the chart."""

    name: str
    x: tuple[float, ...]
    y: tuple[float, ...]
    second: bool = False


@dataclass(frozen=True)
class Area:
    """What lies between two lines: where it is good (band), or where the truth may lie (doubt)."""

    name: str
    x: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]
    kind: Literal["band", "doubt"] = "band"


@dataclass(frozen=True)
class Limit:
    """A level that is not to be passed."""

    name: str
    y: float


@dataclass(frozen=True)
class Spot:
    """One point: how it is now, or how it is wished to be."""

    name: str
    x: float
    y: float
    wished: bool = False


@dataclass(frozen=True)
class Plot:
    """Axes and what is drawn between them."""

    x: Axis
    y: Axis
    series: tuple[Series, ...] = ()
    areas: tuple[Area, ...] = ()
    limits: tuple[Limit, ...] = ()
    spots: tuple[Spot, ...] = ()


def in_keepers_units(
    unit: str, system: str, name: str, values: Sequence[float]
) -> tuple[Callable[[float], float], str]:
    """How values of a name become numbers of one unit, that of the largest; and its label.

    Args:
        unit: the core's unit
        system: the keeper's system of units
        name: whose values they are
        values: some of them; infinite ones don't count
    """
    if unit == "degC":
        return (lambda value: magnitude(value, unit, system)[0]), magnitude(1.0, unit, system)[1]
    largest = max((abs(v) for v in values if math.isfinite(v) and v), default=1.0)
    amount, label = magnitude(largest, unit, system, shown_as(name, unit))
    return (lambda value: value * amount / largest), label
