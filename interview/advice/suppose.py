"""What if: the same tank with something changed, and everything that moves with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from interview.audit.judge import Tank
from interview.core.coupling import PINNED, coupled, outdated
from interview.core.wiring import Working

__all__ = ["Changes", "changed", "changed_working", "moved_answers"]

Changes = Mapping[str, Any]
"""New values by name, in core units: numbers, words, yes/no; arrays of candidates broadcast."""


def changed(tank: Tank, changes: Changes) -> Tank:
    """The tank as it would be: geometry moves along, calibrations taken before stay.

    Doubt stays too: a draw keeps its distance from the best value. Measured temperatures
    under the lamps are predicted again, not kept.
    """
    return replace(
        tank,
        best=changed_working(tank.best, tank.best, changes),
        cloud=changed_working(tank.cloud, tank.best, changes),
        assumed=tank.assumed - frozenset(changes),
    )


def moved_answers(tank: Tank, changes: Changes) -> dict[str, Any]:
    """Every answer with another best value than before, the changed ones first."""
    return coupled(tank.best.known, changes)


def changed_working(working: Working, best: Working, changes: Changes) -> Working:
    """One view of the tank (best values or cloud) after the changes; `best` is before them."""
    shifted = {name: _shifted(working, best, name, value) for name, value in changes.items()}
    known = {**working.known, **coupled(working.known, shifted)}
    readings, lost = outdated(changes)
    for name in readings:
        known.pop(name, None)
    for pin in PINNED:
        if pin not in lost and working.get(pin) is not None:
            known[pin] = working.value(pin)
    after = working.with_known(known)
    surface = after.get("platform_temperature")
    if "basking_temperature" in known and surface is not None:
        after = after.with_known({**known, "basking_temperature": surface})
    return after


def _shifted(working: Working, best: Working, name: str, value: Any) -> Any:
    """A new number with the doubt of the old one; words and new numbers as they are."""
    old, centre = working.known.get(name), best.known.get(name)
    if old is None or isinstance(value, str | bool | tuple) or isinstance(centre, str | bool):
        return value
    return np.maximum(np.asarray(value) + (np.asarray(old) - np.asarray(centre)), 0.0)
