"""What if: the same tank with something changed, and everything that moves with it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import isfinite
from typing import Any

import numpy as np

from interview.advice.what_if.coupling import coupled, outdated, pinned, taken_anew
from interview.audit.sampling.sample import BELOW_NOTHING
from interview.audit.tank import Tank
from interview.core.numeric import is_number
from interview.core.working import Working
from interview.vocabulary.vocabulary import kept_from, void_after

__all__ = [
    "Changes",
    "changed",
    "changed_working",
    "measured_again",
    "moved_answers",
    "same",
    "to_take_again",
]

_ALIKE_SHARE, _ALIKE_BY = 1e-9, 1e-12
"""Numbers that differ by less than both together are the same."""
_READINGS = ("basking_temperature",)
"""What is predicted again after a change, where nobody has measured it anew."""
Changes = Mapping[str, Any]
"""New values by name, in core units: numbers, words, yes/no; arrays of candidates broadcast."""


def changed(tank: Tank, changes: Changes) -> Tank:
    """The tank as it would be: geometry moves along, calibrations taken before stay.

    Doubt stays too: a draw keeps its distance from the best value. Measured temperatures
    under the lamps are predicted again, not kept. A reading among the changes was taken of
    the tank as it would be, and calibrates it.
    """
    best = changed_working(tank.best, tank.best, changes)
    kept = {name for name in _READINGS if name in best.known}
    again = {n for n in kept if not same(tank.best.known.get(n), best.known[n])}
    return replace(
        tank,
        best=best,
        sample=changed_working(tank.sample, tank.best, changes),
        assumed=tank.assumed - frozenset(changes),
        predicted=tank.predicted | (again - set(changes)),
    )


def measured_again(tank: Tank, changes: Changes) -> Tank:
    """The tank as `changed`, its readings under the lamps taken anew and found as predicted.

    They are as doubtful as the old ones were, but read on another spot: a calibration that they
    give may be less exact than the one before the change.
    """
    after = changed(tank, changes)
    again = after.predicted - tank.predicted
    if not again:
        return after
    read = {name: after.best.known[name] for name in again}
    return replace(changed(tank, {**changes, **read}), predicted=after.predicted)


def _recalibrated(working: Working, best: Working, pin: str, changes: Changes) -> Any:
    """A calibration: as it was, or a share of it, as of the heat of a lamp that is dimmed."""
    if pin not in changes:
        return working.value(pin)
    new, old = np.broadcast_arrays(np.asarray(changes[pin], float), best.value(pin))
    # A lamp that was read as giving nothing gives nothing when dimmed.
    share = np.divide(new, old, out=np.ones(new.shape), where=old != 0)
    return working.value(pin) * share


def moved_answers(tank: Tank, changes: Changes) -> dict[str, Any]:
    """Every answer with another best value than before, the changed ones first."""
    return coupled(tank.best.known, changes)


def to_take_again(before: Tank, after: Tank, changes: Changes) -> tuple[str, ...]:
    """Readings of the tank as it was that no longer tell of it: another lamp, or moved since."""
    return tuple(
        reading
        for reading, pins in kept_from().items()
        if reading in before.best.known
        and reading not in changes
        and (reading not in after.best.known or _moved_since(before, after, pins))
    )


def _moved_since(before: Tank, after: Tank, pins: tuple[str, ...]) -> bool:
    """Whether what the calibration was taken at, or it itself, is another now."""
    for pin in pins:
        now = pin.removesuffix("_when_measured")
        then = before.best.get(now)
        if then is not None and not same(then, after.best.get(now)):
            return True
    return False


def changed_working(
    working: Working, best: Working, changes: Changes, *, reread: bool = True
) -> Working:
    """One view of the tank (best values or sample) after the changes.

    Args:
        working: the best values or the sample, before
        best: the best values before
        changes: new values by name
        reread: predict the reading under the lamp again; verdicts rest on its calibration
            and need it not
    """
    if all(same(best.known.get(name), value) for name, value in changes.items()):
        return working
    shifted = {name: _shifted(working, best, name, value) for name, value in changes.items()}
    moved = coupled(working.known, shifted)
    paths = {name: moved[name] for name in ("uvb_path",) if name in moved}
    readings, lost = outdated(best.known, {**changes, **paths})
    lost = (*lost, *taken_anew(changes))
    known = {**working.known, **moved}
    for name in {*readings, *lost} & known.keys():
        del known[name]
    for pin in pinned():
        if pin not in lost and working.get(pin) is not None:
            known[pin] = _recalibrated(working, best, pin, changes)
    read = "uvb_reading" in readings and "uvb_reading" in working.known
    if read and _only_renewed(best, changes):
        known["uv_calibration"] = _of_a_new_lamp(working, working.with_known(known))
    after = working.with_known(known)
    lamp = working.wiring.upstream("platform_temperature")
    carried = "basking_temperature" in known and "basking_temperature" not in changes
    if reread and carried and lamp & set(moved):
        surface = after.get("platform_temperature")
        if surface is not None:
            return after.with_known({**known, "basking_temperature": surface})
    return after


def _only_renewed(best: Working, changes: Changes) -> bool:
    """Whether a lamp is put in place of an older one like it, under the same path."""
    causes = set(void_after()["uvb_reading"]) & set(changes)
    others = causes - {"uvb_lamp_age"}
    return "uvb_lamp_age" in causes and all(same(best.known.get(n), changes[n]) for n in others)


def _of_a_new_lamp(old: Working, new: Working) -> Any:
    """The calibration of a lamp like the one read: as expected, and no weaker than that was."""
    kept = old.get("uv_calibration")
    gave, gives = (working.get("uvb_lamp_output") for working in (old, new))
    if kept is None or gave is None or gives is None:
        return 1.0
    return np.maximum(1.0, np.asarray(kept) * np.asarray(gave) / np.asarray(gives))


def same(old: Any, new: Any) -> bool:
    """Whether a new value is the old one, as far as anybody could set it."""
    if old is None:
        return new is None
    if not (is_number(old) and is_number(new)):
        return not is_number(old) and not is_number(new) and bool(old == new)
    if isinstance(old, float | int) and isinstance(new, float | int):
        near = isfinite(new) and abs(old - new) <= _ALIKE_BY + _ALIKE_SHARE * abs(new)
        return bool(old == new or near)
    old, new = np.asarray(old), np.asarray(new)
    with np.errstate(invalid="ignore"):
        near = np.abs(old - new) <= _ALIKE_BY + _ALIKE_SHARE * np.abs(new)
    return bool(np.all((near & np.isfinite(new)) | (old == new)))


def _shifted(working: Working, best: Working, name: str, value: Any) -> Any:
    """A new number with the doubt of the old one; words and new numbers as they are."""
    old, centre = working.known.get(name), best.known.get(name)
    if old is None or not is_number(value) or not is_number(centre):
        return value
    if np.ndim(value) == 0 and same(centre, value):
        return old
    if old is centre:
        return np.add(value, 0.0)
    low, high = working.wiring.range_of(name)
    if low == -np.inf and working.unit_of(name) not in BELOW_NOTHING:
        low = 0.0
    drawn = np.asarray(value) + (np.asarray(old) - np.asarray(centre))
    return np.clip(drawn, np.minimum(low, value), np.maximum(high, value))
