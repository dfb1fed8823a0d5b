"""The room's swing by day, season, heat wave and power cut; lags and top-ups by hand."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

import numpy as np
import pytest
from vessels import HOUR, demo, in_time, steady

from interview.core.errors import Missing, NotApplicable
from interview.core.time.lags import (
    heater_band,
    heater_cycle_time,
    heater_setting,
    platform_warm_up_time,
)
from interview.core.time.level import top_up_volume
from interview.core.time.plan import DAY, Faults, Happenings, Plan, Span, happenings
from interview.core.time.room import (
    heat_wave_room,
    room_after_power_cut,
    room_daily_swing,
    room_yearly_swing,
)

TANK = in_time(demo("musk_turtle"))


def test_swings_share_half_the_rooms_range() -> None:
    assert room_daily_swing(18.0, 26.0, 0.375) == pytest.approx(1.5)
    assert room_yearly_swing(18.0, 26.0, 1.5) == pytest.approx(2.5)
    assert room_daily_swing(25.0, 24.0, 0.375) == 0.0
    assert heat_wave_room(26.0, 6.0) == 32.0
    assert room_after_power_cut(20.0, 0.0, 35 * HOUR) == pytest.approx(20 * np.exp(-24 / 35))


@pytest.mark.parametrize("outdoors", [-15.0, 0.0, 8.0, 20.0])
def test_a_room_of_a_days_half_life_comes_half_way_to_outdoors(outdoors: float) -> None:
    lag = DAY / np.log(2.0)
    assert room_after_power_cut(20.0, outdoors, lag) == pytest.approx(0.5 * (20.0 + outdoors))
    assert room_after_power_cut(20.0, outdoors, 1e-3 * lag) == pytest.approx(outdoors)


def test_swings_that_are_told_count() -> None:
    """A room's swing within the day is halved, and is never more than the whole year's."""
    assert room_daily_swing(18.0, 26.0, 0.375, 5.0) == pytest.approx(2.5)
    assert room_daily_swing(18.0, 26.0, 0.375, 12.0) == pytest.approx(4.0)
    assert room_yearly_swing(18.0, 26.0, 4.0) == 0.0
    assert heater_band(0.6, 1.0) == pytest.approx(0.5)
    assert heater_band(0.6) == 0.6
    told = in_time(steady("musk_turtle", thermostat_swing=0.4, room_swing=4.0))
    assert told.band == pytest.approx(0.2) and told.weather.daily == pytest.approx(2.0)
    assert told.weather.yearly + told.weather.daily == pytest.approx(3.5)


def test_a_year_reaches_the_coldest_and_the_warmest_once() -> None:
    plan = Plan(length=365 * DAY, season="year")
    room = plan.room(np.arange(0, 365 * DAY, HOUR), TANK.weather)[:, 0]
    assert room.min() == pytest.approx(18.0, abs=0.02)
    assert room.max() == pytest.approx(25.0, abs=0.02)
    assert room.argmax() % 24 == 17 and room.argmin() % 24 == 5
    assert 200 * 24 < room.argmax() < 210 * 24
    assert (room.argmax() - room.argmin()) / 24 == pytest.approx(182.5, abs=2)


@pytest.mark.parametrize(("season", "end"), [("coldest", 18.0), ("warmest", 25.0)])
def test_the_seasons_days_reach_what_was_told(season: str, end: float) -> None:
    plan = Plan(length=DAY, season=season)  # type: ignore[arg-type]
    room = plan.room(np.arange(0, DAY, 600.0), TANK.weather)[:, 0]
    reached = room.min() if season == "coldest" else room.max()
    assert reached == pytest.approx(end, abs=1e-3)


def test_a_house_without_heating_cools_and_comes_back() -> None:
    faults = Faults(power_cut=Span(0, DAY), house_cools=True)
    plan = Plan(length=4 * DAY, season="coldest", clock=20 * HOUR, faults=faults)
    time = np.arange(-DAY, 4 * DAY, 600.0)
    room, usual = (p.room(time, TANK.weather)[:, 0] for p in (plan, replace(plan, faults=Faults())))
    before, during, after = time < 0, (time >= 0) & (time < DAY), time >= DAY
    assert np.allclose(room[before], usual[before])
    assert np.all(np.diff(room[during]) < 0) and np.all(room[during] <= usual[during] + 1e-9)
    first = usual[during][0]
    assert room[during][-1] == pytest.approx(first * np.exp(-24 / 35), abs=0.1)
    assert np.all(np.abs(np.diff(room)) < 0.3), "no room jumps"
    assert room[-1] == pytest.approx(usual[-1], abs=0.1)
    assert np.all(room[after] <= usual[after] + 1e-9)


def test_a_heat_wave_rises_and_goes_without_a_jump() -> None:
    plan = Plan(length=9 * DAY, season="warmest", faults=Faults(heat_wave=Span(0, 7 * DAY)))
    time = np.arange(-DAY, 10 * DAY, 600.0)
    room = plan.room(time, TANK.weather)[:, 0]
    assert room.max() == pytest.approx(31.0, abs=0.1)
    assert np.all(np.abs(np.diff(room)) < 0.2)


def test_a_heat_wave_comes_when_it_is_said_to_and_not_before() -> None:
    time = np.arange(0, 9 * DAY, 600.0)
    begins = 2 * DAY
    wave = Faults(heat_wave=Span(begins, 7 * DAY))
    usual, hot = (
        Plan(length=9 * DAY, season="warmest", faults=faults).room(time, TANK.weather)[:, 0]
        for faults in (Faults(), wave)
    )
    more = hot - usual
    assert more[time <= begins].max() == pytest.approx(0.0, abs=1e-9)
    assert more[time == begins + 600][0] == pytest.approx(0.0, abs=0.2), "it comes slowly"
    assert more[time == 7 * DAY][0] == pytest.approx(more.max()) and more.max() > 4


@pytest.mark.parametrize("hours", [0.0, 0.1, 8.0, 12.0, 15.3, 24.0])
@pytest.mark.parametrize("step", [600.0, 3600.0])
def test_lamps_burn_for_their_hours_whatever_the_steps(hours: float, step: float) -> None:
    plan = Plan(length=DAY, step=step)
    middles = np.arange(0.5 * step, DAY, step)
    lit = plan.lit(middles, np.array([hours * HOUR]))
    assert lit.sum() * step == pytest.approx(hours * HOUR, abs=1e-6)
    assert lit.min() >= 0 and lit.max() <= 1
    if 0 < hours < 24:
        assert (lit[:, 0] * middles).sum() / lit.sum() == pytest.approx(13 * HOUR, abs=1.0)


def test_dead_lamps_are_dark() -> None:
    faults = Faults(lamps_dead=Span(12 * HOUR, DAY))
    plan = Plan(length=DAY, faults=faults)
    middles = np.arange(300.0, DAY, 600.0)
    lit = plan.lit(middles, np.array([12 * HOUR]))[:, 0]
    assert lit[middles > 12 * HOUR].sum() == 0 and lit[middles < 12 * HOUR].sum() * 600 == 5 * HOUR


def test_a_heater_switches_about_its_dial_else_about_what_was_measured() -> None:
    assert heater_setting(26.0, 24.0, 25.0) == 26.0
    assert heater_setting(None, 24.0, 25.0) == 24.0
    assert heater_setting(None, None, 25.0) == 25.0
    with pytest.raises(Missing) as missing:
        heater_setting()
    assert missing.value.names == ("water_temperature",)


@pytest.mark.parametrize(("stage", "age"), [("planning", 0.0), ("set_up", 0.0), ("living", np.inf)])
def test_a_filter_of_unknown_age_is_new_until_an_animal_lives_there(stage: str, age: float) -> None:
    of = in_time(steady("musk_turtle", stage=stage, filter_age=None))
    assert of.filter is not None and of.filter.age == age


def test_daily_swings_are_among_those_of_a_measured_living_room() -> None:
    """Readings every ten minutes, January to May, in a Belgian house (open data): its living room
    went from 16.1 to 29.7 degC, its days by 1.8 to 5.5 K from lowest to highest (10 % and 90 %)."""
    assert 1.8 < 2 * room_daily_swing(16.1, 29.7, 0.375) < 5.5


def test_lags_and_top_ups_by_hand() -> None:
    assert platform_warm_up_time(720.0) == pytest.approx(1657.9, abs=0.1)
    assert top_up_volume(1e-5, 3 * DAY, 25.0) == pytest.approx(2.592 / 997.05, rel=1e-4)
    assert top_up_volume(-1e-5, 3 * DAY, 25.0) == 0.0
    assert heater_cycle_time(0.5, 416.8e3, 100.0, 40.0) / HOUR == pytest.approx(4.824, abs=0.01)
    assert np.isinf(heater_cycle_time(0.5, 416.8e3, 30.0, 40.0))
    assert np.isinf(heater_cycle_time(0.5, 416.8e3, 100.0, -5.0))
    with pytest.raises(NotApplicable, match="no heater"):
        heater_cycle_time(0.5, 416.8e3, 0.0, 40.0)


def test_plans_of_several_tanks_bring_each_its_own() -> None:
    """Three rooms, three days' lengths and three faults at once: each as if it were alone."""
    one = TANK.weather
    weather = replace(one, **{
        name: np.concatenate([getattr(one, name) + shift for shift in (0.0, 1.0, 2.0)])
        for name in ("mean", "yearly", "daily", "rise", "outdoors", "lag")
    })  # fmt: skip
    days = np.array([8.0, 11.0, 14.0]) * HOUR
    span = Span(6 * HOUR, 12 * HOUR)
    plans = [
        Plan(length=DAY, faults=Faults(lamps_dead=span)),
        Plan(length=DAY, faults=Faults(filter_stopped=span, heater_stuck=span, no_care=span)),
        Plan(length=DAY, faults=Faults(power_cut=span, house_cools=True)),
    ]
    time = np.arange(0.0, DAY + 1.0, 600.0)
    together = happenings(plans, weather, days, time, 6)
    for n, plan in enumerate(plans):
        alone = happenings([plan], weather.of_tank(n), days[n : n + 1], time, 6)
        for item in fields(Happenings):
            each, own = getattr(together, item.name), getattr(alone, item.name)
            np.testing.assert_array_equal(each[:, n : n + 1], np.broadcast_to(own, (len(own), 1)))
    assert together.lit[:, 1].sum() * 600 == pytest.approx(11 * HOUR)


