"""The order of a plan's steps: what ends a danger, what the grade needs, what is also worth it.

Dangers go in order of what is at stake, the life of people first, and before them what the other
steps would be dangerous without; then what is wrong in that order, then trifles, of equal ones what
costs least; but another tank, its place and its water line come before what stands in it or is
measured from it, so that no step undoes an earlier one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import numpy as np

from interview.advice.levers.levers import Option, cost_of
from interview.advice.search.search import Search
from interview.advice.what_if.coupling import coupled
from interview.advice.what_if.severity import DANGER, OPEN, WRONG, Severities
from interview.advice.what_if.suppose import same
from interview.audit.checks.findings import Finding
from interview.audit.checks.verdicts import Level
from interview.audit.grades import grade_all
from interview.audit.gravity import stake_of

__all__ = ["also_worth", "ending", "in_order"]

_TANK, _MEASURED_FROM = "tank_size", ("water_line_below_rim", "platform_kind")
_SHORT = 2
"""So many steps are one day's work and need no order of their own."""
_MOST_TRIED = 8
"""So many steps are added one by one to see which of them the grade needs."""
_Gravity = tuple[int, int]
_NONE: _Gravity = (99, 0)
_Audited = Callable[[Sequence[Option]], Sequence[Finding]]
_Rank = Callable[[Sequence[Option]], int]


def in_order(search: Search, options: Iterable[Option]) -> list[Option]:
    """The steps, each before those that it would move or make worthless.

    A heater is set once it is there.
    """
    every = list(options)
    left = sorted(every, key=lambda one: _place(search, one, [o for o in every if o is not one]))
    if any("Heater" in option.lever.buys for option in left):
        left.sort(key=lambda option: option.lever.name == "water_temperature")
    done: list[Option] = []
    while left:
        free = (o for o in left if not any(_undoes(search, o, p) for p in left if p is not o))
        done.append(next(free, left[0]))
        left.remove(done[-1])
    return done


def _place(
    search: Search, option: Option, others: Sequence[Option]
) -> tuple[_Gravity, bool, bool, _Gravity, _Gravity, float]:
    """The gravest danger first, then what another step rests on, what is wrong, the cheapest.

    What is wrong today goes before what only the other steps would make so.
    """
    tables = search.tables
    without = tables.severities_with(others)
    lost = np.where(tables.severities_with([*others, option]) < without, without, OPEN)
    felt = [bool(search.reaching([option], [check.id])) for check in search.checks]
    dangerous = _gravest(
        search, option, np.maximum(lost, np.where(felt, tables.base, OPEN)), DANGER
    )
    rebuilt, under = option.lever.cost == "rebuild", option.lever.name in _MEASURED_FROM
    wrong = _gravest(search, option, np.where(tables.base >= WRONG, lost, OPEN), WRONG)
    spoilt = _gravest(search, option, lost, WRONG)
    return dangerous, not rebuilt, not under, wrong, spoilt, cost_of(option.lever)


def _gravest(search: Search, option: Option, severities: Severities, least: int) -> _Gravity:
    """Stake and weight of the gravest of these that the step is meant for."""
    level: Level = "danger" if least == DANGER else "wrong"
    grave = (
        (stake_of(check, level), -check.weight)
        for check, severity in zip(search.checks, severities, strict=True)
        if severity >= least and option.lever.meant_for(check.id)
    )
    return min(grave, default=_NONE)


def _undoes(search: Search, first: Option, later: Option) -> bool:
    """Whether a later step changes what the first has set, or moves it along."""
    if later.lever.name == _TANK:
        return _stands_in_the_tank(search, first, later)
    known = search.tank.best.known
    names = {n for n in first.changes if n not in later.changes or n == later.lever.name}
    moved = coupled({**known, **first.changes}, later.changes)
    return any(n in moved and not same(first.changes[n], moved[n]) for n in names)


def _stands_in_the_tank(search: Search, option: Option, tank: Option) -> bool:
    """Whether another tank may change what the step is for."""
    return any(
        search.reaching([option], [check.id]) and search.reaching([tank], [check.id])
        for check in search.checks
    )


def _with_what_moves(
    search: Search, first: Iterable[Option], options: Iterable[Option]
) -> list[Option]:
    """The steps, and the others that would undo them if they came later."""
    chosen = list(first)
    left = [option for option in options if option not in chosen]
    while late := next((o for o in left if any(_undoes(search, c, o) for c in chosen)), None):
        chosen.append(late)
        left.remove(late)
    return chosen


def ending(search: Search, options: tuple[Option, ...], audited: _Audited) -> tuple[Option, ...]:
    """The steps that end the dangers, in order; none where all or nothing would."""
    if not search.dangers or len(options) <= _SHORT:
        return ()
    for first in (search.ending(options), search.needed(options, search.dangers)):
        chosen = _with_what_moves(search, first, options) if first else []
        if chosen and len(chosen) < len(options) and not grade_all(audited(chosen)).stop:
            return tuple(in_order(search, chosen))
    return ()


def also_worth(
    search: Search, options: Sequence[Option], first: Sequence[Option], rank: _Rank
) -> tuple[Option, ...]:
    """The steps without which the plan's grade is reached just as well; () where there are none.

    Args:
        search: the search that found them
        options: all steps of the plan
        first: those that end a danger, which are needed
        rank: how far down the letters the tank stands after some steps
    """
    today = zip(search.checks, search.tables.base, strict=True)
    grave = frozenset(check.id for check, severity in today if severity >= WRONG)
    needed = search.needed(tuple(options), grave) if grave else ()
    chosen = _with_what_moves(search, [*first, *(o for o in needed if o not in first)], options)
    aim = rank(options)
    for _ in range(_MOST_TRIED):
        rest = [option for option in options if option not in chosen]
        if not rest:
            return ()
        if rank(chosen) <= aim:
            return tuple(in_order(search, rest))
        chosen = _with_what_moves(search, [*chosen, rest[0]], options)
    return ()
