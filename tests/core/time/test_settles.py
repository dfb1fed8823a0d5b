"""In a world that stands still every part of the state settles on the steady quantity."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from vessels import HOUR, demo, in_time, steady

from interview.core.heat.breathing_air import breathing_air
from interview.core.time.crossing import first_crossing
from interview.core.time.dissolved.oxygen import oxygen_settled
from interview.core.time.lags import SteadyByRoom, approached
from interview.core.time.plan import ALWAYS, DAY, Faults, Plan
from interview.core.time.run import NITRATE_PER_NITROGEN, started, through
from interview.core.water.nitrification import mature_film

ALONE = Faults(no_care=ALWAYS)
TANKS = ("musk_turtle", "painted_turtles_classroom", "river_cooter_adult")
DARK = {"stray_heat": 0.0, "day_length": 0.0, "lamp_heat_to_water": 0.0, "pump_heat_share": 0.0}


def _dry(working: Any) -> Any:
    """A tank whose level stays: what evaporates takes its heat along, and is back at once."""
    return replace(in_time(working), evaporation=lambda water, room: np.zeros(1))


def _end(working: Any, days: float = 9.0, faults: Faults = ALONE, **plan: Any) -> Any:
    tank = _dry(working)
    run = Plan(length=days * DAY, settling=0.0, faults=faults, **plan)
    return through(tank, run, np.asarray(plan.get("start", tank.setting)))


@pytest.mark.parametrize("name", TANKS)
def test_an_unheated_tank_settles_on_its_quantity(name: str) -> None:
    working = steady(name, 21.0, heater_mount="none", **DARK)
    course = _end(working)
    expected = float(working.value("unheated_water_temperature"))
    assert course.water[-1, 0] == pytest.approx(expected, abs=0.03)
    assert course.heater.sum() == 0.0


@pytest.mark.parametrize("name", ["musk_turtle", "river_cooter_adult"])
def test_a_heated_tank_uses_the_steady_loss_and_stays_in_its_band(name: str) -> None:
    working = steady(name, 19.0, **DARK)
    working = working.with_known({**working.known, "water_temperature": None})
    course = _end(working)
    lost = float(working.value("heat_loss"))
    last = course.heater[-round(6 * DAY / 600) :].mean() * working.value("installed_heater_power")
    assert last == pytest.approx(lost, rel=0.02)
    water = course.water[-round(6 * DAY / 600) :]
    middle, band = working.value("target_water_temperature"), working.value("heater_band")
    assert np.all(np.abs(water - middle) <= band + 1e-9)
    averaged = _end(working, averaged=True)
    mean = averaged.heater[-144:].mean() * working.value("installed_heater_power")
    assert mean == pytest.approx(lost, rel=5e-3)


@pytest.mark.parametrize(
    ("name", "heaters"),
    [("musk_turtle", {}), ("river_cooter_adult", {}), ("musk_turtle", {"heater_power": 450.0})],
)
def test_a_stuck_heater_settles_and_passes_35_degrees_on_time(name: str, heaters: Any) -> None:
    """Far over the room as well: the strong one ends 32 K above it."""
    best = demo(name)
    room = float(best.value("room_temperature_high"))
    working = steady(name, room, **DARK, **heaters)
    stuck = replace(ALONE, heater_stuck=ALWAYS)
    tank = _dry(working)
    start = max(
        float(working.value("target_water_temperature")), float(working.value("water_temperature"))
    )
    run = Plan(length=12 * DAY, settling=0.0, step=1200.0, rest=6 * HOUR, faults=stuck)
    course = through(tank, run, np.array([start]))
    expected = float(working.value("stuck_heater_temperature"))
    assert course.water[-1, 0] == pytest.approx(expected, abs=0.15)
    when = first_crossing(course.time, course.water, 35.0, falling=False)
    assert when[0] == pytest.approx(float(working.value("stuck_heater_time")), rel=0.01)


@pytest.mark.parametrize("name", TANKS)
def test_a_dead_heater_cools_three_kelvin_in_the_steady_time(name: str) -> None:
    room = float(demo(name).value("room_temperature_low"))
    working = steady(name, room, **DARK)
    tank = _dry(working)
    start = float(working.value("water_temperature"))
    run = Plan(length=6 * DAY, settling=0.0, faults=replace(ALONE, heater_dead=ALWAYS))
    course = through(tank, run, np.array([start]))
    when = first_crossing(course.time, course.water, start - 3.0, falling=True)
    assert when[0] == pytest.approx(float(working.value("cooling_time")), rel=0.01)


@pytest.mark.parametrize("name", TANKS)
def test_a_hot_room_with_lamps_and_pump_gives_the_hot_rooms_water(name: str) -> None:
    room = 33.0
    working = steady(name, room, day_length=DAY)
    course = _end(working)
    expected = float(working.value("hot_room_water"))
    assert course.water[-1, 0] == pytest.approx(expected, abs=0.05)


def test_platform_shell_and_air_settle_on_theirs() -> None:
    working = steady("musk_turtle")
    tank = in_time(working)
    assert tank.basking is not None
    room = float(working.value("room_temperature_while_measuring"))
    for law, name in ((tank.basking.platform, "platform"), (tank.basking.shell, "shell")):
        table = SteadyByRoom.of(law, (15.0, 30.0), 1)
        still = table(np.full((600, 1), room))
        lag = np.array([1000.0])
        course = approached(np.array([20.0]), still, lag, lag, 600.0)
        expected = float(working.value(f"{name}_temperature"))
        assert course[-1, 0] == pytest.approx(expected, abs=0.02)
        assert course[1, 0] == pytest.approx(expected + (20.0 - expected) * np.exp(-0.6), abs=0.02)
    cold = float(working.value("room_temperature_low"))
    inputs = (working.value("air_warmth_share"), working.value("cover_water"))
    air = breathing_air(working.value("target_water_temperature"), cold, *inputs)
    assert air == pytest.approx(working.value("breathing_air"))


def test_a_table_by_room_is_its_law_in_all_rooms() -> None:
    """A parabola, which straight lines between nine rooms meet within an eighth of a step's square;
    where the room never changes, the law in that room is what counts."""
    bent = SteadyByRoom.of(lambda room: room * room, (14.0, 30.0), 2)
    rooms = np.linspace(14.0, 30.0, 65)[:, None] * np.ones(2)
    assert np.all(np.abs(bent(rooms) - rooms * rooms) <= 2.0**2 / 4 + 1e-9)
    assert np.allclose(bent(rooms[::8]), rooms[::8] ** 2)
    beyond = np.array([[10.0, 10.0], [34.0, 34.0]])
    assert bent(beyond)[:, 0] == pytest.approx([14**2 - 4 * 30.0, 30**2 + 4 * 58.0]), "straight on"
    still = SteadyByRoom.of(lambda room: room * room, (21.0, 21.0), 1)
    assert still(np.full((1, 1), 21.0)) == pytest.approx(441.0)


@pytest.mark.parametrize("name", TANKS)
def test_evaporation_and_top_ups_settle_on_the_rate(name: str) -> None:
    working = steady(name, 21.5, **DARK)
    tank = in_time(working)
    run = Plan(length=24 * DAY, settling=0.0, averaged=True, step=HOUR)
    course = through(tank, run, tank.setting)
    rate = float(np.mean(tank.evaporation(course.water[-200:], course.room[-200:])))
    span = course.slow_time[-1] - course.slow_time[0]
    assert course.books.evaporated[0] / span == pytest.approx(rate, rel=0.02)
    each = float(working.value("top_up_interval")) * rate
    low = course.level[-480:].min() - tank.level[0]
    assert -low * tank.area[0] * 998 == pytest.approx(each, rel=0.06)
    assert course.books.poured[0] == pytest.approx(course.books.evaporated[0], rel=0.1)


@pytest.mark.parametrize("name", TANKS)
def test_nitrate_films_and_oxygen_settle(name: str) -> None:
    working = steady(name, 21.5, top_up_interval=3600.0, **DARK)
    warm = float(working.value("filter_temperature"))
    working = working.with_known({**working.known, "thermostat_band": 0.01})
    tank = in_time(working)
    tank = replace(tank, weather=replace(tank.weather, mean=np.array([warm])))
    assert tank.filter is not None
    first = started(tank, tank.filter, np.array([float(working.value("nitrate_peak"))]))
    interval = float(working.value("water_change_interval"))
    plan = Plan(length=12 * interval, settling=0.0, averaged=True, step=6 * HOUR, rest=6 * HOUR)
    course = through(tank, plan, tank.setting, first)
    nitrate = np.array([float(one.nitrate[0]) for one in course.dissolved]) * NITRATE_PER_NITROGEN
    last = nitrate[-round(4 * interval / (6 * HOUR)) :]
    evaporation = float(tank.evaporation(np.array([warm]), np.array([warm]))[0])
    there = working.with_known({**working.known, "evaporation_rate": evaporation})
    assert last.max() == pytest.approx(float(there.value("nitrate_peak")), rel=0.03)
    end = course.dissolved[-1]
    mature = float(mature_film(tank.filter.supply, course.water[-400:].mean(), tank.filter.pace)[0])
    assert float(end.eaters[0]) == pytest.approx(mature, rel=0.02)
    rates = (working.value("oxygen_uptake"), working.value("oxygen_exchange"))
    settled = float(oxygen_settled(*rates, float(course.water[-400:].mean())))
    assert float(end.oxygen[0]) == pytest.approx(settled, rel=0.02)


def test_a_steady_month_uses_the_months_energy() -> None:
    """Heater by its duty, lamps and pump by the clock, against `energy_per_month`."""
    dark = {"lamp_heat_to_water": 0.0, "pump_heat_share": 0.0, "water_change_share": 0.0}
    working = steady("river_cooter_adult", 19.0, **dark)
    working = working.with_known({**working.known, "water_temperature": None})
    course = _end(working, 30.4375, averaged=True)
    lamps = course.lit.sum() * 600.0
    power = working.value("heat_lamp_load") + working.value("lighting_load")
    energy = course.books.heater[0] + power * lamps + working.value("filter_load") * 30.4375 * DAY
    assert energy == pytest.approx(float(working.value("energy_per_month")), rel=5e-3)
