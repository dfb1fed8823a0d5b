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
from interview.advice.suppose import changed_working
from interview.advice.trials import Levers, Trials, merged
from interview.audit.outcomes import SURE
from interview.core.numeric import is_number
from interview.core.wiring import Working

__all__ = ["settle"]

_DRAWS = 256
"""The first draws of the cloud, which fill its cube evenly too."""
_ROUNDS = 2
_ALIKE = 0.05
"""Scores this near count as equal: then the setting that moves less wins."""
_DANGER_COUNTS = 10.0

Place = tuple[int, ...]
"""The number of one setting for each chosen lever."""


def settle(trials: Trials, puzzle: Puzzle, chosen: Levers) -> tuple[float, tuple[Option, ...]]:
    """Settings of the levers that meet every goal, and how surely: the weighted chance."""
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
    options = tuple(trials.options[n][k] for n, k in zip(chosen, place, strict=True))
    reached = np.flatnonzero(trials.reach[list(chosen)].any(axis=0)).tolist()
    return float(_scores(trials, reached, [merged(options)], cloud)[0]), options


def thinned(cloud: Working) -> Working:
    """The cloud with fewer draws."""
    few = {name: value[:_DRAWS] if _drawn(value) else value for name, value in cloud.known.items()}
    return cloud.wiring.working(few)


def _drawn(value: Any) -> bool:
    return isinstance(value, np.ndarray) and value.ndim > 0 and len(value) > _DRAWS


def _nearest(trials: Trials, puzzle: Puzzle, chosen: Levers) -> Place:
    """Settings that meet every goal with little movement: hubs first, then group by group."""
    hubs = tuple(n for n in chosen if n in trials.hubs)
    room = puzzle.room(chosen)
    start = _least(room, [_steps(trials, n) for n in hubs])
    at = dict(zip(hubs, start, strict=True))
    for group, checks in puzzle.groups(chosen):
        held = puzzle.held_together((*hubs, *group), checks)[start]
        at |= dict(zip(group, _least(held, [_steps(trials, n) for n in group]), strict=True))
    return tuple(at.get(n, 0) for n in chosen)


def _steps(trials: Trials, lever: int) -> NDArray[np.float64]:
    return np.array([option.steps for option in trials.options[lever]])


def _least(held: NDArray[np.bool_], steps: Sequence[NDArray[np.float64]]) -> Place:
    """The place with the least movement among those that hold."""
    total: Any = np.zeros(held.shape)
    for axis, row in enumerate(steps):
        total = total + row.reshape([-1 if n == axis else 1 for n in range(held.ndim)])
    flat = int(np.argmin(np.where(held, total, np.inf)))
    return tuple(int(n) for n in np.unravel_index(flat, held.shape))


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
