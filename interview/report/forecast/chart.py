"""Curves in characters: a scale at the left, time from left to right."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

__all__ = ["Curve", "curve_chart"]

Floats: TypeAlias = NDArray[np.float64]
_SCALE = 8
_ROWS = 10


@dataclass(frozen=True)
class Curve:
    """Values at even times, and the character they are drawn with."""

    name: str
    values: Floats
    mark: str


def curve_chart(
    curves: Sequence[Curve], shown: Callable[[float], str], ticks: Sequence[str], width: int = 60
) -> tuple[str, ...]:
    """The chart, at most `width` wide; later curves lie over earlier ones.

    Args:
        curves: of one unit, over the same time
        shown: a value in the keeper's units
        ticks: words under it, from its left end to its right end
        width: in characters
    """
    columns = width - _SCALE - 1
    low = min(float(curve.values.min()) for curve in curves)
    high = max(float(curve.values.max()) for curve in curves)
    span = max(high - low, 1.0)
    grid = [[" "] * columns for _ in range(_ROWS)]
    for curve in curves:
        for column, value in enumerate(_fitted(curve.values, columns)):
            row = round((value - low) / span * (_ROWS - 1))
            grid[_ROWS - 1 - row][column] = curve.mark
    lines = []
    for row, cells in enumerate(grid):
        at = low + span * (_ROWS - 1 - row) / (_ROWS - 1)
        label = shown(at) if row in (0, _ROWS // 2, _ROWS - 1) else ""
        lines.append(f"{label:>{_SCALE}}│{''.join(cells)}".rstrip())
    lines.append(" " * _SCALE + "└" + "─" * columns)
    lines.append(_under(ticks, columns))
    lines.append(" " * (_SCALE + 1) + "  ".join(f"{c.mark} {c.name}" for c in curves))
    return tuple(lines)


def _fitted(values: Floats, columns: int) -> list[float]:
    """A mean for each column."""
    edges = np.linspace(0, len(values), columns + 1)
    parts = ((int(a), max(int(b), int(a) + 1)) for a, b in pairwise(edges))
    return [float(values[a:b].mean()) for a, b in parts]


def _under(ticks: Sequence[str], columns: int) -> str:
    line = [" "] * (columns + _SCALE + 1)
    for number, tick in enumerate(ticks):
        place = _SCALE + 1 + round(number * (columns - 1) / max(len(ticks) - 1, 1))
        place = min(place, len(line) - len(tick))
        line[place : place + len(tick)] = tick
    return "".join(line).rstrip()
