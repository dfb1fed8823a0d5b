"""A pane of glass held on three or four edges: Lévy's series, summed into tables.

The pane has height 1, plate stiffness 1 and pressure 1 at its bottom. Coefficients are
normalised on the height, also for panes taller than long.
"""

from __future__ import annotations

from functools import cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.errors import NotApplicable, OutOfRange
from interview.core.numeric import Num, floats

__all__ = ["middle_line", "pane_coefficients", "pane_fill_factor"]

_POISSON = 0.22  # glass: between EN 572 (0.20) and other data tables (0.23)
_SHORTEST, _LONGEST = 0.1, 10.0  # length to height; beyond, the pane is a strip
_ROWS = 121  # evenly spaced in the logarithm of length to height
_TERMS = 80  # odd terms m = 1 … 159; the rest is below 1e-5 at length to height 10
_AT_ONCE = 16  # ratios summed at a time
_LEVELS = 61  # heights at which the moments are summed
_FILL_TERMS, _FILL_LEVELS = 20, 41  # enough for a ratio of two sums, to 0.2 %
_BELOW_EDGE = 0.8  # moments inside the pane peak under this height, or else at the top edge
_FILL_RATIOS = np.geomspace(_SHORTEST, _LONGEST, 61)
_FILLS = np.linspace(0.1, 1.0, 10)  # water level over height; below, the first one counts

_Array: TypeAlias = NDArray[np.float64]


def pane_coefficients(length_to_height: Num, top_edge: str) -> tuple[Num, Num]:
    """Stress and deflection coefficients of a brim-full glass pane; top_edge supported or free."""
    ratio = floats(length_to_height)
    outside = (ratio < _SHORTEST) | (ratio > _LONGEST)
    if outside.any():
        found = float(ratio[outside].flat[0])
        raise OutOfRange("length_to_height", found, _SHORTEST, _LONGEST, "1")
    *stresses, bulge = (_between_rows(column, ratio) for column in _table(top_edge))
    return np.max(stresses, axis=0), bulge


def pane_fill_factor(length_to_height: Num, fill: Num, top_edge: str) -> Num:
    """Largest stress with water to a share `fill` of the height, over that of a brim-full pane."""
    row = np.log(floats(length_to_height) / _SHORTEST)
    row = row / np.log(_LONGEST / _SHORTEST) * (len(_FILL_RATIOS) - 1)
    column = (np.clip(fill, _FILLS[0], _FILLS[-1]) - _FILLS[0]) / (_FILLS[1] - _FILLS[0])
    return _between_four(_fill_table(top_edge), row, column)


def _between_four(table: _Array, row: _Array, column: _Array) -> _Array:
    """Interpolate linearly between rows and between columns."""
    top = np.clip(row.astype(int), 0, table.shape[0] - 2)
    left = np.clip(column.astype(int), 0, table.shape[1] - 2)
    down, right = row - top, column - left
    above = table[top, left] * (1 - right) + table[top, left + 1] * right
    below = table[top + 1, left] * (1 - right) + table[top + 1, left + 1] * right
    return np.asarray(above * (1 - down) + below * down)


@cache
def _fill_table(top_edge: str) -> _Array:
    """Stress over that of the full pane: rows of length to height, columns of water level."""
    heights = np.linspace(0.0, 1.0, _FILL_LEVELS)
    columns = []
    for fill in _FILLS:
        _, along, up = middle_line(
            _FILL_RATIOS, heights, top_edge, _POISSON, fill=fill, terms=_FILL_TERMS
        )
        columns.append(np.maximum(along.max(axis=-1), up.max(axis=-1)))
    table = np.stack(columns, axis=-1)
    return np.asarray(table / table[:, -1:])


def _between_rows(column: _Array, ratio: _Array) -> _Array:
    """Interpolate by the cubic through the four nearest rows."""
    place = np.log(ratio / _SHORTEST) / np.log(_LONGEST / _SHORTEST) * (_ROWS - 1)
    row = np.clip(place.astype(int), 1, _ROWS - 3)
    t = place - row
    return np.asarray(
        -t * (t - 1) * (t - 2) / 6 * column[row - 1]
        + (t + 1) * (t - 1) * (t - 2) / 2 * column[row]
        - (t + 1) * t * (t - 2) / 2 * column[row + 1]
        + (t + 1) * t * (t - 1) / 6 * column[row + 2]
    )


@cache
def _table(top_edge: str) -> tuple[_Array, ...]:
    """Columns that are smooth each: stress along (inside, top edge), stress up, deflection.

    Only the largest of the stresses matters; taken before interpolating, it would have a kink.
    """
    ratios = np.geomspace(_SHORTEST, _LONGEST, _ROWS)
    heights = np.linspace(0.0, 1.0, _LEVELS)
    bulge, along, up = middle_line(ratios, heights, top_edge, _POISSON)
    inside = along[:, heights <= _BELOW_EDGE]
    stiffness = 12 * (1 - _POISSON**2)
    return 6 * _peak(inside), 6 * along[:, -1], 6 * _peak(up), stiffness * _peak(bulge)


