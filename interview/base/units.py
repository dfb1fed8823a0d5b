"""The one pint registry and exact conversions.

The units that the program names are converted by factors shipped beside it, which pint
made. Pint itself is imported for any other unit only, never on import. Its registry works
in exact fractions, so 33.5 cm becomes the double nearest to 0.335 m and no neighbour of it.
Text from a keeper never comes here; callers pass unit names they own.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction
from functools import cache, lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import pint

from interview.base.unit_factors import line_between

__all__ = ["CORE_UNITS", "convert", "registry", "system_for"]

CORE_UNITS: Mapping[str, str] = {
    "length": "m",
    "temperature": "degC",
    "temperature_difference": "K",
    "area": "m**2",
    "volume": "m**3",
    "flow": "m**3/s",
    "power": "W",
    "voltage": "V",
    "current": "A",
    "mass": "kg",
    "duration": "s",
    "share": "1",
    "percent": "%",
    "concentration": "mg/L",
    "angle": "deg",
    "number": "1",
    "rating": "1",
    "price": "1",
    "count": "1",
    "per_week": "1",
    "pressure": "Pa",
    "energy": "J",
    "force": "N",
    "density": "kg/m**3",
    "irradiance": "W/m**2",
    "loss": "W/K",
    "heat_capacity": "J/K",
    "concentration_rate": "mg/L/s",
    "mass_rate": "kg/s",
    "rate": "1/s",
}
"""Dimension name to the core's unit for it."""

_PINT_NAMES: Mapping[str, str] = {
    "1": "dimensionless",
    "%": "percent",
    "deg": "degree",
    "psf": "lbf/ft**2",
    "W/degF": "W/delta_degF",
    "W/degC": "W/delta_degC",
}

_SYSTEMS: Mapping[str, str] = {"north_america": "us", "united_kingdom": "uk"}


def system_for(region: str) -> str:
    """The system of units a keeper of this region expects: metric, us or uk."""
    return _SYSTEMS.get(region, "metric")


@cache
def registry() -> pint.UnitRegistry[Fraction]:
    """The one registry, made on first use."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


@cache
def _line(from_unit: str, to_unit: str) -> tuple[Fraction, Fraction]:
    """Offset and slope of a conversion: temperatures have an offset, nothing else has."""
    told = line_between(from_unit, to_unit)
    if told is not None:
        return told
    source = _PINT_NAMES.get(from_unit, from_unit)
    target = _PINT_NAMES.get(to_unit, to_unit)
    quantity = registry().Quantity
    offset = Fraction(quantity(Fraction(0), source).to(target).magnitude)
    return offset, Fraction(quantity(Fraction(1), source).to(target).magnitude) - offset


def convert(value: float | Fraction, from_unit: str, to_unit: str) -> float:
    """`value` of one unit in another, correctly rounded; degC, degF and K are readings.

    A difference of temperatures is delta_degC or delta_degF.
    """
    if from_unit == to_unit:
        return float(value)
    return _converted(value if isinstance(value, Fraction) else float(value), from_unit, to_unit)


@lru_cache(maxsize=4096)  # nineteen in twenty of an audit were asked for before
def _converted(value: float | Fraction, from_unit: str, to_unit: str) -> float:
    offset, slope = _line(from_unit, to_unit)
    if not isinstance(value, Fraction) and not math.isfinite(value):
        return value * float(slope)
    return float(Fraction(value) * slope + offset)
