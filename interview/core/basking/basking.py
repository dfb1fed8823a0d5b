"""The basking spot: how hot the platform and the shell get under the lamp.

One reading on the surface calibrates the lamp (`lamp_heat`); every temperature is then a
prediction from it, so it follows the lamp when the lamp is moved, dimmed or swapped for a
stronger one of the same kind.
"""

from __future__ import annotations

from typing import TypeAlias

import numpy as np

from interview.core.basking import warm_patch as laws
from interview.core.errors import Missing, NotApplicable
from interview.core.light.radiation import lamp_clearance, point_irradiance
from interview.core.numeric import Num, first_known, floats

__all__ = [
    "basking_rise",
    "beam_gain",
    "heat_lamp_height_when_measured",
    "heat_lamp_power_when_measured",
    "lamp_heat",
    "lamp_power_share",
    "platform_temperature",
    "platform_temperature_cold_day",
    "room_temperature_while_measuring",
    "shell_temperature",
    "shell_temperature_cold_day",
    "shell_temperature_hot_day",
    "source_offset",
]
QUANTITIES = __all__
DEAR = (
    "platform_temperature",
    "platform_temperature_cold_day",
    "shell_temperature",
    "shell_temperature_cold_day",
    "shell_temperature_hot_day",
)

_RADIATED = 0.8  # of a filament lamp's power, as light and heat rays
_ABSORBED = 0.8  # of what falls on a shell or a dark platform

_NowAndThen: TypeAlias = tuple[Num | None, Num | None]
"""Something of the lamp now, and when its heat was measured."""


def room_temperature_while_measuring(
    basking_room_temperature: Num | None = None,
    room_temperature_low: Num | None = None,
    room_temperature_high: Num | None = None,
) -> Num:
    """Temperature of the room while the basking reading was taken [degC].

    Source: modelling_choice, middle of the room's range where nobody read it [assumption]
    """
    if basking_room_temperature is not None:
        return basking_room_temperature
    if room_temperature_low is None or room_temperature_high is None:
        raise Missing("basking_room_temperature", "room_temperature_low", "room_temperature_high")
    return np.asarray(0.5 * (np.asarray(room_temperature_low) + room_temperature_high))


def heat_lamp_height_when_measured(heat_lamp_height: Num) -> Num:
    """Height of the heat lamp when the basking temperature was read [m].

    The lamp's height now, unless the lamp has been moved since.

    Source: modelling_choice, the lamp still hangs where it was read [assumption]
    """
    return heat_lamp_height


def heat_lamp_power_when_measured(heat_lamp_power: Num) -> Num:
    """Power of the heat lamp when the basking temperature was read [W].

    The lamp's power now, unless it has been swapped or dimmed since.

    Source: modelling_choice, the lamp is still the one that was read [assumption]
    """
    return heat_lamp_power


def source_offset(
    source_offset_bare: Num,
    source_offset_flood: Num,
    source_offset_spot: Num,
    source_offset_unknown: Num,
    heat_lamp_beam: str | None = None,
) -> Num:
    """How far behind its face the heat lamp seems to shine from [m].

    Formula: one of source_offset_bare, _flood, _spot or _unknown, by heat_lamp_beam

    Source: geometry, face radius over the tangent of half the beam angle [computed]
    """
    by_beam = {
        "bare": source_offset_bare,
        "flood": source_offset_flood,
        "spot": source_offset_spot,
    }
    return by_beam.get(heat_lamp_beam or "", source_offset_unknown)


def lamp_heat(
    basking_temperature: Num,
    heat_lamp_height_when_measured: Num,
    room_temperature_while_measuring: Num,
    source_offset: Num,
    heat_lamp_kind: str | None = None,
) -> Num:
    """Intensity of the heat lamp straight down, as far as a surface absorbs it [W].

    Watts per steradian. It stays true when the lamp is hung elsewhere. A reading no
    warmer than the room means that the lamp adds nothing: 0.

    Source: physics, steady surface balance turned round [computed]
    """
    if heat_lamp_kind == "none":
        raise NotApplicable("there is no heat lamp")
    flux = laws.patch_heat_loss(basking_temperature, room_temperature_while_measuring)
    distance = floats(heat_lamp_height_when_measured) + source_offset
    return np.maximum(flux, 0.0) * distance**2


