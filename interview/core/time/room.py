"""How the room swings by day and by season, in a heat wave and without its heating."""

from __future__ import annotations

import numpy as np

from interview.core.numeric import Num, floats

__all__ = ["heat_wave_room", "room_after_power_cut", "room_daily_swing", "room_yearly_swing"]
QUANTITIES = __all__

_DAY = 86400.0  # s


def room_daily_swing(
    room_temperature_low: Num,
    room_temperature_high: Num,
    room_daily_share: Num,
    room_swing: Num | None = None,
) -> Num:
    """How far the room goes above and below its mean of the day [K, from 0].

    Formula: half of room_swing where it is told, else room_daily_share · half of
    (room_temperature_high − room_temperature_low); never more than that half, never below 0

    Source: modelling_choice, coldest night in winter, warmest hour in summer [assumption]
    """
    half = _half_range(room_temperature_low, room_temperature_high)
    if room_swing is None:
        return room_daily_share * half
    return np.minimum(0.5 * floats(room_swing), half)


def room_yearly_swing(
    room_temperature_low: Num, room_temperature_high: Num, room_daily_swing: Num
) -> Num:
    """How far the room's mean of the day goes above and below that of the year [K, from 0].

    Formula: half of (room_temperature_high − room_temperature_low), less room_daily_swing

    Source: modelling_choice, coldest night in winter, warmest hour in summer [assumption]
    """
    half = _half_range(room_temperature_low, room_temperature_high)
    return np.maximum(half - floats(room_daily_swing), 0.0)


def heat_wave_room(room_temperature_high: Num, heat_wave_rise: Num) -> Num:
    """Room temperature in the afternoons of a heat wave [degC].

    Source: modelling_choice, so much over the warmest usual day [assumption]
    """
    return floats(room_temperature_high) + heat_wave_rise


def room_after_power_cut(
    room_temperature_low: Num, outdoor_temperature_winter: Num, room_time_constant: Num
) -> Num:
    """Room temperature after a day without heating, from the coldest usual night on [degC].

    Formula: outdoor_temperature_winter + (room_temperature_low − outdoor_temperature_winter) ·
    exp(−24 h / room_time_constant)

    Source: physics, lumped cooling, exponential towards outdoors [published]
    """
    inside = floats(room_temperature_low) - outdoor_temperature_winter
    return np.asarray(outdoor_temperature_winter + inside * np.exp(-_DAY / room_time_constant))


def _half_range(low: Num, high: Num) -> Num:
    return np.asarray(0.5 * np.maximum(floats(high) - low, 0.0))
