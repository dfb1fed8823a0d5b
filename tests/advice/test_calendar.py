"""The calendar with dates and litres worked by hand."""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Any

import pytest
from advice_tanks import DEMOS, TANKS, tank_of

from interview.advice.calendar import Duty, calendar
from interview.advice.what_if.suppose import changed
from interview.audit.tank import Tank
from interview.vocabulary.phrases import in_words

TODAY = datetime.date(2026, 3, 1)
DAY = 86400.0


def _tank(**change: Any) -> Tank:
    return tank_of(TANKS / "base.yaml", change)


def _with(tank: Tank, **known: Any) -> Tank:
    """The tank with quantities pinned."""
    return replace(tank, best=tank.best.with_known({**tank.best.known, **known}))


def _due(duties: tuple[Duty, ...], words: str) -> str | None:
    return next((duty.when for duty in duties if words in duty.what), None)


def test_dates_by_hand() -> None:
    """30 days from 1 March is the 31st; 365 days on is 1 March; 100 days is 9 June."""
    tank = _with(
        _tank(), cycling_time_left=30 * DAY, uvb_lamp_time_left=365 * DAY, outgrow_time=100 * DAY
    )
    duties = calendar(tank, TODAY)
    assert _due(duties, "filter to be ripe") == "by 2026-03-31"
    assert _due(duties, "Renew the UVB lamp") == "by 2027-03-01"
    assert _due(duties, "this one is outgrown") == "by 2026-06-09"


def test_the_lamps_date_follows_from_its_hours() -> None:
    """A T5 tube lit 12 h a day: each lit hour left is two of the calendar's."""
    young, older = _tank(uvb_lamp_age="800 hours"), _tank(uvb_lamp_age="1040 hours")
    left = [float(t.best.value("uvb_lamp_time_left")) / DAY for t in (young, older)]
    assert left[0] - left[1] == pytest.approx(20)
    due = TODAY + datetime.timedelta(days=left[0])
    assert _due(calendar(young, TODAY), "Renew the UVB lamp") == f"by {due.isoformat()}"


def test_an_index_that_the_plan_moves_is_told_as_that_of_the_lamp_after_it() -> None:
    """A page that reads another index today would contradict its own calendar."""
    cooter = tank_of(DEMOS / "river_cooter_adult.yaml")
    moved = changed(cooter, {"uvb_lamp_height": 17 * 0.0254})
    said = [
        next(duty.what for duty in calendar(moved, TODAY, before=before) if "enew" in duty.what)
        for before in (cooter, moved)
    ]
    assert "(as it hangs after the plan, its index at the shell falls a tenth under" in said[0]
    assert "(its index at the shell falls a tenth under" in said[1]


def test_a_spent_lamp_says_now() -> None:
    duties = calendar(_tank(uvb_lamp_age="30000 hours", uvb_reading=""), TODAY)
    assert _due(duties, "Renew the UVB lamp") == "now"


def test_an_outgrown_tank_says_now() -> None:
    assert _due(calendar(_with(_tank(), outgrow_time=0.0), TODAY), "this one is outgrown") == "now"


def test_a_ripe_filter_and_a_far_date_are_left_out() -> None:
    duties = calendar(_tank(filter_age="14 months"), TODAY)
    assert _due(duties, "filter to be ripe") is None
    young = _tank(filter_age="3 days", filter_seeded="none", stage="set_up")
    assert (_due(calendar(young, TODAY), "filter to be ripe") or "").startswith("by 2026-")
    far = _with(_tank(), outgrow_time=10 * 365 * DAY, uvb_lamp_time_left=float("inf"))
    assert _due(calendar(far, TODAY), "outgrown") is None
    assert _due(calendar(far, TODAY), "Renew") is None


def test_litres_of_a_water_change_by_hand() -> None:
    """0.6 of 150 L are 90 L, mixed to the middle of the band, every seven days."""
    tank = _with(_tank(), water_volume=0.150, target_water_temperature=24.0)
    duty = next(d for d in calendar(tank, TODAY) if d.what.startswith("Change "))
    assert duty.when == "every 7 days"
    assert duty.what.startswith("Change 90 L of water, mixed to 24 °C")


def test_the_most_frequent_comes_first_and_no_sentence_is_broken() -> None:
    duties = calendar(_tank(), TODAY)
    order = [duty.when for duty in duties]
    assert order[0] == "every day" and order.index("every week") < order.index("every month")
    assert "4 times a week" in order
    for duty in duties:
        assert duty.what.endswith(".") and not set(duty.what) & set("{}_")


