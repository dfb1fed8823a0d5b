"""The severity of every check for many changed tanks at once, at best values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.what_if.severity import WRONG, Severities, judged_apart, severity_in
from interview.advice.what_if.suppose import changed_working
from interview.audit.checks.check import Check
from interview.audit.tank import Tank
from interview.care.facts import limits
from interview.core.errors import Impossible, OutOfRange
from interview.core.numeric import is_number
from interview.core.wiring import Wiring
from interview.core.working import Working

__all__ = ["reached_by", "rests_on", "severities", "severities_after", "severity_after", "stacked"]

_Rows = NDArray[np.bool_]


def severities(
    tank: Tank, checks: Sequence[Check], candidates: Sequence[Mapping[str, Any]]
) -> Severities:
    """Severity of each check (columns) after each set of changes (rows), at best values.

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
    """Severity of each check (rows) for `count` candidates whose numbers stand side by side."""
    after = changed_working(tank.best, tank.best, changes, reread=False)
    rows = [severity_after(tank, check, changes, after, count) for check in checks]
    return np.array(rows, dtype=np.int8).reshape(len(checks), count)


def severity_after(
    tank: Tank, check: Check, changes: Mapping[str, Any], after: Working, count: int
) -> Severities:
    """Severity of one check for each candidate, as if it stood alone.

    Where some lie outside what a formula takes, these are judged apart from the others.

    Args:
        tank: the tank before
        check: what is judged
        changes: the candidates' numbers side by side, and the words they share
        after: the best values after the changes
        count: how many candidates there are
    """
    severity = severity_in(check, after, tank, count, tank)
    if severity is None and count == 1:
        severity = WRONG
    if severity is not None:
        return np.broadcast_to(severity, count).astype(np.int8)
    parts = _parts(check, after, tank, count)
    if not parts:
        severity = severity_in(check, after, tank, count, tank, all_outside=True)
        return np.broadcast_to(severity, count).astype(np.int8)
    found = np.zeros(count, dtype=np.int8)
    for part in parts:
        some = {name: _picked(value, part) for name, value in changes.items()}
        working = changed_working(tank.best, tank.best, some, reread=False)
        found[part] = severity_after(tank, check, some, working, len(part))
    return found


def _parts(check: Check, after: Working, tank: Tank, count: int) -> list[NDArray[np.intp]]:
    """Rows to judge apart: those inside a formula's range and those outside.

    None where all lie outside of all that lies outside; halves where no input tells them apart.
    """
    outside = list(_outside(check, after, tank, count))
    for rows in outside:
        if rows is not None and rows.any() and not rows.all():
            return [np.flatnonzero(~rows), np.flatnonzero(rows)]
    if outside and all(rows is not None and rows.all() for rows in outside):
        return []
    return list(np.array_split(np.arange(count), 2))


def _outside(check: Check, after: Working, tank: Tank, count: int) -> Iterator[_Rows | None]:
    """For each reason why the check is undecided the rows it holds for; None if nobody can tell."""
    animals = judged_apart(check, tank)
    for working in [after.of_animal(a.row) for a in animals] if animals else [after]:
        for name in check.decides_alone - set(limits()):
            reason = working.why_not(name)
            if isinstance(reason, Impossible):
                yield np.ones(count, dtype=bool)
            elif isinstance(reason, OutOfRange):
                yield _rows_outside(working.get(reason.name), reason.low, reason.high, count)


def _rows_outside(value: Any, low: float, high: float, count: int) -> _Rows | None:
    if value is None:
        return None
    outside = (np.asarray(value, dtype=float) < low) | (np.asarray(value, dtype=float) > high)
    if outside.ndim and len(outside) == count:
        return np.asarray(outside.reshape(count, -1).any(axis=1))
    return np.full(count, bool(outside.any()))


def _picked(value: Any, rows: Any) -> Any:
    return value[rows] if isinstance(value, np.ndarray) else value


def reached_by(checks: Sequence[Check], wiring: Wiring, names: Set[str]) -> NDArray[np.bool_]:
    """For each check, whether its verdict rests on any of the names."""
    return np.array([bool(names & rests_on(check.decides_alone, wiring)) for check in checks])


@cache
def rests_on(names: frozenset[str], wiring: Wiring) -> frozenset[str]:
    """The names, and all they follow from."""
    known = wiring.formulas
    return names.union(*(wiring.upstream(name) for name in names if name in known))
