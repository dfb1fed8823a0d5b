"""The heater: whether it is enough, what it does when it sticks, how deep it lies."""

from __future__ import annotations

import numpy as np

from interview.core.errors import Missing, NotApplicable
from interview.core.heat.losses import TankLoss
from interview.core.heat.passages import settling_temperature, time_between
from interview.core.numeric import Num, first_known, floats

__all__ = [
    "heater_cover",
    "heater_margin",
    "heater_power_needed",
    "heater_power_per_volume",
    "installed_heater_power",
    "smaller_heaters_power",
    "stuck_heater_power_limit",
    "stuck_heater_temperature",
    "stuck_heater_time",
    "trade_heater_power_high",
    "trade_heater_power_low",
    "warm_up_time",
]
QUANTITIES = __all__
DEAR = ("stuck_heater_temperature", "stuck_heater_time", "warm_up_time")

_RESERVE = 1.25  # heater over coldest-room loss: a sizing rule, chosen
_TOO_HOT = 35.0  # degC, by the definition of the stuck-on names
_BOILING = 100.0  # degC; the equilibrium is not followed past it
_NO_HEATER = "there is no heater"
_US_GALLON = 3.785411784e-3  # m**3


def installed_heater_power(
    heater_power: Num | None = None, heater_mount: str | None = None, heater_count: Num = 1.0
) -> Num:
    """Power of all heaters together; 0 without a heater [W].

    Source: geometry, plain arithmetic [computed]
    """
    if heater_mount == "none":
        return 0.0
    return first_known("heater_power", heater_power) * heater_count


def heater_power_needed(heat_loss: Num) -> Num:
    """Heater power that holds the target in the coldest room with a quarter in reserve [W].

    Source: modelling_choice, reserve of 25 % [assumption]
    """
    return _RESERVE * np.maximum(heat_loss, 0.0)


def trade_heater_power_low(water_volume: Num) -> Num:
    """Heater power by the trade's rule, its low end of 3 W for each US gallon [W].

    Source: common_practice, 3 to 5 W a gallon [practice]
    """
    return np.asarray(3.0 * floats(water_volume) / _US_GALLON)


def trade_heater_power_high(water_volume: Num) -> Num:
    """Heater power by the trade's rule, its high end of 5 W for each US gallon [W].

    Source: common_practice, 3 to 5 W a gallon [practice]
    """
    return np.asarray(5.0 * floats(water_volume) / _US_GALLON)


def heater_margin(installed_heater_power: Num, heat_loss: Num) -> Num:
    """Installed power over the loss in the coldest room; infinite if the room does it alone [1].

    Source: geometry, plain arithmetic [computed]
    """
    loss = floats(heat_loss)
    return np.where(loss > 0, installed_heater_power / np.where(loss > 0, loss, 1.0), np.inf)[()]


