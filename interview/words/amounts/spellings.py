"""How keepers write units, dimension by dimension, and which unit each spelling is.

The names are ours and are the only ones ever given to the registry. A name that starts
with ? is one of several units: `regional` settles the gallons, and the grammar asks about
degrees without a scale. A mass typed for a force is its weight.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from interview.words.lexicon.files import known_words, spelled, units, words

__all__ = ["TOLD", "Unit", "dimension_of", "label", "regional", "smaller", "spellings", "system_of"]

Unit = str
"""A name `interview.base.units.convert` knows."""

TOLD = "told"
"""Any dimension a story tells amounts of; what are rather words there are no units."""
_DEGREES = ("", "°", "deg", "deg ", "degs ", "degree ", "degrees ")
_PER = ("/", " per ", " a ", " an ", " each ", " every ", " by ")
_PRICED = ("", "/kwh", " per kwh", " a kwh", "/unit", " per unit", " a unit")
_LIKE_A_SHARE = ("percent", "number")
_WEIGHED = {"kg": "?kgf", "pound": "?lbf"}
"""Units of mass, and the force that is meant by them."""
_IMPERIAL_REGIONS = frozenset({"united_kingdom", "australia"})


def _table(dimension: str, only: Iterable[Unit] = ()) -> dict[str, Unit]:
    listed = spelled(dimension)
    return {text: unit for unit in only or listed for text in listed[unit]}


def _rates(tops: Mapping[str, Unit], bottoms: Iterable[Unit]) -> dict[str, Unit]:
    """Every "top per time" of some spellings: l/h, gallons an hour."""
    return {
        f"{top}{per}{time}".strip(): f"{unit}/{time_unit}"
        for top, unit in tops.items()
        for time, time_unit in _table("duration", bottoms).items()
        for per in _PER
    }


def _temperatures(celsius: Unit, fahrenheit: Unit, kelvin: Unit) -> dict[str, Unit]:
    scales = {"c": celsius, "f": fahrenheit, "celsius": celsius, "fahrenheit": fahrenheit}
    scales |= {"centigrade": celsius, "farenheit": fahrenheit, "celcius": celsius}
    degrees = {f"{degree}{scale}": unit for scale, unit in scales.items() for degree in _DEGREES}
    unsettled = dict.fromkeys(("°", "deg", "degs", "degree", "degrees"), "?degree")
    signs = {"℃": celsius, "℉": fahrenheit}
    return degrees | unsettled | signs | {"k": kelvin, "kelvin": kelvin, "kelvins": kelvin}


def _flows() -> dict[str, Unit]:
    short = {"lph": "L/hour", "gph": "?gallon/hour", "lpm": "L/minute", "gpm": "?gallon/minute"}
    us = {"us gph": "gallon/hour", "imp gph": "imperial_gallon/hour"}
    uk = {"imperial gph": "imperial_gallon/hour", "uk gph": "imperial_gallon/hour"}
    return short | us | uk | _rates(_table("volume"), ("second", "minute", "hour", "day"))


def _concentrations() -> dict[str, Unit]:
    tops = _table("mass", ("mg", "g")) | {"ug": "ug", "micrograms": "ug"}
    found = {
        f"{top}{per}{litre}": f"{unit}/L"
        for top, unit in tops.items()
        for litre in _table("volume", ("L",))
        for per in _PER
    }
    return found | {"ppm": "mg/L", "ppb": "ug/L", "parts per million": "mg/L"}


def _prices() -> dict[str, Unit]:
    """Money, alone or for each kilowatt-hour; a hundredth is written as a percent."""
    money = _table("price") | {"": "1"}
    found = {f"{text}{end}".strip(): unit for text, unit in money.items() for end in _PRICED}
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
            return _rates(_table("mass", ("mg", "g", "kg")), ("second", "hour", "day", "week"))
        case "rate":
            tops = {"": "1", "times": "1", "time": "1"}
            return _rates(tops, ("second", "minute", "hour", "day"))
        case "price":
            return _prices()
        case "force":
            weights = {text: _WEIGHED[unit] for text, unit in _table("mass", _WEIGHED).items()}
            return _table("force") | weights
        case "per_week":
            return {}
        case "told":
            return _told()
    return _table("share" if dimension in _LIKE_A_SHARE else dimension)


def _told() -> dict[str, Unit]:
    words_too = known_words("told", "no_units")
    return {
        text: unit
        for kind in reversed(words().told["kinds"])
        for text, unit in spellings(kind).items()
        if kind == "power" or text not in words_too
    }


@cache
def dimension_of(unit: Unit) -> str:
    """The dimension of a unit that stories tell amounts in."""
    return next(kind for kind in words().told["kinds"] if unit in spellings(kind).values())


def regional(unit: Unit, region: str) -> Unit:
    """A gallon, quart, pint or fluid ounce as the region means it, a mass as its weight."""
    if not unit.startswith("?"):
        return unit
    if unit in _WEIGHED.values():
        return unit[1:]
    return ("imperial_" if region in _IMPERIAL_REGIONS else "") + unit[1:]


def smaller(unit: Unit) -> Unit:
    """The unit meant by a second number without one, as 4 ft 2; "" where none is."""
    return units().smaller.get(unit, "")


def label(unit: Unit) -> str:
    """A unit's short written form, which reads back: in, US gal, W/°F, per hour."""
    labels = units().labels
    if unit in labels or "/" not in unit:
        return labels.get(unit, unit)
    top, _, bottom = unit.partition("/")
    return f"per {label(bottom)}" if top == "1" else f"{label(top)}/{label(bottom)}"


def system_of(unit: Unit) -> str:
    """The system a unit belongs to: us, imperial, metric, or any."""
    if unit in units().units_of_any_system:
        return "any"
    if unit in units().us_units:
        return "us"
    imperial = unit in units().imperial_units or unit.startswith("imperial")
    return "imperial" if imperial else "metric"
