"""Why a check can't be mended: the checks that the levers which could would cost."""

from __future__ import annotations

from collections.abc import Iterable

from interview.advice.search.budget import Spent
from interview.advice.search.implicit_hitting_set import ImplicitHittingSet
from interview.advice.search.severity_tables import Levers
from interview.advice.what_if.severity import NEEDS_CHANGE, OPEN

__all__ = ["contested"]


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
            if hitting.tables.table(check, (lever,)).min() < NEEDS_CHANGE:
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
