"""What the heaters give through the year, which the month's energy rests on."""

from __future__ import annotations

import numpy as np

from interview.core.heat.losses import TankLoss
from interview.core.numeric import Num, floats

__all__ = ["mean_heater_power"]
QUANTITIES = __all__
DEAR = ("mean_heater_power",)

_SEASONS = np.cos(np.pi * (np.arange(4) + 0.5) / 4)  # Gauss–Chebyshev nodes of a year


def mean_heater_power(
    installed_heater_power: Num,
    heater_setting: Num,
    stray_heat: Num,
    room_temperature_low: Num,
    room_temperature_high: Num,
    room_yearly_swing: Num,
    room_humidity: Num,
    inside_length: Num,
    inside_width: Num,
    water_level: Num,
    wall_resistance: Num,
    floor_conductance: Num,
    cover_water: str,
    open_top_share: Num,
    evaporation_factor: Num = 1.0,
    heat_capacity: Num | None = None,
    water_change_dip: Num | None = None,
    water_change_interval: Num | None = None,
) -> Num:
    """What the heaters give as a mean of the year, pump and lamps helping [W, from 0].

    Args:
        heat_capacity [J/K]: with which new water is warmed; nothing is where it is not known
        room_temperature_low [degC, -5 to 45]
        room_temperature_high [degC, -5 to 50]

    Formula: the mean over the seasons of heat loss at heater_setting + heat_capacity ·
    water_change_dip / water_change_interval − stray_heat, never below 0 nor above
    installed_heater_power; in rooms from mean − room_yearly_swing to mean + room_yearly_swing

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
    Source: physics, balance of each season's day [computed]
    """
    tank = TankLoss(
        room_humidity,
        inside_length,
        inside_width,
        water_level,
        wall_resistance,
        floor_conductance,
        cover_water,
        open_top_share,
        evaporation_factor,
    )
    middle = 0.5 * (floats(room_temperature_low) + room_temperature_high)
    rooms = (middle + room_yearly_swing * season for season in _SEASONS)
    renewed: Num = 0.0
    if (
        heat_capacity is not None
        and water_change_dip is not None
        and water_change_interval is not None
    ):
        renewed = heat_capacity * np.maximum(water_change_dip, 0.0) / water_change_interval
    lacking = (tank(heater_setting, room) + renewed - stray_heat for room in rooms)
    given = [np.minimum(np.maximum(heat, 0.0), installed_heater_power) for heat in lacking]
    return np.asarray(sum(given) / len(given))
