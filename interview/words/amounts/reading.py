"""A reading: what a keeper's words say about one quantity, with the doubt they carry."""

from __future__ import annotations

import math
from dataclasses import dataclass

__all__ = ["Reading"]


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