def test_what_is_unknown_is_left_out() -> None:
    bare = _tank(water_change_share="", feed_mass="", uvb_lamp_kind="none", uvb_reading="")
    duties = calendar(_with(bare, outgrow_time=float("inf")), TODAY)
    assert _due(duties, "Feed ") is None and _due(duties, "Renew the UVB") is None
    assert _due(duties, "Look at animal") == "every day"


def test_the_day_nitrate_passes_its_limit_by_hand() -> None:
    """2 mg/L a day, half changed each 10 days, from 10 mg/L: 30, 35, 37.5, 38.75 … never 40.

    From 22: 42 before the first change, 40 a day earlier. At 2.2 a day from 10: 32, 38, 41
    before the third, 40 half a day earlier.
    """
    slow = {"tap_nitrate": 0.0, "water_change_interval": 10 * DAY, "water_change_share": 0.5}
    tank = _tank()
    steady = _with(tank, nitrate_rise=2.0 / DAY, nitrate=10.0, **slow)
    assert _due(calendar(steady, TODAY), "Nitrate passes") is None
    high = _with(tank, nitrate_rise=2.0 / DAY, nitrate=22.0, **slow)
    assert _due(calendar(high, TODAY), "Nitrate passes") == "by 2026-03-10"
    quicker = _with(tank, nitrate_rise=2.2 / DAY, nitrate=10.0, **slow)
    assert _due(calendar(quicker, TODAY), "Nitrate passes") == "by 2026-03-30"


def test_nitrate_over_the_limit_is_due_now_and_dates_are_dates() -> None:
    duties = calendar(_with(_tank(), nitrate=80.0), TODAY)
    assert _due(duties, "Nitrate is over 40 mg/L") == "now"
    assert _due(duties, "as a recheck") == "by 2026-05-31"


def test_what_is_not_there_is_not_cared_for() -> None:
    bare = calendar(_with(_tank(), filter_kind="none", heater_mount="none"), TODAY)
    said = " ".join(duty.what for duty in bare)
    assert "foam" not in said and "unplug the heater" not in said
    assert "Press the GFCI's" in said


def test_the_lamp_is_due_when_its_index_leaves_the_zone_if_that_is_sooner() -> None:
    """At the zone's low edge with 5 % to spare the lamp is due before 70 % of its output."""
    low = float(_tank().best.value("uv_zone_low"))
    edge = _tank(uvb_reading=f"{1.05 * low:.3f}", uvb_reading_height="3.9 cm")
    index = float(edge.best.value("uv_index_shell"))
    assert low < index < 1.2 * low
    when = _due(calendar(edge, TODAY), "falls a tenth under")
    assert when is not None and when.startswith("by ")
    spent = TODAY + datetime.timedelta(seconds=float(edge.best.value("uvb_lamp_time_left")))
    assert when < f"by {spent.isoformat()}"
    left = (datetime.date.fromisoformat(when[3:]) - TODAY).days * DAY
    hours = float(edge.best.known["uvb_lamp_age"])
    lit = float(edge.best.value("day_length")) / DAY
    then = changed(edge, {"uvb_lamp_age": hours + lit * (left + 3 * DAY)})
    just = changed(edge, {"uvb_lamp_age": hours + lit * max(left - 4 * DAY, 0.0)})
    under = 0.9 * low  # less no keeper's meter tells apart
    assert then.best.value("uv_index_shell") < under <= just.best.value("uv_index_shell")


def test_a_lamp_well_inside_its_zone_is_due_by_its_output() -> None:
    assert _due(calendar(_tank(), TODAY), "falls a tenth under") is None


def test_what_is_due_now_comes_first_then_rhythms_then_dates_in_order() -> None:
    tank = _with(_tank(water_change_interval="every 4 days"), outgrow_time=0.0)
    duties = calendar(tank, TODAY)
    assert duties[0].when == "now" and "outgrown" in duties[0].what
    rhythms = [duty.every for duty in duties if duty.every is not None]
    assert rhythms == sorted(rhythms) and rhythms[0] == DAY
    dates = [duty.when for duty in duties if duty.when.startswith("by ")]
    assert len(dates) > 1 and dates == sorted(dates)
    assert [duty.every is None for duty in duties].index(False) == 1


def test_an_outgrown_tank_is_said_to_be_in_words() -> None:
    assert in_words(0.0, "s", "metric", "outgrow_time") == "already outgrown"
    assert "year" in in_words(4e7, "s", "metric", "outgrow_time")
