"""What words say about one quantity: a span while they are read, then a reading."""

from __future__ import annotations

import math
from dataclasses import dataclass

__all__ = ["Measured", "Reading", "Spread"]


@dataclass(frozen=True, slots=True)
class Spread:
    """Low, best and high in the core's unit."""

    low: float
    best: float
    high: float


@dataclass(frozen=True, slots=True)
class Measured:
    """A span in the core's unit, the keeper's unit, and what had to be guessed."""

    span: Spread
    unit: str
    guesses: tuple[str, ...] = ()

    @classmethod
    def exactly(cls, value: float, unit: str, guesses: tuple[str, ...] = ()) -> Measured:
        """One value without doubt."""
        return cls(Spread(value, value, value), unit, guesses)


@dataclass(frozen=True)
class Reading:
    """A value with its doubt, in the core's unit.

    `low` and `high` are the 5 % and 95 % points of what the words alone leave open;
    they equal `best` when the words left nothing open. How far the instrument can be
    off is added elsewhere.
    """

    low: float
    best: float
    high: float
    said: str
    unit: str
    """The unit the keeper used."""
    understood: str = ""
    """A sentence to say back, only when something was guessed."""
    instrument: str = ""
    """With what it was measured, where the words say so."""

    def __post_init__(self) -> None:
        if not (math.isfinite(self.low) and math.isfinite(self.high)):
            raise ValueError("a reading is finite")
        if not self.low <= self.best <= self.high:
            raise ValueError("a reading has low <= best <= high")
