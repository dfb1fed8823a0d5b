"""All mishaps at once at the best values, with what would buy time: enough for a sentence each.

They are lanes of a few runs, whose steps are those of the mishaps one by one: so the sentences
are those of the page of mishaps, at a quarter of its cost.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.forecast.lanes import Lanes, settled
from interview.advice.forecast.mishaps import (
    Outcome,
    befalls,
    bought,
    heaters_of,
    helping,
    passed_in,
    plan_of,
    what_passes,
    with_help,
)
from interview.audit.tank import Tank
from interview.care.mishaps import Help, Mishap, mishap_rules
from interview.core.errors import CannotWorkOut
from interview.core.time.plan import Plan
from interview.core.time.run import Course, started, through
from interview.core.time.side_by_side import joined

__all__ = ["mishaps_in_short"]

Floats: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True)
class _Case:
    """One mishap of one tank, with a help or without."""

    mishap: Mishap
    aid: Help | None
    lanes: Lanes
    plan: Plan


def mishaps_in_short(tank: Tank, lanes: Lanes) -> tuple[Outcome, ...]:
    """Every mishap that can befall this tank: what is passed and what helps, without its doubt.

    Args:
        tank: the tank
        lanes: the same at its best values, ready to be run
    """
    fitting = [mishap for mishap in mishap_rules().mishaps if befalls(mishap, lanes)]
    helped = _each_once(tank, lanes)
    cases = [case for mishap in fitting for case in _cases(mishap, tank, lanes, helped)]
    found = _courses(cases)
    return tuple(_outcome(mishap, found) for mishap in fitting)


def _each_once(tank: Tank, lanes: Lanes) -> Callable[[Help], Lanes | None]:
    """The tank with a help; made once for all mishaps in which the same helps."""
    made: dict[object, Lanes | None] = {}

    def of(aid: Help) -> Lanes | None:
        alike = (*aid.suppose.items(), *aid.times.items(), aid.wrapped, aid.share)
        if alike not in made:
            try:
                made[alike] = with_help(aid, tank, heaters_of(lanes))
            except CannotWorkOut:
                made[alike] = None
        return made[alike]

    return of


def _cases(
    mishap: Mishap, tank: Tank, lanes: Lanes, helped: Callable[[Help], Lanes | None]
) -> Iterator[_Case]:
    heaters = heaters_of(lanes)
    yield _Case(mishap, None, lanes, plan_of(mishap, heaters=heaters))
    for aid in helping(mishap, tank):
        there = helped(aid)
        if there and (there.tank.filter is None) == (lanes.tank.filter is None):
            yield _Case(mishap, aid, there, plan_of(mishap, aid, heaters))


def _courses(cases: Sequence[_Case]) -> list[tuple[_Case, Course]]:
    """The run of each, those with the same steps at once."""
    found = []
    for _, group in itertools.groupby(sorted(cases, key=_steps), _steps):
        alike = sorted(group, key=lambda case: f"{case.lanes.working.get('cover_water')}")
        tank, plans = joined([case.lanes.tank for case in alike]), [case.plan for case in alike]
        nitrate = np.concatenate([_nitrate(case) for case in alike])
        dissolved = started(tank, tank.filter, nitrate) if tank.filter else None
        course = through(tank, plans, settled(tank, plans), dissolved)
        found += [(case, course.of_tank(n, case.plan.length)) for n, case in enumerate(alike)]
    return found


def _steps(case: _Case) -> tuple[float, float]:
    return case.plan.step, case.plan.rest


def _nitrate(case: _Case) -> Floats:
    return case.lanes.nitrate(before_change="no_care" in case.mishap.fails)


def _outcome(mishap: Mishap, found: Sequence[tuple[_Case, Course]]) -> Outcome:
    of = [(case, course) for case, course in found if case.mishap is mishap]
    case, course = next((case, course) for case, course in of if case.aid is None)
    outcome = what_passes(mishap, case.lanes, course)
    first = outcome.first
    if first is None or first.when.best <= 0:
        return outcome
    tried = (
        bought(case.aid, first, passed_in(first.watched, case.lanes, course))
        for case, course in of
        if case.aid
    )
    return replace(outcome, helped=tuple(one for one in tried if one))
