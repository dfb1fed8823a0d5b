"""The tank in the room's warmest hours: how warm the water gets with nothing to cool it."""

from __future__ import annotations

import numpy as np

from interview.care.species import own_or_usual
from interview.core.animal.per_animal import facts
from interview.core.heat.losses import TankLoss
from interview.core.heat.passages import settling_temperature
from interview.core.numeric import Num, Words

__all__ = ["hot_room_water", "hot_water_watch", "stray_heat"]
QUANTITIES = __all__

_DAY = 86400.0  # s
_BOILING = 100.0  # degC; the equilibrium is not followed past it


def stray_heat(
    filter_kind: str,
    pump_heat_share: Num,
    usual_pump_power: Num,
    lamp_heat_to_water: Num,
    day_length: Num,
    heat_lamp_kind: str = "none",
    heat_lamp_power: Num | None = None,
    pump_power: Num | None = None,
    light_power: Num | None = None,
) -> Num:
    """Heat that pump and lamps give the water, as a mean over the day [W].

    Formula: pump_heat_share · pump_power + lamp_heat_to_water · (heat_lamp_power + light_power) ·
    day_length / 24 h, with usual_pump_power where a filter runs and nobody read its plate

    Source: physics, power turned into heat [computed]
    Source: modelling_choice, the shares that reach the water [assumption]
    """
    no_filter = filter_kind == "none" and pump_power is None
    pump = 0.0 if no_filter else usual_pump_power if pump_power is None else pump_power
    heat_lamp = 0.0 if heat_lamp_kind == "none" or heat_lamp_power is None else heat_lamp_power
    lamps = heat_lamp + (0.0 if light_power is None else light_power)
    return pump_heat_share * pump + lamp_heat_to_water * lamps * day_length / _DAY


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
) -> Num:
    """Water temperature in the warmest room with pump, lamps and heater running [degC].

    An open tank stays below the room, because it evaporates; under a lid pump and lamps add to it.

    Args:
        room_temperature_high [degC, -5 to 50]

    Formula: the larger of target_water_temperature and the water temperature at which the heat loss
    in room_temperature_high equals stray_heat

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
    coldest = room_temperature_high - 15.0
    settled = settling_temperature(tank, room_temperature_high, stray_heat, coldest, _BOILING)
    return np.maximum(settled, target_water_temperature)


def hot_water_watch(species: Words) -> float:
    """Water temperature from which at least one of the animals is to be watched [degC].

    Args:
        species [choice]: id of each animal's species

    Formula: smallest of the species' limits

    Species source: modelling_choice, 29 degC, kinds of cool waters 28 [assumption]
    """
    return float(np.min(facts(species, lambda item: own_or_usual(item, "water_too_warm").low)))