def _peak(curves: _Array) -> _Array:
    """Largest value of each row, refined by the parabola through the three highest points."""
    top = np.argmax(curves, axis=-1)
    rows = np.arange(len(curves))
    middle = np.clip(top, 1, curves.shape[-1] - 2)
    left, centre, right = (curves[rows, middle + k] for k in (-1, 0, 1))
    bend = left - 2 * centre + right
    vertex = centre - (left - right) ** 2 / (8 * bend)
    return np.asarray(np.where(top == middle, vertex, curves[rows, top]))


def middle_line(
    ratios: _Array,
    heights: _Array,
    top_edge: str,
    poisson: float,
    top_load: float = 0.0,
    fill: float = 1.0,
    terms: int = _TERMS,
) -> tuple[_Array, _Array, _Array]:
    """Deflection, moment along and moment up at mid-length: rows of ratios, columns of heights.

    Pane of height 1, stiffness 1, pressure 1 at the bottom falling to `top_load` at the top
    (0 is water, 1 the uniform load of the handbooks); or water up to a share `fill` of the
    height, where the pressure still falls by 1 over the whole height. Symmetry puts the
    governing moments at mid-length. Exponentials scaled to the edge they start from keep the
    system regular. Few ratios are summed at a time, so that little memory is taken.
    """
    parts = np.array_split(ratios, -(-len(ratios) // _AT_ONCE))
    summed = (_summed(part, heights, top_edge, poisson, top_load, fill, terms) for part in parts)
    bulge, along, up = (np.concatenate(column) for column in zip(*summed, strict=True))
    return bulge, along, up


def _summed(
    ratios: _Array,
    heights: _Array,
    top_edge: str,
    poisson: float,
    top_load: float,
    fill: float,
    terms: int,
) -> tuple[_Array, _Array, _Array]:
    term = np.arange(1, 2 * terms, 2)
    wave = term * np.pi / ratios[:, None]
    scale = 4 * np.sin(term * np.pi / 2) / (np.pi * term * wave**4)
    constants = _edge_constants(wave, top_edge, poisson, top_load, fill)

    def shape(order: int) -> _Array:
        s = heights[None, :, None]
        own = (_basis(wave[:, None, :], s, order) * constants[:, None]).sum(-1)
        return np.asarray(_loaded(wave[:, None, :], s, order, top_load, fill) + own)

    bent, curved = shape(0), shape(2)
    along = scale * wave**2
    return (
        (scale[:, None] * bent).sum(-1),
        (along[:, None] * (bent - poisson * curved)).sum(-1),
        (along[:, None] * (poisson * bent - curved)).sum(-1),
    )


def _loaded(wave: _Array, height: _Array, order: int, top_load: float, fill: float) -> _Array:
    """Differentiate the deflection under the load alone, edges far away, by (wave · height).

    Over wave⁴. Where the pressure ends below the top, its kink adds a bend that dies out both ways.
    """
    if fill >= 1.0:
        plain = (1 - (1 - top_load) * height, -(1 - top_load) / wave, 0.0, 0.0)[order]
        return np.broadcast_to(plain, np.broadcast_shapes(wave.shape, height.shape))
    away = wave * np.abs(height - fill)
    side = np.where(height < fill, -1.0, 1.0)
    ramp = (np.maximum(fill - height, 0.0), np.where(height < fill, -1 / wave, 0.0), 0.0, 0.0)[
        order
    ]
    kink = (3 + away, -side * (2 + away), 1 + away, -side * away)[order]
    return np.asarray(ramp + kink * np.exp(-away) / (4 * wave))


def _edge_constants(
    wave: _Array, top_edge: str, poisson: float, top_load: float, fill: float
) -> _Array:
    """Find the four constants of each term from the conditions at the bottom and the top edge."""
    bottom, top = np.zeros(1), np.ones(1)

    def loaded(edge: _Array, order: int) -> _Array:
        return _loaded(wave, edge, order, top_load, fill)

    rows = [_basis(wave, bottom, 0), _basis(wave, bottom, 2)]
    known = [-loaded(bottom, 0), -loaded(bottom, 2)]
    if top_edge == "supported":
        rows += [_basis(wave, top, 0), _basis(wave, top, 2)]
        known += [-loaded(top, 0), -loaded(top, 2)]
    elif top_edge == "free":
        rows.append(_basis(wave, top, 2) - poisson * _basis(wave, top, 0))
        rows.append(_basis(wave, top, 3) - (2 - poisson) * _basis(wave, top, 1))
        known.append(poisson * loaded(top, 0) - loaded(top, 2))
        known.append((2 - poisson) * loaded(top, 1) - loaded(top, 3))
    else:
        raise NotApplicable(f"top_edge is supported or free, not {top_edge}")
    system, right = np.stack(rows, axis=-2), np.stack(known, axis=-1)
    return np.asarray(np.linalg.solve(system, right[..., None])[..., 0])


def _basis(wave: _Array, height: _Array, order: int) -> _Array:
    """Differentiate the four plate functions by (wave · height), on a new last axis."""
    up, down = wave * height, wave * (1 - height)
    sign = (-1.0) ** order
    rising, falling = np.exp(-up), np.exp(-down)
    return np.stack(
        [sign * rising, sign * (up - order) * rising, falling, (down - order) * falling], axis=-1
    )