def beam_gain(
    lamp_heat: Num,
    heat_lamp_power_when_measured: Num,
    cover_heat_share_when_measured: Num | None = None,
) -> Num:
    """How many times stronger than a bare bulb of its power the lamp shines straight down [1].

    Tells readings that no lamp of that power gives: a bare bulb is near 1, a flood 2 to 8,
    the narrowest spots about 30.

    Source: modelling_choice, four fifths radiated and four fifths of that absorbed [assumption]
    """
    bare = _RADIATED * _ABSORBED * np.asarray(heat_lamp_power_when_measured) / (4 * np.pi)
    passed = 1.0 if cover_heat_share_when_measured is None else cover_heat_share_when_measured
    return lamp_heat / (bare * passed)


def _lit(
    intensity: Num,
    clearance: Num,
    offset: Num,
    room: Num,
    power: _NowAndThen,
    passes: _NowAndThen,
) -> Num:
    """Temperature of a surface straight under the lamp, from its intensity when measured."""
    share = _changed(power) * _changed(passes)
    flux = point_irradiance(intensity * share, clearance, offset)
    return np.asarray(laws.patch_temperature(flux, room))


def _changed(now_and_then: _NowAndThen) -> Num:
    now, then = now_and_then
    return 1.0 if now is None or then is None else floats(now) / then


def platform_temperature(
    source_offset: Num,
    lamp_heat: Num | None = None,
    heat_lamp_height: Num | None = None,
    room_temperature_while_measuring: Num | None = None,
    heat_lamp_kind: str | None = None,
    basking_temperature: Num | None = None,
    heat_lamp_power: Num | None = None,
    heat_lamp_power_when_measured: Num | None = None,
    cover_heat_share: Num | None = None,
    cover_heat_share_when_measured: Num | None = None,
) -> Num:
    """Temperature of the bare platform under the lamp, room as when it was read [degC].

    Where an animal lies flat its underside is no warmer than this. Without a lamp it is
    what was read.

    Formula: patch_temperature(lamp_heat · power / power when measured ·
    cover_heat_share / that when measured / (heat_lamp_height +
    source_offset)², room when measured)

    Source: physics, steady surface balance and inverse square from a virtual source [computed]
    """
    if heat_lamp_kind == "none":
        if basking_temperature is None:
            raise NotApplicable("there is no heat lamp")
        return basking_temperature
    room = room_temperature_while_measuring
    if lamp_heat is None or heat_lamp_height is None or room is None:
        raise Missing.among(
            basking_temperature=basking_temperature,
            heat_lamp_height=heat_lamp_height,
            room_temperature_low=room,
            room_temperature_high=room,
        )
    clearance = lamp_clearance(heat_lamp_height, 0.0)
    power = (heat_lamp_power, heat_lamp_power_when_measured)
    passes = (cover_heat_share, cover_heat_share_when_measured)
    return _lit(lamp_heat, clearance, source_offset, room, power, passes)


def platform_temperature_cold_day(
    lamp_heat: Num,
    heat_lamp_height: Num,
    source_offset: Num,
    room_temperature_low: Num,
    heat_lamp_power: Num | None = None,
    heat_lamp_power_when_measured: Num | None = None,
    cover_heat_share: Num | None = None,
    cover_heat_share_when_measured: Num | None = None,
) -> Num:
    """Temperature of the bare platform under the lamp with the room at its coldest [degC].

    Formula: patch_temperature(lamp_heat · power / power when measured ·
    cover_heat_share / that when measured / (heat_lamp_height +
    source_offset)², room_temperature_low)

    Source: physics, steady surface balance and inverse square from a virtual source [computed]
    """
    clearance = lamp_clearance(heat_lamp_height, 0.0)
    power = (heat_lamp_power, heat_lamp_power_when_measured)
    passes = (cover_heat_share, cover_heat_share_when_measured)
    return _lit(lamp_heat, clearance, source_offset, room_temperature_low, power, passes)


