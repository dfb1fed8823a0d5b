"""The tank and its water: inside dimensions, depth, volume, swimming surface, rim."""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.core.errors import Missing, NotApplicable, OutOfRange
from interview.core.numeric import Num, draws_at_least, first_known, floats

__all__ = [
    "bathing_depth_share",
    "brim_volume",
    "escape_height",
    "fillable_depth",
    "foothold_height",
    "grain_volume",
    "inside_height",
    "inside_length",
    "inside_width",
    "pane_over_typical",
    "pane_thickness",
    "submerged_room",
    "substrate_volume",
    "swim_area",
    "typical_wall_thickness",
    "volume_per_shell_length",
    "water_depth",
    "water_level",
    "water_volume",
]
QUANTITIES = __all__

# Panes of the trade's sizes rise with height · length ** 0.5 (a read-off from the size tables,
# within 1 mm of every entry but the ones sold in two thicknesses): up to each border [m**1.5],
# the pane [m].
_PANE_BORDERS = np.array([0.225, 0.34, 0.50, 0.90, 1.20])
_PANES = np.array([0.003, 0.005, 0.006, 0.010, 0.012, 0.015])
_LEAST_BETWEEN_DECOR = 0.1  # of the room under water
_LEAST_WATER = 0.001  # m, over the whole floor; only stray draws of a nearly empty tank come to it


def typical_wall_thickness(
    tank_length: Num, tank_height: Num, wall_thickness_factor: Num = 1.0
) -> Any:
    """Thickness of pane usually sold in a tank of this size [m].

    Args:
        tank_length [m, 0.1 to 6]
        tank_height [m, 0.05 to 3]

    Formula: a step of pane thickness for tank_height · √tank_length, times
    wall_thickness_factor

    Source: common_practice, panes of the trade sizes [practice]
    Source: modelling_choice, step by height times the root of the length [assumption]
    """
    size = floats(tank_height) * np.sqrt(tank_length)
    return _PANES[np.searchsorted(_PANE_BORDERS, size)] * wall_thickness_factor


def pane_over_typical(wall_thickness: Num, typical_wall_thickness: Num) -> Any:
    """Thickness of the panes over what is usually sold in a tank of this size [1].

    Source: geometry, ratio of two lengths [computed]
    """
    return floats(wall_thickness) / typical_wall_thickness


def pane_thickness(
    wall_thickness: Num | None = None, typical_wall_thickness: Num | None = None
) -> Any:
    """Thickness of the walls and the bottom, typical of the size where it wasn't measured [m].

    Args:
        wall_thickness [m, 0.001 to 0.1]

    Source: modelling_choice, the bottom is as thick as the sides [assumption]
    """
    return first_known("tank_height", wall_thickness, typical_wall_thickness)


def inside_length(tank_length: Num, pane_thickness: Num) -> Any:
    """Length of the tank between the panes [m, from 0].

    Args:
        tank_length [m, 0.1 to 6]

    Source: geometry, plain arithmetic [computed]
    """
    return tank_length - 2.0 * floats(pane_thickness)


def inside_width(tank_width: Num, pane_thickness: Num) -> Any:
    """Width of the tank between the panes [m, from 0].

    Args:
        tank_width [m, 0.1 to 3]

    Source: geometry, plain arithmetic [computed]
    """
    return tank_width - 2.0 * floats(pane_thickness)


def inside_height(tank_height: Num, pane_thickness: Num) -> Any:
    """Height of the tank from the inner bottom to the rim [m, from 0].

    Trade heights may include a trim; the keeper is asked for the glass itself.

    Args:
        tank_height [m, 0.05 to 3]

    Source: geometry, plain arithmetic [computed]
    """
    return tank_height - floats(pane_thickness)


def brim_volume(inside_length: Num, inside_width: Num, inside_height: Num) -> Any:
    """Volume of the empty tank up to the rim [m**3].

    Source: geometry, plain arithmetic [computed]
    """
    return floats(inside_length) * inside_width * inside_height


def water_level(inside_height: Num, water_line_below_rim: Num) -> Any:
    """Height of the water surface above the inner bottom [m, from 0].

    Source: geometry, plain arithmetic [computed]
    Source: modelling_choice, a cloud's stray draws keep 1 mm of water [assumption]
    """
    level = inside_height - floats(water_line_below_rim)
    return draws_at_least(level, _LEAST_WATER)


def water_depth(water_level: Num, substrate_depth: Num = 0.0) -> Any:
    """Free depth of water over the substrate [m, from 0].

    Source: geometry, plain arithmetic [computed]
    """
    return water_level - floats(substrate_depth)


