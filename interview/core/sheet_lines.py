"""What single lines of a formula's data sheet say: an input with its range, and a source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.core.errors import OutOfRange
from interview.core.numeric import is_number

__all__ = ["Citation", "Input"]


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
        if isinstance(value, float) and self.low <= value <= self.high:
            return None  # most are, and an array of one takes ten times as long
        each = np.atleast_1d(value)
        bad = (each < self.low) | (each > self.high)
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
