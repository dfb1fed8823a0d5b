"""Heat a tank loses, stores and gives back to the room."""

from __future__ import annotations

import numpy as np

from interview.core.constants import WATER_SPECIFIC_HEAT
from interview.core.errors import Missing
from interview.core.heat.evaporation import evaporation_flux
from interview.core.heat.losses import SHEETS, TankLoss, board_conductance, mixed_temperature
from interview.core.heat.passages import settling_temperature, time_between
from interview.core.numeric import Num, first_known
from interview.core.water.properties import water_density

__all__ = [
    "cooling_time",
    "evaporation_rate",
    "floor_conductance",
    "heat_capacity",
    "heat_loss",
    "loss_coefficient",
    "mean_heat_loss",
    "open_top_share",
    "unheated_water_temperature",
    "wall_resistance",
    "water_change_dip",
]
QUANTITIES = __all__
DEAR = ("cooling_time", "loss_coefficient", "unheated_water_temperature")

_CONDUCTIVITY = {"glass": 1.0, "acrylic": 0.2}  # W/m/K; glass by convention, EN 572
_SPECIFIC_HEAT = {"glass": 840.0, "acrylic": 1470.0}  # J/kg/K
_SPECIFIC_HEAT_STONE = 800.0  # J/kg/K, quartz sand and gravel
_POWER_CUT_DROP = 3.0  # K, by the name's definition


def wall_resistance(
    tank_material: str,
    water_film_coefficient: Num,
    wall_thickness: Num | None = None,
    typical_wall_thickness: Num | None = None,
) -> Num:
    """Resistance to heat from the water to the outer face of a wall [m**2*K/W].

    Args:
        wall_thickness [m, 0.001 to 0.1]

    Formula: 1 / water_film_coefficient + pane thickness / conductivity

    Source: physics, resistances in series [published]
    Source: en_572, conductivity of glass 1.0 W/m/K [standard]
    Source: recalled, acrylic 0.2 W/m/K [memory]
    """
    thickness = typical_wall_thickness if wall_thickness is None else wall_thickness
    if thickness is None:
        raise Missing("tank_height")
    return 1.0 / water_film_coefficient + thickness / _CONDUCTIVITY[tank_material]


def floor_conductance(
    inside_length: Num, inside_width: Num, wall_resistance: Num, floor_loss_factor: Num = 1.0
) -> Num:
    """Heat through the floor of a tank on a stand, by degree [W/K].

    Args:
        wall_resistance: from the water to the outer face, taken for the floor pane too

    Source: recalled, 18 mm board and still air under it [memory]
    """
    area = inside_length * inside_width
    return floor_loss_factor * area * board_conductance(wall_resistance)


def open_top_share(cover_water: str, mesh_top_factor: Num, lid_leak_share: Num) -> Num:
    """Share of an open water surface's heat and vapour that passes the top [1].

    Source: modelling_choice, a mesh passes (1 + open fraction) / 2 of long waves [assumption]
    """
    if cover_water in SHEETS:
        return lid_leak_share
    return mesh_top_factor if cover_water == "mesh" else 1.0


