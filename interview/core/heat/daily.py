"""How far the water follows a day: the room's swing and the lamps' hours, damped by what it stores.

The loss is a straight line about the day's mean, and the lamps' square wave is taken by its first
harmonic; so a day that comes again and again has a closed form. `tests/core/time/test_days.py`
holds it against the run through time.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from interview.core.heat.losses import TankLoss
from interview.core.heat.passages import settling_temperature
from interview.core.numeric import Num

__all__ = ["NOON_OF_LAMPS", "WARMEST_HOUR", "DayOfWater", "WaterOfDay", "water_of_day"]

_DAY = 86400.0  # s
_TURN = 2.0 * np.pi / _DAY  # rad/s
WARMEST_HOUR = 17.0 * 3600.0  # s since midnight, of the room; our own choice
NOON_OF_LAMPS = 13.0 * 3600.0  # s since midnight; lamps burn as long before as after it
_BELOW, _BOILING = 15.0, 100.0  # K under the room, and degC: between them the mean is sought
_APART = 0.5  # K, over which the slope of the loss is taken


@dataclass(frozen=True)
class DayOfWater:
    """What the water meets within a day."""

    room: Num
    """The room's mean of the day [degC]."""
    swing: Num
    """Of the room to either side of that [K]."""
    heat: Num
    """Of heater, pump and lamps as a mean of the day [W]."""
    lit: Num = 0.0
    """What the lamps give while they burn [W]."""
    day_length: Num = 0.0
    """How long they burn [s]."""


@dataclass(frozen=True)
class WaterOfDay:
    """The water's mean of the day [degC], and how far it goes to either side of that [K]."""

    mean: Num
    swing: Num


def water_of_day(loss: TankLoss, day: DayOfWater, stores: Num | None) -> WaterOfDay:
    """The water of a day that comes again and again, nothing switching.

    Its mean is sought from 15 K below the room to boiling.

    Args:
        loss: the heat loss
        day: what the water meets
        stores [J/K]: heat that warms all by one degree; without it the water follows at once
    """
    mean = settling_temperature(loss, day.room, day.heat, np.asarray(day.room) - _BELOW, _BOILING)
    warmer = (0.0, _APART, 0.0), (0.0, 0.0, _APART)
    alike = np.broadcast_arrays(mean, day.room)
    water, room = (np.stack([at + by for by in b]) for at, b in zip(alike, warmer, strict=True))
    held, warm_water, warm_room = np.asarray(loss(water, room))
    by_water, by_room = (warm_water - held) / _APART, (held - warm_room) / _APART
    lamps = np.asarray(day.lit) * (2.0 / np.pi) * np.sin(0.5 * _TURN * np.asarray(day.day_length))
    driven = by_room * day.swing * _turned(WARMEST_HOUR) + lamps * _turned(NOON_OF_LAMPS)
    slow = 0.0 if stores is None else _TURN * np.asarray(stores)
    swing = np.abs(driven) / np.abs(by_water + 1j * slow)
    return WaterOfDay(mean, swing)


def _turned(time: float) -> complex:
    return complex(np.exp(-1j * _TURN * time))
