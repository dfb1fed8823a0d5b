"""Settings that nobody should be told: out of a formula's range, under a need, soon too strong."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from typing import Any
from weakref import WeakKeyDictionary

from interview.advice.levers.lever import Lever
from interview.advice.what_if.coupling import over_the_rim
from interview.advice.what_if.severity import OPEN, SEVERITIES
from interview.advice.what_if.suppose import changed, changed_working
from interview.audit.checks.check import Check
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.core.working import Working

__all__ = ["allowed", "misplaced"]

_STRENGTH = ("uv_zone", "uv_overdose")
"""Checks that a renewed lamp must not worsen."""
_TODAY: WeakKeyDictionary[Tank, dict[str, int]] = WeakKeyDictionary()
"""How bad each of these stands on a tank, judged once for all heights of its lamp."""
_CARRIES_A_LAMP = frozenset(
    ("uvb_lamp_height", "uvb_lamp_kind", "water_line_below_rim", "platform_height_above_water")
)
"""Answers that bring a UVB lamp nearer to the platform, or a new one over it."""
_HAIR = 1e-6  # m
_PUDDLE = 0.5
"""Water less deep than this share of the longest shell: our own choice, nothing to swim in."""
_MOST_TAKEN = 0.25
"""Of the water by lowering its line: more of what makes it foul in the rest, our own choice."""


def allowed(lever: Lever, new: Mapping[str, Any], tank: Tank) -> bool:
    """Whether a setting of the lever may be told on this tank."""
    after = _later(new, tank)
    return (
        _holds(new, tank)
        and not _longer_than_the_tank(new, tank)
        and not _drained(new, tank, after)
        and not _under_its_own_cover(new, tank, after)
        and not _within_reach(new, tank, after, cover=False)
        and not _under_the_need(lever, tank, after)
        and not (_renewal_due(lever, tank) and _too_strong_renewed(lever, new, tank))
    )


def _later(new: Mapping[str, Any], tank: Tank) -> Callable[[], Working]:
    """Gives the tank's best values after the changes: worked out once, and only if asked for."""
    return cache(lambda: changed_working(tank.best, tank.best, new, reread=False))


def _holds(changes: Mapping[str, Any], tank: Tank) -> bool:
    """Whether every new number lies in the range of its name."""
    ranges = tank.best.wiring.range_of
    numbers = [(n, v) for n, v in changes.items() if isinstance(v, float)]
    return all(ranges(name)[0] <= value <= ranges(name)[1] for name, value in numbers)


def _longer_than_the_tank(new: Mapping[str, Any], tank: Tank) -> bool:
    """Whether a platform would not lie between the panes."""
    sides = ("length", "width")
    both = ((new.get(f"platform_{side}"), tank.lookup(f"inside_{side}")) for side in sides)
    return any(dry is not None and room is not None and dry > room for dry, room in both)


def _drained(new: Mapping[str, Any], tank: Tank, after: Callable[[], Working]) -> bool:
    """Whether a lower water line leaves a puddle, too little water, or the heater in the air."""
    if "water_line_below_rim" not in new:
        return False
    for name, least in (
        ("water_depth", _PUDDLE * (tank.best.get("largest_carapace_length") or 0.0)),
        ("water_volume", (1 - _MOST_TAKEN) * (tank.best.get("water_volume") or 0.0)),
        ("heater_cover", 0.0),
    ):
        today, then = tank.best.get(name), after().get(name)
        if today is not None and (then is None or then < min(today, least)):
            return True
    return False


def _under_its_own_cover(new: Mapping[str, Any], tank: Tank, after: Callable[[], Working]) -> bool:
    """Whether a UVB lamp that shines through the cover would hang inside the tank, below it."""
    if "uvb_lamp_height" not in new or not over_the_rim(tank.best.known):
        return False
    known = after().known
    covered = known.get("uvb_path") not in (None, "open")
    covered = covered and known.get("uvb_path") == known.get("cover_basking")
    return covered and not over_the_rim(known)


def misplaced(changes: Mapping[str, Any], tank: Tank) -> frozenset[str]:
    """Lamps that all the changes together bring into reach or below their own cover.

    Each change by itself may be harmless: more water lifts the raft, less cover opens the way.
    """
    found, after = set(), _later(changes, tank)
    if _within_reach(changes, tank, after) or _under_its_own_cover(changes, tank, after):
        found.add("uvb_lamp_height")
    if _nearer_than_least(tank, after()):
        found.add("heat_lamp_height")
    return frozenset(found)


def _within_reach(
    new: Mapping[str, Any], tank: Tank, after: Callable[[], Working], *, cover: bool = True
) -> bool:
    """Whether a UVB lamp is hung, or brought, where an animal touches it that rears.

    One that shines through the cover over the platform lies behind it. The reach is that of the
    heat lamp: one and a half shells over the highest place to stand on, our own assumption.
    Without `cover` no cover counts, as another step may take it away.
    """
    if not _CARRIES_A_LAMP & set(new):
        return False
    known, reach = after().known, after().get("rearing_reach")
    height, today = known.get("uvb_lamp_height"), tank.best.known.get("uvb_lamp_height")
    if height is None or reach is None or known.get("uvb_lamp_kind") in (None, "none"):
        return False
    if cover and known.get("uvb_path") not in (None, "open") and over_the_rim(known):
        return False
    if today is None or "uvb_lamp_kind" in new:
        return bool(height < reach)
    return bool(height < min(reach, today - _HAIR))


def _nearer_than_least(tank: Tank, after: Working) -> bool:
    """Whether a heat lamp comes nearer than today, and under the least height."""
    height, today = after.get("heat_lamp_height"), tank.best.get("heat_lamp_height")
    least = after.get("lamp_height_least")
    if height is None or least is None or today is None:
        return False
    return bool(height < min(least, today - _HAIR))


def _under_the_need(lever: Lever, tank: Tank, after: Callable[[], Working]) -> bool:
    """Whether what is given would go under what is needed, or further under it."""
    for given, needed in lever.not_under.items():
        gives, needs, today = after().get(given), after().get(needed), tank.best.get(given)
        if None not in (gives, needs, today) and gives < min(needs, float("inf")):
            return bool(gives <= today)
    return False


def _renewal_due(lever: Lever, tank: Tank) -> bool:
    """Whether the lamp has to be renewed so soon that its height must suit the new one."""
    for name, soon in lever.due.items():
        left = tank.lookup(name)
        if left is not None and float(left) <= soon:
            return True
    return False


def _too_strong_renewed(lever: Lever, new: Mapping[str, Any], tank: Tank) -> bool:
    """Whether the lamp, renewed at the new height, would be judged worse than it is today."""
    if tank not in _TODAY:
        _TODAY[tank] = {check.id: max(_severity(check, tank), OPEN) for check in _strength_checks()}
    after, today = changed(tank, {**new, **lever.renewed}), _TODAY[tank]
    return any(_severity(check, after) > today[check.id] for check in _strength_checks())


def _strength_checks() -> tuple[Check, ...]:
    return tuple(check for check in all_checks() if check.id in _STRENGTH)


def _severity(check: Check, tank: Tank) -> int:
    return SEVERITIES[judge(check, tank).verdict]
