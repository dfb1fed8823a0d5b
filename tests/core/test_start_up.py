"""The start-up of a filter against an independent solver of the same two equations.

The reference is LSODA of scipy at tight tolerances, on the equations written out afresh.
"""

from __future__ import annotations

import itertools
import os
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from interview.core.water import start_up_table as table
from interview.core.water.nitrification import start_up_time
from interview.core.water.start_up import StartUp

DAY = 86400.0
_AT_MOST = 0.003  # of the time, as the sheet says


def _exact(load: float, celsius: float, seed: float, pace: float) -> float:
    """Days until the worse of ammonia and nitrite falls through 0.25 mg/L N."""
    warmer = celsius - 20
    growth = (0.90 * 1.072**warmer * 7 / 7.5 * pace, 1.00 * 1.063**warmer * 7 / 7.9 * pace)
    decay = 0.17 * 1.029**warmer * pace
    cells = (0.15 * 1.42, 0.05 * 1.42)

    def slope(_: float, y: Any) -> list[float]:
        fast, slow = growth[0] * y[0] / (y[0] + 0.5), growth[1] * y[1] / (y[1] + 0.2)
        eaten, finished = fast * np.exp(y[2]) / cells[0], slow * np.exp(y[3]) / cells[1]
        return [load - eaten, eaten - finished, fast - decay, slow - decay]

    def clear(_: float, y: Any) -> float:
        return float(max(y[0], y[1]) - 0.25)

    clear.terminal, clear.direction = True, -1  # type: ignore[attr-defined]
    longest = 120 / (growth[0] - decay)
    start = [2.0, 0.0, np.log(seed), np.log(0.33 * seed)]
    run = solve_ivp(slope, (0, longest), start, "LSODA", rtol=1e-9, atol=1e-11, events=clear)
    return float(run.t_events[0][0]) if len(run.t_events[0]) else np.inf


def _all_exact(rows: Any) -> Any:
    return np.array([_exact(*row) for row in rows])


GRID = list(itertools.product((0.02, 0.3, 2.0), (12.0, 25.0, 33.0), (1e-6, 1e-2, 0.3, 2.0), (0.6,)))
OUTSIDE = [(0.3, 9.0, 1e-3, 0.6), (9000.0, 25.0, 300.0, 0.6), (1e-9, 25.0, 900.0, 0.6)]
"""Colder, richer and more thickly seeded than the table knows."""
FAINT = [(0.0, 25.0, 1e-3, 0.6), (1e-7, 20.0, 0.3, 0.6), (1e-5, 30.0, 1e-6, 1.0), (0, 12, 8, 0.6)]
"""Hardly any supply, or none: the first dose is all there is."""


def _close(rows: Any, solved: Any) -> None:
    expected = _all_exact(rows)
    off = np.abs(solved / DAY / expected - 1)
    worst = int(np.argmax(off))
    assert off[worst] < _AT_MOST, (rows[worst], solved[worst] / DAY, expected[worst])


@pytest.mark.parametrize(
    "rows", [GRID, OUTSIDE, FAINT], ids=["grid", "outside the table", "faint supply"]
)
def test_start_up_times_on_a_grid(rows: list[tuple[float, ...]]) -> None:
    load, celsius, seed, pace = np.array(rows).T
    _close(rows, start_up_time(load / DAY, celsius, seed, pace))


@pytest.mark.parametrize("share", [None, 0.005, 0.05])
def test_start_up_times_of_the_clouds_that_audits_draw(share: float | None) -> None:
    """Unseeded, a handful and a good part of old media, with the doubts of the assumptions."""
    draw, count = np.random.default_rng(7), 60
    load = 10 ** draw.uniform(-1.2, 0.5, count)
    celsius = draw.normal(25, 2, count)
    pace = np.clip(draw.normal(0.6, 0.15, count), 0.2, 1.2)
    seed = 3.16e-5 * 5 ** draw.normal(size=count)
    if share is not None:
        mature = load * 0.15 * 1.42 / (0.17 * 1.029 ** (celsius - 20) * pace)
        seed = np.minimum(share * 4 ** draw.normal(size=count), 0.5) * mature
    rows = list(zip(load, celsius, seed, pace, strict=True))
    _close(rows, start_up_time(load / DAY, celsius, seed, pace))


def test_what_the_table_leaves_to_the_steps_is_as_near() -> None:
    """But for the few where the exact time jumps: one of the two just misses being clear."""
    draw, count = np.random.default_rng(13), 6000
    load, celsius = 10 ** draw.uniform(-1.5, 0.7, count), draw.uniform(12, 33, count)
    seed, pace = 10 ** draw.uniform(-6, 0.5, count), draw.uniform(0.3, 1.2, count)
    left = ~table.looked_up(load / DAY, celsius, seed, pace)[1]
    assert left.mean() < 0.05
    rows = np.array((load, celsius, seed, pace)).T[left][:80]
    assert len(rows) >= 60
    off = np.abs(start_up_time(rows[:, 0] / DAY, *rows[:, 1:].T) / DAY / _all_exact(rows) - 1)
    assert np.quantile(off, 0.97) < _AT_MOST


