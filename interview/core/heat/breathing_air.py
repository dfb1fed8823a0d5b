"""The air that the animals breathe over the water, on the coldest night with lamps off."""

from __future__ import annotations

import numpy as np

from interview.core.heat.losses import SHEETS
from interview.core.numeric import Num

__all__ = ["breathing_air", "breathing_air_drop"]
QUANTITIES = __all__


def breathing_air(
    target_water_temperature: Num,
    room_temperature_low: Num,
    air_warmth_share: Num,
    cover_water: str,
) -> Num:
    """Temperature of the air over water as warm as wanted, in the coldest room, lamps off [degC].

    Args:
        cover_water: glass or plastic keeps twice the share of the warmth in

    Formula: room_temperature_low + share · (target_water_temperature − room_temperature_low), where
    share = air_warmth_share, twice that under a lid of glass or plastic

    Source: physics, balance of the air between water and room [computed]
    Source: modelling_choice, the share, doubted widely [assumption]
    """
    lid = 2.0 if cover_water in SHEETS else 1.0
    share = np.minimum(lid * np.asarray(air_warmth_share, dtype=float), 1.0)
    return room_temperature_low + share * (target_water_temperature - room_temperature_low)


def breathing_air_drop(target_water_temperature: Num, breathing_air: Num) -> Num:
    """How much colder than the wanted water the air over it is on the coldest night [K, from 0].

    Formula: target_water_temperature − breathing_air, 0 where the air is warmer

    Source: physics, a difference [computed]
    """
    return np.maximum(np.asarray(target_water_temperature, dtype=float) - breathing_air, 0.0)
