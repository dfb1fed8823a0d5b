"""Start-up times looked up: the stepped solution at the knots of a grid, cubic in between.

Three numbers decide a start-up: the supply over the growth of the ammonia oxidisers, what the
film takes up, and the temperature; pace only scales the time. Where ammonia and nitrite take
turns in being the last to clear, the time has a kink that no polynomial follows: cells that
were found to be off, all cells beside them, and what lies outside the grid are left to the
stepped solution.
"""

from __future__ import annotations

import itertools
from functools import cache
from pathlib import Path
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.numeric import Num, floats
from interview.core.water.nitrifiers import DAY, guilds
from interview.core.water.start_up import StartUp

__all__ = ["TABLE", "looked_up", "stored", "tabulated"]

TABLE = Path(__file__).with_name("start_up.npz")
_SUPPLY = np.linspace(np.log(0.008), np.log(20.0), 44)
_FILM = np.concatenate(
    (np.arange(-24.0, -6.0, 0.9), np.arange(-6.0, -1.0, 0.2), np.arange(-1.0, 3.0, 0.07))
)
_WARMTH = np.linspace(10.0, 35.0, 9)
_AXES = (_SUPPLY, _FILM, _WARMTH)
"""Logarithms of scaled supply and of scaled film [mg/L], temperature [degC]."""
_GOOD_TO = 1.5e-3
"""Of the time: a cell that is further off than this at a trial point is not used."""
_TRIALS = ((0.5, 0.5, 0.5), *itertools.product((0.2, 0.8), repeat=3))
"""Where in a cell it is tried, as shares of its edges."""
_FINE = 1e-5
"""Precision of the stepped solution at the knots and trial points."""
_AT_ONCE = 8192
_Floats: TypeAlias = NDArray[np.float64]


def looked_up(supply: Num, warmth: Num, film: Num, pace: Num) -> tuple[_Floats, NDArray[np.bool_]]:
    """Start-up times [s], and which of them hold; arguments as of start_up_time.

    Those that hold are within 0.3 % of the exact solution.
    """
    given = np.broadcast_arrays(*(floats(g) for g in (supply, warmth, film, pace)))
    supply, warmth, film, pace = (item.ravel() for item in given)
    eaters, _ = guilds(warmth, pace)
    with np.errstate(all="ignore"):
        wanted = (np.log(supply * DAY / eaters.growth), np.log(film / eaters.cells), warmth)
        inside = np.logical_and.reduce(
            [(axis[0] <= w) & (w <= axis[-1]) for axis, w in zip(_AXES, wanted, strict=True)]
        )
        table, holds = stored()
        within = [np.where(inside, w, axis[1]) for axis, w in zip(_AXES, wanted, strict=True)]
        times = np.exp(_between(table, within)) * DAY / eaters.growth
    inside &= holds[tuple(_cell(axis, w) for axis, w in zip(_AXES, within, strict=True))]
    return times.reshape(given[0].shape), inside.reshape(given[0].shape)


@cache
def stored() -> tuple[_Floats, NDArray[np.bool_]]:
    """The table as it ships: logarithms of scaled times at the knots; which cells hold."""
    with np.load(TABLE) as file:
        return file["times"].astype(float), np.unpackbits(file["holds"]).reshape(_cells()) == 1


def tabulated() -> dict[str, NDArray[Any]]:
    """The table worked out anew, as it is stored; takes half a minute."""
    knots = np.meshgrid(*_AXES, indexing="ij")
    times = exact(*knots).astype(np.float32)
    return {"times": times, "holds": np.packbits(~_widened(_off(times.astype(float))))}


def exact(supply: _Floats, film: _Floats, warmth: _Floats) -> _Floats:
    """Logarithm of the scaled time at points in the table's own variables, by small steps."""
    eaters, _ = guilds(warmth, 1.0)
    seed = np.exp(film) * eaters.cells
    run = StartUp.run(np.exp(supply) * eaters.growth / DAY, warmth, seed, 1.0, _FINE)
    scaled: _Floats = np.log(run.ready / DAY * eaters.growth)
    return scaled


def _off(times: _Floats) -> NDArray[np.bool_]:
    """The cells in which some trial point is off, or has no time at all."""
    off = np.zeros(_cells(), dtype=bool)
    for shares in _TRIALS:
        points = [
            a[:-1] + s * np.diff(a) for a, s in zip((_SUPPLY, _FILM, _WARMTH), shares, strict=True)
        ]
        trial = np.meshgrid(*points, indexing="ij")
        found = _between(times, [axis.ravel() for axis in trial]).reshape(off.shape)
        off |= ~(np.abs(found - exact(*trial)) < _GOOD_TO)
    return off


def _widened(cells: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """The cells with those that share a face with them."""
    wide = cells.copy()
    for axis in range(cells.ndim):
        low, high = np.moveaxis(wide, axis, 0)[:-1], np.moveaxis(wide, axis, 0)[1:]
        low |= np.moveaxis(cells, axis, 0)[1:]
        high |= np.moveaxis(cells, axis, 0)[:-1]
    return wide


def _cells() -> tuple[int, int, int]:
    """How many intervals each axis has."""
    return len(_SUPPLY) - 1, len(_FILM) - 1, len(_WARMTH) - 1


def _cell(axis: _Floats, at: _Floats) -> NDArray[np.intp]:
    """The interval of the axis that each value lies in."""
    return np.clip(np.searchsorted(axis, at, side="right") - 1, 0, len(axis) - 2)


def _between(table: _Floats, at: list[_Floats]) -> _Floats:
    """The table between its knots, few points at a time: each takes 64 of them."""
    blocks = range(0, max(len(at[0]), 1), _AT_ONCE)
    return np.concatenate(
        [_through_four(table, [axis[n : n + _AT_ONCE] for axis in at]) for n in blocks]
    )


def _through_four(table: _Floats, at: list[_Floats]) -> _Floats:
    """The cubic through the four knots about each point, along each axis."""
    parts = [_weights(axis, w) for axis, w in zip(_AXES, at, strict=True)]
    (rows, by_row), (columns, by_column), (layers, by_layer) = parts
    four = np.arange(4)
    flat = rows[:, None] + four
    flat = flat[:, :, None] * table.shape[1] + (columns[:, None] + four)[:, None, :]
    flat = flat[..., None] * table.shape[2] + (layers[:, None] + four)[:, None, None, :]
    found: _Floats = np.einsum("nijk,ni,nj,nk->n", table.ravel()[flat], by_row, by_column, by_layer)
    return found


def _weights(axis: _Floats, at: _Floats) -> tuple[NDArray[np.intp], _Floats]:
    """The first of the four knots about each value, and the weight of each (Lagrange)."""
    first = np.clip(_cell(axis, at) - 1, 0, len(axis) - 4)
    knots = axis[first[:, None] + np.arange(4)]
    weights = np.ones_like(knots)
    for own in range(4):
        for other in range(4):
            if other != own:
                weights[:, own] *= (at - knots[:, other]) / (knots[:, own] - knots[:, other])
    return first, weights
