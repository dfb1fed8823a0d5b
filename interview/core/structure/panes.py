"""A pane of glass held on three or four edges: Lévy's series, summed into tables.

The pane has height 1, plate stiffness 1 and pressure 1 at its bottom. Coefficients are
normalised on the height, also for panes taller than long.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.errors import NotApplicable, OutOfRange
from interview.core.numeric import Num, floats

__all__ = ["middle_line", "pane_coefficients", "pane_fill_factor"]

_POISSON = 0.22  # glass: between EN 572 (0.20) and other data tables (0.23)
_SHORTEST, _LONGEST = 0.1, 10.0  # length to height; beyond, the pane is a strip
_RATIOS = np.geomspace(_SHORTEST, _LONGEST, 121)
_PART = 11  # rows that are summed, and kept, together
_TERMS = 80  # odd terms m = 1 … 159; the rest is below 1e-5 at length to height 10
_AT_ONCE = 4  # ratios summed at a time
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
    place = np.log(ratio / _SHORTEST) / np.log(_LONGEST / _SHORTEST) * (len(_RATIOS) - 1)
    row = np.clip(place.astype(int), 1, len(_RATIOS) - 3)
    table, first = _rows(_coefficients, top_edge, row.min() - 1, row.max() + 2)
    *stresses, bulge = (_through_four(column, row - first, place - row) for column in table.T)
    return np.max(stresses, axis=0), bulge


def pane_fill_factor(length_to_height: Num, fill: Num, top_edge: str) -> Num:
    """Largest stress with water to a share `fill` of the height, over that of a brim-full pane."""
    row = np.log(floats(length_to_height) / _SHORTEST)
    row = row / np.log(_LONGEST / _SHORTEST) * (len(_FILL_RATIOS) - 1)
    column = (np.clip(fill, _FILLS[0], _FILLS[-1]) - _FILLS[0]) / (_FILLS[1] - _FILLS[0])
    top = np.clip(row.astype(int), 0, len(_FILL_RATIOS) - 2)
    table, first = _rows(_fill_factors, top_edge, top.min(), top.max() + 1)
    return _between_four(table, top - first, row - top, column)


def _rows(
    summed: Callable[[str, int], _Array], top_edge: str, first: int, last: int
) -> tuple[_Array, int]:
    """The rows of a table that are looked at, and which its first one is.

    A tank needs few, and to sum all of them takes longer than the rest of an audit.
    """
    parts = range(first // _PART, last // _PART + 1)
    return np.concatenate([summed(top_edge, part) for part in parts]), parts[0] * _PART


def _between_four(table: _Array, top: _Array, down: _Array, column: _Array) -> _Array:
    """Interpolate linearly between rows, `down` of the way from the upper, and between columns."""
    left = np.clip(column.astype(int), 0, table.shape[1] - 2)
    right = column - left
    above = table[top, left] * (1 - right) + table[top, left + 1] * right
    below = table[top + 1, left] * (1 - right) + table[top + 1, left + 1] * right
    return np.asarray(above * (1 - down) + below * down)


@cache
def _fill_factors(top_edge: str, part: int) -> _Array:
    """Stress over that of the full pane: rows of length to height, columns of water level."""
    heights = np.linspace(0.0, 1.0, _FILL_LEVELS)
    columns = []
    for fill in _FILLS:
        _, along, up = middle_line(
            _FILL_RATIOS[part * _PART :][:_PART],
            *(heights, top_edge, _POISSON),
            fill=fill,
            terms=_FILL_TERMS,
        )
        columns.append(np.maximum(along.max(axis=-1), up.max(axis=-1)))
    table = np.stack(columns, axis=-1)
    return np.asarray(table / table[:, -1:])


def _through_four(column: _Array, row: _Array, t: _Array) -> _Array:
    """Interpolate by the cubic through the four nearest rows, `t` behind the second of them."""
    return np.asarray(
        -t * (t - 1) * (t - 2) / 6 * column[row - 1]
        + (t + 1) * (t - 1) * (t - 2) / 2 * column[row]
        - (t + 1) * t * (t - 2) / 2 * column[row + 1]
        + (t + 1) * t * (t - 1) / 6 * column[row + 2]
    )


@cache
def _coefficients(top_edge: str, part: int) -> _Array:
    """Columns that are smooth each: stress along (inside, top edge), stress up, deflection.

    Only the largest of the stresses matters; taken before interpolating, it would have a kink.
    """
    heights = np.linspace(0.0, 1.0, _LEVELS)
    ratios = _RATIOS[part * _PART :][:_PART]
    bulge, along, up = middle_line(ratios, heights, top_edge, _POISSON)
    inside = along[:, heights <= _BELOW_EDGE]
    stiffness = 12 * (1 - _POISSON**2)
    stresses = 6 * _peak(inside), 6 * along[:, -1], 6 * _peak(up)
    return np.stack([*stresses, stiffness * _peak(bulge)], axis=-1)


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

    s, along_pane = heights[None, :, None], wave[:, None, :]
    bent, curved = (
        own + _loaded(along_pane, s, order, top_load, fill)
        for order, own in zip((0, 2), _from_edges(along_pane, s, constants[:, None]), strict=True)
    )
    along = scale * wave**2
    return (
        (scale[:, None] * bent).sum(-1),
        (along[:, None] * (bent - poisson * curved)).sum(-1),
        (along[:, None] * (poisson * bent - curved)).sum(-1),
    )


def _from_edges(wave: _Array, height: _Array, constants: _Array) -> tuple[_Array, _Array]:
    """What the edges add to the deflection, and to its second derivative by (wave · height).

    The plate functions of `_basis` times their constants; what both share is worked out once.
    """
    up, down = wave * height, wave * (1 - height)
    rising, falling = np.exp(-up), np.exp(-down)
    first, second, third, fourth = np.moveaxis(constants, -1, 0)
    start, end = first * rising, third * falling

    def added(order: int) -> _Array:
        turned = (up - order) * rising * second
        return np.asarray(start + turned + end + (down - order) * falling * fourth)

    return added(0), added(2)


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
