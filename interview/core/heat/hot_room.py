"""The tank in the room's warmest hours: how warm the water gets with nothing to cool it."""

from __future__ import annotations

import numpy as np

from interview.care.species import own_or_usual
from interview.core.animal.per_animal import facts
from interview.core.heat.daily import DayOfWater, water_of_day
from interview.core.heat.losses import TankLoss
from interview.core.numeric import Num, Words, floats

__all__ = [
    "hot_room_water",
    "hot_water_watch",
    "lamp_heat_while_lit",
    "pump_heat_to_water",
    "stray_heat",
]
QUANTITIES = __all__
DEAR = ("hot_room_water",)

_DAY = 86400.0  # s


def pump_heat_to_water(
    filter_kind: str, pump_heat_share: Num, usual_pump_power: Num, pump_power: Num | None = None
) -> Num:
    """Heat that the filter's pump gives the water; 0 without a filter [W].

    Formula: pump_heat_share · pump_power, with usual_pump_power where nobody read its plate

    Source: physics, power turned into heat [computed]
    Source: modelling_choice, the share that reaches the water [assumption]
    """
    if filter_kind == "none":
        return 0.0
    return pump_heat_share * (usual_pump_power if pump_power is None else pump_power)


def lamp_heat_while_lit(
    lamp_heat_to_water: Num,
    heat_lamp_kind: str = "none",
    heat_lamp_power: Num | None = None,
    light_power: Num | None = None,
) -> Num:
    """Heat that the lamps give the water while they burn [W].

    Formula: lamp_heat_to_water · (heat_lamp_power + light_power)

    Source: physics, power turned into heat [computed]
    Source: modelling_choice, the share that reaches the water [assumption]
    """
    heat_lamp = 0.0 if heat_lamp_kind == "none" or heat_lamp_power is None else heat_lamp_power
    return lamp_heat_to_water * (heat_lamp + (0.0 if light_power is None else light_power))


def stray_heat(pump_heat_to_water: Num, lamp_heat_while_lit: Num, day_length: Num) -> Num:
    """Heat that pump and lamps give the water, as a mean over the day [W].

    Formula: pump_heat_to_water + lamp_heat_while_lit · day_length / 24 h

    Source: physics, power turned into heat [computed]
    """
    return pump_heat_to_water + lamp_heat_while_lit * day_length / _DAY


def hot_room_water(
    stray_heat: Num,
    target_water_temperature: Num,
    room_temperature_high: Num,
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
    lamp_heat_while_lit: Num = 0.0,
    day_length: Num = 0.0,
) -> Num:
    """Warmest water of the room's warmest day with pump, lamps and heater running [degC].

    Such days come one after another: the water has come into their round. An open tank stays below
    the room, because it evaporates; under a lid pump and lamps add to it. In a room that doesn't
    swing it is the temperature at which the water settles.

    Args:
        room_temperature_high [degC, -5 to 50]
        heat_capacity [J/K]: with which the water follows the day; at once where it is not known

    Formula: the larger of target_water_temperature and the mean at which the heat loss in
    room_temperature_high − room_daily_swing equals stray_heat, plus what the water swings by:
    |loss by room · room_daily_swing + first harmonic of lamp_heat_while_lit| / |loss by water +
    i · 2π / day · heat_capacity|

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
    Source: shah_2002, floor in still air [published]
    Source: watertap_reflo, lid [published]
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
    room = floats(room_temperature_high) - room_daily_swing
    day = DayOfWater(room, room_daily_swing, stray_heat, lamp_heat_while_lit, day_length)
    water = water_of_day(tank, day, heat_capacity)
    return np.maximum(water.mean + water.swing, target_water_temperature)


def hot_water_watch(species: Words) -> float:
    """Water temperature from which at least one of the animals is to be watched [degC].

    Args:
        species [choice]: id of each animal's species

    Formula: smallest of the species' limits

    Species source: modelling_choice, 29 degC, kinds of cool waters 28 [assumption]
    """
    return float(np.min(facts(species, lambda item: own_or_usual(item, "water_too_warm").low)))
