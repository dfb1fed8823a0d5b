"""Readings and assumptions as samples of what they may be, quasi-random and repeatable."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Protocol

import numpy as np
from numpy.typing import NDArray

from interview.audit.sampling.normal import normal_quantile
from interview.audit.sampling.sobol import directions, sobol_points
from interview.audit.sampling.sobol_dimensions import dimensions_of, order_of_names
from interview.care.facts import Doubt, Fact

__all__ = [
    "BELOW_NOTHING",
    "COUNT",
    "ReadingLike",
    "Spread",
    "best_values",
    "samples",
    "scores_of",
    "spread_of",
    "spreads",
    "warm_scores",
]

COUNT = 2048
_SEED = 20
_NINETY_FIVE = 1.645
BELOW_NOTHING = ("degC", "deg")
"""Units in which a number may be negative where nothing says how far down it holds."""
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

    @property
    def instrument(self) -> str:
        """With what it was measured, "" where nobody said."""


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

    @property
    def width(self) -> float:
        """One sigma as a share of the value, at most one for a value near nothing."""
        sigma = max(self.below, self.above, abs(self.best) * (self.factor - 1))
        return sigma / max(abs(self.best), sigma) if sigma else 0.0

    def at(self, score: _Floats) -> _Floats:
        """Values at the given scores of the normal distribution; zero is the best value."""
        if self.factor != 1:
            drawn = self.best * self.factor**score
        else:
            drawn = self.best + score * np.where(score < 0, self.below, self.above)
        inside: _Floats = np.clip(drawn, self.low, self.high)
        return inside


def spread_of(
    reading: ReadingLike, doubt: Fact | None, unit: str, *, guessed: bool = False
) -> Spread:
    """How far off a reading may be: what the words leave open and what measuring it does.

    A hedge ("about", "6–7 in") comes on top of the instrument's doubt, as independent errors
    add. A guess with a width of its own (`guessed`) was not measured: it keeps that width.
    Where the words name the instrument, its own doubt counts.
    """
    if isinstance(doubt, Doubt):
        doubt = doubt.by(reading.instrument)
    low, high = _bounds(unit, doubt)
    below = max(reading.best - reading.low, 0.0) / _NINETY_FIVE
    above = max(reading.high - reading.best, 0.0) / _NINETY_FIVE
    hedged = below > 0 or above > 0
    if doubt is None or (guessed and hedged):
        return Spread(reading.best, below, above, 1.0, low, high)
    sigma = doubt.spread + doubt.relative * abs(reading.best)
    if not hedged:
        return Spread(reading.best, sigma, sigma, doubt.factor, low, high)
    if doubt.factor > 1:
        share = max(below, above) / reading.best if reading.best > 0 else 0.0
        factor = float(np.exp(np.hypot(np.log(doubt.factor), share)))
        return Spread(reading.best, 0.0, 0.0, factor, low, high)
    below, above = float(np.hypot(below, sigma)), float(np.hypot(above, sigma))
    return Spread(reading.best, below, above, 1.0, low, high)


def _bounds(unit: str, doubt: Fact | None) -> tuple[float, float]:
    low = -np.inf if unit in BELOW_NOTHING else 0.0
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


def spreads(
    given: Mapping[str, Any], assumed: Mapping[str, Fact], doubts: Mapping[str, Fact]
) -> Iterator[tuple[str, Any]]:
    """Each name's value: a Spread, a tuple of Spread or None for animals, or a plain word."""
    for name, fact in assumed.items():
        if name not in given:
            yield name, _of_fact(fact)
    for name, item in given.items():
        doubt, guessed = doubts.get(name) or doubts.get(item.question), item.how == "assumed"
        if _is_row(item.value):
            rows = (v and spread_of(v, doubt, item.unit, guessed=guessed) for v in item.value)
            yield name, tuple(rows)
        elif hasattr(item.value, "best"):
            yield name, spread_of(item.value, doubt, item.unit, guessed=guessed)
        else:
            yield name, item.value


def _is_row(value: Any) -> bool:
    return isinstance(value, tuple) and any(hasattr(v, "best") for v in value)


def best_values(given: Mapping[str, Any], assumed: Mapping[str, Fact]) -> dict[str, Any]:
    """Every known name at its best value; animals as arrays, gaps as NaN."""
    values: dict[str, Any] = {}
    for name, value in spreads(given, assumed, {}):
        if isinstance(value, Spread):
            values[name] = value.best
        elif isinstance(value, tuple) and any(isinstance(v, Spread) for v in value):
            values[name] = np.array([v.best if v else np.nan for v in value])
        else:
            values[name] = value
    return values


def samples(
    given: Mapping[str, Any],
    assumed: Mapping[str, Fact],
    doubts: Mapping[str, Fact],
    range_of: Callable[[str], tuple[float, float]],
    count: int = COUNT,
) -> dict[str, Any]:
    """Every known name as `count` draws (animals on the last axis); words as they are.

    Draws stay inside the name's own range, however narrow that of a formula is.
    """
    table = dict(spreads(given, assumed, doubts))
    unsure = [
        (name, animal)
        for name, value in table.items()
        for animal, spread in enumerate(_each(value))
        if spread and not spread.sure
    ]
    dimensions = dimensions_of(unsure, len(directions()))

    def draw(spread: Spread, name: str, animal: int) -> Any:
        if spread.sure:
            return spread.best
        return _draws_of(spread, dimensions[name, animal], count, range_of(name))

    drawn: dict[str, Any] = {}
    for name, value in sorted(table.items()):
        if isinstance(value, Spread):
            drawn[name] = draw(value, name, 0)
        elif isinstance(value, tuple) and any(isinstance(v, Spread) for v in value):
            columns = (draw(v, name, n) if v else np.nan for n, v in enumerate(value))
            drawn[name] = np.stack([np.broadcast_to(c, count) for c in columns], axis=-1)
        else:
            drawn[name] = value
    return drawn


@lru_cache(maxsize=256)
def _draws_of(spread: Spread, dimension: int, count: int, span: tuple[float, float]) -> _Floats:
    """The draws of one number: of one tank after another most are the same."""
    drawn: _Floats = np.clip(spread.at(scores_of(dimension, count)), *span)
    drawn.flags.writeable = False
    return drawn


def _each(value: Any) -> Sequence[Spread | None]:
    """The number, or those of the animals, with a gap for an animal that has none."""
    row = value if isinstance(value, tuple) else (value,)
    return [one if isinstance(one, Spread) else None for one in row]


def warm_scores() -> None:
    """Draw the scores of every name that has its own, so that none waits for them."""
    for dimension in range(len(order_of_names().names)):
        scores_of(dimension, COUNT)


@lru_cache(maxsize=512)
def scores_of(dimension: int, count: int) -> _Floats:
    """Scores of the normal distribution, drawn by one dimension: the same for every tank."""
    points = sobol_points(len(directions()), count, _SEED, (dimension,))[:, 0]
    scores = normal_quantile(np.clip(points, 1e-9, 1 - 1e-9))
    scores.flags.writeable = False
    return scores
