"""How far each check is to be brought: goals, met together where they can be, else in order.

And why one can't be met: the checks that the levers which could would cost.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence

import numpy as np

from interview.advice.search.budget import Budget, Spent
from interview.advice.search.implicit_hitting_set import ImplicitHittingSet
from interview.advice.search.tables.severity_tables import Levers, SeverityTables
from interview.advice.what_if.severity import DANGER, NEEDS_CHANGE, OPEN, Severities

__all__ = ["Reached", "best_sets", "contested", "wanting", "within_reach"]

_MOST_ALONE = 3
"""Levers that are tried together on one check, to see how far it can be brought."""
_TABLE = 10
"""Steps that a table made to see how far one check can be brought counts."""


class Reached:
    """The goals reached so far, and the least sets of levers that reach them.

    `proven` until the budget has ended a search before it knew.
    """

    def __init__(self, hitting: ImplicitHittingSet, sets: list[Levers], budget: Budget) -> None:
        self.hitting, self.sets = hitting, sets
        self.budget, self.proven = budget, True

    def tries(self, goals: Severities) -> bool:
        """Whether all these goals can be met too; if so they are what is reached."""
        tables, allowed = self.hitting.tables, self.hitting.allowed
        better = ImplicitHittingSet(tables, allowed, goals, self.budget.part())
        try:
            sets = better.solve()
        except Spent:
            self.proven = False
            return False
        if sets:
            better.budget = self.budget
            self.hitting, self.sets = better, sets
        return bool(sets)


def wanting(severities: Severities, wanted: frozenset[int]) -> list[int]:
    """The wanted checks that need a change."""
    return [c for c in sorted(wanted) if severities[c] >= NEEDS_CHANGE]


def within_reach(
    hitting: ImplicitHittingSet, checks: Iterable[int], budget: Budget
) -> tuple[Severities, bool]:
    """For each check the best severity it can be brought to, whatever becomes of the others.

    Returns:
        the goals, those of other checks as they were; and whether the budget sufficed
    """
    goals = hitting.goals.copy()
    try:
        for check in checks:
            goals[check] = _best_alone(hitting.tables, check, hitting.helpers(check), budget)
    except Spent:
        return goals, False
    return goals, True


def _best_alone(tables: SeverityTables, check: int, helpers: Iterable[int], budget: Budget) -> int:
    best = int(tables.base[check])
    for size in range(1, _MOST_ALONE + 1):
        for levers in itertools.combinations(sorted(helpers), size):
            budget.spend(_TABLE)
            best = min(best, max(int(tables.compact(check, levers).cells.min()), OPEN))
            if best < NEEDS_CHANGE:
                return best
    return best


def best_sets(start: Reached, wanted: Severities) -> Reached:
    """Goal after goal, dangers and weighty checks first; what can't be met is dropped.

    Args:
        start: what is reached without any of them
        wanted: how far each check is to be brought
    """
    checks, goals = start.hitting.tables.checks, start.hitting.goals
    left = sorted(
        np.flatnonzero(wanted < goals).tolist(),
        key=lambda c: (goals[c] < DANGER, -checks[c].weight, -int(goals[c])),
    )
    while left:
        met = _first_met(start, left, wanted)
        if met < len(left):
            _halfway(start, left[met], int(wanted[left[met]]))
        left = left[met + 1 :]
    return start


def _first_met(reached: Reached, left: Sequence[int], wanted: Severities) -> int:
    """How many more goals, from the first on, can be met together: by halving."""
    met, failed = 0, len(left) + 1
    while failed - met > 1:
        tried = (met + failed) // 2
        goals = reached.hitting.goals.copy()
        goals[list(left[:tried])] = wanted[list(left[:tried])]
        if reached.tries(goals):
            met = tried
        else:
            failed = tried
    return met


def _halfway(reached: Reached, check: int, wanted: int) -> None:
    """A check that can't be brought all the way, brought as far as it can be."""
    for severity in range(wanted + 1, int(reached.hitting.goals[check])):
        goals = reached.hitting.goals.copy()
        goals[check] = severity
        if reached.tries(goals):
            return


def contested(hitting: ImplicitHittingSet, chosen: Levers, check: int) -> tuple[str, ...]:
    """A check that a lever could mend, and those that it would then cost; () if none could.

    Of several levers the one whose conflict is plainest: few checks, of the same section.
    """
    goals = hitting.goals.copy()
    goals[check] = OPEN
    wanted = ImplicitHittingSet(hitting.tables, hitting.allowed, goals, hitting.budget)
    found: list[tuple[tuple[int, int], list[int]]] = []
    checks = hitting.tables.checks
    try:
        for lever in sorted(wanted.helpers(check)):
            if hitting.tables.compact(check, (lever,)).cells.min() < NEEDS_CHANGE:
                conflict = wanted.conflict_of(tuple(sorted({*chosen, lever})))
                if len(conflict) > 1 and check in conflict:
                    others = [c for c in conflict if c != check]
                    strangers = _strangers(hitting, check, others)
                    found.append(((len(others), strangers), others))
    except Spent:
        pass
    if not found:
        return ()
    _, others = min(found, key=lambda pair: pair[0])
    return tuple(checks[c].id for c in (check, *others))


def _strangers(hitting: ImplicitHittingSet, check: int, others: Iterable[int]) -> int:
    """How many of the others belong to another section of the page."""
    checks = hitting.tables.checks
    return sum(checks[c].section != checks[check].section for c in others)
