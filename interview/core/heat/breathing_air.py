"""The coldest night with lamps off: the water, and the air that the animals breathe over it."""

from __future__ import annotations

import numpy as np

from interview.core.errors import NotApplicable
from interview.core.heat.daily import DayOfWater, water_of_day
from interview.core.heat.losses import SHEETS, TankLoss
from interview.core.numeric import Num, floats

__all__ = [
    "breathing_air",
    "breathing_air_drop",
    "heated_water_coldest",
    "night_water_temperature",
    "unheated_water_coldest",
]
QUANTITIES = __all__
DEAR = ("heated_water_coldest", "unheated_water_coldest")


def unheated_water_coldest(
    heater_mount: str,
    room_temperature_low: Num,
    room_humidity: Num,
    inside_length: Num,
    inside_width: Num,
    water_level: Num,
    wall_resistance: Num,
    floor_conductance: Num,
    cover_water: str,
    open_top_share: Num,
    evaporation_factor: Num = 1.0,
    room_daily_swing: Num = 0.0,
    heat_capacity: Num | None = None,
    stray_heat: Num = 0.0,
    lamp_heat_while_lit: Num = 0.0,
    day_length: Num = 0.0,
) -> Num:
    """Coldest water of a tank without a heater on the room's coldest day [degC].

    Such days come one after another: the water has come into their round. In a room that doesn't
    swing it is the temperature at which the water settles.

    Args:
        heater_mount: refused where there is a heater
        room_temperature_low [degC, -5 to 45]
        heat_capacity [J/K]: with which the water follows the day; at once where it is not known

    Formula: the mean at which the heat loss in room_temperature_low + room_daily_swing equals
    stray_heat, less what the water swings by, as in hot_room_water

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
    Source: shah_2002, floor in still air [published]
    """
    if heater_mount != "none":
        raise NotApplicable("a heater warms the water")
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
    room = floats(room_temperature_low) + room_daily_swing
    day = DayOfWater(room, room_daily_swing, stray_heat, lamp_heat_while_lit, day_length)
    water = water_of_day(tank, day, heat_capacity)
    return water.mean - water.swing


def heated_water_coldest(
    installed_heater_power: Num,
    target_water_temperature: Num,
    room_temperature_low: Num,
    room_humidity: Num,
    inside_length: Num,
    inside_width: Num,
    water_level: Num,
    wall_resistance: Num,
    floor_conductance: Num,
    cover_water: str,
    open_top_share: Num,
    evaporation_factor: Num = 1.0,
    room_daily_swing: Num = 0.0,
    heat_capacity: Num | None = None,
    stray_heat: Num = 0.0,
    lamp_heat_while_lit: Num = 0.0,
    day_length: Num = 0.0,
) -> Num:
    """Coldest water of the room's coldest day with all heaters doing what they can [degC].

    Args:
        room_temperature_low [degC, -5 to 45]
        heat_capacity [J/K]: with which the water follows the day; at once where it is not known

    Formula: the smaller of target_water_temperature and the mean at which the heat loss in
    room_temperature_low + room_daily_swing equals installed_heater_power + stray_heat, less what
    the water swings by, as in hot_room_water

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
    Source: shah_2002, floor in still air [published]
    """
    if not np.any(installed_heater_power):
        raise NotApplicable("there is no heater")
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
    room = floats(room_temperature_low) + room_daily_swing
    heat = floats(installed_heater_power) + stray_heat
    day = DayOfWater(room, room_daily_swing, heat, lamp_heat_while_lit, day_length)
    water = water_of_day(tank, day, heat_capacity)
    return np.minimum(water.mean - water.swing, target_water_temperature)


def night_water_temperature(
    target_water_temperature: Num, unheated_water_coldest: Num | None = None
) -> Num:
    """Temperature of the water on the coldest night [degC].

    Formula: target_water_temperature, which a heater holds; without one the smaller of it and
    unheated_water_coldest

    Source: modelling_choice, a heater that is there is strong enough [assumption]
    """
    if unheated_water_coldest is None:
        return target_water_temperature
    return np.minimum(target_water_temperature, unheated_water_coldest)


def breathing_air(
    night_water_temperature: Num,
    room_temperature_low: Num,
    air_warmth_share: Num,
    cover_water: str,
) -> Num:
    """Temperature of the air over the water in the coldest room, lamps off [degC].

    Args:
        cover_water: glass or plastic keeps twice the share of the warmth in

    Formula: room_temperature_low + share · (night_water_temperature − room_temperature_low), where
    share = air_warmth_share, twice that under a lid of glass or plastic

    Source: physics, balance of the air between water and room [computed]
    Source: modelling_choice, the share, doubted widely [assumption]
    """
    lid = 2.0 if cover_water in SHEETS else 1.0
    share = np.minimum(lid * floats(air_warmth_share), 1.0)
    return room_temperature_low + share * (night_water_temperature - room_temperature_low)


def breathing_air_drop(night_water_temperature: Num, breathing_air: Num) -> Num:
    """How much colder than the water the air over it is on the coldest night [K, from 0].

    Formula: night_water_temperature − breathing_air, 0 where the air is warmer

    Source: physics, a difference [computed]
    """
    return np.maximum(floats(night_water_temperature) - breathing_air, 0.0)
