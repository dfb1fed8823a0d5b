"""How bad each check stands at best values, for many changed tanks at once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence, Set
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.suppose import changed_working
from interview.audit.checks import Check
from interview.audit.findings import Finding
from interview.audit.judge import Tank
from interview.audit.outcomes import RULE_VERDICTS, rules_of
from interview.care.facts import limits
from interview.core.errors import NotApplicable
from interview.core.wiring import Wiring, Working

__all__ = ["GOOD", "LEVELS", "NEEDS_CHANGE", "level_of", "levels", "reached_by"]

GOOD, OPEN, CLOSE, WRONG, DANGER = range(5)
"""Good; good at best values but not surely, or unmeasured; close; wrong; dangerous."""
LEVELS = {"good": GOOD, "unmeasured": OPEN, "close": CLOSE, "wrong": WRONG, "danger": DANGER}
NEEDS_CHANGE = CLOSE
"""From here on a change is wanted; below it only measuring better helps."""


def level_of(finding: Finding, best: int) -> int:
    """A finding's level; close counts as open where the best value is good (`best`)."""
    if finding.verdict == "close" and best == GOOD:
        return OPEN
    return LEVELS[finding.verdict]


def levels(
    tank: Tank,
    checks: Sequence[Check],
    candidates: Sequence[Mapping[str, Any]],
    base: NDArray[np.int64] | None = None,
) -> NDArray[np.int64]:
    """Level of each check (columns) after each set of changes (rows), at best values.

    Candidates that differ only in numbers go through the core together. With the levels
    before any change (`base`), checks that the changes can't reach keep theirs.
    """
    found = np.zeros((len(candidates), len(checks)), dtype=np.int64)
    for rows in _alike(candidates):
        changes = _stacked([candidates[row] for row in rows])
        after = changed_working(tank.best, tank.best, changes)
        reached = _reached(tank, after) if base is not None else None
        for column, check in enumerate(checks):
            if reached is not None and base is not None and not reached & _rests_on(check, tank):
                found[rows, column] = base[column]
            else:
                found[rows, column] = _levels(check, after, tank, len(rows))
    return found


def reached_by(checks: Sequence[Check], tank: Tank, names: Set[str]) -> NDArray[np.bool_]:
    """For each check, whether it rests on any of the names."""
    return np.array([bool(names & _rests_on(check, tank)) for check in checks])


def _reached(tank: Tank, after: Working) -> set[str]:
    """The answers that are others than before."""
    before = tank.best.known
    return {n for n in {*before, *after.known} if before.get(n) is not after.known.get(n)}


def _rests_on(check: Check, tank: Tank) -> frozenset[str]:
    """Every name a check speaks of, and all they follow from."""
    wiring = tank.best.wiring
    return _closure(check.names, wiring)


@cache
def _closure(names: frozenset[str], wiring: Wiring) -> frozenset[str]:
    known = wiring.formulas
    return names.union(*(wiring.upstream(name) for name in names if name in known))


def _alike(candidates: Sequence[Mapping[str, Any]]) -> list[list[int]]:
    """Rows of candidates with the same names and the same words."""
    groups: dict[Any, list[int]] = defaultdict(list)
    for row, changes in enumerate(candidates):
        words = {n: v for n, v in changes.items() if isinstance(v, str | bool | tuple)}
        groups[frozenset(changes), tuple(sorted(words.items(), key=str))].append(row)
    return list(groups.values())


def _stacked(candidates: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    first = candidates[0]
    return {
        name: value
        if isinstance(value, str | bool | tuple)
        else np.array([c[name] for c in candidates], dtype=float)
        for name, value in first.items()
    }


def _levels(check: Check, working: Working, tank: Tank, count: int) -> Any:
    def look(name: str) -> Any:
        fact = limits().get(name)
        return working.get(name) if fact is None else fact.value

    if check.relevant:
        relevant = check.relevant.each(look, tank.unit_of)
        if relevant is None or relevant is False:
            return OPEN if relevant is None else GOOD
    rules = rules_of(check, look, tank.unit_of)
    decided = check.good is None or "good" in rules or any(np.all(h) for h in rules.values())
    if not decided:
        return GOOD if _idle(check, working) else OPEN
    held = [np.broadcast_to(np.asarray(h, dtype=bool), count) for h in rules.values()]
    codes = [LEVELS[RULE_VERDICTS[name]] for name in rules]
    return np.select(held, codes, default=LEVELS[RULE_VERDICTS[""]]) if held else OPEN


def _idle(check: Check, working: Working) -> bool:
    """Whether the quantity has no meaning for the tank, so that there is nothing to judge."""
    return isinstance(working.why_not(check.measures), NotApplicable)
