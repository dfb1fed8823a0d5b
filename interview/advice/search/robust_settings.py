"""Which settings of the chosen levers: those that leave most room for doubt, then the nearest."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from interview.advice.levers.levers import Option
from interview.advice.search.bucket_elimination import Table, least
from interview.advice.search.implicit_hitting_set import ImplicitHittingSet
from interview.advice.search.scores import Scores
from interview.advice.search.tables.compact import in_kinds
from interview.advice.search.tables.severity_tables import Levers, SeverityTables

__all__ = ["most_robust", "robust_settings"]

_ROUNDS = 2
_ALIKE = 0.05
"""Scores this near count as equal: then the setting that moves less wins."""
_TOLL = 0.1
"""What a step of the water line has to gain in score: it moves everything, and weighs."""
_HUB_FIRST = 1e3
"""A step of the water line, or another tank, outweighs any steps of the rest."""

Place = tuple[int, ...]
"""The number of one setting for each chosen lever."""


def robust_settings(
    scores: Scores, hitting: ImplicitHittingSet, chosen: Levers
) -> tuple[Option, ...]:
    """Settings of the levers that meet every goal, as surely as can be."""
    tables = scores.tables
    place = _nearest(tables, hitting, chosen)
    wide = [
        n for n in np.argsort([-tables.count(n) for n in chosen]) if tables.count(chosen[n]) > 1
    ]
    best: dict[tuple[int, Place], Place] = {}
    for _ in range(_ROUNDS):
        before = place
        for axis in wide:
            others = axis, (*place[:axis], *place[axis + 1 :])
            if others not in best:
                best[others] = _better_along(scores, hitting, chosen, place, axis)
            place = best[others]
        if place == before:
            break
    return tuple(tables.options[n][k] for n, k in zip(chosen, place, strict=True) if k)


def most_robust(scores: Scores, sets: Sequence[tuple[Option, ...]]) -> tuple[Option, ...]:
    """Of several sets of settings the one that leaves the weighty checks good most surely."""
    if len(sets) == 1:
        return sets[0]
    tables, names = scores.tables, {option.lever.name for options in sets for option in options}
    levers = [n for n, lever in enumerate(tables.levers) if lever.name in names]
    reached = np.flatnonzero(tables.reach[levers].any(axis=0)).tolist()
    return sets[int(np.argmax([scores(reached, [options])[0] for options in sets]))]


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
    scores: Scores, hitting: ImplicitHittingSet, chosen: Levers, place: Place, axis: int
) -> Place:
    """The best setting of one lever while the others stay."""
    tables, lever = scores.tables, chosen[axis]
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
    settings = [tables.options[lever][number] for number in numbers]
    found = scores(checks, [(*others[:axis], one, *others[axis + 1 :]) for one in settings])
    if lever in tables.hubs:
        found -= _TOLL * np.array([option.steps for option in settings])
    good = [n for n, score in zip(numbers, found, strict=True) if score >= max(found) - _ALIKE]
    best = min(good, key=lambda n: tables.options[lever][n].steps)
    return (*place[:axis], best, *place[axis + 1 :])
