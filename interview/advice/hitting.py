"""The fewest and cheapest levers that hold one of each group: scipy's integer programme."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

__all__ = ["fewest"]

_A_CHANGE = 1000.0
"""What one more lever weighs against money: more than any plan costs."""
_EARLIER = 1e-4
"""Of sets that cost the same the one with the earlier levers, whatever the solver prefers."""


def fewest(
    costs: Sequence[float],
    groups: Iterable[Collection[int]],
    but: Iterable[Collection[int]] = (),
) -> tuple[int, ...] | None:
    """Numbers of the levers, rising; None where no set serves.

    Args:
        costs: of each lever; infinite for one that may not be taken
        groups: numbers of levers, of each of which at least one is taken
        but: sets that may not be taken whole
    """
    usable = np.isfinite(costs)
    rows = [_row(group, len(costs)) for group in _least(groups)]
    barred = [_row(levers, len(costs)) for levers in but]
    if not rows:
        return ()
    if any(not row[usable].any() for row in rows):
        return None
    weights = _A_CHANGE + np.where(usable, costs, 0.0) + _EARLIER * np.arange(len(costs))
    low = [1.0] * len(rows) + [-np.inf] * len(barred)
    high = [np.inf] * len(rows) + [row.sum() - 1.0 for row in barred]
    solved = milp(
        weights,
        integrality=np.ones(len(costs)),
        bounds=Bounds(0, usable.astype(float)),
        constraints=LinearConstraint(np.array([*rows, *barred]), low, high),
        options={"mip_rel_gap": 0.0},
    )
    if solved.x is None:
        return None
    return tuple(np.flatnonzero(solved.x > 0.5).tolist())


def _least(groups: Iterable[Collection[int]]) -> list[frozenset[int]]:
    """The groups without those that hold another whole: who hits that one hits them too."""
    found: list[frozenset[int]] = []
    for group in sorted({frozenset(g) for g in groups}, key=lambda g: (len(g), sorted(g))):
        if not any(other <= group for other in found):
            found.append(group)
    return found


def _row(levers: Collection[int], count: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    row = np.zeros(count)
    row[list(levers)] = 1.0
    return row
