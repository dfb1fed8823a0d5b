"""How numbers with their doubt, and what couldn't be followed, are said on these pages."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import TypeAlias

from interview.advice.forecast.lanes import Value
from interview.audit.tank import Tank
from interview.core.errors import CannotWorkOut, Missing, NotApplicable, OutOfRange
from interview.report.blocks import Items, Paragraph
from interview.report.naming import inside
from interview.vocabulary.phrases import ranged, rounded

__all__ = ["CAUTION", "Band", "bands_of", "in_hours", "lacking_said", "reach", "with_doubt"]

Band: TypeAlias = tuple[float, float] | None
CAUTION = (
    "A sum from what you told, with its doubt, never a promise: watch a thermometer. Outdoors, the "
    "house and what fails are assumed. What plugs in near water is a licensed electrician's "
    "matter, an ill animal a reptile veterinarian's; your local code comes first."
)
_PARTS = {
    "basking": "The basking spot and the shell",
    "filter": "Nitrogen and oxygen",
    "uv": "UV",
    "growth": "Growth",
    "mishap": "What follows when something fails",
}


def bands_of(tank: Tank) -> dict[str, Band]:
    """What is wanted of the water and of the shell under the lamp [degC], where it is known."""
    found = {}
    for part, name in (("water", "water_band"), ("shell", "basking_band")):
        ends = [tank.best.get(f"{name}_{end}") for end in ("low", "high")]
        known = None not in ends and float(ends[0]) < float(ends[1])
        found[part] = (float(ends[0]), float(ends[1])) if known else None
    return found


def with_doubt(value: Value, unit: str, system: str, name: str = "") -> str:
    """“24 °C (23 to 26 °C)”."""
    likely = ranged(value.low, value.high, unit, system, name, spoken=True)
    best = rounded(value.best, unit, system, name)
    return best if value.low == value.high else f"{best} ({likely})"


def reach(ends: tuple[Value, Value], unit: str, system: str) -> str:
    """From the lowest to the highest, both at the best values."""
    return ranged(ends[0].best, ends[1].best, unit, system, spoken=True)


def in_hours(seconds: float, system: str) -> str:
    """“9.5 h”, “at once” for nothing and “never” for what doesn't come."""
    if math.isinf(seconds):
        return "never"
    return "at once" if seconds < 60 else rounded(seconds, "s", system)


def lacking_said(
    lacking: Mapping[str, CannotWorkOut], label_of: Callable[[str], str], system: str
) -> list[Paragraph | Items]:
    """What isn't followed, and which answers it waits for."""
    said = []
    for part, why in lacking.items():
        if part == "uv" and isinstance(why, NotApplicable):
            continue  # no lamp, no row: nothing that anybody misses
        if isinstance(why, Missing):
            waits = ", ".join(f"“{label_of(name)}”" for name in why.names)
            said.append(f"{_PARTS[part]} can't be followed yet: not told is {waits}.")
        else:
            reason = _beyond(why, label_of, system) if isinstance(why, OutOfRange) else f"{why}"
            said.append(f"{_PARTS[part]} can't be followed: {reason}.")
    return [Paragraph(" ".join(said))] if said else []


def _beyond(why: OutOfRange, label_of: Callable[[str], str], system: str) -> str:
    value, low, high = (
        rounded(number, why.unit, system, why.name) for number in (why.value, why.low, why.high)
    )
    ends = f"from {low} upwards" if math.isinf(why.high) else f"from {low} to {high}"
    return f"{inside(label_of(why.name))} is {value}, and the sums hold only {ends}"
