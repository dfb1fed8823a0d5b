"""How keepers write units, dimension by dimension, and which unit each spelling is.

The right-hand names are ours and are the only ones ever given to the registry. A name
that starts with ? is one of several units: `regional` settles the gallons, and the
grammar asks about degrees without a scale. A mass typed for a force is its weight.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

__all__ = ["SMALLER", "Unit", "label", "regional", "spellings", "system_of"]

Unit = str
"""A name `interview.base.units.convert` knows."""

_LENGTHS = {
    "m": "m, metre, metres, meter, meters, mtr, mtrs",
    "cm": "cm, cms, centimetre, centimetres, centimeter, centimeters",
    "mm": "mm, mms, millimetre, millimetres, millimeter, millimeters",
    "um": "um, micron, microns",
    "nm": "nm, nanometre, nanometres, nanometer, nanometers",
    "inch": 'in, inch, inches, ins, inchs, "',
    "foot": "ft, foot, feet, foots, '",
    "yard": "yd, yds, yard, yards",
}
_VOLUMES = {
    "L": "l, lt, ltr, ltrs, litre, litres, liter, liters",
    "mL": "ml, millilitre, millilitres, milliliter, milliliters, cc, cm3, cubic centimetres",
    "m**3": "m3, cubic metre, cubic metres, cubic meter, cubic meters",
    "foot**3": "ft3, cu ft, cubic foot, cubic feet",
    "inch**3": "in3, cu in, cubic inch, cubic inches",
    "gallon": "us gal, us gals, us gallon, us gallons, u s gal, u s gallon, u s gallons, usg",
    "imperial_gallon": (
        "imperial gallon, imperial gallons, imperial gal, imp gal, imp gallon, imp gallons, "
        "uk gal, uk gals, uk gallon, uk gallons"
    ),
    "?gallon": "gal, gals, gallon, gallons, galon, galons, gallen, gallens",
    "?quart": "qt, qts, quart, quarts",
    "?pint": "pint, pints",
    "?fluid_ounce": "fl oz, floz, fluid ounce, fluid ounces, oz, ounce, ounces",
    "fluid_ounce": "us fl oz",
    "imperial_fluid_ounce": "imp fl oz, uk fl oz",
    "quart": "us qt, us quart, us quarts",
    "imperial_quart": "imp qt, uk quart, uk quarts",
    "pint": "us pint, us pints",
    "imperial_pint": "imp pint, uk pint, uk pints",
}
_TIMES = {
    "second": "s, sec, secs, second, seconds",
    "minute": "min, mins, minute, minutes",
    "hour": "h, hr, hrs, hour, hours",
    "day": "d, day, days",
    "week": "wk, wks, week, weeks, w",
    "fortnight": "fortnight, fortnights",
    "month": "mo, mos, mth, mths, month, months",
    "year": "y, yr, yrs, year, years",
}
_MASSES = {
    "kg": "kg, kgs, kilo, kilos, kilogram, kilograms, kilogramme, kilogrammes",
    "g": "g, gm, gms, gr, gram, grams, gramme, grammes",
    "mg": "mg, milligram, milligrams, milligramme, milligrammes",
    "pound": "lb, lbs, pound, pounds",
    "ounce": "oz, ounce, ounces",
    "stone": "st, stone, stones",
}
_DEGREES = ("", "°", "deg", "deg ", "degs ", "degree ", "degrees ")
_PER = ("/", " per ", " a ", " an ", " each ", " every ")


def _table(units: Mapping[Unit, str]) -> dict[str, Unit]:
    return {spelling: unit for unit, listed in units.items() for spelling in listed.split(", ")}


def _rates(tops: Mapping[str, Unit], bottoms: Iterable[str]) -> dict[str, Unit]:
    """Every "top per time" of some spellings: l/h, gallons an hour."""
    times = {text: unit for text, unit in _table(_TIMES).items() if unit in bottoms}
    return {
        f"{top}{per}{time}".strip(): f"{unit}/{time_unit}"
        for top, unit in tops.items()
        for time, time_unit in times.items()
        for per in _PER
    }


def _temperatures(celsius: Unit, fahrenheit: Unit, kelvin: Unit) -> dict[str, Unit]:
    scales = {"c": celsius, "f": fahrenheit, "celsius": celsius, "fahrenheit": fahrenheit}
    scales |= {"centigrade": celsius, "farenheit": fahrenheit, "celcius": celsius}
    degrees = {f"{degree}{scale}": unit for scale, unit in scales.items() for degree in _DEGREES}
    unsettled = dict.fromkeys(("°", "deg", "degs", "degree", "degrees"), "?degree")
    return degrees | unsettled | {"k": kelvin, "kelvin": kelvin, "kelvins": kelvin}


def _flows() -> dict[str, Unit]:
    short = {"lph": "L/hour", "gph": "?gallon/hour", "lpm": "L/minute", "gpm": "?gallon/minute"}
    us = {"us gph": "gallon/hour", "imp gph": "imperial_gallon/hour"}
    uk = {"imperial gph": "imperial_gallon/hour", "uk gph": "imperial_gallon/hour"}
    return short | us | uk | _rates(_table(_VOLUMES), ("second", "minute", "hour", "day"))


def _concentrations() -> dict[str, Unit]:
    litres = [text for text, unit in _table(_VOLUMES).items() if unit == "L"]
    tops = {text: unit for text, unit in _table(_MASSES).items() if unit in ("mg", "g")}
    tops |= {"ug": "ug", "micrograms": "ug"}
    found = {
        f"{top}{per}{litre}": f"{unit}/L"
        for top, unit in tops.items()
        for litre in litres
        for per in _PER
    }
    return found | {"ppm": "mg/L", "ppb": "ug/L", "parts per million": "mg/L"}


_PERCENT = "%, percent, per cent, pct, %rh, %humidity, percent humidity"

_PLAIN: Mapping[str, Mapping[Unit, str]] = {
    "length": _LENGTHS,
    "volume": _VOLUMES,
    "mass": _MASSES,
    "duration": _TIMES,
    "area": {
        "cm**2": "cm2, sq cm, sqcm, square centimetres, square centimeters, square cm",
        "mm**2": "mm2, sq mm, square mm, square millimetres, square millimeters",
        "m**2": "m2, sq m, sqm, square metre, square metres, square meter, square meters, square m",
        "foot**2": "ft2, sq ft, sqft, square foot, square feet, square ft",
        "inch**2": "in2, sq in, sqin, square inch, square inches, square in",
    },
    "power": {"W": "w, watt, watts", "kW": "kw, kilowatt, kilowatts"},
    "voltage": {"V": "v, volt, volts, vac, v ac, volts ac"},
    "current": {
        "A": "a, amp, amps, ampere, amperes",
        "mA": "ma, milliamp, milliamps, milliampere, milliamperes",
    },
    "share": {"%": _PERCENT},
    "percent": {"%": _PERCENT},
    "angle": {"deg": "°, deg, degs, degree, degrees", "radian": "rad, radian, radians"},
    "number": {"%": _PERCENT},
    "rating": {"1": "ph, uvi, uv index, uv"},
    "count": {
        "1": (
            "of them, x, heater, heaters, filter, filters, turtle, turtles, animal, animals, "
            "lamp, lamps, fixings, fixing, chains, pieces, pcs"
        )
    },
    "per_week": {},
    "pressure": {
        "Pa": "pa, pascal, pascals",
        "hPa": "hpa, mbar, millibar, millibars",
        "kPa": "kpa, kn/m2",
        "MPa": "mpa, n/mm2",
        "bar": "bar, bars",
        "psi": "psi",
        "psf": "psf, lb/ft2, lb/sq ft, lbs per sq ft, pounds per square foot",
        "atm": "atm",
        "mmHg": "mmhg",
        "inHg": "inhg",
    },
    "energy": {
        "J": "j, joule, joules",
        "kJ": "kj",
        "MJ": "mj",
        "kWh": "kwh, kilowatt hours, kilowatt hour",
        "Wh": "wh, watt hours",
    },
    "force": {
        **{"N": "n, newton, newtons", "kN": "kn, kilonewton, kilonewtons"},
        **{"kgf": "kgf", "lbf": "lbf, pound force, pounds force"},
        **{"?kgf": _MASSES["kg"], "?lbf": _MASSES["pound"]},
    },
    "density": {"kg/m**3": "kg/m3, kg per m3", "g/cm**3": "g/cm3, g/cc, g/ml, kg/l"},
    "irradiance": {
        "W/m**2": "w/m2",
        "mW/m**2": "mw/m2",
        "mW/cm**2": "mw/cm2",
        "uW/cm**2": "uw/cm2",
    },
    "loss": {"W/K": "w/k, w/°c, w/c", "W/degF": "w/°f, w/f"},
    "heat_capacity": {"J/K": "j/k, j/°c", "kJ/K": "kj/k, kj/°c", "MJ/K": "mj/k"},
}

_PRICES = {
    "cent": "cent, cents, c, ct, cts, ¢, p, pence",
    "1": "$, £, €, dollar, dollars, euro, euros, eur, usd, gbp, aud, cad, pound, pounds",
}


def _prices() -> dict[str, Unit]:
    """Money, alone or for each kilowatt-hour; a hundredth is written as a percent."""
    money = {text: "%" if unit == "cent" else unit for text, unit in _table(_PRICES).items()}
    money[""] = "1"
    ends = ("", "/kwh", " per kwh", " a kwh", "/unit", " per unit", " a unit")
    found = {f"{text}{end}".strip(): unit for text, unit in money.items() for end in ends}
    return {text: unit for text, unit in found.items() if text}


@cache
def spellings(dimension: str) -> Mapping[str, Unit]:
    """Every spelling of the units of one dimension."""
    match dimension:
        case "temperature":
            return _temperatures("degC", "degF", "K")
        case "temperature_difference":
            return _temperatures("delta_degC", "delta_degF", "K")
        case "flow":
            return _flows()
        case "concentration":
            return _concentrations()
        case "concentration_rate":
            tops = {"mg/l": "mg/L", "ppm": "mg/L"}
            return _rates(tops, ("second", "hour", "day", "week", "month"))
        case "mass_rate":
            masses = _table({unit: _MASSES[unit] for unit in ("mg", "g", "kg")})
            return _rates(masses, ("second", "hour", "day", "week"))
        case "rate":
            return _rates({"": "1", "times": "1", "time": "1"}, ("second", "minute", "hour", "day"))
        case "price":
            return _prices()
    return _table(_PLAIN[dimension])


_IMPERIAL_REGIONS = frozenset({"united_kingdom", "australia"})


def regional(unit: Unit, region: str) -> Unit:
    """A gallon, quart, pint or fluid ounce as the region means it, a mass as its weight."""
    if not unit.startswith("?"):
        return unit
    if unit in ("?kgf", "?lbf"):
        return unit[1:]
    return ("imperial_" if region in _IMPERIAL_REGIONS else "") + unit[1:]


SMALLER: Mapping[Unit, Unit] = {
    "foot": "inch",
    "m": "cm",
    "pound": "ounce",
    "stone": "pound",
    "hour": "minute",
    "year": "month",
}
"""The unit meant by a second number without one: 4 ft 2."""

_LABELS: Mapping[Unit, str] = {
    "inch": "in",
    "foot": "ft",
    "yard": "yd",
    "gallon": "US gal",
    "imperial_gallon": "imperial gal",
    "fluid_ounce": "US fl oz",
    "imperial_fluid_ounce": "imp fl oz",
    "quart": "US qt",
    "imperial_quart": "imp qt",
    "pint": "US pint",
    "imperial_pint": "UK pint",
    "gallon/hour": "US gph",
    "imperial_gallon/hour": "imp gph",
    "pound": "lb",
    "ounce": "oz",
    "stone": "st",
    "degC": "°C",
    "degF": "°F",
    "delta_degC": "°C",
    "delta_degF": "°F",
    "m**2": "m²",
    "cm**2": "cm²",
    "mm**2": "mm²",
    "foot**2": "sq ft",
    "inch**2": "sq in",
    "m**3": "m³",
    "foot**3": "cu ft",
    "inch**3": "cu in",
    "deg": "°",
    "second": "s",
    "minute": "min",
    "hour": "h",
    "radian": "rad",
    "1": "",
}


def label(unit: Unit) -> str:
    """A unit's short written form, which reads back: in, US gal, W/°F, per hour."""
    if unit in _LABELS or "/" not in unit:
        return _LABELS.get(unit, unit)
    top, _, bottom = unit.partition("/")
    return f"per {label(bottom)}" if top == "1" else f"{label(top)}/{label(bottom)}"


_US = frozenset(
    {"inch", "foot", "yard", "gallon", "fluid_ounce", "quart", "pint", "pound", "ounce"}
) | {
    "degF",
    "delta_degF",
    "foot**2",
    "inch**2",
    "foot**3",
    "inch**3",
    "gallon/hour",
    "psf",
    "psi",
    "lbf",
}
_IMPERIAL = frozenset({"stone"})
_NEUTRAL = frozenset(
    {"second", "minute", "hour", "day", "week", "fortnight", "month", "year", "1", "%", "deg"}
)


def system_of(unit: Unit) -> str:
    """The system a unit belongs to: us, imperial, metric, or any."""
    if unit in _NEUTRAL:
        return "any"
    if unit in _US:
        return "us"
    return "imperial" if unit in _IMPERIAL or unit.startswith("imperial") else "metric"
