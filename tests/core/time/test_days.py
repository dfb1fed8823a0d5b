"""Checks that need time take it from a closed form of the day: held here against the run itself.

The run steps the same laws through days of their own (table, lamps as square waves, no line about
the mean), so what is tried is the closed form: mean, damping and the lamps' first harmonic.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from vessels import HOUR, demo, in_time, steady

from interview.advice.forecast.day import energy_of
from interview.advice.forecast.lanes import Lanes
from interview.advice.forecast.year import year_course
from interview.core.heat import daily
from interview.core.heat.daily import DayOfWater
from interview.core.time.crossing import first_crossing
from interview.core.time.plan import ALWAYS, DAY, Faults, Plan
from interview.core.time.run import through

TANKS = ("musk_turtle", "painted_turtles_classroom", "river_cooter_adult", "map_turtle_hatchling")
COLD = {"heater_mount": "none", "water_temperature": 5.0, "target_water_temperature": 5.0}


def _days(working: Any, season: Any, **faults: Any) -> Any:
    """Eight days alike, the level kept: what evaporates is back at once."""
    tank = replace(in_time(working), evaporation=lambda water, room: np.zeros(1))
    plan = Plan(
        length=DAY, settling=7 * DAY, season=season, faults=Faults(no_care=ALWAYS, **faults)
    )
    course = through(tank, plan, working.value("room_temperature_high") * np.ones(1))
    return course.water[course.time >= 0]


@pytest.mark.parametrize("name", TANKS)
@pytest.mark.parametrize("cover", ["none", "glass"])
@pytest.mark.parametrize(("swing", "within"), [(1.5, 0.2), (3.0, 0.35)])
def test_the_warmest_and_the_coldest_day_are_those_of_the_run(
    name: str, cover: str, swing: float, within: float
) -> None:
    """Where a steady state at the room's extreme is off by 0.5 to 2.6 K."""
    working = steady(name, cover_water=cover, room_swing=2 * swing, **COLD)
    warm, cold = (_days(working, season) for season in ("warmest", "coldest"))
    assert float(working.value("hot_room_water")) == pytest.approx(warm.max(), abs=within)
    assert float(working.value("unheated_water_coldest")) == pytest.approx(cold.min(), abs=within)


def test_a_steady_state_at_the_extreme_would_be_too_warm() -> None:
    working = steady("musk_turtle", room_swing=6.0, **COLD)
    still = working.with_known({**working.known, "room_daily_swing": 0.0})
    off = float(still.value("hot_room_water")) - _days(working, "warmest").max()
    assert off > 1.0


@pytest.mark.parametrize("name", ["musk_turtle", "river_cooter_adult"])
def test_how_far_a_weak_heater_lets_the_water_fall_is_as_in_the_run(name: str) -> None:
    """With a third of the power that the coldest hour takes, and with one that is strong enough."""
    best = demo(name)
    lost = float(best.value("heat_loss"))
    weak = steady(name, installed_heater_power=lost / 3, room_swing=3.0)
    target = float(weak.value("target_water_temperature"))
    weak = weak.with_known({**weak.known, "water_temperature": target})
    cold = _days(weak, "coldest").min()
    assert cold < target - 1.0
    assert float(weak.value("heated_water_coldest")) == pytest.approx(cold, abs=0.2)
    strong = steady(name, installed_heater_power=3 * lost)
    assert float(strong.value("heated_water_coldest")) == target


@pytest.mark.parametrize(("lag", "gain"), [(6, 0.537), (12, 0.303), (24, 0.157), (48, 0.079)])
def test_a_daily_swing_is_damped_as_by_the_closed_form(
    lag: float, gain: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """1 / √(1 + (2π · lag / day)²), computed; for a loss in proportion to the difference."""

    class Straight:
        def __call__(self, water: Any, room: Any) -> Any:
            return 10.0 * (np.asarray(water) - room)

    day = DayOfWater(20.0, 3.0, 0.0)
    loss: Any = Straight()
    monkeypatch.setattr(daily, "settling_temperature", lambda *given: np.asarray(given[1]))
    found = daily.water_of_day(loss, day, 10.0 * lag * HOUR)
    assert found.swing / 3.0 == pytest.approx(gain, abs=1e-3)


@pytest.mark.parametrize("name", ["musk_turtle", "river_cooter_adult"])
def test_a_stuck_heater_with_pump_and_lamps_is_that_of_the_run(name: str) -> None:
    """In a room that stays at its warmest, lamps lit all day as their mean is taken."""
    room = float(demo(name).value("room_temperature_high"))
    working = steady(name, room, day_length=DAY)
    tank = replace(in_time(working), evaporation=lambda water, room: np.zeros(1))
    faults = Faults(no_care=ALWAYS, heater_stuck=ALWAYS)
    run = Plan(length=12 * DAY, settling=0.0, step=1200.0, rest=6 * HOUR, faults=faults)
    start = max(float(working.value(n)) for n in ("target_water_temperature", "water_temperature"))
    course = through(tank, run, np.array([start]))
    expected = float(working.value("stuck_heater_temperature"))
    assert course.water[-1, 0] == pytest.approx(expected, abs=0.15)
    when = first_crossing(course.time, course.water, 35.0, falling=False)
    assert when[0] == pytest.approx(float(working.value("stuck_heater_time")), rel=0.015)
    dark = working.with_known({**working.known, "stray_heat": 0.0})
    assert float(dark.value("stuck_heater_time")) > 1.05 * when[0]


@pytest.mark.parametrize("name", ["musk_turtle", "reeves_turtle_planned", "river_cooter_adult"])
def test_a_mean_months_energy_is_a_twelfth_of_the_years(name: str) -> None:
    """Within 2 %: heat of pump and lamps, the seasons and the new water to be warmed all count."""
    best = demo(name)
    lanes = Lanes.best(best)
    _, course = year_course(lanes)
    year = energy_of(lanes, course, course.time[:-1] >= 0)
    assert float(best.value("energy_per_month")) == pytest.approx(year[0] / 12.0, rel=0.02)