def shell_temperature(
    lamp_heat: Num,
    heat_lamp_height: Num,
    shell_height: Num,
    source_offset: Num,
    room_temperature_while_measuring: Num,
    shell_absorption: Num = 1.0,
    heat_lamp_power: Num | None = None,
    heat_lamp_power_when_measured: Num | None = None,
    cover_heat_share: Num | None = None,
    cover_heat_share_when_measured: Num | None = None,
) -> Num:
    """Temperature at the top of the tallest shell, room as when it was read [degC].

    Formula: patch_temperature(shell_absorption · lamp_heat · power / power when measured ·
    cover_heat_share / that when measured /
    (heat_lamp_height − shell_height + source_offset)², room when measured)

    Source: physics, steady surface balance and inverse square from a virtual source [computed]
    """
    clearance = lamp_clearance(heat_lamp_height, shell_height)
    power = (heat_lamp_power, heat_lamp_power_when_measured)
    passes = (cover_heat_share, cover_heat_share_when_measured)
    absorbed = lamp_heat * np.asarray(shell_absorption)
    return _lit(absorbed, clearance, source_offset, room_temperature_while_measuring, power, passes)


def shell_temperature_hot_day(
    lamp_heat: Num,
    heat_lamp_height: Num,
    shell_height: Num,
    source_offset: Num,
    room_temperature_high: Num,
    shell_absorption: Num = 1.0,
    heat_lamp_power: Num | None = None,
    heat_lamp_power_when_measured: Num | None = None,
    cover_heat_share: Num | None = None,
    cover_heat_share_when_measured: Num | None = None,
) -> Num:
    """Temperature at the top of the tallest shell with the room at its warmest [degC].

    Formula: as shell_temperature, with the room at room_temperature_high

    Source: physics, steady surface balance and inverse square from a virtual source [computed]
    """
    clearance = lamp_clearance(heat_lamp_height, shell_height)
    power = (heat_lamp_power, heat_lamp_power_when_measured)
    passes = (cover_heat_share, cover_heat_share_when_measured)
    absorbed = lamp_heat * np.asarray(shell_absorption)
    return _lit(absorbed, clearance, source_offset, room_temperature_high, power, passes)


def shell_temperature_cold_day(
    lamp_heat: Num,
    heat_lamp_height: Num,
    shell_height: Num,
    source_offset: Num,
    room_temperature_low: Num,
    shell_absorption: Num = 1.0,
    heat_lamp_power: Num | None = None,
    heat_lamp_power_when_measured: Num | None = None,
    cover_heat_share: Num | None = None,
    cover_heat_share_when_measured: Num | None = None,
) -> Num:
    """Temperature at the top of the tallest shell with the room at its coldest [degC].

    Formula: as shell_temperature, with the room at room_temperature_low

    Source: physics, steady surface balance and inverse square from a virtual source [computed]
    """
    clearance = lamp_clearance(heat_lamp_height, shell_height)
    power = (heat_lamp_power, heat_lamp_power_when_measured)
    passes = (cover_heat_share, cover_heat_share_when_measured)
    absorbed = lamp_heat * np.asarray(shell_absorption)
    return _lit(absorbed, clearance, source_offset, room_temperature_low, power, passes)


def basking_rise(
    platform_temperature: Num,
    water_temperature: Num | None = None,
    target_water_temperature: Num | None = None,
) -> Num:
    """How much warmer the basking spot is than the water [K].

    Args:
        water_temperature [degC, 0 to 60]
        target_water_temperature: what the water is meant to have, where nobody measured

    Source: physics, difference of the two [computed]
    """
    water = first_known("water_temperature", water_temperature, target_water_temperature)
    return floats(platform_temperature) - water


def lamp_power_share(
    heat_lamp_power: Num, lamp_holder_rating: Num, heat_lamp_kind: str | None = None
) -> Num:
    """Power of the heat lamp as a share of what its holder is rated for [1].

    Source: physics, ratio of the two [computed]
    """
    if heat_lamp_kind == "none":
        raise NotApplicable("there is no heat lamp")
    return floats(heat_lamp_power) / lamp_holder_rating
