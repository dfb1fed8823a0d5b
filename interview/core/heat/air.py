"""Moist air: saturation, humidity, densities and transport properties.

Two densities of the same air are kept apart on purpose. Buoyancy over a water
surface follows the density of the moist mixture; Shah's evaporation relation is
written in the mass of *dry* air in each volume of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from interview.core.constants import STANDARD_PRESSURE, ZERO_CELSIUS
from interview.core.numeric import Num, floats, power

__all__ = [
    "MoistAir",
    "air_conductivity",
    "air_kinematic_viscosity",
    "dry_air_density",
    "humidity_ratio",
    "latent_heat",
    "moist_air_density",
    "saturation_pressure",
    "vapour_density",
    "vapour_diffusivity",
    "vapour_pressure",
]
LAWS = __all__

_GAS_DRY = 287.055  # J/kg/K; 8.314462618 / 0.028964
_GAS_VAPOUR = 461.523  # J/kg/K; 8.314462618 / 0.018015268, molar mass of IAPWS-95
_CRITICAL_TEMPERATURE, _CRITICAL_PRESSURE = 647.096, 22.064e6  # K, Pa; Wagner & Pruss 1993


@dataclass(frozen=True)
class MoistAir:
    """Air whose vapour is worked out once for all that follows from it; the laws below say why."""

    temperature: Num  # degC
    vapour_pressure: Num  # Pa
    pressure: Num  # Pa

    @classmethod
    def of(cls, temperature: Num, humidity: Num, pressure: Num = STANDARD_PRESSURE) -> MoistAir:
        """The air of a temperature [degC], a relative humidity [%] and a pressure [Pa]."""
        return cls(temperature, vapour_pressure(temperature, humidity), pressure)

    @cached_property
    def vapour_density(self) -> Num:
        """Mass of its vapour in each volume [kg/m**3]."""
        return self.vapour_pressure / (_GAS_VAPOUR * (self.temperature + ZERO_CELSIUS))

    @property
    def density(self) -> Num:
        """Mass of air and vapour together in each volume [kg/m**3]."""
        kelvin = self.temperature + ZERO_CELSIUS
        return (self.pressure - self.vapour_pressure) / (_GAS_DRY * kelvin) + self.vapour_density


def saturation_pressure(air_temperature: Num) -> Num:
    """Vapour pressure of air saturated over liquid water [Pa].

    Within 0.01 % of the full steam tables up to 100 degC.

    Args:
        air_temperature [degC, 0 to 370]: of the air, or of the water surface it touches

    Source: wagner_pruss_1993, saturation equation, also IAPWS SR1-86 [published]
    """
    kelvin = floats(air_temperature) + ZERO_CELSIUS
    x = 1.0 - kelvin / _CRITICAL_TEMPERATURE
    half = np.sqrt(x)
    cubed = x * x * x
    series = (
        -7.85951783 * x
        + 1.84408259 * x * half
        - 11.7866497 * cubed
        + 22.6807411 * cubed * half
        - 15.9618719 * cubed * x
        + 1.80122502 * cubed * cubed * x * half
    )
    return _CRITICAL_PRESSURE * np.exp(_CRITICAL_TEMPERATURE / kelvin * series)


def vapour_pressure(air_temperature: Num, room_humidity: Num) -> Num:
    """Partial pressure of the water vapour in air [Pa].

    Args:
        air_temperature [degC, 0 to 370]

    Source: physics, definition of relative humidity [published]
    """
    return 0.01 * room_humidity * saturation_pressure(air_temperature)


def humidity_ratio(
    air_temperature: Num, room_humidity: Num, air_pressure: Num = STANDARD_PRESSURE
) -> Num:
    """Mass of vapour carried by each mass of dry air [1].

    Ideal gases; the enhancement factor left out is about 0.45 % at sea level.

    Args:
        air_temperature [degC, 0 to 95]

    Source: ashrae_2017, chapter 1, eq. 20 [standard]
    """
    vapour = vapour_pressure(air_temperature, room_humidity)
    return _GAS_DRY / _GAS_VAPOUR * vapour / (air_pressure - vapour)


def vapour_density(air_temperature: Num, room_humidity: Num) -> Num:
    """Mass of water vapour in each volume of air [kg/m**3].

    Args:
        air_temperature [degC, 0 to 370]

    Source: physics, ideal gas law [published]
    """
    kelvin = air_temperature + ZERO_CELSIUS
    return vapour_pressure(air_temperature, room_humidity) / (_GAS_VAPOUR * kelvin)


def dry_air_density(
    air_temperature: Num, room_humidity: Num, air_pressure: Num = STANDARD_PRESSURE
) -> Num:
    """Mass of dry air in each volume of moist air [kg/m**3].

    Args:
        air_temperature [degC, 0 to 95]

    Source: physics, ideal gas law on the partial pressure of the dry air [published]
    """
    vapour = vapour_pressure(air_temperature, room_humidity)
    return (air_pressure - vapour) / (_GAS_DRY * (air_temperature + ZERO_CELSIUS))


def moist_air_density(
    air_temperature: Num, room_humidity: Num, air_pressure: Num = STANDARD_PRESSURE
) -> Num:
    """Mass of air and vapour together in each volume: what buoyancy follows [kg/m**3].

    Args:
        air_temperature [degC, 0 to 95]

    Source: physics, ideal gas mixture [published]
    """
    dry = dry_air_density(air_temperature, room_humidity, air_pressure)
    return dry + vapour_density(air_temperature, room_humidity)


def latent_heat(water_temperature: Num) -> Num:
    """Heat taken by each mass of water that evaporates [J/kg].

    A straight line, within 0.03 % of the steam tables from 10 to 50 degC.

    Args:
        water_temperature: of the evaporating surface

    Source: coolprop, line fitted to its latent heat of water [computed]
    """
    return 2.5009e6 - 2365.0 * water_temperature


def air_kinematic_viscosity(air_temperature: Num, air_pressure: Num = STANDARD_PRESSURE) -> Num:
    """Kinematic viscosity of dry air [m**2/s].

    Args:
        air_temperature [degC, -50 to 300]: film temperature

    Source: us_standard_atmosphere_1976, dynamic viscosity after Sutherland, eq. 51 [standard]
    """
    kelvin = floats(air_temperature) + ZERO_CELSIUS
    dynamic = 1.458e-6 * kelvin * np.sqrt(kelvin) / (kelvin + 110.4)
    return dynamic * _GAS_DRY * kelvin / air_pressure


def air_conductivity(air_temperature: Num) -> Num:
    """Thermal conductivity of dry air [W/m/K].

    Args:
        air_temperature [degC, -50 to 300]: film temperature

    Source: coolprop, power law within 0.6 % of it at 15 to 35 degC [computed]
    """
    kelvin = floats(air_temperature) + ZERO_CELSIUS
    return 0.02624 * power(kelvin / 300.0, 0.8646)


def vapour_diffusivity(air_temperature: Num, air_pressure: Num = STANDARD_PRESSURE) -> Num:
    """Diffusion coefficient of water vapour in air [m**2/s].

    Args:
        air_temperature [degC, 0 to 175]: film temperature

    Source: cengel_ghajar_2015, eq. 14-15 [published]
    """
    kelvin = floats(air_temperature) + ZERO_CELSIUS
    return 1.87e-10 * power(kelvin, 2.072) * (STANDARD_PRESSURE / air_pressure)