def test_the_steps_alone_come_as_near() -> None:
    load, celsius, seed, pace = np.array(GRID).T
    _close(GRID, StartUp.run(load / DAY, celsius, seed, pace).ready)


def test_one_at_a_time_is_the_same_as_all_together() -> None:
    load, celsius, seed, pace = np.array(GRID[::5]).T
    together = start_up_time(load / DAY, celsius, seed, pace)
    alone = [start_up_time(row[0] / DAY, *row[1:]) for row in GRID[::5]]
    assert together == pytest.approx(alone, rel=1e-9)


def test_what_is_no_number_ends() -> None:
    assert start_up_time(np.nan, 25.0, 1e-4, 0.6) == np.inf


# --- the table -----------------------------------------------------------------------


def test_the_tables_are_what_the_steps_give() -> None:
    """Some of their knots worked out anew; with UPDATE_GOLDEN=1 the whole is made anew first."""
    if os.environ.get("UPDATE_GOLDEN") == "1":
        np.savez_compressed(table.TABLE, **table.tabulated())
        table.stored.cache_clear()
    stored, _ = table.stored()
    draw = np.random.default_rng(3)
    at = [draw.integers(0, size, 600) for size in stored.shape[1:]]
    knots = [axis[n] for axis, n in zip(table._AXES, at, strict=True)]
    known, exact = stored[:, *at], table.exact(*knots)[1:]
    read = known != 0.0
    assert (read.sum(1) > (200, 400)).all()
    assert known[read] == pytest.approx(exact[read], abs=2e-6)


def test_cells_that_hold_are_near_between_the_knots() -> None:
    draw, count = np.random.default_rng(11), 3000
    points = [draw.uniform(axis[0], axis[-1], count) for axis in table._AXES]
    points[0][:2000], points[1][:2000] = draw.uniform(-3, 3, 2000), draw.uniform(-4, 3, 2000)
    growth = table.guilds(points[2], 1.0)[0]
    supply, film = np.exp(points[0]) * growth.growth / DAY, np.exp(sum(points[:2])) * growth.cells
    got, holds = table.looked_up(supply, points[2], film, 1.0)
    assert 0.6 < holds.mean() < 0.95
    exact = table.exact(*points)[0][holds]
    assert np.abs(np.log(got / DAY * growth.growth)[holds] - exact).max() < 0.003


def test_where_ammonia_and_nitrite_take_turns_the_later_one_counts() -> None:
    """Tables of two planes that cross: cells along the crossing are read from both."""
    supply, film, warmth = np.meshgrid(*table._AXES, indexing="ij")
    planes = np.stack((supply + 0.1 * warmth, 2.0 - film))
    first = planes[0] >= planes[1]
    cells = np.full(table._cells(), table._BOTH, dtype=np.uint8)
    cells[~table._among_four(~first)], cells[~table._among_four(first)] = 0, 1
    assert np.bincount(cells.ravel()).min() > 1000
    draw = np.random.default_rng(5)
    at = [draw.uniform(axis[0], axis[-1], 5000) for axis in table._AXES]
    found, holds = table._later(planes, cells, at)
    assert holds.all()
    assert found == pytest.approx(np.maximum(at[0] + 0.1 * at[2], 2.0 - at[1]), abs=1e-9)


@pytest.mark.parametrize("seed", range(5))
def test_a_cell_is_read_from_four_knots_along_each_axis(seed: int) -> None:
    """One beside the interval on each side, but at the ends of an axis."""
    cell = tuple(int(np.random.default_rng(seed).integers(0, n)) for n in table._cells())
    read = np.zeros([len(axis) for axis in table._AXES], dtype=bool)
    starts = [min(max(n - 1, 0), len(a) - 4) for n, a in zip(cell, table._AXES, strict=True)]
    read[tuple(slice(start, start + 4) for start in starts)] = True
    alone = np.zeros(table._cells(), dtype=bool)
    alone[cell] = True
    assert np.array_equal(table._of_four(alone), read)
    assert not table._among_four(~read)[cell]
    corner = np.zeros_like(read)
    corner[starts[0] + 3, starts[1], starts[2] + 3] = True
    assert table._among_four(corner)[cell]


@pytest.mark.parametrize("seed", range(5))
def test_a_cell_that_is_off_takes_those_along_that_share_a_face_with_it(seed: int) -> None:
    off = np.random.default_rng(seed).random((5, 4, 6)) < 0.08
    expected = off.copy()
    for place in np.argwhere(off):
        for axis, way in itertools.product(range(3), (-1, 1)):
            beside = place.copy()
            beside[axis] += way
            if 0 <= beside[axis] < off.shape[axis]:
                expected[tuple(beside)] = True
    assert np.array_equal(table._widened(off), expected)


def test_a_value_lies_in_the_interval_that_begins_at_or_before_it() -> None:
    axis = np.array([0.0, 1.0, 2.5, 3.0])
    at = np.array([0.0, 0.4, 1.0, 2.4, 2.5, 2.9, 3.0])
    assert table._cell(axis, at).tolist() == [0, 0, 1, 1, 2, 2, 2]
