"""In which unit each kind of number is read, small ones in another than large ones."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

__all__ = ["INCHES", "KINDS", "LADDERS", "TIMES", "Ladder", "Rung"]


class Rung(NamedTuple):
    """One unit of a ladder and how it is labelled."""

    below: float
    """Used for magnitudes under this, in the core's unit."""
    unit: str
    label: str
    places: int = 1
    """Most decimals shown of a magnitude of 1 or more."""


class Ladder(NamedTuple):
    """The units of one kind of number, those for small numbers first."""

    metric: tuple[Rung, ...]
    us: tuple[Rung, ...]
    home: int = 0
    """The rung that shows a zero."""


_END = math.inf


def _same(*rungs: Rung, home: int = 0) -> Ladder:
    return Ladder(rungs, rungs, home)


LADDERS: Mapping[str, Ladder] = {
    "m": Ladder(
        (Rung(0.01, "mm", "mm"), Rung(1, "cm", "cm"), Rung(_END, "m", "m", 2)),
        (
            Rung(0.0015, "mm", "mm"),
            Rung(0.0254, "inch", "in", 2),
            Rung(3.048, "inch", "in", 2),
            Rung(_END, "foot", "ft"),
        ),
        home=1,
    ),
    "m**2": Ladder(
        (Rung(1, "cm**2", "cm²", 0), Rung(_END, "m**2", "m²", 2)),
        (Rung(0.09290304, "inch**2", "sq in"), Rung(_END, "foot**2", "sq ft", 2)),
    ),
    "m**3": Ladder(
        (Rung(0.001, "mL", "mL", 0), Rung(_END, "L", "L")),
        (Rung(_END, "gallon", "gal"),),
    ),
    "m**3/s": Ladder(
        (Rung(_END, "L/hour", "L/h", 0),),
        (Rung(_END, "gallon/hour", "gph", 0),),
    ),
    "kg": Ladder(
        (Rung(1e-4, "mg", "mg"), Rung(1, "g", "g"), Rung(_END, "kg", "kg")),
        # Portions of food are weighed in grams everywhere.
        (
            Rung(1e-4, "mg", "mg"),
            Rung(0.0283, "g", "g"),
            Rung(0.45359237, "ounce", "oz"),
            Rung(_END, "pound", "lb"),
        ),
        home=1,
    ),
    "kg/m**2": Ladder(
        (Rung(_END, "kg/m**2", "kg/m²"),),
        (Rung(_END, "pound/foot**2", "lb for each sq ft"),),
    ),
    "degC": Ladder((Rung(_END, "degC", "°C"),), (Rung(_END, "degF", "°F"),)),
    "K": Ladder((Rung(_END, "delta_degC", "°C"),), (Rung(_END, "delta_degF", "°F"),)),
    "W/K": Ladder((Rung(_END, "W/K", "W/°C"),), (Rung(_END, "W/degF", "W/°F"),)),
    "Pa": Ladder(
        (Rung(1e6, "kPa", "kPa", 2), Rung(_END, "MPa", "MPa")),
        (Rung(1e5, "psf", "psf", 0), Rung(_END, "psi", "psi", 0)),
    ),
    "N*m": _same(Rung(_END, "N*m", "N·m", 0)),
    "N/m": _same(Rung(_END, "N/m", "N/m", 0)),
    "kg/m**2/s": _same(
        Rung(0.01 / 86400, "g/m**2/day", "g/m² a day", 2),
        Rung(_END, "kg/m**2/day", "kg/m² a day", 2),
        home=1,
    ),
    "N": Ladder((Rung(_END, "N", "N", 0),), (Rung(_END, "lbf", "lbf", 0),)),
    "m**3/m": Ladder(
        (Rung(_END, "L/cm", "L for each cm", 2),),
        (Rung(_END, "gallon/inch", "gal for each in", 2),),
    ),
    "W": _same(Rung(_END, "W", "W")),
    "V": _same(Rung(_END, "V", "V", 0)),
    "A": _same(Rung(_END, "A", "A")),
    "J": _same(Rung(_END, "kWh", "kWh")),
    "W/m**2": _same(Rung(_END, "W/m**2", "W/m²")),
    "W/m**3": _same(Rung(_END, "W/L", "W for each L", 2)),
    "%": _same(Rung(_END, "%", "%", 0)),
    "1": _same(Rung(_END, "1", "", 2)),
    "deg": _same(Rung(_END, "deg", "°", 0)),
    "mg/L": _same(Rung(_END, "mg/L", "mg/L")),
    "mg/L/s": _same(Rung(_END, "mg/L/day", "mg/L a day")),
    "1/s": _same(Rung(_END, "1/hour", "times an hour")),
    "kg/s": _same(Rung(1e-4 / 86400, "mg/day", "mg a day"), Rung(_END, "g/day", "g a day"), home=1),
}

KINDS: Mapping[str, tuple[str, Ladder]] = {
    "share": ("1", _same(Rung(_END, "%", "%"))),
    "per_week": ("1", _same(Rung(_END, "1", "times a week"))),
    "price": ("1", _same(Rung(_END, "1", "", 2))),
    "count": ("1", _same(Rung(_END, "1", "", 0))),
    "water_surface": (
        "m**2",
        Ladder((Rung(_END, "m**2", "m²", 2),), (Rung(_END, "foot**2", "sq ft", 2),)),
    ),
    "dry_surface": (
        "m**2",
        Ladder((Rung(_END, "cm**2", "cm²", 0),), (Rung(_END, "inch**2", "sq in", 0),)),
    ),
    "water": (
        "m**3/s",
        Ladder(
            (Rung(1e-4 / 86400, "mL/day", "mL a day", 0), Rung(_END, "L/day", "L a day")),
            (
                Rung(4e-4 / 86400, "fluid_ounce/day", "fl oz a day"),
                Rung(_END, "gallon/day", "gal a day"),
            ),
        ),
    ),
}

INCHES = ("m", "m**2")
"""Units a British keeper with a tape in inches reads in them; gallons there are larger."""

_HOUR, _DAY, _YEAR = 3600.0, 86400.0, 31557600.0
TIMES: tuple[tuple[float, float, str, str], ...] = (
    (90, 1, "s", "s"),
    (90 * 60, 60, "min", "min"),
    (2 * _DAY, _HOUR, "h", "h"),
    (21 * _DAY, _DAY, "day", "days"),
    (12 * 7 * _DAY, 7 * _DAY, "week", "weeks"),
    (0.999 * _YEAR, _YEAR / 12, "month", "months"),
    (_END, _YEAR, "year", "years"),
)
"""For times: below which, of how many seconds, in the singular and the plural."""