def test_a_fault_counts_from_the_moment_it_begins_until_it_ends() -> None:
    """On the hour, as mishaps begin: six rests of an hour each are without a filter or care."""
    span = Span(6 * HOUR, 12 * HOUR)
    assert span.holds(np.array([6.0, 11.99, 12.0]) * HOUR).tolist() == [True, True, False]
    plan = Plan(length=DAY, faults=Faults(filter_stopped=span, no_care=span))
    given = happenings([plan], TANK.weather, np.array([12 * HOUR]), np.arange(0.0, DAY + 1, 600), 6)
    for working in (given.filtered, given.stirred, given.cared):
        assert np.flatnonzero(~working[:, 0]).tolist() == [6, 7, 8, 9, 10, 11]
    assert given.pumping.sum() == 18 * 6


def test_what_cannot_be_followed_is_told_by_its_name() -> None:
    lampless: dict[str, Any] = {
        "heat_lamp_kind": "none",
        "basking_temperature": None,
        "lamp_heat": None,
    }
    bare = steady("musk_turtle", filter_kind="none", uvb_lamp_kind="none", **lampless)
    lacking = in_time(bare).lacking
    assert set(lacking) == {"basking", "filter", "uv"}
    assert str(lacking["basking"]) == "there is no heat lamp"
    warmed = in_time(steady("musk_turtle", **{**lampless, "lamp_heat": 5.0}))
    assert warmed.basking is not None, "a lamp whose heat is known can be followed"


def test_all_that_a_filter_cannot_be_followed_without_is_told_at_once() -> None:
    unknown = {"water_change_share": None, "water_change_interval": None}
    missing = in_time(steady("musk_turtle", **unknown)).lacking["filter"]
    assert isinstance(missing, Missing)
    assert set(missing.names) == set(unknown)
