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
_PER = ("/", " per ", " a ", " an ", " each ", " every ", " by ")
_LIKE_A_SHARE = ("percent", "number")
_MASS_AS_FORCE = ("?kgf", "?lbf")
_IMPERIAL_REGIONS = frozenset({"united_kingdom", "australia"})


def _table(dimension: str, only: Iterable[Unit] = ()) -> dict[str, Unit]:
    listed = spelled(dimension)
    return {text: unit for unit in only or listed for text in listed[unit]}


@cache
def spellings(dimension: str) -> Mapping[str, Unit]:
    """Every spelling of the units of one dimension."""
    if dimension == TOLD:
        return _told()
    table = _table("share" if dimension in _LIKE_A_SHARE else dimension)
    if dimension.startswith("temperature"):
        change = "delta_" if dimension == "temperature_difference" else ""
        return table | {
            f"{degree}{scale}": f"{change}{unit}"
            for scale, unit in _table("scale").items()
            for degree in units().degrees
        }
    if dimension == "price":
        money = {**table, "": "1"}
        priced = {
            f"{text}{end}".strip(): unit for text, unit in money.items() for end in units().priced
        }
        return {text: unit for text, unit in priced.items() if text}
    return table | _rates(dimension)


def _rates(dimension: str) -> dict[str, Unit]:
    """Every "top per time" of a dimension that has such: l/h, gallons an hour."""
    rate = units().rates.get(dimension)
    if rate is None:
        return {}
    tops = _table(rate.of, rate.units) if rate.of else {}
    tops |= {text: unit for unit, texts in (rate.tops or {}).items() for text in texts}
    return {
        f"{top}{per}{under}".strip(): f"{unit}/{lower}"
        for top, unit in tops.items()
        for under, lower in _table(rate.per, rate.each).items()
        for per in _PER
    }


def _told() -> dict[str, Unit]:
    return {
        text: unit
        for kind in reversed(words().told["kinds"])
        for text, unit in spellings(kind).items()
        if kind == "power" or text not in known_words("told", "no_units")
    }


@cache
def dimension_of(unit: Unit) -> str:
    """The dimension of a unit that stories tell amounts in."""
    return next(kind for kind in words().told["kinds"] if unit in spellings(kind).values())


def regional(unit: Unit, region: str) -> Unit:
    """A gallon, quart, pint or fluid ounce as the region means it, a mass as its weight."""
    if not unit.startswith("?"):
        return unit
    is_imperial = region in _IMPERIAL_REGIONS and unit not in _MASS_AS_FORCE
    return ("imperial_" if is_imperial else "") + unit[1:]


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
    by_name = "imperial" if unit.startswith("imperial") else "metric"
    return next((name for name, known in units().systems.items() if unit in known), by_name)
