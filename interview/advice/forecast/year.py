"""A year in the tank, month by month: warmth, energy, evaporation, nitrate, lamp, growth."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.forecast.day import LANES, duty_of, energy_of
from interview.advice.forecast.lanes import Lanes, Value, value_of
from interview.audit.tank import Tank
from interview.core.animal.growth_curves import projected_length
from interview.core.electricity.load import cost_per_month
from interview.core.errors import CannotWorkOut
from interview.core.time.plan import DAY, HOUR, Plan
from interview.core.time.run import NITRATE_PER_NITROGEN, Course, through

__all__ = ["Month", "Week", "Year", "year_course", "year_of"]

Floats: TypeAlias = NDArray[np.float64]
_DAYS = 365.25
_MONTH = _DAYS / 12 * DAY
_WEEK = 7 * DAY
_DIP = 0.5  # K, by which a water change moves the water so that its day is no usual one
_REST = 12  # h; over a whole day the loss bends so far that the balance closes to 0.11 % only
_HALF_A_YEAR = _DAYS / 2 * DAY


@dataclass(frozen=True)
class Month:
    """One twelfth of the year, from January on."""

    room: Value
    water: Value
    """As a mean [degC]."""
    duty: Value | None
    """Of the heater; None without one."""
    energy: Value
    """[J]"""
    cost: Value | None
    """In the keeper's money; None without a price."""
    evaporated: Value
    """[kg]"""
    nitrate: Value | None
    """The highest [mg/L]."""
    uv_share: Value | None
    """What the UVB lamp gives at its end, over a new one."""
    length: float | None
    """Of the largest animal at its end [m]."""


@dataclass(frozen=True)
class Week:
    """The week with the coldest or warmest water: when it begins, how far the water goes [degC]."""

    begins: float
    water: Value
    room: Value


@dataclass(frozen=True)
class Year:
    """Twelve months, the coldest and the warmest week, and the water week by week."""

    months: tuple[Month, ...]
    coldest: Week
    warmest: Week
    weeks: dict[str, Floats]
    """Room and water at the best values, a mean for each week [degC]."""
    energy: Value
    cost: Value | None
    evaporated: Value
    lacking: dict[str, CannotWorkOut]


