"""Which settings of the chosen levers: those that leave most room for doubt, then the nearest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.levers.levers import Option
from interview.advice.search.bucket_elimination import Table, least
from interview.advice.search.implicit_hitting_set import ImplicitHittingSet
from interview.advice.search.tables.compact import in_kinds
from interview.advice.search.tables.severity_tables import Levers, SeverityTables, merged
from interview.advice.what_if.candidates import stacked
from interview.advice.what_if.severity import DANGER, GOOD, severity_in
from interview.advice.what_if.suppose import changed_working
from interview.audit.checks.outcomes import SURE
from interview.core.numeric import is_number
from interview.core.working import Working

__all__ = ["most_robust", "robust_settings"]

_DRAWS = 256
"""The first draws of the sample, which fill its cube evenly too."""
_ROUNDS = 2
_ALIKE = 0.05
"""Scores this near count as equal: then the setting that moves less wins."""
_TOLL = 0.1
"""What a step of the water line has to gain in score: it moves everything, and weighs."""
_DANGER_COUNTS = 10.0
_HUB_FIRST = 1e3
"""A step of the water line, or another tank, outweighs any steps of the rest."""

Place = tuple[int, ...]
"""The number of one setting for each chosen lever."""


def robust_settings(
    tables: SeverityTables, hitting: ImplicitHittingSet, chosen: Levers
) -> tuple[Option, ...]:
    """Settings of the levers that meet every goal, as surely as can be."""
    place = _nearest(tables, hitting, chosen)
    sample = thinned(tables.tank.sample)
    wide = [
        n for n in np.argsort([-tables.count(n) for n in chosen]) if tables.count(chosen[n]) > 1
    ]
    best: dict[tuple[int, Place], Place] = {}
    for _ in range(_ROUNDS):
        before = place
        for axis in wide:
            others = axis, (*place[:axis], *place[axis + 1 :])
            if others not in best:
                best[others] = _better_along(tables, hitting, chosen, place, axis, sample)
            place = best[others]
        if place == before:
            break
    return tuple(tables.options[n][k] for n, k in zip(chosen, place, strict=True) if k)


def most_robust(tables: SeverityTables, sets: Sequence[tuple[Option, ...]]) -> tuple[Option, ...]:
    """Of several sets of settings the one that leaves the weighty checks good most surely."""
    if len(sets) == 1:
        return sets[0]
    names = {option.lever.name for options in sets for option in options}
    levers = [n for n, lever in enumerate(tables.levers) if lever.name in names]
    reached = np.flatnonzero(tables.reach[levers].any(axis=0)).tolist()
    sample = thinned(tables.tank.sample)
    scores = [_scores(tables, reached, [merged(options)], sample)[0] for options in sets]
    return sets[int(np.argmax(scores))]


def thinned(sample: Working) -> Working:
    """The sample with fewer draws."""
    few = {name: value[:_DRAWS] if _drawn(value) else value for name, value in sample.known.items()}
    return sample.wiring.working(few, draws=True)


def _drawn(value: Any) -> bool:
    return isinstance(value, np.ndarray) and value.ndim > 0 and len(value) > _DRAWS


def _nearest(tables: SeverityTables, hitting: ImplicitHittingSet, chosen: Levers) -> Place:
    """Settings that meet every goal with least movement, that of the hubs above all."""
    steps = {
        n: [o.steps * (_HUB_FIRST if n in tables.hubs else 1.0) for o in tables.options[n]]
        for n in chosen
    }
    held, stand = in_kinds(hitting.feasible_tables(chosen), steps)
    stand = {n: stand.get(n, list(range(tables.count(n)))) for n in chosen}
    costs: list[Table] = [(levers, np.where(where, 0.0, np.inf)) for levers, where in held]
    costs += [((n,), np.array(steps[n])[stand[n]]) for n in chosen]
    place = least(costs, {n: tables.count(n) for n in chosen})
    return tuple(stand[n][place[n]] for n in chosen)


def _better_along(
    tables: SeverityTables,
    hitting: ImplicitHittingSet,
    chosen: Levers,
    place: Place,
    axis: int,
    sample: Working,
) -> Place:
    """The best setting of one lever while the others stay."""
    lever = chosen[axis]
    checks = np.flatnonzero(tables.reach[lever]).tolist()
    held = np.ones(tables.count(lever), dtype=bool)
    for check in checks:
        levers = hitting.reaching(check, chosen)
        at = [None if n == lever else place[chosen.index(n)] for n in levers]
        held &= hitting.holds(check, levers).along(at)
    numbers = np.flatnonzero(held).tolist()
    if len(numbers) == 1:
        return (*place[:axis], numbers[0], *place[axis + 1 :])
    others = [tables.options[n][k] for n, k in zip(chosen, place, strict=True)]
    candidates = []
    for number in numbers:
        others[axis] = tables.options[lever][number]
        candidates.append(merged(others))
    scores = _scores(tables, checks, candidates, sample)
    if lever in tables.hubs:
        scores -= _TOLL * np.array([tables.options[lever][n].steps for n in numbers])
    good = [n for n, score in zip(numbers, scores, strict=True) if score >= max(scores) - _ALIKE]
    best = min(good, key=lambda n: tables.options[lever][n].steps)
    return (*place[:axis], best, *place[axis + 1 :])


def _scores(
    tables: SeverityTables, checks: Sequence[int], candidates: Sequence[Any], sample: Working
) -> NDArray[np.float64]:
    """For each candidate the sum over checks of weight times the chance of staying good.

    A chance beyond what a verdict asks for counts no more; a chance of danger counts tenfold.
    """
    scores = np.zeros(len(candidates))
    best = tables.tank.best
    for rows in stacked(candidates):
        few = _repeated(sample, len(rows))
        changes = {
            name: np.repeat(np.array([candidates[r][name] for r in rows], dtype=float), _DRAWS)
            if is_number(value)
            else value
            for name, value in candidates[rows[0]].items()
        }
        after = changed_working(few, best, changes, reread=False)
        for number in checks:
            check = tables.checks[number]
            still = replace(tables.tank, best=after)
            severity = severity_in(check, after, still, len(rows) * _DRAWS, tables.tank)
            if severity is not None and np.ndim(severity):
                drawn = np.asarray(severity).reshape(len(rows), _DRAWS)
                sure = np.minimum((drawn == GOOD).mean(axis=1), SURE)
                danger = (drawn == DANGER).mean(axis=1)
                scores[rows] += check.weight * (sure - _DANGER_COUNTS * danger)
    return scores


def _repeated(sample: Working, times: int) -> Working:
    """The sample, one copy after the other."""
    if times == 1:
        return sample
    known = {
        name: np.concatenate([value] * times)
        if isinstance(value, np.ndarray) and value.ndim and len(value) == _DRAWS
        else value
        for name, value in sample.known.items()
    }
    return sample.wiring.working(known, draws=True)
