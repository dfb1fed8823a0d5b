"""A reading as text that reads back to the same reading."""

from __future__ import annotations

import math
from functools import partial

from interview.base.units import convert
from interview.words.amounts.amount import written
from interview.words.amounts.dimensions import dimensions
from interview.words.amounts.hedges import Hedge, hedged
from interview.words.amounts.reading import Reading
from interview.words.amounts.spellings import Unit, system_of
from interview.words.lexicon.files import units
from interview.words.lexicon.rows import Dimension

__all__ = ["say"]

_is_near = partial(math.isclose, rel_tol=1e-9, abs_tol=1e-12)
_SMALLER: dict[str, tuple[float, Unit]] = {
    "duration": (2 * 86400.0, "hour"),
    "length": (0.01, "mm"),
}


def say(reading: Reading, dimension: str, system: str) -> str:
    """The reading in words: "18.5 in", "about 33 °C", "6 to 7 in", "6.3 in (6 to 7 in)".

    It stays in the keeper's own unit if that belongs to `system` (metric, us or uk)
    and is converted otherwise. Six figures are kept, so what people type comes back
    exactly and anything else to within a part in a hundred thousand of itself.
    """
    kind = dimensions()[dimension]
    unit = _unit_for(reading, kind, system)
    low, best, high = (
        written(convert(end, kind.core_unit, unit), unit)
        for end in (reading.low, reading.best, reading.high)
    )
    often = " times a week" if kind.name == "per_week" else ""
    if reading.low == reading.high:
        return best + often
    about = hedged(Hedge.ABOUT, reading.best, kind)
    if _is_near(about.low, reading.low) and _is_near(about.high, reading.high):
        return f"about {best}{often}"
    ends = f"{low} to {high}"
    if _is_near(reading.best, (reading.low + reading.high) / 2):
        return ends + often
    return f"{best} ({ends})"


def _unit_for(reading: Reading, kind: Dimension, system: str) -> Unit:
    own = system_of(reading.unit)
    if kind.name == "share":
        return "%"
    if own == "any" or own == ("us" if system == "us" else "metric"):
        return reading.unit
    if own == "imperial" and system == "uk":
        return reading.unit
    usual = units().said_in.get(kind.name)
    if usual is None:
        return reading.unit
    below, smaller = _SMALLER.get(kind.name, (0.0, ""))
    if smaller and system != "us" and reading.best < below:
        return smaller
    return usual[system == "us"]