def year_of(tank: Tank) -> Year:
    """Run the tank from January to December.

    Raises Missing for what a run can't do without.
    """
    lanes = Lanes.of(tank, LANES)
    _, course = year_course(lanes)
    months = tuple(_month(lanes, course, number) for number in range(12))
    weeks = int(_DAYS // 7)
    by_week = {
        name: _by_week(course, curve, weeks)
        for name, curve in (("room", course.room), ("water", course.water))
    }
    every = (course.time[:-1] >= 0) & (course.time[:-1] < 12 * _MONTH)
    energy = energy_of(lanes, course, every)
    cost = _cost(lanes, energy)
    return Year(
        months=months,
        coldest=_week(course, by_week, int(by_week["water"][:, 0].argmin()), coldest=True),
        warmest=_week(course, by_week, int(by_week["water"][:, 0].argmax()), coldest=False),
        weeks={name: found[:, 0] for name, found in by_week.items()},
        energy=value_of(energy),
        cost=cost,
        evaporated=value_of(
            course.evaporated[_at(course, 12 * _MONTH)] - course.evaporated[_at(course, 0.0)]
        ),
        lacking=lanes.tank.lacking | _why_no_growth(lanes),
    )


def year_course(lanes: Lanes) -> tuple[Plan, Course]:
    """The year by the hour, from the first of January on."""
    south = lanes.working.get("region") == "australia"
    plan = Plan(
        length=_DAYS * DAY, step=HOUR, rest=_REST * HOUR, season="year", averaged=True,
        year_from=_HALF_A_YEAR if south else 0.0,
    )  # fmt: skip
    return plan, through(lanes.tank, plan, lanes.tank.setting, lanes.dissolved())


def _at(course: Course, time: float) -> int:
    """Place of a moment among the slow times."""
    return int(np.searchsorted(course.slow_time, time - 1.0))


def _month(lanes: Lanes, course: Course, number: int) -> Month:
    start, end = number * _MONTH, (number + 1) * _MONTH
    steps = (course.time[:-1] >= start) & (course.time[:-1] < end)
    rows = slice(_at(course, start), _at(course, end) + 1)
    energy = energy_of(lanes, course, steps)
    gone = course.evaporated[rows]
    return Month(
        room=value_of(course.room[1:][steps].mean(axis=0)),
        water=value_of(course.water[1:][steps].mean(axis=0)),
        duty=duty_of(lanes, course, steps),
        energy=value_of(energy),
        cost=_cost(lanes, energy),
        evaporated=value_of(gone[-1] - gone[0]),
        nitrate=_nitrate(lanes, course, rows),
        uv_share=_uv_share(lanes, end),
        length=_length(lanes, end),
    )


def _cost(lanes: Lanes, energy: Floats) -> Value | None:
    price = lanes.working.get("electricity_price")
    return None if price is None else value_of(np.asarray(cost_per_month(energy, price)))


def _nitrate(lanes: Lanes, course: Course, rows: slice) -> Value | None:
    """The highest of a month: before a change, with the water that is left."""
    if not course.dissolved:
        return None
    thicker = lanes.tank.volume_ratio(course.level[rows])
    held = np.stack([one.nitrate for one in course.dissolved[rows]])
    return value_of((held * thicker).max(axis=0) * NITRATE_PER_NITROGEN)


def _uv_share(lanes: Lanes, after: float) -> Value | None:
    working = lanes.working
    age = working.get("uvb_lamp_age")
    if age is None and working.get("stage") == "planning":
        age = 0.0
    if age is None or working.get("uvb_lamp_kind") in (None, "none"):
        return None
    lit = after * lanes.tank.day_length / DAY
    older = working.with_known({**working.known, "uvb_lamp_age": np.asarray(age) + lit})
    share = older.get("uvb_lamp_output")
    return None if share is None else value_of(np.broadcast_to(share, lanes.tank.count))


def _length(lanes: Lanes, after: float) -> float | None:
    try:
        return _grown(lanes, after)
    except CannotWorkOut:
        return None


def _grown(lanes: Lanes, after: float) -> float:
    """Length of the largest animal later on, at the best values [m]."""
    working = lanes.working
    length = np.atleast_2d(working.value("carapace_length"))[0]
    factor = np.atleast_2d(working.value("each_growth_factor"))[0]
    kinds = (working.value("species"), working.value("sex"))
    return float(np.max(projected_length(*kinds, length, after, factor)))


def _why_no_growth(lanes: Lanes) -> dict[str, CannotWorkOut]:
    try:
        _grown(lanes, 0.0)
    except CannotWorkOut as problem:
        return {"growth": problem}
    return {}


def _by_week(course: Course, curve: Floats, weeks: int) -> Floats:
    start = int(np.searchsorted(course.time, 0.0))
    hours = int(_WEEK / HOUR)
    cut = curve[start : start + weeks * hours]
    return np.asarray(cut.reshape(weeks, hours, -1).mean(axis=1))


def _week(course: Course, by_week: dict[str, Floats], week: int, *, coldest: bool) -> Week:
    """How far the water goes in one week, days that begin with a water change left out."""
    inside = (course.time >= week * _WEEK) & (course.time < (week + 1) * _WEEK)
    rest = np.searchsorted(course.slow_time, course.time, side="right") - 1
    dipped = np.abs(course.water[::_REST][1:, 0] - course.before_care[:, 0]) > _DIP
    after = np.concatenate([[False], dipped])
    after[1:] |= after[:-1].copy()  # as long as a day
    calm = inside & ~after[np.minimum(rest, len(dipped))]
    water = course.water[calm if calm.any() else inside]
    reached = water.min(axis=0) if coldest else water.max(axis=0)
    return Week(week * _WEEK, value_of(reached), value_of(by_week["room"][week]))
