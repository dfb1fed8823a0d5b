"""The mishaps of a tank: when which limit is passed, what comes first, what would buy time."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from math import inf
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.forecast.lanes import BEFORE, Lanes, Value, value_of
from interview.advice.what_if.suppose import changed_working
from interview.audit.tank import Tank
from interview.base.conditions import Condition
from interview.care.mishaps import Help, Mishap, Watched, mishap_rules
from interview.core.errors import CannotWorkOut
from interview.core.time.crossing import first_crossing
from interview.core.time.plan import DAY, HOUR, Faults, Plan, Span
from interview.core.time.run import NITRATE_PER_NITROGEN, Course, through
from interview.core.water.properties import ammonia_free_share

__all__ = [
    "Helped",
    "Outcome",
    "Passed",
    "befalls",
    "bought",
    "fits",
    "heaters_of",
    "helping",
    "mishap_course",
    "mishaps_of",
    "passed_in",
    "plan_of",
    "what_passes",
    "with_help",
]

Floats: TypeAlias = NDArray[np.float64]
LANES = 64
_WAVE_BEFORE = 3 * DAY
_LONG = 100 * HOUR  # from here on steps may be twice as long
_TELLING = 1.15  # times as long: what buys less is not worth saying


@dataclass(frozen=True)
class Passed:
    """A limit in a mishap: its value, when it is passed, how probable that is."""

    watched: Watched
    value: float
    when: Value
    """[s] after the mishap began; infinite if it isn't passed, 0 if it was before."""
    chance: float


@dataclass(frozen=True)
class Helped:
    """When the same limit is passed with something that helps [s]; infinite if never."""

    say: str
    limit: str
    when: float


@dataclass(frozen=True)
class Outcome:
    """What a mishap does to the tank."""

    mishap: Mishap
    passed: tuple[Passed, ...]
    """The soonest first; those that are never passed last."""
    water: Value
    """How far the water goes: its lowest in the cold, else its highest [degC]."""
    helped: tuple[Helped, ...]
    lowest: bool = False
    heaters: int = 1
    """How many there are; one of them is what fails."""
    do: tuple[str, ...] = ()
    """What to do, as far as this tank has what it speaks of."""
    curves: dict[str, Floats] = field(default_factory=dict)
    """Time [s] since it began; room, water, its 5 % and its 95 % point [degC]."""

    @property
    def first(self) -> Passed | None:
        """The limit that is passed first at the best values; None if none is."""
        soonest = self.passed[0] if self.passed else None
        return soonest if soonest and np.isfinite(soonest.when.best) else None


def plan_of(mishap: Mishap, aid: Help | None = None, heaters: float = 1.0) -> Plan:
    """The run that shows a mishap.

    Args:
        mishap: the row
        aid: what helps, where something does
        heaters: how many there are; one of them fails
    """
    followed = mishap.followed.to("s")
    lasts = Span(0.0, followed if mishap.lasts is None else mishap.lasts.to("s"))
    spans: dict[str, Any] = dict.fromkeys(mishap.fails, lasts)
    # Nobody changes water as it begins: that would be a fall of its own.
    spans["no_care"] = Span(-BEFORE, followed if "no_care" in spans else HOUR)
    if mishap.heat_wave:
        spans["heat_wave"] = Span(-_WAVE_BEFORE, followed)
    share = (aid.share if aid else 1.0) / heaters
    faults = Faults(
        **spans, share=share, house_cools=mishap.house_cools, air_kept=bool(aid and aid.air)
    )
    longer = 2.0 if followed > _LONG else 1.0
    return Plan(
        length=followed,
        step=longer * 600.0,
        rest=longer * HOUR,
        settling=BEFORE,
        clock=mishap.starts.to("s"),
        season=mishap.season,
        faults=faults,
    )


def mishaps_of(tank: Tank, lanes: Lanes | None = None) -> tuple[Outcome, ...]:
    """Every mishap that can befall this tank, in the order of the data.

    Args:
        tank: the tank, drawn
        lanes: the same ready to be run, where somebody has them already
    """
    lanes = lanes or Lanes.of(tank, LANES)
    fits = (mishap for mishap in mishap_rules().mishaps if befalls(mishap, lanes))
    return tuple(_outcome(mishap, tank, lanes) for mishap in fits)


def befalls(mishap: Mishap, lanes: Lanes) -> bool:
    """Whether a tank has what fails: a heater nothing cuts off, a filter, a lamp."""
    tank = lanes.tank
    has = {
        "": True,
        "heater": bool(tank.heater[0] > 0),
        "filter": tank.filter is not None,
        "basking": tank.basking is not None,
    }
    cut_off = "heater_stuck" in mishap.fails and lanes.working.get("heater_cutout") is True
    return has[mishap.needs] and not cut_off


def mishap_course(lanes: Lanes, mishap: Mishap) -> tuple[Plan, Course]:
    """The run that shows a mishap to this tank."""
    plan = plan_of(mishap, heaters=heaters_of(lanes))
    return plan, _run(lanes, plan, mishap)


def heaters_of(lanes: Lanes) -> float:
    """How many heaters there are, at least one; one of them fails."""
    return float(np.atleast_1d(lanes.working.get("heater_count") or 1.0)[0])


