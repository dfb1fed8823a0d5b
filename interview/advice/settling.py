"""Which settings of the chosen levers: those that leave most room for doubt, then the nearest."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.levels import DANGER, GOOD, level_in, stacked
from interview.advice.levers import Option
from interview.advice.puzzle import Puzzle
from interview.advice.rooms import Table, least
from interview.advice.suppose import changed_working
from interview.advice.trials import Levers, Trials, merged
from interview.audit.outcomes import SURE
from interview.core.numeric import is_number
from interview.core.wiring import Working

__all__ = ["settle", "surest"]

_DRAWS = 256
"""The first draws of the cloud, which fill its cube evenly too."""
_ROUNDS = 2
_ALIKE = 0.05
"""Scores this near count as equal: then the setting that moves less wins."""
_DANGER_COUNTS = 10.0
_HUB_FIRST = 1e3
"""A step of the water line, or another tank, outweighs any steps of the rest."""

Place = tuple[int, ...]
"""The number of one setting for each chosen lever."""


def settle(trials: Trials, puzzle: Puzzle, chosen: Levers) -> tuple[Option, ...]:
    """Settings of the levers that meet every goal, as surely as can be."""
    place = _nearest(trials, puzzle, chosen)
    cloud = thinned(trials.tank.cloud)
    wide = [
        n for n in np.argsort([-trials.count(n) for n in chosen]) if trials.count(chosen[n]) > 1
    ]
    for _ in range(_ROUNDS):
        before = place
        for axis in wide:
            place = _better_along(trials, puzzle, chosen, place, axis, cloud)
        if place == before:
            break
    return tuple(trials.options[n][k] for n, k in zip(chosen, place, strict=True) if k)


def surest(trials: Trials, sets: Sequence[tuple[Option, ...]]) -> tuple[Option, ...]:
    """Of several sets of settings the one that leaves the weighty checks good most surely."""
    if len(sets) == 1:
        return sets[0]
    names = {option.lever.name for options in sets for option in options}
    levers = [n for n, lever in enumerate(trials.levers) if lever.name in names]
    reached = np.flatnonzero(trials.reach[levers].any(axis=0)).tolist()
    cloud = thinned(trials.tank.cloud)
    scores = [_scores(trials, reached, [merged(options)], cloud)[0] for options in sets]
    return sets[int(np.argmax(scores))]


def thinned(cloud: Working) -> Working:
    """The cloud with fewer draws."""
    few = {name: value[:_DRAWS] if _drawn(value) else value for name, value in cloud.known.items()}
    return cloud.wiring.working(few)


def _drawn(value: Any) -> bool:
    return isinstance(value, np.ndarray) and value.ndim > 0 and len(value) > _DRAWS


def _nearest(trials: Trials, puzzle: Puzzle, chosen: Levers) -> Place:
    """Settings that meet every goal with least movement, that of the hubs above all."""
    tables: list[Table] = [
        (levers, np.where(held, 0.0, np.inf)) for levers, held in puzzle.tables(chosen)
    ]
    for n in chosen:
        steps = np.array([option.steps for option in trials.options[n]])
        tables.append(((n,), steps * (_HUB_FIRST if n in trials.hubs else 1.0)))
    place = least(tables)
    return tuple(place[n] for n in chosen)


def _better_along(
    trials: Trials, puzzle: Puzzle, chosen: Levers, place: Place, axis: int, cloud: Working
) -> Place:
    """The best setting of one lever while the others stay."""
    lever = chosen[axis]
    checks = np.flatnonzero(trials.reach[lever]).tolist()
    held = np.ones(trials.count(lever), dtype=bool)
    for check in checks:
        levers = puzzle.reaching(check, chosen)
        at = tuple(slice(None) if n == lever else place[chosen.index(n)] for n in levers)
        held &= puzzle.holds(check, levers)[at]
    numbers = np.flatnonzero(held).tolist()
    others = [trials.options[n][k] for n, k in zip(chosen, place, strict=True)]
    candidates = []
    for number in numbers:
        others[axis] = trials.options[lever][number]
        candidates.append(merged(others))
    scores = _scores(trials, checks, candidates, cloud)
    good = [n for n, score in zip(numbers, scores, strict=True) if score >= max(scores) - _ALIKE]
    best = min(good, key=lambda n: trials.options[lever][n].steps)
    return (*place[:axis], best, *place[axis + 1 :])


def _scores(
    trials: Trials, checks: Sequence[int], candidates: Sequence[Any], cloud: Working
) -> NDArray[np.float64]:
    """For each candidate the sum over checks of weight times the chance of staying good.

    A chance beyond what a verdict asks for counts no more; a chance of danger counts tenfold.
    """
    scores = np.zeros(len(candidates))
    best = trials.tank.best
    for rows in stacked(candidates):
        few = _repeated(cloud, len(rows))
        changes = {
            name: np.repeat(np.array([candidates[r][name] for r in rows], dtype=float), _DRAWS)
            if is_number(value)
            else value
            for name, value in candidates[rows[0]].items()
        }
        after = changed_working(few, best, changes, reread=False)
        for number in checks:
            check = trials.checks[number]
            still = replace(trials.tank, best=after)
            level = level_in(check, after, still, len(rows) * _DRAWS, trials.tank)
            if level is not None and np.ndim(level):
                drawn = np.asarray(level).reshape(len(rows), _DRAWS)
                sure = np.minimum((drawn == GOOD).mean(axis=1), SURE)
                danger = (drawn == DANGER).mean(axis=1)
                scores[rows] += check.weight * (sure - _DANGER_COUNTS * danger)
    return scores


def _repeated(cloud: Working, times: int) -> Working:
    """The cloud, one copy after the other."""
    if times == 1:
        return cloud
    known = {
        name: np.concatenate([value] * times)
        if isinstance(value, np.ndarray) and value.ndim and len(value) == _DRAWS
        else value
        for name, value in cloud.known.items()
    }
    return cloud.wiring.working(known)
