"""Constants of nature and of convention that several laws share."""

from __future__ import annotations

__all__ = [
    "AIR_PRANDTL",
    "GRAVITY",
    "NITRATE_MASS",
    "NITROGEN_MASS",
    "OXYGEN_MASS",
    "QUARTZ_DENSITY",
    "STANDARD_PRESSURE",
    "STEFAN_BOLTZMANN",
    "WARM_WATER_DENSITY",
    "WATER_SPECIFIC_HEAT",
    "ZERO_CELSIUS",
]

ZERO_CELSIUS = 273.15  # K, by definition
STANDARD_PRESSURE = 101325.0  # Pa, standard atmosphere, by definition
GRAVITY = 9.80665  # m/s**2, standard acceleration of gravity, exact (CGPM 1901)
STEFAN_BOLTZMANN = 5.670374419e-8  # W/m**2/K**4, CODATA 2018
AIR_PRANDTL = 0.707  # dry air at 25 degC, CoolProp
NITROGEN_MASS = 14.0067  # g/mol, IUPAC standard atomic weight
OXYGEN_MASS = 15.9994  # g/mol, IUPAC standard atomic weight
NITRATE_MASS = NITROGEN_MASS + 3 * OXYGEN_MASS  # g/mol
WARM_WATER_DENSITY = 997.0  # kg/m**3, fresh water at 25 degC
WATER_SPECIFIC_HEAT = 4181.3  # J/kg/K at 25 degC, IAPWS-95; +0.2 % at 15 degC
QUARTZ_DENSITY = 2650.0  # kg/m**3, quartz sand, recalled; most gravels within 3 %
