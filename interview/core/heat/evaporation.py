"""What leaves a free water surface: vapour, warm air and radiation."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from interview.core.constants import (
    AIR_PRANDTL,
    GRAVITY,
    STANDARD_PRESSURE,
    STEFAN_BOLTZMANN,
    ZERO_CELSIUS,
)
from interview.core.heat import air
from interview.core.heat.plates import plate_nusselt_down, plate_nusselt_up
from interview.core.numeric import Num, power

__all__ = [
    "WATER_EMISSIVITY",
    "area_over_perimeter",
    "evaporation_flux",
    "evaporation_flux_shah",
    "open_surface_flux",
    "quiet_air_evaporation_flux",
    "surface_convection_flux",
    "surface_grashof",
    "surface_radiation_flux",
]
LAWS = __all__

WATER_EMISSIVITY = 0.95  # Cengel & Ghajar, table A-18
_HOUR = 3600.0  # Shah's relations are printed in kg per hour


@dataclass(frozen=True)
class _Films:
    """Transfer coefficients of the air over a water surface."""

    heat: Num  # W/m**2/K
    vapour: Num  # m/s
    rising: NDArray[np.bool_]  # whether the surface air is the lighter


def surface_grashof(
    water_temperature: Num,
    air_temperature: Num,
    room_humidity: Num,
    surface_length: Num,
    surface_width: Num,
    air_pressure: Num = STANDARD_PRESSURE,
) -> Num:
    """Grashof number of the air over a water surface, below 0 where that air is heavier [1].

    Buoyancy comes from the densities of the moist air, saturated at the surface; a
    temperature difference alone would miss that vapour is light.

    Args:
        water_temperature [degC, 0 to 95]: of the surface
        air_temperature [degC, 0 to 60]: of the room

    Source: cengel_ghajar_2015, example 14-14 [published]
    """
    at_surface = air.moist_air_density(water_temperature, 100.0, air_pressure)
    in_room = air.moist_air_density(air_temperature, room_humidity, air_pressure)
    film = 0.5 * (water_temperature + air_temperature)
    viscosity = air.air_kinematic_viscosity(film, air_pressure)
    length = area_over_perimeter(surface_length, surface_width)
    relative = (in_room - at_surface) / (0.5 * (in_room + at_surface))
    return GRAVITY * relative * power(length, 3) / viscosity**2


def evaporation_flux(
    water_temperature: Num,
    air_temperature: Num,
    room_humidity: Num,
    surface_length: Num,
    surface_width: Num,
    air_pressure: Num = STANDARD_PRESSURE,
) -> Num:
    """Water evaporating from each area of a free surface, by heat and mass analogy [kg/m**2/s].

    Where the air over the water is no lighter than the room's, or the result is smaller,
    Shah's relation for still air is the floor. Below 0 the room's moisture condenses.

    Args:
        water_temperature [degC, 0 to 95]: of the surface
        air_temperature [degC, 0 to 60]: of the room

    Formula: mass transfer coefficient · (vapour_density over the water − in the room), by
    heat-mass analogy from plate_nusselt_up; never below quiet_air_evaporation_flux

    Source: cengel_ghajar_2015, example 14-14 [published]
    Source: shah_2002, second relation as the floor [published]
    """
    over_water = air.MoistAir.of(water_temperature, 100.0, air_pressure)
    in_room = air.MoistAir.of(air_temperature, room_humidity, air_pressure)
    return _evaporation(
        _films(over_water, in_room, surface_length, surface_width), over_water, in_room
    )


def evaporation_flux_shah(water_temperature: Num, air_temperature: Num, room_humidity: Num) -> Num:
    """Water evaporating from each area of a free surface, by Shah's relations [kg/m**2/s].

    The larger of two: density-driven and still air; so 0 where the room's moisture would
    condense. The densities are those of the *dry* air in the moist air; with moist densities
    the published table is missed by 18 % to all of it. Mean deviation 18 % on 11 sources,
    water 7-94 degC, air 6-35 degC, 28-95 %.

    Args:
        water_temperature [degC, 0 to 95]: of the surface
        air_temperature [degC, 0 to 60]: of the room

    Source: shah_2002, both relations for undisturbed pools [published]
    """
    at_surface = air.dry_air_density(water_temperature, 100.0)
    in_room = air.dry_air_density(air_temperature, room_humidity)
    over_water = air.humidity_ratio(water_temperature, 100.0)
    drier = np.maximum(over_water - air.humidity_ratio(air_temperature, room_humidity), 0.0)
    lift = np.cbrt(np.maximum(in_room - at_surface, 0.0))
    quiet = quiet_air_evaporation_flux(water_temperature, air_temperature, room_humidity)
    return np.maximum(35.0 * at_surface * lift * drier / _HOUR, quiet)


def quiet_air_evaporation_flux(
    water_temperature: Num, air_temperature: Num, room_humidity: Num
) -> Num:
    """Water evaporating from each area where no buoyancy stirs the air [kg/m**2/s].

    Args:
        water_temperature [degC, 0 to 95]: of the surface
        air_temperature [degC, 0 to 60]: of the room

    Source: shah_2002, second relation [published]
    """
    over_water = air.saturation_pressure(water_temperature)
    in_room = air.vapour_pressure(air_temperature, room_humidity)
    return 5.0e-5 / _HOUR * (over_water - in_room)


def surface_convection_flux(
    water_temperature: Num,
    air_temperature: Num,
    room_humidity: Num,
    surface_length: Num,
    surface_width: Num,
    air_pressure: Num = STANDARD_PRESSURE,
) -> Num:
    """Heat carried off by the air over each area of a free surface [W/m**2].

    Args:
        water_temperature [degC, 0 to 95]: of the surface
        air_temperature [degC, 0 to 60]: of the room

    Formula: film coefficient · (water_temperature − air_temperature), from plate_nusselt_up or
    _down by surface_grashof

    Source: cengel_ghajar_2015, example 14-14 [published]
    """
    over_water = air.MoistAir.of(water_temperature, 100.0, air_pressure)
    in_room = air.MoistAir.of(air_temperature, room_humidity, air_pressure)
    films = _films(over_water, in_room, surface_length, surface_width)
    return films.heat * (water_temperature - air_temperature)


def surface_radiation_flux(water_temperature: Num, room_temperature: Num) -> Num:
    """Heat radiated from each area of a free water surface to the room [W/m**2].

    Args:
        water_temperature: of the surface
        room_temperature [degC, -10 to 60]: of the surroundings

    Source: cengel_ghajar_2015, example 14-14 and table A-18 [published]
    """
    hot = water_temperature + ZERO_CELSIUS
    cold = room_temperature + ZERO_CELSIUS
    return WATER_EMISSIVITY * STEFAN_BOLTZMANN * (power(hot, 4) - power(cold, 4))


def open_surface_flux(
    water_temperature: Num,
    room_temperature: Num,
    room_humidity: Num,
    surface_length: Num,
    surface_width: Num,
    evaporation_factor: Num = 1.0,
) -> Num:
    """Heat leaving each area of an open water surface: air, radiation, vapour [W/m**2].

    Args:
        water_temperature [degC, 0 to 95]: of the surface
        room_temperature [degC, 0 to 60]

    Formula: surface_convection_flux + surface_radiation_flux + evaporation_factor ·
    evaporation_flux · latent_heat

    Source: cengel_ghajar_2015, example 14-14 [published]
    """
    over_water = air.MoistAir.of(water_temperature, 100.0)
    in_room = air.MoistAir.of(room_temperature, room_humidity)
    films = _films(over_water, in_room, surface_length, surface_width)
    vapour = _evaporation(films, over_water, in_room)
    return (
        films.heat * (water_temperature - room_temperature)
        + surface_radiation_flux(water_temperature, room_temperature)
        + evaporation_factor * vapour * air.latent_heat(water_temperature)
    )


def area_over_perimeter(length: Num, width: Num) -> Num:
    """Length on which the laws of level plates count [m].

    Source: cengel_ghajar_2015, area over perimeter of a level plate [published]
    """
    return length * width / (2.0 * (length + width))


def _films(
    over_water: air.MoistAir, in_room: air.MoistAir, surface_length: Num, surface_width: Num
) -> _Films:
    length = area_over_perimeter(surface_length, surface_width)
    film, pressure = 0.5 * (over_water.temperature + in_room.temperature), in_room.pressure
    viscosity = air.air_kinematic_viscosity(film, pressure)
    grashof = _grashof(over_water.density, in_room.density, viscosity, length)
    diffusivity = air.vapour_diffusivity(film, pressure)
    return _Films(
        heat=_nusselt(grashof, AIR_PRANDTL) * air.air_conductivity(film) / length,
        vapour=_nusselt(grashof, viscosity / diffusivity) * diffusivity / length,
        rising=np.asarray(grashof) > 0,
    )


# The laws surface_grashof and quiet_air_evaporation_flux, of air whose vapour is known already:
# each of them looks up the saturation pressures, which took a tenth of a heat loss.


def _grashof(at_surface: Num, in_room: Num, viscosity: Num, length: Num) -> Num:
    relative = (in_room - at_surface) / (0.5 * (in_room + at_surface))
    return GRAVITY * relative * power(length, 3) / viscosity**2


def _quiet(over_water: Num, in_room: Num) -> Num:
    return 5.0e-5 / _HOUR * (over_water - in_room)


def _nusselt(grashof: Num, prandtl: Num) -> Num:
    """Over a water surface; heavy air lies on it like air under a hot plate, never below 1."""
    rayleigh, rising = np.abs(grashof) * prandtl, np.asarray(grashof) > 0
    number = plate_nusselt_up(rayleigh, prandtl)
    if not rising.all():
        number = np.where(rising, number, plate_nusselt_down(rayleigh))
    return np.maximum(number, 1.0)


def _evaporation(films: _Films, over_water: air.MoistAir, in_room: air.MoistAir) -> Num:
    wetter = over_water.vapour_density - in_room.vapour_density
    quiet = _quiet(over_water.vapour_pressure, in_room.vapour_pressure)
    return np.maximum(np.where(films.rising, films.vapour * wetter, -np.inf), quiet)
