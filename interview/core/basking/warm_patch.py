"""What a warm patch loses, how hot a lamp makes it, and how far a raft dips."""

from __future__ import annotations

import numpy as np

from interview.core.constants import (
    AIR_PRANDTL,
    GRAVITY,
    STEFAN_BOLTZMANN,
    WARM_WATER_DENSITY,
    ZERO_CELSIUS,
)
from interview.core.errors import BeyondFormula
from interview.core.heat.air import air_conductivity, air_kinematic_viscosity
from interview.core.heat.plates import plate_nusselt_down, plate_nusselt_up_laminar
from interview.core.numeric import Num, floats, power, solve_rising

__all__ = [
    "patch_film_coefficient",
    "patch_heat_loss",
    "patch_temperature",
    "raft_edge_sinkage",
    "raft_sinkage",
    "surface_temperature_at",
]
LAWS = __all__

_PATCH = 0.04  # m, area over perimeter of a patch 16 cm across, as both laws want it
_EMISSIVITY = 0.95  # stone, wood, cork, shell: within 0.9 to 1.0 it cancels
_ALIKE = 1e-6  # K, less than the balance is solved to


def patch_film_coefficient(surface_temperature: Num, room_temperature: Num) -> Num:
    """Film coefficient of still air over a level patch facing up [W/m**2/K].

    Args:
        room_temperature: air in the room

    Source: cengel_ghajar_2015, eq. 9-22 warm and 9-24 cool face up [published]
    Source: modelling_choice, patch 16 cm across [assumption]
    """
    rise = floats(surface_temperature) - room_temperature
    film = room_temperature + 0.5 * rise
    expansion = 1.0 / (film + ZERO_CELSIUS)
    viscosity = air_kinematic_viscosity(film)
    grashof = GRAVITY * expansion * np.abs(rise) * _PATCH**3 / np.square(viscosity)
    rayleigh = grashof * AIR_PRANDTL
    nusselt = np.where(rise >= 0, plate_nusselt_up_laminar(rayleigh), plate_nusselt_down(rayleigh))
    return np.asarray(nusselt * air_conductivity(film) / _PATCH)


def patch_heat_loss(surface_temperature: Num, room_temperature: Num) -> Num:
    """Heat a dry patch gives to the room by air and radiation [W/m**2].

    In steady state this is what it absorbs from the lamp.

    Source: physics, steady surface balance with grey radiation [computed]
    Source: modelling_choice, emissivity 0.95, nothing lost downwards [assumption]
    """
    kelvin = floats(surface_temperature) + ZERO_CELSIUS
    room = floats(room_temperature) + ZERO_CELSIUS
    convected = patch_film_coefficient(surface_temperature, room_temperature) * (kelvin - room)
    return np.asarray(
        convected + _EMISSIVITY * STEFAN_BOLTZMANN * (power(kelvin, 4) - power(room, 4))
    )


def patch_temperature(absorbed_flux: Num, room_temperature: Num) -> Num:
    """Steady temperature of a dry patch that absorbs a given flux [degC].

    Formula: the T at which patch_heat_loss(T, room_temperature) = absorbed_flux

    Source: physics, root of the steady surface balance [computed]
    """
    room = floats(room_temperature)
    # By radiation alone the patch would be hotter, so the answer lies between.
    black = np.asarray(absorbed_flux) / (_EMISSIVITY * STEFAN_BOLTZMANN)
    extreme = np.sqrt(np.sqrt(black + power(room + ZERO_CELSIUS, 4))) - ZERO_CELSIUS
    return solve_rising(
        lambda t: np.asarray(patch_heat_loss(t, room)) - absorbed_flux,
        np.minimum(room, extreme),
        np.maximum(room, extreme),
        steps=55,
    )


def surface_temperature_at(
    basking_temperature: Num,
    heat_lamp_height: Num,
    new_height: Num,
    room_temperature_high: Num,
    source_offset: Num,
) -> Num:
    """Surface temperature under the same lamp at another distance [degC].

    The reading gives the flux absorbed there; the flux falls with the square of the
    distance from the virtual source behind the lamp's face; the balance is solved again.

    Args:
        heat_lamp_height: lamp face to that surface
        room_temperature_high: air and surroundings, for both

    Source: physics, steady surface balance and inverse square from a virtual source [computed]
    Source: barragan_source_temperature, the same balance for lamps at several distances [published]
    """
    if np.any(np.asarray(basking_temperature) < np.asarray(room_temperature_high) - _ALIKE):
        raise BeyondFormula(
            "basking_temperature is below room_temperature_high, and no lamp cools; "
            "take both readings at the same time"
        )
    absorbed = patch_heat_loss(basking_temperature, room_temperature_high)
    measured = floats(heat_lamp_height) + source_offset
    ratio = measured / (floats(new_height) + source_offset)
    return patch_temperature(absorbed * ratio**2, room_temperature_high)


def raft_sinkage(mass: Num, platform_area: Num) -> Num:
    """How far a raft sinks under an animal in its middle [m].

    Args:
        mass: what climbs on
        platform_area [m**2, 0.0001 to 100]

    Source: physics, Archimedes [computed]
    """
    return floats(mass) / (WARM_WATER_DENSITY * np.asarray(platform_area))


def raft_edge_sinkage(mass: Num, platform_area: Num, load_offset: Num) -> Num:
    """How far the edge of a light rigid raft sinks under an animal off its middle [m].

    The linear tilt holds only while the whole bottom stays wet, to a sixth of the
    width from the middle; further out the wet part is a wedge under the animal.

    Args:
        mass: what climbs on
        platform_area [m**2, 0.0001 to 100]

    Source: physics, statics of a weightless raft [computed]
    """
    offset = floats(load_offset)
    wedge = 2.0 / (3.0 * (0.5 - offset))
    share = np.where(offset <= 1.0 / 6.0, 1.0 + 6.0 * offset, wedge)
    return np.asarray(raft_sinkage(mass, platform_area) * share)