def warm_up_time(
    installed_heater_power: Num,
    heat_capacity: Num,
    room_temperature_low: Num,
    target_water_temperature: Num,
    tap_temperature: Num,
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
    """Time to heat the tank from tap water to its target in the coldest room [s].

    Infinite if the heaters can't reach it; 0 if the tap is as warm.

    Args:
        room_temperature_low [degC, -5 to 45]
        tap_temperature [degC, 0 to 60]

    Formula: ∫ heat_capacity / (installed_heater_power − loss) dT, from tap_temperature to
    target_water_temperature

    Source: cengel_ghajar_2015, parts summed as in example 14-14 [published]
    Source: physics, lumped warming with the loss at each temperature [published]
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
    _require(installed_heater_power)
    return time_between(
        tank,
        room_temperature_low,
        installed_heater_power,
        heat_capacity,
        tap_temperature,
        np.maximum(tap_temperature, target_water_temperature),
    )


def stuck_heater_temperature(
    installed_heater_power: Num,
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
    stray_heat: Num = 0.0,
) -> Num:
    """Temperature at which the tank settles with all heaters stuck on, warmest room [degC].

    Pump and lamps add to the heaters. Evaporation caps an open tank; a lid takes the cap away. Not
    followed past boiling.

    Args:
        room_temperature_high [degC, -5 to 50]

    Formula: the water temperature at which the heat loss in room_temperature_high equals
    installed_heater_power + stray_heat

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
    _require(installed_heater_power)
    return settling_temperature(
        tank,
        room_temperature_high,
        installed_heater_power + stray_heat,
        room_temperature_high - 15.0,
        _BOILING,
    )


def stuck_heater_time(
    installed_heater_power: Num,
    heat_capacity: Num,
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
    water_temperature: Num | None = None,
    stray_heat: Num = 0.0,
) -> Num:
    """Time for stuck heaters to bring the water to 35 degC in the warmest room [s].

    Pump and lamps help them. From the target, or from the water as measured if that is warmer.
    Infinite if the tank settles below 35 degC; 0 if it is that warm already.

    Args:
        room_temperature_high [degC, -5 to 50]
        water_temperature [degC, 0 to 60]

    Formula: ∫ heat_capacity / (installed_heater_power + stray_heat − loss) dT, from the water's
    temperature to 35 degC

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
    _require(installed_heater_power)
    start = _warmer(target_water_temperature, water_temperature)
    return time_between(
        tank,
        room_temperature_high,
        installed_heater_power + stray_heat,
        heat_capacity,
        start,
        np.maximum(start, _TOO_HOT),
    )


def heater_power_per_volume(installed_heater_power: Num, water_volume: Num) -> Num:
    """Power of all heaters over the water they warm [W/m**3].

    Source: geometry, ratio of the two [computed]
    """
    return installed_heater_power / floats(water_volume)


def stuck_heater_power_limit(
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
    stray_heat: Num = 0.0,
) -> Num:
    """Heater power that, stuck on in the warmest room, never passes 35 degC [W].

    Args:
        room_temperature_high [degC, -5 to 50]

    Formula: the heat loss with the water at 35 degC and the room at room_temperature_high, less
    stray_heat

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
    return np.maximum(tank(_TOO_HOT, room_temperature_high) - stray_heat, 0.0)


def smaller_heaters_power(
    stuck_heater_power_limit: Num, heater_power_needed: Num, installed_heater_power: Num
) -> Num:
    """Power of smaller heaters that hold the tank warm and, stuck on, can't overheat it [W].

    Formula: stuck_heater_power_limit; refused where that is under heater_power_needed, or the
    heaters are no stronger already

    Source: physics, the heat loss in the warmest and in the coldest room [computed]
    """
    limit = floats(stuck_heater_power_limit)
    if np.all(limit < heater_power_needed) or np.all(limit >= installed_heater_power):
        raise NotApplicable("no heater is strong enough in winter and weak enough in summer")
    return limit


def heater_cover(
    water_depth: Num,
    heater_power: Num | None = None,
    heater_mount: str | None = None,
    heater_height: Num | None = None,
    heater_length: Num | None = None,
    heater_diameter: Num = 0.03,
) -> Num:
    """Water over the highest point of the heater; below 0 it stands out [m].

    An angled heater is taken at 45 degrees.

    Source: geometry, plain arithmetic [computed]
    """
    if heater_mount == "none" or (heater_power is not None and not np.any(heater_power)):
        raise NotApplicable(_NO_HEATER)
    if heater_mount is None or heater_height is None:
        raise Missing.among(heater_mount=heater_mount, heater_height=heater_height)
    if heater_mount == "horizontal":
        return water_depth - heater_height - heater_diameter
    if heater_length is None:
        raise Missing("heater_length")
    upright = 1.0 if heater_mount == "vertical" else np.sqrt(0.5)
    return water_depth - heater_height - upright * heater_length


def _require(installed_power: Num) -> None:
    if not np.any(installed_power):
        raise NotApplicable(_NO_HEATER)


def _warmer(target: Num, measured: Num | None) -> Num:
    return target if measured is None else np.maximum(target, measured)
