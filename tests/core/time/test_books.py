"""What comes in, goes out and stays: heat by the laws themselves, water and nitrogen."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest
from vessels import HOUR, demo, in_time

from interview.core.heat.air import latent_heat
from interview.core.time.plan import DAY, Faults, Plan, Span
from interview.core.time.run import started, through

TANKS = (
    *("map_turtle_hatchling", "musk_turtle", "painted_turtles_classroom"),
    *("reeves_turtle_planned", "river_cooter_adult"),
)
YEARLY = ("painted_turtles_classroom", "river_cooter_adult")
"""Without a heater, and with one: the others are run through a week only."""
PLANS = {
    "a week": Plan(length=7 * DAY),
    "a year": Plan(length=365 * DAY, step=HOUR, rest=12 * HOUR, season="year", averaged=True),
    "a winter's power cut": Plan(
        length=2 * DAY, season="coldest", clock=20 * HOUR,
        faults=Faults(power_cut=Span(0, DAY), house_cools=True, no_care=Span(0, 9 * DAY)),
    ),
    "a heat wave": Plan(
        length=9 * DAY, season="warmest", faults=Faults(heat_wave=Span(0, 7 * DAY))
    ),
    "a stuck heater": Plan(
        length=3 * DAY, season="warmest", faults=Faults(heater_stuck=Span(0, 3 * DAY))
    ),
}  # fmt: skip


@cache
def _run(name: str, kind: str) -> Any:
    tank, plan = in_time(demo(name)), PLANS[kind]
    assert tank.filter is not None
    return tank, through(tank, plan, tank.setting, started(tank, tank.filter, np.array([30.0])))


RUNS = [(name, kind) for kind in PLANS for name in (TANKS if kind == "a week" else YEARLY)]


@pytest.mark.parametrize(("name", "kind"), RUNS)
def test_heat_balance_closes(name: str, kind: str) -> None:
    """Books to rounding; and to 0.1 % of all that passed with the loss by the laws.

    The laws are asked at the middle of every step of the course, beside the table the run used.
    """
    tank, course = _run(name, kind)
    books = course.books
    assert np.abs(books.residual).max() < 1e-9
    ends = course.water[1:].copy()
    steps = len(ends) // len(course.before_care)
    ends[steps - 1 :: steps] = course.before_care
    middle = 0.5 * (ends + course.water[:-1])
    room = PLANS[kind].room(0.5 * (course.time[1:] + course.time[:-1]), tank.weather)
    rest = np.searchsorted(course.slow_time, course.time[:-1], side="right") - 1
    wetted = course.level[rest] / tank.level
    walls = tank.losses.walls(middle, room)
    step = np.diff(course.time)[0]
    by_laws = (tank.losses(middle, room) - walls * (1 - wetted)) * step
    vapour = tank.evaporation(middle, room) * latent_heat(middle)
    dry = np.abs(tank.losses.top(middle, room) - vapour)
    floor = np.abs(tank.losses(middle, room) - walls - tank.losses.top(middle, room))
    parts = np.abs(walls) + floor + dry + np.abs(vapour)
    through_it = books.heater + books.free + parts.sum(axis=0) * step
    off = (by_laws.sum(axis=0) - books.lost) / through_it
    assert np.all(np.abs(off) < 1e-3), off


@pytest.mark.parametrize("name", YEARLY)
def test_nitrogen_and_water_are_kept(name: str) -> None:
    tank, course = _run(name, "a year")
    books = course.books
    nitrogen = course.dissolved[-1].nitrogen
    residual = books.nitrogen_first + books.fed + books.otherwise + books.swapped - nitrogen
    assert np.abs(residual / books.fed).max() < 1e-9
    density = 997.0
    level = (course.level[-1] - tank.level) * tank.area * density
    assert books.poured - books.evaporated == pytest.approx(level, abs=0.02 * books.poured[0])
    assert min(float(one.ammonia.min()) for one in course.dissolved) >= 0.0


def test_from_a_film_of_water_nothing_evaporates() -> None:
    """Nor does any come: a level under the least that is followed stays what it is."""
    tank = replace(in_time(demo("musk_turtle")), level=np.array([0.01]))
    course = through(tank, Plan(length=DAY, settling=0.0, step=HOUR, averaged=True), tank.setting)
    assert course.books.evaporated[0] == 0.0
    assert course.level[-1, 0] == 0.01


def test_a_tank_full_of_stones_never_holds_less_than_no_water() -> None:
    """3 cm of water among what stands in it: a year's evaporation leaves 2 cm of it."""
    musk = in_time(demo("musk_turtle"))
    tank = replace(musk, volume=0.03 * musk.area, stores=musk.heat_of_water(np.array([0.03])))
    plan = Plan(
        length=60 * DAY, settling=0.0, step=HOUR, rest=6 * HOUR, averaged=True,
        faults=Faults(no_care=Span(0.0, np.inf)),
    )  # fmt: skip
    course = through(tank, plan, tank.setting)
    assert course.level[-1] == pytest.approx(tank.level - 0.01)
    assert np.all((course.water > 0) & (course.water < 60))


def test_vapours_latent_heat_is_part_of_what_is_lost() -> None:
    _, course = _run("river_cooter_adult", "a week")
    latent = float(course.books.evaporated[0] * latent_heat(course.water.mean()))
    assert 0.2 * course.books.lost[0] < latent < 0.8 * course.books.lost[0]
