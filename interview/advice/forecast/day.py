"""A day in the tank: in the mean of the year, and on its coldest and warmest days."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.forecast.lanes import BEFORE, Lanes, Value, value_of
from interview.audit.tank import Tank
from interview.core.errors import CannotWorkOut
from interview.core.heat.breathing_air import breathing_air
from interview.core.time.crossing import time_past
from interview.core.time.plan import ALWAYS, DAY, Faults, Plan
from interview.core.time.run import Course, through

__all__ = ["LANES", "Day", "air_over", "day_course", "days_of", "duty_of", "energy_of"]

Floats: TypeAlias = NDArray[np.float64]
Season = Literal["coldest", "mean", "warmest"]
LANES = 128


@dataclass(frozen=True)
class Day:
    """24 hours from midnight on: curves at the best values, figures with their doubt."""

    season: Season
    time: Floats
    """[s] since midnight."""
    curves: dict[str, Floats]
    """Room, water, air, and where there is a lamp platform and shell [degC]; UV index."""
    room: tuple[Value, Value]
    """Lowest and highest; so are water and air [degC]."""
    water: tuple[Value, Value]
    air: tuple[Value, Value]
    platform: Value | None
    """At its warmest."""
    shell: Value | None
    """At its warmest, of an animal that stays under the lamp."""
    hours_in_band: Value | None
    """[s] in which that shell is inside the basking band."""
    hours_over_band: Value | None
    """[s] in which it is warmer than that."""
    uv_index: Value | None
    duty: Value | None
    """Share of the day that the heater is on; None without a heater."""
    energy: Value
    """Of everything plugged in [J]."""


def days_of(tank: Tank) -> tuple[tuple[Day, ...], dict[str, CannotWorkOut]]:
    """The coldest, the mean and the warmest day, and what couldn't be followed and why."""
    lanes = Lanes.of(tank, LANES)
    seasons: tuple[Season, ...] = ("coldest", "mean", "warmest")
    return tuple(_day(lanes, season) for season in seasons), lanes.tank.lacking


def day_course(lanes: Lanes, season: Season, *, watched: bool = False) -> tuple[Plan, Course]:
    """A day of a season without water change or top-up; `watched` follows what is dissolved too."""
    faults = Faults(no_care=ALWAYS)
    plan = Plan(length=DAY, settling=BEFORE, season=season, faults=faults)
    dissolved = lanes.dissolved() if watched else None
    return plan, through(lanes.tank, plan, lanes.settled(plan), dissolved)


def _day(lanes: Lanes, season: Season) -> Day:
    _, course = day_course(lanes, season)
    whole = course.time >= 0
    room, water = course.room[whole], course.water[whole]
    air = air_over(lanes, water, room)
    curves = {"room": room, "water": water, "air": air}
    surfaces = lanes.surfaces(course)
    if surfaces is not None:
        curves |= {"platform": surfaces[0][whole], "shell": surfaces[1][whole]}
    steps = whole[1:] & whole[:-1]
    uv = lanes.tank.uv_index
    if uv is not None:
        burns = np.concatenate([course.lit[steps], course.lit[steps][-1:]])
        curves["uv_index"] = uv * burns
    return Day(
        season=season,
        time=course.time[whole],
        curves={name: curve[:, 0] for name, curve in curves.items()},
        room=_ends(room),
        water=_ends(water),
        air=_ends(air),
        platform=_highest(curves.get("platform")),
        shell=_highest(curves.get("shell")),
        hours_in_band=_in_band(lanes, course.time[whole], curves.get("shell")),
        hours_over_band=_over_band(lanes, course.time[whole], curves.get("shell")),
        uv_index=None if uv is None else value_of(uv),
        duty=duty_of(lanes, course, steps),
        energy=value_of(energy_of(lanes, course, steps)),
    )


def duty_of(lanes: Lanes, course: Course, steps: NDArray[np.bool_]) -> Value | None:
    """Share of some of the steps that the heater is on; None without one."""
    return value_of(course.heater[steps].mean(axis=0)) if lanes.tank.heater[0] > 0 else None


def energy_of(lanes: Lanes, course: Course, steps: NDArray[np.bool_]) -> Floats:
    """Energy of heater, lamps and pump in some of the steps [J], lane by lane."""
    step = float(course.time[1] - course.time[0])
    pump = _load(lanes, "filter_load")
    lamps = _load(lanes, "heat_lamp_load") + _load(lanes, "lighting_load")
    used = course.heater[steps].sum(axis=0) * lanes.tank.heater
    lit = course.lit[steps].sum(axis=0) * lamps
    return np.asarray((used + lit + pump * int(steps.sum())) * step)


def _load(lanes: Lanes, name: str) -> Floats:
    found = lanes.working.get(name)
    return np.zeros(lanes.tank.count) if found is None else np.asarray(found, dtype=float)


def air_over(lanes: Lanes, water: Floats, room: Floats) -> Floats:
    """The air over the water, which follows within a minute [degC]."""
    share, cover = (lanes.working.value(name) for name in ("air_warmth_share", "cover_water"))
    return np.asarray(breathing_air(water, room, share, cover))


def _ends(curve: Floats) -> tuple[Value, Value]:
    return value_of(curve.min(axis=0)), value_of(curve.max(axis=0))


def _highest(curve: Floats | None) -> Value | None:
    return None if curve is None else value_of(curve.max(axis=0))


def _in_band(lanes: Lanes, time: Floats, shell: Floats | None) -> Value | None:
    if shell is None:
        return None
    low, high = (lanes.limit(f"basking_band_{end}") for end in ("low", "high"))
    outside = time_past(time, shell, low, falling=True) + time_past(
        time, shell, high, falling=False
    )
    return value_of(np.maximum(float(time[-1] - time[0]) - outside, 0.0))


def _over_band(lanes: Lanes, time: Floats, shell: Floats | None) -> Value | None:
    if shell is None:
        return None
    return value_of(time_past(time, shell, lanes.limit("basking_band_high"), falling=False))
