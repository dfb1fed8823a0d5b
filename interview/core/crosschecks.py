"""Readings held against each other: quantities that tell a slip from a tank."""

from __future__ import annotations

import numpy as np

from interview.core.numeric import Num

__all__ = [
    "basking_over_room",
    "fill_share",
    "flow_over_label",
    "room_over_platform",
    "water_over_heater",
    "water_over_room",
]


def basking_over_room(basking_temperature: Num, room_temperature_while_measuring: Num) -> Num:
    """How much warmer the spot under the lamp was read than the room [K].

    Args:
        basking_temperature [degC, -20 to 200]: measured on the surface under the lamp
        room_temperature_while_measuring [degC, -20 to 60]: air and surroundings, then

    Source: physics, difference of the two [computed]
    """
    spot = np.asarray(basking_temperature, dtype=float)
    return np.asarray(spot - room_temperature_while_measuring)


def water_over_room(water_temperature: Num, room_temperature_high: Num) -> Num:
    """How much warmer the water was read than the warmest room [K].

    Args:
        water_temperature [degC, 0 to 60]: measured
        room_temperature_high [degC, -20 to 60]: warmest the room gets

    Source: physics, difference of the two [computed]
    """
    return np.asarray(np.asarray(water_temperature, dtype=float) - room_temperature_high)


def water_over_heater(water_temperature: Num, stuck_heater_temperature: Num) -> Num:
    """How much warmer the water was read than all heaters could ever make it [K].

    Args:
        water_temperature [degC, 0 to 60]: measured
        stuck_heater_temperature [degC]: with every heater on all the time, warmest room

    Source: physics, difference of the two [computed]
    """
    return np.asarray(np.asarray(water_temperature, dtype=float) - stuck_heater_temperature)


def flow_over_label(filter_measured_flow: Num, filter_rated_flow: Num) -> Num:
    """Flow by the bucket test over the flow on the label [1].

    Args:
        filter_measured_flow [m**3/s, 0 to 1]: bucket test, each filter
        filter_rated_flow [m**3/s, 0 to 1]: flow on the box, each filter

    Source: physics, ratio of the two [computed]
    """
    return np.asarray(np.asarray(filter_measured_flow, dtype=float) / filter_rated_flow)


def fill_share(water_volume: Num, brim_volume: Num) -> Num:
    """Water in the tank over what it would hold to the brim [1].

    Args:
        water_volume [m**3]: water in the tank
        brim_volume [m**3]: empty tank up to the rim

    Source: geometry, ratio of the two [computed]
    """
    return np.asarray(np.asarray(water_volume, dtype=float) / brim_volume)


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
        ceiling_height [m, 1 to 10]: floor to ceiling
        stand_height [m, 0 to 3]: floor to the tank, on a stand, a piece of furniture or a shelf
        inside_height [m]: from the inner bottom to the rim
        stand [choice]: on the floor nothing stands below the tank
        water_line_below_rim [m, 0 to 3]: from the rim down; the bottom where it isn't known
        platform_height_above_water [m, -1 to 3]: top of the platform over the water

    Source: geometry, plain arithmetic [computed]
    """
    below = 0.0 if stand == "floor" else np.asarray(stand_height, dtype=float)
    line = inside_height if water_line_below_rim is None else water_line_below_rim
    platform = np.asarray(inside_height, dtype=float) - line + platform_height_above_water
    return np.asarray(ceiling_height - below - platform)
