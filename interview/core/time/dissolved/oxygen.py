"""Oxygen in the water: what crosses the surface and what the filter and droppings use."""

from __future__ import annotations

import numpy as np

from interview.core.constants import NITROGEN_MASS, OXYGEN_MASS
from interview.core.numeric import Num, floats, power
from interview.core.water.properties import oxygen_saturation

__all__ = [
    "OXYGEN_TO_NITRATE",
    "OXYGEN_TO_NITRITE",
    "oxygen_exchange",
    "oxygen_exchange_still",
    "oxygen_settled",
    "oxygen_uptake",
]
QUANTITIES = [name for name in __all__ if name.islower()]

OXYGEN_TO_NITRITE = 3.0 * OXYGEN_MASS / NITROGEN_MASS  # g of oxygen for each g of ammonia nitrogen
OXYGEN_TO_NITRATE = OXYGEN_MASS / NITROGEN_MASS  # g of oxygen for each g of nitrite nitrogen
_REFERENCE_SCHMIDT = 600.0


def oxygen_exchange(
    oxygen_transfer_moving: Num,
    inside_length: Num,
    inside_width: Num,
    water_volume: Num,
    filter_temperature: Num,
) -> Num:
    """Rate at which oxygen evens out between water and air, filter running [1/s].

    Args:
        filter_temperature [degC, 0 to 40]

    Formula: oxygen_transfer_moving · √(600 / Schmidt number of oxygen) · surface / water_volume

    Source: crusius_wanninkhof_2003, scaling by the Schmidt number, read second-hand [published]
    Source: recalled, Schmidt number of oxygen in fresh water [memory]
    """
    surface = inside_length * inside_width
    return _exchange(oxygen_transfer_moving, surface, water_volume, filter_temperature)


def oxygen_exchange_still(
    oxygen_transfer_still: Num,
    inside_length: Num,
    inside_width: Num,
    water_volume: Num,
    filter_temperature: Num,
) -> Num:
    """Rate at which oxygen evens out between water and air, nothing stirring the water [1/s].

    Args:
        filter_temperature [degC, 0 to 40]

    Formula: as oxygen_exchange, with oxygen_transfer_still

    Source: cole_caraco_1998, lakes without wind, read second-hand [published]
    Source: recalled, Schmidt number of oxygen in fresh water [memory]
    """
    surface = inside_length * inside_width
    return _exchange(oxygen_transfer_still, surface, water_volume, filter_temperature)


def oxygen_uptake(
    ammonia_supply: Num, feed_rate: Num, droppings_oxygen: Num, water_volume: Num
) -> Num:
    """Oxygen that nitrification and decay take out of each volume of water [mg/L/s].

    The turtles breathe air.

    Formula: ammonia_supply · 4.57 + droppings_oxygen · feed_rate / water_volume

    Source: physics, two oxygen molecules for each nitrogen oxidised [computed]
    Source: recalled, 0.25 to 0.5 g of oxygen for each g of feed [memory]
    """
    decay = droppings_oxygen * floats(feed_rate) * 1e3 / water_volume
    return np.asarray(ammonia_supply * (OXYGEN_TO_NITRITE + OXYGEN_TO_NITRATE) + decay)


def oxygen_settled(oxygen_uptake: Num, oxygen_exchange: Num, filter_temperature: Num) -> Num:
    """Oxygen at which the water settles with the filter running; at least 0 [mg/L].

    Args:
        filter_temperature [degC, 0 to 40]

    Formula: oxygen_saturation − oxygen_uptake / oxygen_exchange

    Source: benson_krause_1984, saturation [published]
    Source: physics, steady balance of exchange and uptake [computed]
    """
    settled = oxygen_saturation(filter_temperature) - oxygen_uptake / oxygen_exchange
    return np.maximum(settled, 0.0)


def _exchange(transfer: Num, surface: Num, volume: Num, temperature: Num) -> Num:
    t = floats(temperature)
    schmidt = 1800.6 - 120.10 * t + 3.7818 * t * t - 0.047608 * power(t, 3)
    return np.asarray(transfer * np.sqrt(_REFERENCE_SCHMIDT / schmidt) * surface / volume)