def fillable_depth(
    water_depth: Num, inside_height: Num, fill_margin: Num, substrate_depth: Num = 0.0
) -> Any:
    """Free depth if the tank were filled as far as it goes, under a cover [m].

    Source: geometry, plain arithmetic [computed]
    """
    return np.maximum(water_depth, inside_height - np.asarray(substrate_depth) - fill_margin)


def substrate_volume(inside_length: Num, inside_width: Num, substrate_depth: Num = 0.0) -> Any:
    """Bulk volume of the substrate, pores included [m**3].

    Source: geometry, plain arithmetic [computed]
    """
    return floats(inside_length) * inside_width * substrate_depth


def grain_volume(substrate_volume: Num, substrate_porosity: Num) -> Any:
    """Volume of the substrate's grains alone, which water cannot fill [m**3].

    Source: geometry, plain arithmetic [computed]
    """
    return substrate_volume * (1.0 - floats(substrate_porosity))


def submerged_room(
    inside_length: Num, inside_width: Num, water_level: Num, grain_volume: Num
) -> Any:
    """Room under the water line that the grains leave to water, wood and stones [m**3].

    Source: geometry, plain arithmetic [computed]
    Source: modelling_choice, a cloud's stray draws keep 1 mm of water [assumption]
    """
    floor = floats(inside_length) * inside_width
    return draws_at_least(floor * water_level - grain_volume, floor * _LEAST_WATER)


def water_volume(submerged_room: Num, decor_volume: Num = 0.0) -> Any:
    """Water in the tank, pores of the substrate included [m**3].

    What animals, heater, filter and the legs or stones of a platform displace is left out
    unless it is counted as decor: together they stay within the doubt of the dimensions,
    and a pile of stones can be entered as decor. Heaped up to the water line, wood and stones
    stand out of it and leave a tenth of the room between them; only a stray draw of a small
    tank's doubt comes to that.

    Source: geometry, plain arithmetic [computed]
    Source: modelling_choice, a tenth of water between heaped wood and stones [assumption]

    Raises OutOfRange where decor takes up all the room under water.
    """
    most = float(np.max(submerged_room))
    if np.all(np.greater(decor_volume, 0) & np.greater_equal(decor_volume, submerged_room)):
        raise OutOfRange("decor_volume", float(np.max(decor_volume)), 0.0, most, "m**3")
    return np.maximum(submerged_room - decor_volume, _LEAST_BETWEEN_DECOR * submerged_room)


def swim_area(
    inside_length: Num,
    inside_width: Num,
    platform_kind: str | None = None,
    platform_length: Num = 0.0,
    platform_width: Num = 0.0,
) -> Any:
    """Water surface the animals can swim in [m**2].

    Under a raft or a shelf they can swim; a pile of stones stands in the way.

    Source: geometry, plain arithmetic [computed]
    Source: modelling_choice, only a pile takes swimming space [assumption]
    """
    surface = floats(inside_length) * inside_width
    if platform_kind == "pile":
        return surface - floats(platform_length) * platform_width
    return surface


def foothold_height(
    platform_kind: str | None = None, platform_height_above_water: Num | None = None
) -> Any:
    """Highest foothold above the water line, from which a turtle could climb out [m].

    The platform; without one, the water line itself. Filters, wood and ramps that stand
    higher are not asked for.

    Source: modelling_choice, the platform is the highest foothold [assumption]
    """
    if platform_kind == "above_tank":
        raise NotApplicable("the platform stands above the rim, in a box with walls of its own")
    if platform_kind == "none":
        return 0.0
    if platform_height_above_water is None:
        raise Missing("platform_height_above_water")
    return np.maximum(platform_height_above_water, 0.0)


def escape_height(water_line_below_rim: Num, foothold_height: Num) -> Any:
    """Height of the rim above the highest foothold [m].

    Source: geometry, plain arithmetic [computed]
    """
    return water_line_below_rim - floats(foothold_height)


def bathing_depth_share(water_depth: Num, smallest_carapace_length: Num) -> Any:
    """Depth of the water over the smallest animal's shell length [1].

    Source: geometry, ratio of two lengths [computed]
    """
    return water_depth / floats(smallest_carapace_length)


def volume_per_shell_length(water_volume: Num, total_carapace_length: Num) -> Any:
    """Water for each length of shell, as the trade's litre rules count it [m**3/m].

    Source: common_practice, ten gallons an inch and the like [practice]
    """
    return water_volume / floats(total_carapace_length)
