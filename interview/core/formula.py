"""One formula of the core: its inputs with their ranges, its sources, and how it is computed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.core.errors import CannotWorkOut, Impossible, OutOfRange
from interview.core.numeric import is_number

__all__ = ["Citation", "Formula", "Input"]


@dataclass(frozen=True)
class Citation:
    """Where a formula comes from: bibliography key, place in it, status.

    `by_species` marks what stands for the facts of any species: a derivation that knows the
    species cites the source of its own.
    """

    key: str
    place: str
    status: str
    by_species: bool = False


@dataclass(frozen=True)
class Input:
    """One parameter of a formula, as its data sheet and the vocabulary describe it."""

    name: str
    unit: str
    meaning: str
    optional: bool = False
    low: float = -np.inf
    high: float = np.inf

    def outside(self, value: Any) -> Any:
        """Which elements lie outside the range in which the formula holds; None where none."""
        endless = self.low == -np.inf and self.high == np.inf
        if endless or not is_number(value):
            return None
        bad = (np.atleast_1d(value) < self.low) | (np.atleast_1d(value) > self.high)
        return bad if bad.any() else None

    def check(self, value: Any) -> None:
        """Raise OutOfRange if any element lies outside the range in which the formula holds."""
        bad = self.outside(value)
        if bad is not None:
            first = float(np.atleast_1d(value)[bad].flat[0])
            raise OutOfRange(self.name, first, self.low, self.high, self.unit)

    def held(self, draws: Any) -> Any:
        """Draws with the few beyond the range at its end; OutOfRange where it is not few.

        The middle draw stands for the best value: where that lies outside, nothing holds.
        """
        bad = self.outside(draws)
        if bad is None:
            return draws
        if np.ndim(draws) == 0 or (2 * bad.sum(axis=0) > len(bad)).any():
            self.check(draws)
        return np.clip(draws, self.low, self.high)


@dataclass(frozen=True)
class Formula:
    """A core function with its data sheet."""

    name: str
    unit: str
    meaning: str
    inputs: tuple[Input, ...]
    sources: tuple[Citation, ...]
    function: Callable[..., Any]
    low: float = -np.inf
    """What no result may be below; single draws of a cloud may."""
    written: str = ""
    """What the `Formula:` line of the data sheet says is solved."""
    dear: bool = False
    """Whether it solves or steps through something: a thousand times as long as a product."""

    def __call__(self, given: Mapping[str, Any], *, draws: bool = False) -> Any:
        """Check each given input against its range, compute, and refuse a result that can't be.

        Args:
            given: the inputs by name; one that is not known is left out
            draws: whether arrays are draws of doubt, of which a few may leave a formula's range:
                in this formula alone they count as at its end
        """
        taken = dict(given)
        for item in self.inputs:
            value = given.get(item.name)
            if value is None:
                continue
            if draws:
                taken[item.name] = item.held(value)
            else:
                item.check(value)
        try:
            result = self.function(**taken)
        except ZeroDivisionError as problem:
            nothing = [name for name, value in given.items() if is_number(value) and not value]
            raise CannotWorkOut(
                f"there is no {self.name} where {' or '.join(nothing)} is 0"
            ) from problem
        if is_number(result) and np.all(np.less(result, self.low)):
            raise Impossible(self.name, float(np.min(result)), self.low, self.unit)
        return result
