"""Start-up times looked up: the stepped solution at the knots of a grid, cubic in between.

Three numbers decide a start-up: the supply over the growth of the ammonia oxidisers, what the
film takes up over that supply, and the temperature; pace only scales the time. Ammonia and
nitrite each fall through the mark at a time that is smooth in all three, and the filter is ready
at the later one, so there is a table of each: a cell is read from the one that is later
all around it, or from both where they take turns. Where one of the two comes down to the mark and
stays near it, the time has steps that no polynomial follows: cells that were found to be off, all
cells beside them, and what lies outside the grid are left to the stepped solution.
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
_SUPPLY = np.concatenate(
    (np.linspace(-12.0, -5.5, 8), np.linspace(-4.8, 3.0, 44), np.linspace(3.5, 9.0, 12))
)
_FILM = np.concatenate(
    (
        *(np.arange(-33.0, -8.0, 1.0), np.arange(-8.0, -2.0, 0.25), np.arange(-2.0, 1.5, 0.1)),
        *(np.arange(1.5, 4.0, 0.2), np.arange(4.0, 8.0, 0.5), np.arange(8.0, 22.0)),
    )
)
_WARMTH = np.linspace(10.0, 35.0, 9)
_AXES = (_SUPPLY, _FILM, _WARMTH)
"""Logarithms of scaled supply [mg/L] and of scaled film over it, temperature [degC].

A supply below the first knot counts as that one: a few millionths of a mg/L in a growth time.
"""
_AMMONIA, _NITRITE, _BOTH, _NEITHER = range(4)
"""Which of the two tables a cell is read from."""
_GOOD_TO = 1.5e-3
"""Of the time: a cell that is further off than this at a trial point is not used."""
_TRIALS = ((0.5, 0.5, 0.5), *itertools.product((0.2, 0.8), repeat=3))
"""Where in a cell it is tried, as shares of its edges."""
_FINE = 1e-5
"""Precision of the stepped solution at the knots and trial points."""
_AT_ONCE = 4096
_Floats: TypeAlias = NDArray[np.float64]


def looked_up(supply: Num, warmth: Num, film: Num, pace: Num) -> tuple[_Floats, NDArray[np.bool_]]:
    """Start-up times [s], and which of them hold; arguments as of start_up_time.

    Those that hold are within 0.3 % of the exact solution.
    """
    given = np.broadcast_arrays(*(floats(g) for g in (supply, warmth, film, pace)))
    supply, warmth, film, pace = (item.ravel() for item in given)
    eaters, _ = guilds(warmth, pace)
    with np.errstate(all="ignore"):
        scaled = np.maximum(np.log(supply * DAY / eaters.growth), _SUPPLY[0])
        wanted = (scaled, np.log(film / eaters.cells) - scaled, warmth)
        inside = np.logical_and.reduce(
            [(axis[0] <= w) & (w <= axis[-1]) for axis, w in zip(_AXES, wanted, strict=True)]
        )
        within = [np.where(inside, w, axis[1]) for axis, w in zip(_AXES, wanted, strict=True)]
        times, holds = _later(*stored(), within)
        times = np.exp(times) * DAY / eaters.growth
    return times.reshape(given[0].shape), (inside & holds).reshape(given[0].shape)


@cache
def stored() -> tuple[_Floats, NDArray[np.uint8]]:
    """The tables as they ship: logarithms of scaled times at the knots; what a cell is read from.

    Ammonia's first, then nitrite's; zero at knots that no cell is read from.
    """
    with np.load(TABLE) as file:
        return file["times"].astype(float), file["cells"]


def tabulated() -> dict[str, NDArray[Any]]:
    """The tables worked out anew, as they are stored; takes half a minute."""
    times = exact(*np.meshgrid(*_AXES, indexing="ij"))[1:].astype(np.float32)
    ammonia_later = times[0] >= times[1]
    cells = np.full(_cells(), _BOTH, dtype=np.uint8)
    cells[~_among_four(~ammonia_later)] = _AMMONIA
    cells[~_among_four(ammonia_later)] = _NITRITE
    cells[_widened(_off(times.astype(float), cells))] = _NEITHER
    for table, other in ((_AMMONIA, _NITRITE), (_NITRITE, _AMMONIA)):
        times[table][~_of_four((cells != other) & (cells != _NEITHER))] = 0.0
    return {"times": times, "cells": cells}


def exact(supply: _Floats, film: _Floats, warmth: _Floats) -> _Floats:
    """Logarithms of scaled times at points in the tables' own variables, by small steps.

    The filter ready; ammonia for the first time clear; nitrite.
    """
    eaters, _ = guilds(warmth, 1.0)
    seed = np.exp(film + supply) * eaters.cells
    run = StartUp.run(np.exp(supply) * eaters.growth / DAY, warmth, seed, 1.0, _FINE)
    times = np.stack((run.ready, run.ammonia_clear, run.nitrite_clear))
    scaled: _Floats = np.log(times / DAY * eaters.growth)
    return scaled


def _off(times: _Floats, cells: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """The cells in which some trial point is off, or has no time at all."""
    off = np.zeros(_cells(), dtype=bool)
    for shares in _TRIALS:
        points = [a[:-1] + s * np.diff(a) for a, s in zip(_AXES, shares, strict=True)]
        trial = np.meshgrid(*points, indexing="ij")
        found, _ = _later(times, cells, [axis.ravel() for axis in trial])
        off |= ~(np.abs(found.reshape(off.shape) - exact(*trial)[0]) < _GOOD_TO)
    return off


def _later(
    times: _Floats, cells: NDArray[np.uint8], at: list[_Floats]
) -> tuple[_Floats, NDArray[np.bool_]]:
    """The later of the two times at points in the tables' own variables, and where it holds."""
    read = cells[tuple(_cell(axis, w) for axis, w in zip(_AXES, at, strict=True))]
    found = _between(times, (read == _NITRITE).astype(np.intp), at)
    both = np.flatnonzero(read == _BOTH)
    if both.size:
        second = _between(times, np.full(both.size, _NITRITE), [axis[both] for axis in at])
        found[both] = np.maximum(found[both], second)
    return found, read != _NEITHER


