"""Readings held against each other: quantities that tell a slip from a tank."""

from __future__ import annotations

import numpy as np

from interview.core.numeric import Num, floats

__all__ = [
    "basking_over_room",
    "fill_share",
    "flow_over_label",
    "room_over_platform",
    "water_over_heater",
    "water_over_room",
]
QUANTITIES = __all__


def basking_over_room(basking_temperature: Num, room_temperature_while_measuring: Num) -> Num:
    """How much warmer the spot under the lamp was read than the room [K].

    Source: physics, difference of the two [computed]
    """
    spot = floats(basking_temperature)
    return np.asarray(spot - room_temperature_while_measuring)


def water_over_room(water_temperature: Num, room_temperature_high: Num) -> Num:
    """How much warmer the water was read than the warmest room [K].

    Args:
        water_temperature [degC, 0 to 60]

    Source: physics, difference of the two [computed]
    """
    return np.asarray(floats(water_temperature) - room_temperature_high)


def water_over_heater(water_temperature: Num, stuck_heater_temperature: Num) -> Num:
    """How much warmer the water was read than all heaters could ever make it [K].

    Args:
        water_temperature [degC, 0 to 60]

    Source: physics, difference of the two [computed]
    """
    return np.asarray(floats(water_temperature) - stuck_heater_temperature)


def flow_over_label(filter_measured_flow: Num, filter_rated_flow: Num) -> Num:
    """Flow by the bucket test over the flow on the label [1].

    Source: physics, ratio of the two [computed]
    """
    return np.asarray(floats(filter_measured_flow) / filter_rated_flow)


def fill_share(water_volume: Num, brim_volume: Num) -> Num:
    """Water in the tank over what it would hold to the brim [1].

    Source: geometry, ratio of the two [computed]
    """
    return np.asarray(floats(water_volume) / brim_volume)


def room_over_platform(
    ceiling_height: Num,
    stand_height: Num,
    inside_height: Num,
    stand: str | None = None,
    water_line_below_rim: Num | None = None,
    platform_height_above_water: Num = 0.0,
) -> Num:
    """Room between the platform and the ceiling, in which any lamp must hang [m].

    Args:
        stand: on the floor nothing stands below the tank
        water_line_below_rim: from the rim down; the bottom where it isn't known

    Source: geometry, plain arithmetic [computed]
    """
    below = 0.0 if stand == "floor" else floats(stand_height)
    line = inside_height if water_line_below_rim is None else water_line_below_rim
    platform = floats(inside_height) - line + platform_height_above_water
    return np.asarray(ceiling_height - below - platform)
