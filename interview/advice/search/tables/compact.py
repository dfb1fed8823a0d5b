"""Tables over the settings of levers, in which settings that make no difference stand once.

Of twenty-six heights of a lamp a check tells three or four apart. So a table of twenty million
settings of eight levers is one of a few thousand cells.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.search.bucket_elimination import Table

__all__ = ["Compact", "in_kinds"]


@dataclass(frozen=True)
class Compact:
    """Values, and for each axis which of its slices stands for each setting."""

    cells: NDArray[Any]
    kinds: tuple[NDArray[np.intp], ...]

    @classmethod
    def of(cls, cells: NDArray[Any], kinds: Iterable[NDArray[np.intp]]) -> Compact:
        """The table with slices that are alike laid together."""
        found = list(kinds)
        for axis, length in enumerate(cells.shape):
            first, number = dict[bytes, int](), list[int]()
            rows = np.moveaxis(cells, axis, 0).reshape(length, -1) if length > 1 else ()
            for n, row in enumerate(rows):
                number.append(first.setdefault(row.tobytes(), n))
            if len(first) < len(number):
                kept = list(first.values())
                cells = cells.take(kept, axis=axis)
                found[axis] = np.searchsorted(kept, number)[found[axis]]
        return cls(cells, tuple(found))

    def at_most(self, goal: int) -> Compact:
        """Where the values reach a goal."""
        return Compact.of(self.cells <= goal, self.kinds)

    def along(self, place: Sequence[int | None]) -> NDArray[Any]:
        """The values over the settings of the one lever that has no place, the others at theirs."""
        at = tuple(
            kinds if n is None else kinds[n] for kinds, n in zip(self.kinds, place, strict=True)
        )
        return np.asarray(self.cells[at])

    def whole(self) -> NDArray[Any]:
        """A value for each setting of each lever."""
        return _picked(self.cells, self.kinds)


def in_kinds(
    tables: Sequence[tuple[tuple[int, ...], Compact]],
    costs: Mapping[int, Sequence[float]] | None = None,
) -> tuple[list[Table], dict[int, list[int]]]:
    """Tables over kinds of settings, those that no table tells apart being of one kind.

    Args:
        tables: numbers of levers, rising, and a table over their settings
        costs: of each setting of each lever; of a kind the cheapest one counts, else the first

    Returns:
        the smaller tables; and for each lever the setting that stands for each kind
    """
    columns: dict[int, list[list[int]]] = {}
    for levers, table in tables:
        for lever, kinds in zip(levers, table.kinds, strict=True):
            columns.setdefault(lever, []).append(kinds.tolist())
    stand = {n: _standing(rows, costs[n] if costs else None) for n, rows in columns.items()}
    smaller: list[Table] = []
    for levers, table in tables:
        kept = [kinds[stand[n]] for n, kinds in zip(levers, table.kinds, strict=True)]
        smaller.append((levers, _picked(table.cells, kept)))
    return smaller, stand


def _picked(cells: NDArray[Any], rows: Sequence[NDArray[np.intp]]) -> NDArray[Any]:
    """Along each axis these slices; `cells[np.ix_(*rows)]`, in long stretches and so quicker.

    The last axes go first, so that the largest step copies the longest stretches.
    """
    for axis in reversed(range(cells.ndim)):
        if not np.array_equal(rows[axis], np.arange(cells.shape[axis])):
            cells = cells.take(rows[axis], axis=axis)
    return cells


def _standing(columns: Sequence[Sequence[int]], costs: Sequence[float] | None) -> list[int]:
    """One setting for each way in which the columns go together, rising."""
    best: dict[tuple[int, ...], int] = {}
    for setting, key in enumerate(zip(*columns, strict=True)):
        known = best.setdefault(key, setting)
        if costs is not None and costs[setting] < costs[known]:
            best[key] = setting
    return sorted(best.values())