def heat_loss(
    room_temperature_low: Num,
    target_water_temperature: Num,
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
    """Heat lost with the water at its target in the coldest room [W].

    What the heater has to make good. Below 0 the room warms the tank.

    Args:
        room_temperature_low [degC, -5 to 45]

    Formula: walls + floor + top of the tank, water at target_water_temperature, room at
    room_temperature_low: wall_flux · wetted walls + floor_conductance · difference +
    (open_surface_flux · open_top_share, or lid_flux) · surface

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
    Source: churchill_chu_1975, walls [published]
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
    return tank(target_water_temperature, room_temperature_low)


def mean_heat_loss(
    room_temperature_low: Num,
    room_temperature_high: Num,
    target_water_temperature: Num,
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
    """Heat lost with the water at its target in the mean room; never below 0 [W].

    What the heater makes good on average. Nothing in a room that warms the tank.

    Args:
        room_temperature_low [degC, -5 to 45]
        room_temperature_high [degC, -5 to 50]

    Formula: as heat_loss, with the room at 0.5 · (room_temperature_low + room_temperature_high)

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
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
    room = 0.5 * (room_temperature_low + room_temperature_high)
    return np.maximum(tank(target_water_temperature, room), 0.0)


def evaporation_rate(
    room_temperature_low: Num,
    room_temperature_high: Num,
    room_humidity: Num,
    inside_length: Num,
    inside_width: Num,
    open_top_share: Num,
    evaporation_factor: Num = 1.0,
    water_temperature: Num | None = None,
    target_water_temperature: Num | None = None,
) -> Num:
    """Water the tank loses to the air of the mean room; below 0 it condenses [kg/s].

    What evaporates under a lid and runs back is not lost. With the water as measured, or
    at its target.

    Args:
        room_temperature_low [degC, -5 to 45]
        room_temperature_high [degC, -5 to 50]
        water_temperature [degC, 0 to 60]

    Source: cengel_ghajar_2015, example 14-14 [published]
    Source: shah_2002, floor in still air, and the doubt of 18 % [published]
    """
    water = first_known("water_temperature", water_temperature, target_water_temperature)
    room = 0.5 * (room_temperature_low + room_temperature_high)
    flux = evaporation_flux(water, room, room_humidity, inside_length, inside_width)
    return open_top_share * evaporation_factor * inside_length * inside_width * flux


def loss_coefficient(
    room_temperature_low: Num,
    target_water_temperature: Num,
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
    """Heat lost more for each degree the water is warmer, about its target [W/K].

    The slope, not the loss over the temperature difference: an open tank evaporates at no
    difference at all.

    Args:
        room_temperature_low [degC, -5 to 45]

    Formula: heat loss at target_water_temperature + 0.5 less that at target_water_temperature −
    0.5

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
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
    warmer = tank(target_water_temperature + 0.5, room_temperature_low)
    return warmer - tank(target_water_temperature - 0.5, room_temperature_low)


def heat_capacity(
    water_volume: Num,
    tank_material: str,
    tank_mass: Num = 0.0,
    substrate_mass: Num = 0.0,
    water_temperature: Num | None = None,
    target_water_temperature: Num | None = None,
) -> Num:
    """Heat that warms water, tank and substrate by one degree [J/K].

    Args:
        water_temperature [degC, 0 to 60]

    Formula: water_volume · density · 4181 + tank_mass · its specific heat + substrate_mass ·
    800

    Source: iapws_95, specific heat of water 4181 J/kg/K [published]
    Source: recalled, glass 840, acrylic 1470, stone 800 J/kg/K [memory]
    """
    warmth = first_known("water_temperature", target_water_temperature, water_temperature)
    water = water_volume * water_density(warmth) * WATER_SPECIFIC_HEAT
    solids = _SPECIFIC_HEAT[tank_material] * tank_mass + _SPECIFIC_HEAT_STONE * substrate_mass
    return water + solids


def unheated_water_temperature(
    room_temperature_low: Num,
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
    """Temperature an unheated tank settles at in the mean room [degC].

    Evaporation holds it below the room: an open tank by about 1.5 K at 50 % humidity.

    Args:
        room_temperature_low [degC, -5 to 45]
        room_temperature_high [degC, -5 to 50]

    Formula: the water temperature at which the heat loss is 0, evaporation included

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
    Source: shah_2002, floor in still air [published]
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
    room = 0.5 * (room_temperature_low + room_temperature_high)
    return settling_temperature(tank, room, 0.0, room - 15.0, room + 5.0)


def cooling_time(
    room_temperature_low: Num,
    heat_capacity: Num,
    room_humidity: Num,
    inside_length: Num,
    inside_width: Num,
    water_level: Num,
    wall_resistance: Num,
    floor_conductance: Num,
    cover_water: str,
    open_top_share: Num,
    evaporation_factor: Num = 1.0,
    water_temperature: Num | None = None,
    target_water_temperature: Num | None = None,
) -> Num:
    """Time for the water to fall 3 K after a power cut in the coldest room [s].

    From the water as measured, or from its target. Infinite if it settles sooner.

    Args:
        room_temperature_low [degC, -5 to 45]
        water_temperature [degC, 0 to 60]

    Formula: ∫ heat_capacity / loss dT, over the first 3 K below the water's temperature

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
    Source: physics, lumped cooling with the loss at each temperature [published]
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
    start = first_known("water_temperature", water_temperature, target_water_temperature)
    end = start - _POWER_CUT_DROP
    return time_between(tank, room_temperature_low, 0.0, heat_capacity, start, end)


def water_change_dip(
    water_volume: Num,
    heat_capacity: Num,
    tap_temperature: Num,
    water_change_share: Num,
    water_temperature: Num | None = None,
    target_water_temperature: Num | None = None,
) -> Num:
    """Fall of the water temperature at a water change; below 0 it rises [K].

    From the water as measured, or from its target; glass and gravel keep their heat.

    Args:
        tap_temperature [degC, 0 to 60]
        water_temperature [degC, 0 to 60]

    Source: physics, heat balance of mixing [published]
    """
    before = first_known("water_temperature", water_temperature, target_water_temperature)
    usual = before if target_water_temperature is None else target_water_temperature
    water = water_volume * water_density(usual) * WATER_SPECIFIC_HEAT
    solids = 1.0 - water / heat_capacity
    return before - mixed_temperature(before, tap_temperature, water_change_share, solids)
