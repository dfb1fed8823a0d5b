"""What lags behind the lamp: the platform's surface and the shell of an animal on it.

The steady temperatures come from the laws of the basking spot, room by room; here they are
approached with time constants of their own.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

__all__ = ["SteadyByRoom", "approached"]

Floats: TypeAlias = NDArray[np.float64]
_LOOKS = 9


@dataclass(frozen=True)
class SteadyByRoom:
    """A steady temperature as a table by room temperature; tanks on the last axis."""

    _rooms: Floats
    _values: Floats

    @classmethod
    def of(
        cls, steady: Callable[[Floats], Floats], rooms: tuple[float, float], tanks: int
    ) -> SteadyByRoom:
        """Look at a law in nine rooms between the coldest and the warmest.

        Args:
            steady: the law, of the room temperature
            rooms: coldest and warmest [degC]
            tanks: how many there are
        """
        nodes = np.linspace(rooms[0], max(rooms[1], rooms[0] + 1.0), _LOOKS)
        values = [np.broadcast_to(steady(np.full(tanks, room)), tanks) for room in nodes]
        return cls(nodes, np.stack(values))

    def __call__(self, room: Floats) -> Floats:
        """The steady temperature in these rooms [degC]."""
        place = (room - self._rooms[0]) / (self._rooms[1] - self._rooms[0])
        whole = np.clip(place, 0, _LOOKS - 2).astype(np.intp)
        tanks = np.broadcast_to(np.arange(self._values.shape[1]), whole.shape)
        low, high = self._values[whole, tanks], self._values[whole + 1, tanks]
        found: Floats = low + (place - whole) * (high - low)
        return found


def approached(
    start: Floats, towards: Floats, warming: Floats, cooling: Floats, step: float
) -> Floats:
    """A temperature step by step as it follows another with a lag; the start comes first.

    Args:
        start [degC]: at first
        towards [degC]: what it tends to, steps on the first axis
        warming [s]: time constant where that is warmer
        cooling [s]: time constant where that is cooler
        step [s]: of time
    """
    kept_warming, kept_cooling = np.exp(-step / warming), np.exp(-step / cooling)
    here = start
    found = [here]
    for steady in towards:
        kept = np.where(steady > here, kept_warming, kept_cooling)
        here = steady + (here - steady) * kept
        found.append(here)
    return np.stack(found)
