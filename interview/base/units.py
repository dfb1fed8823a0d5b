"""The one pint registry, exact conversions, and how a quantity is shown to this keeper.

Pint is imported on the first conversion, never on import: the first question must
stand on the screen before anything heavy is loaded. The registry works in exact
fractions, so 33.5 cm becomes the double nearest to 0.335 m and no neighbour of it.
Text from a keeper never comes here; callers pass unit names they own.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import pint

__all__ = [
    "CORE_UNITS", "convert", "magnitude", "registry", "system_for", "to_show", "with_label",
]  # fmt: skip

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
    offset, slope = _line(from_unit, to_unit)
    if not isinstance(value, Fraction) and not math.isfinite(value):
        return float(value) * float(slope)
    exact = value if isinstance(value, Fraction) else Fraction(float(value))
    return float(exact * slope + offset)


class _Rung(NamedTuple):
    below: float
    """Used for magnitudes under this, in the core's unit."""
    unit: str
    label: str
    places: int = 1
    """Most decimals shown of a magnitude of 1 or more."""


class _Ladder(NamedTuple):
    metric: tuple[_Rung, ...]
    us: tuple[_Rung, ...]
    home: int = 0
    """The rung that shows a zero."""


_END = math.inf


def _same(*rungs: _Rung, home: int = 0) -> _Ladder:
    return _Ladder(rungs, rungs, home)


_LADDERS: Mapping[str, _Ladder] = {
    "m": _Ladder(
        (_Rung(0.01, "mm", "mm"), _Rung(1, "cm", "cm"), _Rung(_END, "m", "m", 2)),
        (_Rung(0.0254, "inch", "in", 2), _Rung(3.048, "inch", "in", 2), _Rung(_END, "foot", "ft")),
        home=1,
    ),
    "m**2": _Ladder(
        (_Rung(1, "cm**2", "cm²", 0), _Rung(_END, "m**2", "m²", 2)),
        (_Rung(0.09290304, "inch**2", "sq in"), _Rung(_END, "foot**2", "sq ft", 2)),
    ),
    "m**3": _Ladder(
        (_Rung(0.001, "mL", "mL", 0), _Rung(_END, "L", "L")),
        (_Rung(_END, "gallon", "gal"),),
    ),
    "m**3/s": _Ladder(
        (_Rung(_END, "L/hour", "L/h", 0),),
        (_Rung(_END, "gallon/hour", "gph", 0),),
    ),
    "kg": _Ladder(
        (_Rung(0.001, "mg", "mg"), _Rung(1, "g", "g"), _Rung(_END, "kg", "kg")),
        # Portions of food are weighed in grams everywhere.
        (
            _Rung(0.001, "mg", "mg"),
            _Rung(0.0283, "g", "g"),
            _Rung(0.45359237, "ounce", "oz"),
            _Rung(_END, "pound", "lb"),
        ),
        home=1,
    ),
    "degC": _Ladder((_Rung(_END, "degC", "°C"),), (_Rung(_END, "degF", "°F"),)),
    "K": _Ladder((_Rung(_END, "delta_degC", "°C"),), (_Rung(_END, "delta_degF", "°F"),)),
    "W/K": _Ladder((_Rung(_END, "W/K", "W/°C"),), (_Rung(_END, "W/degF", "W/°F"),)),
    "Pa": _Ladder(
        (_Rung(1e6, "kPa", "kPa", 2), _Rung(_END, "MPa", "MPa")),
        (_Rung(1e5, "psf", "psf", 0), _Rung(_END, "psi", "psi", 0)),
    ),
    "N*m": _same(_Rung(_END, "N*m", "N·m", 0)),
    "N/m": _same(_Rung(_END, "N/m", "N/m", 0)),
    "kg/m**2/s": _same(
        _Rung(0.01 / 86400, "g/m**2/day", "g/m² a day", 2),
        _Rung(_END, "kg/m**2/day", "kg/m² a day", 2),
        home=1,
    ),
    "N": _Ladder((_Rung(_END, "N", "N", 0),), (_Rung(_END, "lbf", "lbf", 0),)),
    "m**3/m": _Ladder(
        (_Rung(_END, "L/cm", "L for each cm", 2),),
        (_Rung(_END, "gallon/inch", "gal for each in", 2),),
    ),
    "W": _same(_Rung(_END, "W", "W")),
    "V": _same(_Rung(_END, "V", "V", 0)),
    "A": _same(_Rung(_END, "A", "A")),
    "J": _same(_Rung(_END, "kWh", "kWh")),
    "W/m**2": _same(_Rung(_END, "W/m**2", "W/m²")),
    "W/m**3": _same(_Rung(_END, "W/L", "W for each L", 2)),
    "%": _same(_Rung(_END, "%", "%", 0)),
    "1": _same(_Rung(_END, "1", "", 2)),
    "deg": _same(_Rung(_END, "deg", "°", 0)),
    "mg/L": _same(_Rung(_END, "mg/L", "mg/L")),
    "mg/L/s": _same(_Rung(_END, "mg/L/day", "mg/L a day")),
    "1/s": _same(_Rung(_END, "1/hour", "times an hour")),
    "kg/s": _same(
        _Rung(1e-4 / 86400, "mg/day", "mg a day"), _Rung(_END, "g/day", "g a day"), home=1
    ),
}

