"""Settling temperatures and times of passage against scipy's root finder and its quadrature.

The heat loss itself is compared with a second model in test_heat.py; here it is taken as it is.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, replace
from typing import Any

import numpy as np
import pytest
from losses_drawn import COUNT, COVERS, drawn
from scipy.integrate import quad
from scipy.optimize import brentq

from interview.core.heat.losses import TankLoss
from interview.core.heat.lumped import time_along
from interview.core.heat.passages import settling_temperature, time_between

GRID = np.meshgrid((15.0, 21.0, 27.0), (12.0, 24.0, 26.0), (22.0, 26.5, 35.0), (0.0, 60.0, 300.0))
"""Room, start, end [degC] and heater [W]."""


def _each(loss: TankLoss) -> Iterator[TankLoss]:
    for row in range(COUNT):
        given = {item.name: getattr(loss, item.name) for item in fields(loss)}
        yield replace(loss, **{n: v[row] for n, v in given.items() if isinstance(v, np.ndarray)})


def _exact(loss: TankLoss, room: float, heater: float, start: float, end: float) -> float:
    """∫ dT / net; infinite if the net heat stops or turns on the way."""

    def net(water: float) -> float:
        return float(heater - loss(water, room))

    on_the_way = np.linspace(start, end, 201)
    heat = heater - np.asarray(loss(on_the_way, room))
    if start == end:
        return 0.0
    if np.any(heat * np.sign(end - start) <= 0):
        return np.inf
    kinks = [room - 2.0, room - 1.0, room]
    points = [kink for kink in kinks if min(start, end) < kink < max(start, end)]
    return float(quad(lambda t: 1 / net(t), start, end, limit=400, points=points or None)[0])


def _draws(seed: int) -> tuple[Any, ...]:
    draw = np.random.default_rng(seed)
    room = draw.uniform(15, 30, COUNT)
    heater = draw.uniform(0, 500, COUNT)
    return room, heater, draw.uniform(12, 27, COUNT), draw.uniform(20, 36, COUNT)


@pytest.mark.parametrize("cover", COVERS)
@pytest.mark.parametrize("seed", range(3))
def test_times_of_passage_in_a_cloud(cover: str, seed: int) -> None:
    loss = drawn(cover)
    room, heater, start, end = _draws(seed)
    got = time_between(loss, room, heater, 1e5, start, end)
    rows = zip(_each(loss), room, heater, start, end, strict=True)
    exact = np.array([1e5 * _exact(*row) for row in rows])
    assert np.isfinite(exact).sum() > 10 and np.isinf(exact).any()
    assert got == pytest.approx(exact, rel=5e-3)
    there = np.isfinite(exact)
    assert np.median(np.abs(got[there] / exact[there] - 1)) < 5e-4


@pytest.mark.parametrize("cover", COVERS)
def test_times_of_passage_on_a_grid(cover: str) -> None:
    loss = next(_each(drawn(cover)))
    room, start, end, heater = (axis.ravel() for axis in GRID)
    got = time_between(loss, room, heater, 1e5, start, end)
    exact = [1e5 * _exact(loss, *row) for row in zip(room, heater, start, end, strict=True)]
    assert got == pytest.approx(exact, rel=5e-3)


@pytest.mark.parametrize("cover", COVERS)
@pytest.mark.parametrize("heater", [0.0, 25.0, 150.0])
def test_settling_temperatures(cover: str, heater: float) -> None:
    loss, room = drawn(cover), _draws(0)[0]
    got = settling_temperature(loss, room, heater, room - 15.0, 100.0)
    for found, tank, here in zip(got, _each(loss), room, strict=True):

        def over(water: float, tank: TankLoss = tank, here: float = here) -> float:
            return float(tank(water, here) - heater)

        settled = 100.0 if over(100.0) < 0 else brentq(over, here - 15.0, 100.0)
        assert found == pytest.approx(settled, abs=1e-7)


def test_shapes_are_kept() -> None:
    loss = next(_each(drawn("none")))
    rooms, ends = np.array([[18.0], [20.0]]), np.array([24.0, 25.0, 22.0])
    times = time_between(loss, rooms, 300.0, 1e5, 22.0, ends)
    assert times.shape == (2, 3) and np.all(times[:, 2] == 0)
    assert times[1, 1] == pytest.approx(time_between(loss, 20.0, 300.0, 1e5, 22.0, 25.0))
    assert settling_temperature(loss, rooms, 50.0, rooms - 15, 100.0).shape == (2, 1)
    assert np.ndim(settling_temperature(loss, 20.0, 50.0, 5.0, 100.0)) == 0


def test_a_straight_way_takes_few_looks() -> None:
    """Five for a smooth way, and six or so for a root, where 25 and 18 were taken before."""
    looks: list[int] = []

    class Seen(TankLoss):
        def __call__(self, water: Any, room: Any) -> Any:
            looks.append(np.size(water))
            return super().__call__(water, room)

    loss = Seen(**{item.name: getattr(drawn("none"), item.name) for item in fields(TankLoss)})
    time_between(loss, 17.0, 0.0, 1e5, 26.0, 23.0)
    assert sum(looks) <= 6 * COUNT
    looks.clear()
    settling_temperature(loss, 20.0, 40.0, 5.0, 100.0)
    assert sum(looks) <= 8 * COUNT


def test_time_along_even_steps() -> None:
    """Arithmetic: 10 K at 2 K/s; and none at all where the way is nothing."""
    assert time_along(10.0, np.full(5, 2.0)) == pytest.approx(5.0)
    assert time_along(0.0, np.full(5, 2.0)) == 0
