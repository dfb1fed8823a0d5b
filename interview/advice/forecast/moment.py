"""One point of a curve: the run it lies on, its value with its doubt, and what holds there."""

from __future__ import annotations

from dataclasses import dataclass
from math import prod
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.forecast.balance import CURVES, Moment, Term, terms_at
from interview.advice.forecast.day import LANES, air_over, day_course
from interview.advice.forecast.lanes import Lanes, Value, value_of
from interview.advice.forecast.mishaps import befalls, mishap_course
from interview.advice.forecast.year import year_course
from interview.audit.tank import Tank
from interview.care.mishaps import Mishap
from interview.core.errors import NotApplicable
from interview.core.time.run import NITRATE_PER_NITROGEN
from interview.core.water.properties import ammonia_free_share

__all__ = ["Point", "When", "point_of", "values_at"]

Floats: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True)
class When:
    """A moment of a day, of a year, or of a mishap."""

    run: Literal["day", "year"] | Mishap
    time: float
    """[s] since midnight, since the year began, or since the mishap did."""
    said: str
    """“on the coldest day at 14:00”."""
    season: Literal["coldest", "mean", "warmest"] = "mean"


@dataclass(frozen=True)
class Point:
    """A curve at a moment: its value, how it moves, and which terms make that."""

    curve: str
    unit: str
    when: When
    value: Value
    terms: tuple[Term, ...]
    stores: float | None = None
    """Heat that warms all by one degree [J/K], where the terms are heat."""

    @property
    def pace(self) -> float | None:
        """How fast it moves by its terms [its unit for each s]; None where they say it otherwise.

        A share, as of ammonia that is free, counts of the sum as it stands.
        """
        if self.stores:
            return sum(term.amount for term in self.terms) / self.stores
        moving = [term.amount for term in self.terms if term.unit == f"{self.unit}/s"]
        shares = [term.amount for term in self.terms if term.unit == "1"]
        return sum(moving) * prod(shares) if moving else None


def point_of(tank: Tank, curve: str, when: When) -> Point:
    """The run that a moment lies on, looked at there.

    Raises Missing for what a run can't do without, and CannotWorkOut where this tank has no such
    curve or no such mishap.
    """
    lanes = Lanes.of(tank, LANES)
    at = _moment(lanes, when)
    value = values_at(at, curve)
    heat = curve == "water_temperature"
    level = at.course.level[at.slow]
    stores = lanes.tank.stores - lanes.tank.heat_of_water(lanes.tank.level - level)
    return Point(
        curve, CURVES[curve][0], when, value_of(value), terms_at(curve, at),
        float(stores[0]) if heat else None,
    )  # fmt: skip


def _moment(lanes: Lanes, when: When) -> Moment:
    if when.run == "day":
        plan, course = day_course(lanes, when.season, watched=True)
    elif when.run == "year":
        plan, course = year_course(lanes)
    else:
        if not befalls(when.run, lanes):
            raise NotApplicable(f"“{when.run.title}” can't befall it")
        plan, course = mishap_course(lanes, when.run)
    row = int(np.argmin(np.abs(course.time - when.time)))
    return Moment(lanes, plan, course, row)


def values_at(at: Moment, curve: str) -> Floats:
    """A curve at a moment, lane by lane, in its unit; CannotWorkOut where the tank has none."""
    lanes, course, row = at.lanes, at.course, at.row
    water, room = course.water[row], course.room[row]
    if curve in ("water_temperature", "room_temperature"):
        return np.asarray(water if curve == "water_temperature" else room)
    if curve == "breathing_air":
        return air_over(lanes, water, room)
    if curve == "water_level":
        return np.asarray(course.level[at.slow])
    if curve in ("platform_temperature", "shell_temperature"):
        surfaces = lanes.surfaces(course)
        if surfaces is None:
            raise lanes.tank.lacking["basking"]
        return np.asarray(surfaces[curve.startswith("shell")][row])
    if curve == "uv_index_shell":
        if lanes.tank.uv_index is None:
            raise lanes.tank.lacking["uv"]
        return np.asarray(lanes.tank.uv_index * course.lit[at.step])
    return _in_the_water(at, curve)


def _in_the_water(at: Moment, curve: str) -> Floats:
    lanes, course = at.lanes, at.course
    if not course.dissolved:
        raise lanes.tank.lacking["filter"]
    now, thicker = course.dissolved[at.slow], lanes.tank.volume_ratio(course.level[at.slow])
    if curve == "oxygen":
        return np.asarray(now.oxygen)
    if curve == "nitrate":
        return np.asarray(now.nitrate * thicker * NITRATE_PER_NITROGEN)
    free = ammonia_free_share(lanes.limit("ph"), course.water[at.row])
    return np.asarray(now.ammonia * thicker * free)