def _outcome(mishap: Mishap, tank: Tank, lanes: Lanes) -> Outcome:
    heaters = heaters_of(lanes)
    _, course = mishap_course(lanes, mishap)
    outcome = replace(
        what_passes(mishap, lanes, course),
        heaters=round(heaters),
        do=tuple(step.say for step in mishap.do if fits(step.when, tank)),
        curves=_curves(course),
    )
    if outcome.first is None or outcome.first.when.best <= 0:
        return outcome
    tried = (_helped(aid, outcome, tank, heaters) for aid in helping(mishap, tank))
    return replace(outcome, helped=tuple(one for one in tried if one))


def what_passes(mishap: Mishap, lanes: Lanes, course: Course) -> Outcome:
    """Which limits a run passes, and how far its water goes; without what would help."""
    rows = [passed_in(one, lanes, course) for one in mishap_rules().watched(mishap)]
    passed = tuple(sorted((row for row in rows if row), key=lambda row: row.when.best))
    after = course.water[course.time >= 0]
    lowest = mishap.season == "coldest"
    reached = after.min(axis=0) if lowest else after.max(axis=0)
    return Outcome(mishap, passed, value_of(reached), (), lowest)


def fits(when: Condition | None, tank: Tank) -> bool:
    """Whether something is for this tank, or may be as it isn't told."""
    return when is None or when.holds(tank.best.get, tank.unit_of) is not False


def _curves(course: Course) -> dict[str, Floats]:
    after = course.time >= 0
    low, high = np.percentile(course.water[after], [5, 95], axis=1, method="inverted_cdf")
    return {
        "time": course.time[after],
        "room": course.room[after][:, 0],
        "water": course.water[after][:, 0],
        "water_low": low,
        "water_high": high,
    }


def _run(lanes: Lanes, plan: Plan, mishap: Mishap) -> Course:
    """The mishap, from a tank that has come into the round of its days."""
    dissolved = lanes.dissolved(before_change="no_care" in mishap.fails)
    return through(lanes.tank, plan, lanes.settled(plan), dissolved)


def passed_in(watched: Watched, lanes: Lanes, course: Course) -> Passed | None:
    """When a limit is passed; None where the curve or the limit isn't known of this tank."""
    try:
        limit = lanes.limit(watched.name)
        curve = _curve(watched.of, lanes, course)
    except CannotWorkOut:
        return None
    if curve is None:
        return None
    when = _first(watched, *curve, limit)
    return Passed(watched, float(limit[0]), value_of(when), float(np.isfinite(when).mean()))


def _first(watched: Watched, time: Floats, curve: Floats, limit: Floats) -> Floats:
    after = time >= 0
    return first_crossing(time[after], curve[after], limit, falling=bool(watched.below))


def _curve(name: str, lanes: Lanes, course: Course) -> tuple[Floats, Floats] | None:
    """Times and values of a curve; None where the tank has none."""
    if name == "water":
        return course.time, course.water
    if name == "platform":
        surfaces = lanes.surfaces(course)
        return None if surfaces is None else (course.time, surfaces[0])
    time, fallen = course.slow_time, lanes.tank.level - course.level
    if name == "heater_cover":
        return time, lanes.limit("heater_cover") - fallen
    if not course.dissolved:
        return None
    if name == "oxygen":
        return time, np.stack([one.oxygen for one in course.dissolved])
    thicker = lanes.tank.volume_ratio(course.level)
    if name == "nitrate":
        held = np.stack([one.nitrate for one in course.dissolved])
        return time, held * thicker * NITRATE_PER_NITROGEN
    warmth = course.water[np.searchsorted(course.time, time)]
    free = ammonia_free_share(lanes.limit("ph"), warmth)
    return time, np.stack([one.ammonia for one in course.dissolved]) * thicker * free


def _helped(aid: Help, outcome: Outcome, tank: Tank, heaters: float) -> Helped | None:
    """What a help does to the limit that is passed first; None where it does little or can't."""
    first = outcome.first
    try:
        lanes = with_help(aid, tank, heaters)
        if first is None or lanes is None:
            return None
        plan = plan_of(outcome.mishap, aid, heaters)
        return bought(
            aid, first, passed_in(first.watched, lanes, _run(lanes, plan, outcome.mishap))
        )
    except CannotWorkOut:
        return None


def helping(mishap: Mishap, tank: Tank) -> tuple[Help, ...]:
    """What may help this tank, as far as the words of the data say."""
    return tuple(aid for aid in mishap.helps if fits(aid.when, tank))


def with_help(aid: Help, tank: Tank, heaters: float) -> Lanes | None:
    """The tank with a help, at its best values; None where it has it or can't have it."""
    if aid.share < 1 and heaters > 1:
        return None
    changes: dict[str, Any] = dict(aid.suppose)
    for name, times in aid.times.items():
        if tank.best.get(name) is None:
            return None
        changes[name] = tank.best.value(name) * times
    there = all(tank.best.get(name) == value for name, value in changes.items())
    if changes and there and not aid.wrapped:
        return None
    working = changed_working(tank.best, tank.best, changes) if changes else tank.best
    return Lanes.best(working, wrapped=aid.wrapped)


def bought(aid: Help, first: Passed, found: Passed | None) -> Helped | None:
    """What a help does to the limit that is passed first; None where it does little.

    Args:
        aid: the help
        first: the limit and when it is passed without
        found: the same with it
    """
    if found is None or found.when.best < _TELLING * first.when.best:
        return None
    return Helped(aid.say, first.watched.limit, found.when.best if found.chance else inf)