_KINDS: Mapping[str, tuple[str, _Ladder]] = {
    "share": ("1", _same(_Rung(_END, "%", "%"))),
    "per_week": ("1", _same(_Rung(_END, "1", "times a week"))),
    "price": ("1", _same(_Rung(_END, "1", "", 2))),
    "count": ("1", _same(_Rung(_END, "1", "", 0))),
    "water": (
        "m**3/s",
        _Ladder(
            (_Rung(_END, "L/day", "L a day"),),
            (_Rung(_END, "gallon/day", "gal a day"),),
        ),
    ),
}

_INCHES = ("m", "m**2")
"""Units a British keeper with a tape in inches reads in them; gallons there are larger."""

_WATER_DENSITY = 1000.0
"""kg/m**3; fresh water in a tank is within half a percent, finer than what is shown."""

_HOUR, _DAY, _YEAR = 3600.0, 86400.0, 31557600.0
_TIMES: tuple[tuple[float, float, str, str], ...] = (
    (90, 1, "s", "s"),
    (90 * 60, 60, "min", "min"),
    (2 * _DAY, _HOUR, "h", "h"),
    (21 * _DAY, _DAY, "day", "days"),
    (12 * 7 * _DAY, 7 * _DAY, "week", "weeks"),
    (0.999 * _YEAR, _YEAR / 12, "month", "months"),
    (_END, _YEAR, "year", "years"),
)


def _plain(value: float, places: int, digits: int | None) -> str:
    """Decimal text: three figures (two under 1), no more than `places` decimals from 1 up."""
    if value == 0:
        return "0"
    power = math.floor(math.log10(abs(value)))
    figures = digits if digits is not None else (3 if power >= 0 else 2)
    decimals = max(0, figures - 1 - power)
    if digits is None and power >= 0:
        decimals = min(decimals, places)
    text = f"{value:.{min(decimals, 15)}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def with_label(number: str, label: str) -> str:
    """A number with its unit's label, a space between them unless it is a sign: 30%, 18.5 in."""
    return number + label if label in ("", "%", "°") else f"{number} {label}"


def _show_time(value: float, digits: int | None) -> str:
    if math.isinf(value):
        return "never"
    size, one, many = next(rung[1:] for rung in _TIMES if abs(value) < rung[0])
    figures = 2 if digits is None else digits
    amount = value / size
    whole = abs(amount) >= 10 and digits is None
    number = str(round(amount)) if whole else _plain(amount, 1, figures)
    return f"{number} {one if number == '1' else many}"


def _rung_for(value: float, rungs: tuple[_Rung, ...], home: int) -> _Rung:
    if value == 0:
        return rungs[min(home, len(rungs) - 1)]
    return next(rung for rung in rungs if abs(value) < rung.below)


def _ladder_for(unit: str, kind: str | None) -> _Ladder | None:
    if kind is not None and kind in _KINDS and _KINDS[kind][0] == unit:
        return _KINDS[kind][1]
    return _LADDERS.get(unit)


def to_show(
    value: float, unit: str, system: str, kind: str | None = None, digits: int | None = None
) -> str:
    """A number in a core unit as this keeper reads it: 0.47 m is 47 cm, or 18.5 in.

    Args:
        value: the number, in `unit`
        unit: one of the core's units; one without a shown form keeps its own name
        system: metric, us, uk (shows metric) or uk_inches (metric but for lengths)
        kind: what the number is when the unit alone doesn't say: share, per_week,
            price or count for unit 1, water for kg/s of it
        digits: significant digits, in place of the usual choice
    """
    if math.isnan(value):
        return "not known"
    if unit == "s":
        return _show_time(value, digits)
    if math.isinf(value):
        return "no limit"
    found = _on_ladder(value, unit, system, kind)
    if found is None:
        return f"{value:.{3 if digits is None else digits}g} {unit}"
    shown, rung = found
    return with_label(_plain(shown, rung.places, digits), rung.label)


def _on_ladder(
    value: float, unit: str, system: str, kind: str | None
) -> tuple[float, _Rung] | None:
    """The number on the rung that shows it; None for a unit without a ladder."""
    if kind == "water" and unit == "kg/s":
        value, unit = value / _WATER_DENSITY, "m**3/s"
    ladder = _ladder_for(unit, kind)
    if ladder is None:
        return None
    american = system == "us" or (system == "uk_inches" and unit in _INCHES)
    rung = _rung_for(value, ladder.us if american else ladder.metric, ladder.home)
    return convert(value, unit, rung.unit), rung


def magnitude(value: float, unit: str, system: str, kind: str | None = None) -> tuple[float, str]:
    """The unrounded number and the label with which `to_show` shows it; times in the plural."""
    if unit == "s":
        size, _, many = next(rung[1:] for rung in _TIMES if abs(value) < rung[0])
        return value / size, many
    found = _on_ladder(value, unit, system, kind)
    return (found[0], found[1].label) if found else (value, unit)
