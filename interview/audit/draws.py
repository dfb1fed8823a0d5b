"""Readings and assumptions as clouds of what they may be, quasi-random and repeatable."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri
from scipy.stats import qmc

from interview.care.facts import Fact

__all__ = ["COUNT", "ReadingLike", "Spread", "best_values", "clouds", "spread_of"]

COUNT = 2048
_SEED = 20
_NINETY_FIVE = 1.645
_Floats = NDArray[np.float64]


class ReadingLike(Protocol):
    """A number with its 5 % and 95 % points."""

    @property
    def low(self) -> float:
        """5 % point."""

    @property
    def best(self) -> float:
        """Best value."""

    @property
    def high(self) -> float:
        """95 % point."""


@dataclass(frozen=True)
class Spread:
    """A number that may be more or less: one sigma on either side, or a log-normal factor."""

    best: float
    below: float = 0.0
    above: float = 0.0
    factor: float = 1.0
    low: float = -np.inf
    high: float = np.inf

    @property
    def sure(self) -> bool:
        """Whether there is nothing to draw."""
        return self.below == self.above == 0 and self.factor == 1

    def at(self, share: _Floats) -> _Floats:
        """Values at the given cumulative shares (0 to 1); the half is the best value."""
        score = ndtri(share)
        if self.factor != 1:
            drawn = self.best * self.factor**score
        else:
            drawn = self.best + score * np.where(score < 0, self.below, self.above)
        inside: _Floats = np.clip(drawn, self.low, self.high)
        return inside


def spread_of(reading: ReadingLike, doubt: Fact | None, unit: str) -> Spread:
    """How far off a reading may be.

    Words that hedge ("about", "6–7 in") give their own width; a plain reading gets the
    width of measuring it, from the care data.
    """
    low, high = _bounds(unit, doubt)
    if reading.low != reading.high:
        below = (reading.best - reading.low) / _NINETY_FIVE
        above = (reading.high - reading.best) / _NINETY_FIVE
        return Spread(reading.best, max(below, 0.0), max(above, 0.0), 1.0, low, high)
    if doubt is None:
        return Spread(reading.best)
    sigma = doubt.spread + doubt.relative * abs(reading.best)
    return Spread(reading.best, sigma, sigma, doubt.factor, low, high)


def _bounds(unit: str, doubt: Fact | None) -> tuple[float, float]:
    low = -np.inf if unit in ("degC", "deg") else 0.0
    high = 100.0 if unit == "%" else np.inf
    if doubt and doubt.low is not None:
        low = doubt.low
    if doubt and doubt.high is not None:
        high = doubt.high
    return low, high


def _of_fact(fact: Fact) -> Spread:
    value = fact.value or 0.0
    sigma = fact.spread + fact.relative * abs(value)
    low = -np.inf if fact.low is None else fact.low
    high = np.inf if fact.high is None else fact.high
    return Spread(value, sigma, sigma, fact.factor, low, high)


def _spreads(
    given: Mapping[str, Any], assumed: Mapping[str, Fact], doubts: Mapping[str, Fact]
) -> Iterator[tuple[str, Any]]:
    """Each name's value: a Spread, a tuple of Spread or None for animals, or a plain word."""
    for name, fact in assumed.items():
        if name not in given:
            yield name, _of_fact(fact)
    for name, item in given.items():
        doubt = doubts.get(name) or doubts.get(item.question)
        if _is_row(item.value):
            yield name, tuple(v and spread_of(v, doubt, item.unit) for v in item.value)
        elif hasattr(item.value, "best"):
            yield name, spread_of(item.value, doubt, item.unit)
        else:
            yield name, item.value


def _is_row(value: Any) -> bool:
    return isinstance(value, tuple) and any(hasattr(v, "best") for v in value)


def best_values(given: Mapping[str, Any], assumed: Mapping[str, Fact]) -> dict[str, Any]:
    """Every known name at its best value; animals as arrays, gaps as NaN."""
    values: dict[str, Any] = {}
    for name, value in _spreads(given, assumed, {}):
        if isinstance(value, Spread):
            values[name] = value.best
        elif isinstance(value, tuple) and any(isinstance(v, Spread) for v in value):
            values[name] = np.array([v.best if v else np.nan for v in value])
        else:
            values[name] = value
    return values


def clouds(
    given: Mapping[str, Any],
    assumed: Mapping[str, Fact],
    doubts: Mapping[str, Fact],
    range_of: Callable[[str], tuple[float, float]],
    count: int = COUNT,
) -> dict[str, Any]:
    """Every known name as `count` draws (animals on the last axis); words as they are.

    Draws stay inside the range in which the formulas that take the name hold.
    """
    table = dict(sorted(_spreads(given, assumed, doubts), key=lambda pair: pair[0]))
    unsure = [s for value in table.values() for s in _each(value) if not s.sure]
    shares = iter(_shares(len(unsure), count).T)

    def draw(spread: Spread, name: str) -> Any:
        return spread.best if spread.sure else np.clip(spread.at(next(shares)), *range_of(name))

    drawn: dict[str, Any] = {}
    for name, value in table.items():
        if isinstance(value, Spread):
            drawn[name] = draw(value, name)
        elif isinstance(value, tuple) and any(isinstance(v, Spread) for v in value):
            columns = [np.broadcast_to(draw(v, name) if v else np.nan, count) for v in value]
            drawn[name] = np.stack(columns, axis=-1)
        else:
            drawn[name] = value
    return drawn


def _each(value: Any) -> Iterator[Spread]:
    if isinstance(value, Spread):
        yield value
    elif isinstance(value, tuple):
        yield from (v for v in value if isinstance(v, Spread))


def _shares(dimensions: int, count: int) -> _Floats:
    """A scrambled Sobol cloud in the open unit cube, the same every time."""
    if not dimensions:
        return np.empty((count, 0))
    points: _Floats = qmc.Sobol(dimensions, scramble=True, rng=_SEED).random(count)
    return np.clip(points, 1e-9, 1 - 1e-9)
