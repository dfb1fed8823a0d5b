"""Constants of nature and of convention that several laws share."""

from __future__ import annotations

__all__ = [
    "AIR_PRANDTL",
    "GRAVITY",
    "NITRATE_MASS",
    "NITROGEN_MASS",
    "QUARTZ_DENSITY",
    "STANDARD_PRESSURE",
    "STEFAN_BOLTZMANN",
    "WARM_WATER_DENSITY",
    "ZERO_CELSIUS",
]

ZERO_CELSIUS = 273.15  # K, by definition
STANDARD_PRESSURE = 101325.0  # Pa, standard atmosphere, by definition
GRAVITY = 9.80665  # m/s**2, standard acceleration of gravity, exact (CGPM 1901)
STEFAN_BOLTZMANN = 5.670374419e-8  # W/m**2/K**4, CODATA 2018
AIR_PRANDTL = 0.707  # dry air at 25 degC, CoolProp
NITROGEN_MASS = 14.0067  # g/mol, IUPAC standard atomic weight
NITRATE_MASS = NITROGEN_MASS + 3 * 15.9994  # g/mol, IUPAC standard atomic weights
WARM_WATER_DENSITY = 997.0  # kg/m**3, fresh water at 25 degC
QUARTZ_DENSITY = 2650.0  # kg/m**3, quartz sand, recalled; most gravels within 3 %
