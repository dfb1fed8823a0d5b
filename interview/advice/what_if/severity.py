"""How bad each check stands at best values, for many changed tanks at once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence, Set
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.what_if.suppose import changed_working
from interview.audit.checks.check import Check
from interview.audit.checks.outcomes import RULE_VERDICTS, rules_of
from interview.audit.tank import Tank
from interview.care.facts import limits
from interview.core.errors import NotApplicable, OutOfRange
from interview.core.numeric import is_number
from interview.core.wiring import Wiring
from interview.core.working import Working

__all__ = [
    "GOOD",
    "NEEDS_CHANGE",
    "SEVERITIES",
    "Severities",
    "reached_by",
    "severities",
    "severities_after",
    "severity_in",
    "stacked",
]

Severities = NDArray[np.int8]
GOOD, OPEN, CLOSE, WRONG, WORSE, DANGER, DEEPER = range(7)
"""Good; unmeasured; close; wrong; dangerous: all at best values.

WORSE is wrong and further out than today; DEEPER is the same for a danger.
"""
SEVERITIES = {"good": GOOD, "unmeasured": OPEN, "close": CLOSE, "wrong": WRONG, "danger": DANGER}
_NO_WORSE = 1.05
"""A failing check may drift this much; more is worse."""
NEEDS_CHANGE = CLOSE
"""From here on a change is wanted; below it only measuring helps."""


def severities(
    tank: Tank, checks: Sequence[Check], candidates: Sequence[Mapping[str, Any]]
) -> Severities:
    """Level of each check (columns) after each set of changes (rows), at best values.

    Candidates that differ only in numbers go through the core together.
    """
    found = np.zeros((len(candidates), len(checks)), dtype=np.int8)
    for rows in stacked(candidates):
        changes = _columns([candidates[row] for row in rows])
        found[rows] = severities_after(tank, checks, changes, len(rows)).T
    return found


def stacked(candidates: Sequence[Mapping[str, Any]]) -> list[list[int]]:
    """Rows of candidates with the same names and the same words."""
    groups: dict[Any, list[int]] = {}
    for row, changes in enumerate(candidates):
        words = {n: v for n, v in changes.items() if not is_number(v)}
        key = frozenset(changes), tuple(sorted(words.items(), key=str))
        groups.setdefault(key, []).append(row)
    return list(groups.values())


def _columns(candidates: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    return {
        name: np.array([c[name] for c in candidates], dtype=float) if is_number(value) else value
        for name, value in candidates[0].items()
    }


def severities_after(
    tank: Tank, checks: Sequence[Check], changes: Mapping[str, Any], count: int
) -> Severities:
    """Level of each check (rows) for `count` candidates whose numbers stand side by side."""
    after = changed_working(tank.best, tank.best, changes, reread=False)
    found = np.zeros((len(checks), count), dtype=np.int8)
    for row, check in enumerate(checks):
        severity = severity_in(check, after, tank, count, tank)
        found[row] = _apart(tank, check, changes, count) if severity is None else severity
    return found


def _apart(tank: Tank, check: Check, changes: Mapping[str, Any], count: int) -> Any:
    """The level where some candidate lies outside a formula: halve until it stands alone."""
    if count == 1:
        return WRONG
    halves = np.array_split(np.arange(count), 2)
    parts = [
        severities_after(
            tank, [check], {n: _picked(v, half) for n, v in changes.items()}, len(half)
        )
        for half in halves
    ]
    return np.concatenate([part[0] for part in parts])


def _picked(value: Any, rows: Any) -> Any:
    return value[rows] if isinstance(value, np.ndarray) else value


def reached_by(checks: Sequence[Check], wiring: Wiring, names: Set[str]) -> NDArray[np.bool_]:
    """For each check, whether its verdict rests on any of the names."""
    return np.array([bool(names & _rests_on(check.id, check.decides, wiring)) for check in checks])


@cache
def _rests_on(_: str, names: frozenset[str], wiring: Wiring) -> frozenset[str]:
    """The names, and all they follow from."""
    known = wiring.formulas
    return names.union(*(wiring.upstream(name) for name in names if name in known))


def severity_in(check: Check, working: Working, tank: Tank, count: int, today: Tank) -> Any:
    """Level of each candidate; None where one of them lies outside what a formula takes.

    Args:
        check: what is judged, for each animal apart where it says so
        working: the tank after the candidates' changes
        tank: the tank that a failing check may not get further out than
        count: how many candidates stand side by side
        today: the tank at single best values, whose animals are told apart

    A candidate without a meaning, as water below the bottom, is no number and so is wrong.
    """
    with np.errstate(all="ignore"):
        animals = today.outermost if check.good else today.animals
        animals = animals if check.each_animal else ()
        if len(animals) < 2:
            return _severity_in(check, working, tank, count)
        each = [_severity_in(check, working.of_animal(a.row), tank.only(a), count) for a in animals]
        if any(severity is None for severity in each):
            return None
        return np.maximum.reduce(np.broadcast_arrays(*each))


def _look_in(working: Working) -> Callable[[str], Any]:
    """Gives a limit, answer or quantity of the tank; None if unknown."""
    facts = limits()
    return lambda name: facts[name].value if name in facts else working.get(name)


def _severity_in(check: Check, working: Working, tank: Tank, count: int) -> Any:
    look = _look_in(working)
    if check.relevant:
        relevant = check.relevant.each(look, tank.unit_of)
        if relevant is None or relevant is False:
            return OPEN if relevant is None else GOOD
    rules = rules_of(check, look, tank.unit_of)
    decided = check.good is None or "good" in rules
    decided = decided or any(np.all(h) for name, h in rules.items() if name != "close")
    if not decided:
        return _undecided(check, working)
    held = [np.broadcast_to(np.asarray(h, dtype=bool), count) for h in rules.values()]
    codes = [SEVERITIES[RULE_VERDICTS[name]] for name in rules]
    if not held:
        return OPEN
    found = np.select(held, codes, default=SEVERITIES[RULE_VERDICTS[""]])
    return found + _further_out(check, working, tank, found)


def _further_out(check: Check, working: Working, tank: Tank, found: Any) -> Any:
    """One where a check that fails is further outside its band than today, else nothing."""
    before, after = _outside(check, tank.best), _outside(check, working)
    if working is tank.best or before is None or after is None:
        return 0
    return (found >= WRONG) & (before > 0) & (after > before * _NO_WORSE)


def _outside(check: Check, working: Working) -> Any:
    """How far the measure lies outside the good band; None where that has no meaning."""
    value, bound = working.get(check.measures), _look_in(working)
    if check.good is None or value is None or not is_number(value):
        return None
    short = [(bound(name), 1) for name in check.good.low]
    short += [(bound(name), -1) for name in check.good.high]
    if not short or any(edge is None for edge, _ in short):
        return None
    return np.maximum.reduce(np.broadcast_arrays(*((edge - value) * way for edge, way in short)))


def _undecided(check: Check, working: Working) -> int | None:
    names = (check.measures, *(check.good.names if check.good else ()))
    reasons = [working.why_not(name) for name in names if name not in limits()]
    if any(isinstance(reason, NotApplicable) for reason in reasons):
        return GOOD
    return None if any(isinstance(reason, OutOfRange) for reason in reasons) else OPEN
