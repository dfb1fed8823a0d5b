"""Settings of several levers that satisfy several tables at once, one lever cleared at a time.

Each table speaks of a few levers only. To clear a lever, the tables that speak of it are laid
together and its best setting is taken for each setting of the others; what is left is one
table without it. (Bucket elimination: R. Dechter, Artificial Intelligence 113:41-85, 1999.)
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from math import prod
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

__all__ = ["Table", "infeasible", "least"]

Table: TypeAlias = tuple[tuple[int, ...], NDArray[Any]]
"""Numbers of levers, rising, and a value for each of their settings (axes)."""
_Told: TypeAlias = tuple[tuple[int, ...], NDArray[Any], frozenset[int]]
"""A table, and the numbers of those it was made from."""
_NONE: frozenset[int] = frozenset()


def infeasible(tables: Sequence[Table], sizes: Mapping[int, int] | None = None) -> tuple[int, ...]:
    """Numbers of tables (of yes and no) that nothing satisfies together; () if all can be.

    Those that met where nothing was left; a few of them may do.

    Args:
        tables: over settings, or over kinds of settings, of levers
        sizes: how many settings each lever has, by which the next to clear is chosen; the axes'
            own lengths where not said
    """
    sizes = _sizes(tables) if sizes is None else sizes
    left = [(levers, where, frozenset([n])) for n, (levers, where) in enumerate(tables)]
    while any(levers for levers, *_ in left):
        lever, near, left = _next(left, sizes)
        axes, where = _laid_together(near, np.logical_and)
        cleared = np.asarray(where.any(axis=axes.index(lever)))
        origin = frozenset(n for *_, numbers in near for n in numbers)
        if not cleared.any():
            return tuple(sorted(origin))
        left.append((tuple(n for n in axes if n != lever), cleared, origin))
    never: list[frozenset[int]] = [numbers for _, where, numbers in left if not where.all()]
    return min((tuple(sorted(numbers)) for numbers in never), key=len, default=())


def least(tables: Sequence[Table], sizes: Mapping[int, int] | None = None) -> dict[int, int]:
    """For each lever its setting where the sum over all tables is least (infinite: never).

    `sizes` as for `infeasible`.
    """
    sizes = _sizes(tables) if sizes is None else sizes
    left = [(levers, where, _NONE) for levers, where in tables]
    cleared: list[tuple[int, Table]] = []
    while any(levers for levers, *_ in left):
        lever, near, left = _next(left, sizes)
        axes, total = _laid_together(near, np.add)
        cleared.append((lever, (axes, total)))
        best = np.asarray(total.min(axis=axes.index(lever)))
        left.append((tuple(n for n in axes if n != lever), best, _NONE))
    place: dict[int, int] = {}
    for lever, (axes, total) in reversed(cleared):
        at = tuple(place.get(n, slice(None)) for n in axes)
        place[lever] = int(np.argmin(total[at]))
    return place


def _sizes(tables: Sequence[Table]) -> dict[int, int]:
    return {
        n: size for levers, where in tables for n, size in zip(levers, where.shape, strict=True)
    }


def _next(
    tables: Sequence[_Told], sizes: Mapping[int, int]
) -> tuple[int, list[_Told], list[_Told]]:
    """The lever whose tables are the smallest together; those tables, and the others."""
    near: dict[int, frozenset[int]] = {}
    for levers in {levers for levers, *_ in tables}:
        for lever in levers:
            near[lever] = near.get(lever, _NONE).union(levers)
    cells = {n: prod([sizes[m] for m in others]) for n, others in near.items()}
    lever = min(cells, key=lambda n: (cells[n], n))
    held = [table for table in tables if lever in table[0]]
    return lever, held, [table for table in tables if lever not in table[0]]


def _laid_together(tables: Sequence[_Told], two: Callable[[Any, Any], Any]) -> Table:
    axes = tuple(sorted({n for levers, *_ in tables for n in levers}))
    whole: Any = None
    for levers, where, _ in tables:
        shape = [where.shape[levers.index(n)] if n in levers else 1 for n in axes]
        spread = where.reshape(shape)
        whole = spread if whole is None else two(whole, spread)
    return axes, whole
