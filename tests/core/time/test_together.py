"""Tanks and plans that run at once give each what it gets alone."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from vessels import HOUR, demo, in_time

from interview.core.time.plan import DAY, Faults, Plan, Span
from interview.core.time.run import Course, started, through
from interview.core.time.side_by_side import joined
from interview.core.time.tank import TankInTime

NAMES = ("musk_turtle", "map_turtle_hatchling")
FAULT = Span(6 * HOUR, 18 * HOUR)
PLANS = (
    Plan(length=DAY, settling=0.0, faults=Faults(heater_dead=FAULT, filter_stopped=FAULT)),
    Plan(length=DAY, settling=0.0, faults=Faults(power_cut=FAULT)),
)


def _tanks() -> list[TankInTime]:
    """Two demo tanks whose filters are old, as those are that may run together."""
    tanks = [in_time(demo(name)) for name in NAMES]
    return [replace(t, filter=replace(t.filter, age=np.inf)) if t.filter else t for t in tanks]


def _course(tank: TankInTime, plans: tuple[Plan, ...]) -> Course:
    assert tank.filter is not None
    fed = started(tank, tank.filter, np.full(tank.count, 20.0))
    return through(tank, plans, np.full(tank.count, 24.0), fed)


def test_a_course_of_several_tanks_gives_each_its_own() -> None:
    tanks = _tanks()
    both = _course(joined(tanks), PLANS)
    for n, (tank, plan) in enumerate(zip(tanks, PLANS, strict=True)):
        alone, own = _course(tank, (plan,)), both.of_tank(n, DAY)
        for name in ("time", "room", "water", "heater", "lit", "slow_time", "level",
                     "before_care", "poured", "evaporated"):  # fmt: skip
            np.testing.assert_allclose(
                getattr(own, name), getattr(alone, name), rtol=1e-3, atol=1e-6, err_msg=name
            )
        assert len(own.dissolved) == len(alone.dissolved) > 1
        for mine, its in zip(own.dissolved, alone.dissolved, strict=True):
            assert mine.nitrate == pytest.approx(its.nitrate, rel=1e-3)
            assert mine.oxygen == pytest.approx(its.oxygen, rel=1e-3)


def test_a_course_of_one_tank_ends_where_it_is_asked_to() -> None:
    both = _course(joined(_tanks()), PLANS)
    half = both.of_tank(1, DAY / 2)
    assert half.time[-1] == half.slow_time[-1] == DAY / 2
    assert len(half.water) == len(half.time) == len(half.heater) + 1 == len(half.lit) + 1
    assert len(half.dissolved) == len(half.slow_time) == len(half.before_care) + 1
    np.testing.assert_array_equal(half.water[:, 0], both.water[: len(half.time), 1])
