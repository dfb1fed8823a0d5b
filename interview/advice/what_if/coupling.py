"""What moves what: the answers that change by themselves when a keeper changes one.

A floating platform rides the water line, so lower water takes it away from the lamps; a
platform that stands or hangs keeps its lamps, and its surface rises out of the water. A
platform set higher comes nearer to the lamps, which hang where they hung. A cover laid over the
platform lies between it and a UVB lamp that hangs over the rim; who takes away what lies there
takes the cover away.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

import numpy as np

from interview.vocabulary.vocabulary import kept_from, riding, void_after

__all__ = ["coupled", "outdated", "over_the_rim", "pinned", "taken_anew"]

_PATHS = {"none": "open"}
"""What lies between lamp and platform under a cover of that name, where it is not the same word."""
_STANDING = ("fixed", "pile", "above_tank")


@cache
def pinned() -> tuple[str, ...]:
    """Quantities that came from a measurement and stay true when the tank is changed."""
    return tuple(name for names in kept_from().values() for name in names)


def outdated(
    known: Mapping[str, Any], changes: Mapping[str, Any]
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Readings, and calibrations, that the changes make worthless: those of another lamp.

    Args:
        known: best values of the tank as it was, by name
        changes: new values by name; one that is as it was makes no other lamp
    """
    gone = tuple(
        reading
        for reading, causes in void_after().items()
        if reading not in changes
        and any(_another(n, known.get(n), changes[n]) for n in causes if n in changes)
    )
    return gone, tuple(pin for reading in gone for pin in kept_from().get(reading, ()))


def taken_anew(changes: Mapping[str, Any]) -> tuple[str, ...]:
    """Calibrations that a reading among the changes makes anew: it was taken of that tank."""
    kept = kept_from()
    return tuple(pin for name in changes for pin in kept.get(name, ()) if pin not in changes)


def _another(name: str, old: Any, new: Any) -> bool:
    """Whether a new value means a lamp that was not measured; one lamp only grows older."""
    if old is None:
        return new is not None
    if isinstance(new, str | bool):
        return bool(old != new)
    if name == "uvb_lamp_age":
        return bool(np.any(np.asarray(new) < np.asarray(old)))
    return bool(np.any(np.asarray(new) != np.asarray(old)))


def coupled(known: Mapping[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    """The changes, and what they move along.

    Args:
        known: best values or draws of the tank as it was, by name, in core units
        changes: new values by name; a named one is taken as it will be, not moved again

    Returns:
        every answer with another value than before: the changes first
    """
    moved = dict(changes) | _under_the_lamp(known, changes)
    drop = _grown("water_line_below_rim", known, changes)
    standing = known.get("platform_kind") in _STANDING
    if drop is None and "platform_height_above_water" not in changes:
        return moved | _one_bulb(known, moved, changes)
    drop = 0.0 if drop is None else drop
    height = "platform_height_above_water"
    if standing and height in known and height not in moved and "water_line_below_rim" in changes:
        moved[height] = known[height] + drop
    sunk = drop - _rise_over_water(known, moved, standing, drop)
    carried = known.get("platform_kind") in ("floating", *_STANDING)
    for name in riding("platform") if carried else ():
        if name in known and name not in moved and np.any(sunk):
            moved[name] = known[name] + sunk
    return moved | _one_bulb(known, moved, changes)


def _under_the_lamp(known: Mapping[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    """Cover and light path of a UVB lamp over the rim are one: the one named changes the other."""
    cover, path = "cover_basking", "uvb_path"
    named = {cover, path} & set(changes)
    if len(named) != 1 or not over_the_rim(known) or "uvb_lamp_kind" in changes:
        return {}
    if cover in changes and known.get(cover) != changes[cover]:
        between = known.get(path) in (None, "open", known.get(cover))
        return {path: _PATHS.get(changes[cover], changes[cover])} if between else {}
    if changes.get(path) == "open" and known.get(cover) == known.get(path):
        return {cover: "none"}
    return {}


def over_the_rim(known: Mapping[str, Any]) -> bool:
    """Whether the UVB lamp hangs higher over the platform than the rim stands, if it is known."""
    names = ("uvb_lamp_height", "water_line_below_rim", "platform_height_above_water")
    lamp, line, platform = (known.get(name) for name in names)
    if lamp is None or line is None or platform is None:
        return False
    if known.get("platform_kind") not in ("floating", "fixed", "pile"):
        return False
    return bool(np.mean(lamp) >= np.mean(line) - np.mean(platform))


def _one_bulb(
    known: Mapping[str, Any], moved: Mapping[str, Any], changes: Mapping[str, Any]
) -> dict[str, Any]:
    """A mercury-vapour bulb that gives both heat and UVB hangs at one height: the one named."""
    kinds = (moved.get(name, known.get(name)) for name in ("heat_lamp_kind", "uvb_lamp_kind"))
    if set(kinds) != {"mercury_vapour"}:
        return {}
    lamps = riding("platform")
    named = [name for name in lamps if name in changes] or [n for n in lamps if n in moved]
    others = [name for name in lamps if name not in named and name in known]
    return {other: moved[name] for name in named for other in others}


def _grown(name: str, known: Mapping[str, Any], changes: Mapping[str, Any]) -> Any:
    """How much a length grows; None where it stays or was not known."""
    if name not in changes or known.get(name) is None:
        return None
    return changes[name] - known[name]


def _rise_over_water(
    known: Mapping[str, Any], moved: Mapping[str, Any], standing: bool, drop: Any
) -> Any:
    """How far the platform's surface rises out of the water."""
    grown = _grown("platform_height_above_water", known, moved)
    if grown is not None:
        return grown
    return drop if standing else 0.0
