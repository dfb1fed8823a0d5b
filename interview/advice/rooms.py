"""Settings of several levers that satisfy several tables at once, one lever cleared at a time.

Each table speaks of a few levers only. To clear a lever, the tables that speak of it are laid
together and its best setting is taken for each setting of the others; what is left is one
table without it. (Bucket elimination: R. Dechter, Artificial Intelligence 113:41-85, 1999.)
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import prod
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

__all__ = ["Table", "least", "there_is_room"]

Table: TypeAlias = tuple[tuple[int, ...], NDArray[Any]]
"""Numbers of levers, rising, and a value for each of their settings (axes)."""


def there_is_room(tables: Sequence[Table]) -> bool:
    """Whether some settings hold in every table (of yes and no)."""
    left = list(tables)
    while any(levers for levers, _ in left):
        lever, near, left = _next(left)
        axes, where = _laid_together(near, np.logical_and)
        cleared = np.asarray(where.any(axis=axes.index(lever)))
        if not cleared.any():
            return False
        left.append((tuple(n for n in axes if n != lever), cleared))
    return all(bool(where.all()) for _, where in left)


def least(tables: Sequence[Table]) -> dict[int, int]:
    """For each lever its setting where the sum over all tables is least (infinite: never)."""
    left = list(tables)
    cleared: list[tuple[int, Table]] = []
    while any(levers for levers, _ in left):
        lever, near, left = _next(left)
        axes, total = _laid_together(near, np.add)
        cleared.append((lever, (axes, total)))
        best = np.asarray(total.min(axis=axes.index(lever)))
        left.append((tuple(n for n in axes if n != lever), best))
    place: dict[int, int] = {}
    for lever, (axes, total) in reversed(cleared):
        at = tuple(place.get(n, slice(None)) for n in axes)
        place[lever] = int(np.argmin(total[at]))
    return place


def _next(tables: Sequence[Table]) -> tuple[int, list[Table], list[Table]]:
    """The lever whose tables are the smallest together; those tables, and the others."""
    sizes: dict[int, int] = {}
    near: dict[int, set[int]] = {}
    for levers, where in tables:
        sizes.update(zip(levers, where.shape, strict=True))
        for lever in levers:
            near.setdefault(lever, set()).update(levers)
    cells = {n: prod(sizes[m] for m in others) for n, others in near.items()}
    lever = min(cells, key=lambda n: (cells[n], n))
    held = [table for table in tables if lever in table[0]]
    return lever, held, [table for table in tables if lever not in table[0]]


def _laid_together(tables: Sequence[Table], two: Callable[[Any, Any], Any]) -> Table:
    axes = tuple(sorted({n for levers, _ in tables for n in levers}))
    whole: Any = None
    for levers, where in tables:
        shape = [where.shape[levers.index(n)] if n in levers else 1 for n in axes]
        spread = where.reshape(shape)
        whole = spread if whole is None else two(whole, spread)
    return axes, whole