def _widened(cells: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """The cells with those that share a face with them."""
    wide = cells.copy()
    for axis in range(cells.ndim):
        low, high = np.moveaxis(wide, axis, 0)[:-1], np.moveaxis(wide, axis, 0)[1:]
        low |= np.moveaxis(cells, axis, 0)[1:]
        high |= np.moveaxis(cells, axis, 0)[:-1]
    return wide


def _among_four(knots: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """The cells for which one of these is among the knots they are read from."""
    for axis in range(knots.ndim):
        beside = _four(knots.shape[axis]).T
        knots = np.logical_or.reduce([knots.take(one, axis) for one in beside])
    return knots


def _of_four(cells: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """The knots that one of these cells is read from."""
    for axis, knots in enumerate(_AXES):
        beside = _four(len(knots))
        read = [cells.take(np.flatnonzero((beside == n).any(1)), axis) for n in range(len(knots))]
        cells = np.stack([np.logical_or.reduce(part, axis) for part in read], axis)
    return cells


def _four(count: int) -> NDArray[np.intp]:
    """For each interval between so many knots the four knots it is read from."""
    return np.clip(np.arange(count - 1) - 1, 0, count - 4)[:, None] + np.arange(4)


def _cells() -> tuple[int, int, int]:
    """How many intervals each axis has."""
    return len(_SUPPLY) - 1, len(_FILM) - 1, len(_WARMTH) - 1


def _cell(axis: _Floats, at: _Floats) -> NDArray[np.intp]:
    """The interval of the axis that each value lies in."""
    return np.clip(np.searchsorted(axis, at, side="right") - 1, 0, len(axis) - 2)


def _between(times: _Floats, tables: NDArray[np.intp], at: list[_Floats]) -> _Floats:
    """The tables between their knots, few points at a time: each takes 64 of them."""
    blocks = [slice(n, n + _AT_ONCE) for n in range(0, max(len(tables), 1), _AT_ONCE)]
    return np.concatenate(
        [_through_four(times, tables[block], [axis[block] for axis in at]) for block in blocks]
    )


def _through_four(times: _Floats, tables: NDArray[np.intp], at: list[_Floats]) -> _Floats:
    """The cubic through the four knots about each point, along each axis."""
    first, found = tables, times.ravel()
    offset = np.zeros(1, dtype=np.intp)
    weights = []
    for count, axis, where in zip(times.shape[1:], _AXES, at, strict=True):
        knot, weight = _weights(axis, where)
        first, offset = first * count + knot, (offset[:, None] * count + np.arange(4)).ravel()
        weights.append(weight)
    found = found.take(offset[:, None] + first)
    for weight in reversed(weights):
        found = (found.reshape(-1, 4, len(first)) * weight).sum(1)
    return found.ravel()


def _weights(axis: _Floats, at: _Floats) -> tuple[NDArray[np.intp], _Floats]:
    """The first of the four knots about each value, and the weight of each (Lagrange)."""
    first = _four(len(axis))[_cell(axis, at), 0]
    knots = axis[first + np.arange(4)[:, None]]
    away = at - knots
    weights = np.ones_like(knots)
    for own in range(4):
        for other in range(4):
            if other != own:
                weights[own] *= away[other] / (knots[own] - knots[other])
    return first, weights
