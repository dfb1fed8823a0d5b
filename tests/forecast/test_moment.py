"""Any point of a curve explained: the terms that hold there, by the laws, add up to its slope."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from interview import assembly
from interview.advice.forecast.balance import CURVES, Moment, terms_at
from interview.advice.forecast.lanes import Lanes
from interview.advice.forecast.mishaps import mishap_course
from interview.advice.forecast.moment import point_of, values_at
from interview.base.places import demo_folder
from interview.base.show import in_figures
from interview.care.mishaps import mishap_rules
from interview.cli import main
from interview.commands.filled import filled
from interview.core.wiring import laws, quantities
from interview.reckon.moments import read_curve, read_moment
from interview.report.forecast.moment_page import moment_blocks
from interview.report.formats.plain import block_lines
from interview.setups import SetupError

MUSK = str(demo_folder() / "musk_turtle.yaml")


@cache
def _tank(name: str) -> Any:
    interview, _ = filled(demo_folder() / f"{name}.yaml")
    return assembly.tank_of(interview, drawn=True)


@pytest.mark.parametrize(
    ("typed", "run", "hours", "said"),
    [
        ("day 14:00", "day", 14.0, "on a day in the mean of the year at 14:00"),
        ("6:30", "day", 6.5, "on a day in the mean of the year at 6:30"),
        ("Coldest day 6 am", "day", 6.0, "on the coldest day at 6:00"),
        ("warmest day noon", "day", 12.0, "on the warmest day at 12:00"),
        ("15 Jul 2 pm", "year", 195 * 24 + 14.0, "in the year on 15 Jul at 14:00"),
        ("year July 15", "year", 195 * 24 + 12.0, "in the year on 15 Jul at 12:00"),
    ],
)
def test_moments_are_read(typed: str, run: str, hours: float, said: str) -> None:
    when = read_moment(typed)
    assert (when.run, when.time / 3600.0, when.said) == (run, hours, said)


def test_a_moment_of_a_mishap_is_read() -> None:
    for typed in ("power_cut_24_h_winter 9 h", "power cut 24 h winter after 9 hours"):
        when = read_moment(typed)
        assert not isinstance(when.run, str) and when.run.mishap == "power_cut_24_h_winter"
        assert when.time == 9 * 3600.0


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("tomorrow", "Type a time of a day, as “day 14:00”"),
        ("day 25:00", "can't read “day 25:00” as a moment"),
        ("31 Feb", "can't read “31 Feb” as a moment"),
        ("power_cut 9 h", "Mishaps are called heater_dead"),
        ("heater_dead soon", "a time since it began is needed"),
        ("heater_dead 9 days", "is followed for 72 h"),
    ],
)
def test_what_is_no_moment_is_refused(typed: str, said: str) -> None:
    with pytest.raises(SetupError) as refused:
        read_moment(typed)
    assert said in str(refused.value)


def test_curves_are_read_by_either_name() -> None:
    assert read_curve("shell") == read_curve("shell_temperature") == "shell_temperature"
    with pytest.raises(SetupError, match="There are: water_temperature"):
        read_curve("moon")


@pytest.mark.parametrize("name", ["musk_turtle", "river_cooter_adult"])
@pytest.mark.parametrize("mishap", ["power_cut_24_h_winter", "heater_stuck", "heat_wave"])
def test_the_balance_is_the_slope_of_the_curve(name: str, mishap: str) -> None:
    """The heat that the terms say is what the run stores in the steps before and after.

    Within 0.3 W or 1 % of all that passes, as the run takes its loss from a table. Steps in which
    the heater or a lamp switches, or water is poured in, are left out.
    """
    lanes = Lanes.of(_tank(name), 1)
    row = next(one for one in mishap_rules().mishaps if one.mishap == mishap)
    plan, course = mishap_course(lanes, row)
    looked = 0
    for n in range(2, len(course.lit) - 1, 11):
        at = Moment(lanes, plan, course, n)
        near = slice(n - 1, n + 2)
        switched = np.ptp(course.lit[near]) or np.ptp(course.heater[near])
        if switched or np.isin([n, n + 1], np.searchsorted(course.time, course.slow_time)).any():
            continue
        terms = terms_at("water_temperature", at)
        fallen = lanes.tank.level - course.level[at.slow]
        stores = float((lanes.tank.stores - lanes.tank.heat_of_water(fallen))[0])
        net = sum(term.amount for term in terms)
        stored = stores * float(course.water[n + 1, 0] - course.water[n - 1, 0]) / (2 * plan.step)
        passed = sum(abs(term.amount) for term in terms)
        assert net == pytest.approx(stored, abs=max(0.3, 0.01 * passed)), n
        looked += 1
    assert looked > 8


def test_every_curve_has_its_terms_and_every_term_its_law() -> None:
    tank = _tank("river_cooter_adult")
    lanes = Lanes.of(tank, 1)
    row = next(one for one in mishap_rules().mishaps if one.mishap == "power_cut_24_h_winter")
    plan, course = mishap_course(lanes, row)
    at = Moment(lanes, plan, course, 150)
    for curve in CURVES:
        assert np.isfinite(values_at(at, curve)).all() and terms_at(curve, at)
        for term in terms_at(curve, at):
            assert not term.law or term.law in quantities().formulas or term.law in laws()
            assert term.inputs or not term.law
            unknown = [name for name in term.inputs if not _known(tank, name)]
            assert not unknown, unknown


def _known(tank: Any, name: str) -> bool:
    return bool(tank.unit_of(name))


def test_in_a_power_cut_nothing_heats_and_no_bacteria_work() -> None:
    tank = _tank("river_cooter_adult")
    when = read_moment("power_cut_24_h_winter 20 h")
    water = {term.say: term.amount for term in point_of(tank, "water_temperature", when).terms}
    assert water["heater"] == water["pump"] == water["lamps"] == 0.0
    assert all(water[name] < 0 for name in ("through the glass", "by evaporation"))
    oxygen = {term.say: term.amount for term in point_of(tank, "oxygen", when).terms}
    assert oxygen["used by the filter's bacteria"] == pytest.approx(0.0, abs=1e-12)
    assert oxygen["through the surface"] > 0 > oxygen["used by leftovers and droppings"]


def test_the_command_shows_watts_laws_and_answers(capsys: pytest.CaptureFixture[str]) -> None:
    asked = ["explain", MUSK, "water_temperature", "--at", "coldest day 4:00"]
    assert main([*asked, "--plain"]) == 0
    out = capsys.readouterr().out
    assert "water_temperature on the coldest day at 4:00: Study window" in out
    said = " ".join(out.split())
    assert "In and out together" in said and "an hour, as" in said
    assert "wall_flux, churchill_chu_1975" in said and "room_humidity = 50% (assumed" in said
    assert max(map(len, out.splitlines())) <= 78
    assert main([*asked, "--json"]) == 0
    tree = json.loads(capsys.readouterr().out)
    assert tree["format"] == "tankside/moment/1" and tree["low"] <= tree["value"] <= tree["high"]
    heat = {term["say"]: term for term in tree["terms"]}
    assert set(heat["by evaporation"]["sources"]) == {"cengel_ghajar_2015", "shah_2002"}
    assert heat["through the glass"]["value"] < 0 and heat["lamps"]["value"] == 0


@pytest.mark.parametrize(
    ("setup", "curve", "at", "said"),
    [
        ("musk_turtle", "moon", "day 14:00", "has a curve called “moon”"),
        ("musk_turtle", "water", "someday", "can't read “someday” as a moment"),
        ("painted_turtles_classroom", "water", "heater_dead 5 h", "can't befall it"),
        ("reeves_turtle_planned", "shell", "day 14:00", "Basking surface"),
    ],
)
def test_the_command_refuses_in_one_sentence(
    setup: str, curve: str, at: str, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    path = str(Path(MUSK).with_name(f"{setup}.yaml"))
    assert main(["explain", path, curve, "--at", at]) == 2
    caught = capsys.readouterr()
    assert caught.out == "" and said in caught.err and len(caught.err.strip().splitlines()) == 1


@pytest.mark.parametrize(
    ("number", "told"),
    [(3e-05, "0.00003"), (123456.0, "120000"), (0.25, "0.25"), (0.0, "0"), (1.24e-7, "0.00000012")],
)
def test_no_number_has_an_exponent(number: float, told: str) -> None:
    assert in_figures(number, 2) == told


@pytest.mark.parametrize("curve", ["water_temperature", "oxygen", "ammonia_free", "nitrate"])
def test_no_balance_is_told_with_an_exponent(curve: str) -> None:
    tank = _tank("river_cooter_adult")
    point = point_of(tank, curve, read_moment("coldest day 6 am"))
    page = moment_blocks("A tank", point, tank.best, lambda _: "", "us")
    assert not re.search(r"\de[-+]\d", " ".join(block_lines(page)))
