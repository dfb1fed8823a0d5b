"""What happens to the tank from outside: the room's course, timers, faults, rounds of care."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, fields, replace
from math import inf
from typing import Literal, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.heat.daily import NOON_OF_LAMPS, WARMEST_HOUR

__all__ = [
    "ALWAYS",
    "DAY",
    "HOUR",
    "NEVER",
    "Faults",
    "Happenings",
    "Plan",
    "Span",
    "Weather",
    "happenings",
]

Floats: TypeAlias = NDArray[np.float64]
HOUR, DAY = 3600.0, 86400.0
_YEAR = 365.25 * DAY
_WARMEST_DAY = 205.0 * DAY  # late July in the north
_HEAT_COMES = 12.0 * HOUR  # time constant with which a room follows a heat wave
_HEATED_AGAIN = 1.0 / 6.0  # of the room's time constant, once its heating is back


@dataclass(frozen=True)
class Span:
    """A stretch of time, from its start to its end [s]."""

    start: float
    end: float

    def holds(self, time: Floats) -> NDArray[np.bool_]:
        """Which moments lie in it."""
        held: NDArray[np.bool_] = (time >= self.start) & (time < self.end)
        return held


NEVER, ALWAYS = Span(inf, inf), Span(-inf, inf)


@dataclass(frozen=True)
class Faults:
    """What fails, and when."""

    heater_dead: Span = NEVER
    heater_stuck: Span = NEVER
    share: float = 1.0
    """Of the heaters' power, the part that sticks or dies."""
    lamps_dead: Span = NEVER
    power_cut: Span = NEVER
    house_cools: bool = False
    """Whether the room loses its heating in a power cut."""
    filter_stopped: Span = NEVER
    air_kept: bool = False
    """Whether something moves the water all the same, as an air pump on a battery."""
    heat_wave: Span = NEVER
    no_care: Span = NEVER
    """Neither water changes nor top-ups."""


@dataclass(frozen=True)
class Weather:
    """The room's usual course: mean of the year, and swing by season and by day [degC, K]."""

    mean: Floats
    yearly: Floats
    daily: Floats
    rise: Floats
    """Of a heat wave [K]."""
    outdoors: Floats
    """In winter [degC]."""
    lag: Floats
    """Time constant of the house without heating [s]."""

    def of_tank(self, number: int) -> Weather:
        """That of one tank of many."""
        one = slice(number, number + 1)
        return replace(self, **{item.name: getattr(self, item.name)[one] for item in fields(self)})

    def season(self, of_year: Floats | float) -> Floats:
        """-1 in the coldest of the year, 1 in the warmest."""
        return np.asarray(np.cos(2 * np.pi * (np.asarray(of_year) - _WARMEST_DAY) / _YEAR))

    def usual(self, clock: Floats, season: Floats | float) -> Floats:
        """The room with nothing amiss; times on the first axis.

        Args:
            clock [s]: since a midnight
            season: from -1 for the coldest to 1 for the warmest
        """
        by_day = np.cos(2 * np.pi * (clock - WARMEST_HOUR) / DAY)[:, None]
        by_season = np.broadcast_to(season, clock.shape)[:, None]
        return np.asarray(self.mean + self.yearly * by_season + self.daily * by_day)


@dataclass(frozen=True)
class Plan:
    """One run: when it starts and ends, its steps, its season, and what goes wrong in it.

    Time 0 is when the faults begin; the run starts `settling` before it, so that it has come
    into the round of its days by then.
    """

    length: float
    step: float = 600.0
    rest: float = HOUR
    """After so long what changes slowly is worked out again: level, nitrogen, oxygen."""
    settling: float = 4 * DAY
    clock: float = 0.0
    """Time of the day at time 0 [s]."""
    season: Literal["coldest", "mean", "warmest", "year"] = "mean"
    year_from: float = 0.0
    """Time of the year at time 0, where the season goes along [s]."""
    faults: Faults = field(default_factory=Faults)
    averaged: bool = False
    """Whether the heater gives the mean of its cycles, as for steps longer than one."""

    def room(self, time: Floats, weather: Weather) -> Floats:
        """Temperature of the room [degC]; times on the first axis."""
        usual = self._usual(time, weather)
        wave = self.faults.heat_wave
        if np.isfinite(wave.start):
            usual = usual + weather.rise * _wave(time, wave)[:, None]
        cut = self.faults.power_cut
        if self.faults.house_cools and np.isfinite(cut.start):
            return self._cooling(time, usual, weather, cut)
        return usual

    def lit(self, time: Floats, day_length: Floats) -> Floats:
        """Share of each step that the lamps burn; times are the middles of the steps.

        Args:
            time [s]: middles, on the first axis
            day_length [s]: of each tank
        """
        clock = np.mod(self.clock + time, DAY)[:, None]
        half = 0.5 * self.step
        inside = 0.5 * day_length - np.abs(clock - NOON_OF_LAMPS)
        next_day = 0.5 * day_length - (DAY - np.abs(clock - NOON_OF_LAMPS))
        burn = np.clip(0.5 + 0.5 * np.maximum(inside, next_day) / half, 0.0, 1.0)
        dark = self.faults.lamps_dead.holds(time) | self.faults.power_cut.holds(time)
        return np.where(dark[:, None], 0.0, burn)

    def _usual(self, time: Floats, weather: Weather) -> Floats:
        seasons = {"coldest": -1.0, "mean": 0.0, "warmest": 1.0}
        if self.season == "year":
            return weather.usual(self.clock + time, weather.season(self.year_from + time))
        return weather.usual(self.clock + time, seasons[self.season])

    def _cooling(self, time: Floats, usual: Floats, weather: Weather, cut: Span) -> Floats:
        """The room that cools towards outdoors in a cut, and comes back after it."""
        ends = np.array([cut.start, cut.end])
        first, last = self._usual(ends, weather)
        outdoors = np.minimum(weather.outdoors, first)

        def cooled(since: Floats | float) -> Floats:
            return np.asarray(outdoors + (first - outdoors) * np.exp(-since / weather.lag))

        lacking = np.minimum(cooled(cut.end - cut.start) - last, 0.0)
        since, after = (np.maximum(time - end, 0.0)[:, None] for end in ends)
        again = usual + lacking * np.exp(-after / (_HEATED_AGAIN * weather.lag))
        during, past = cut.holds(time)[:, None], (time >= cut.end)[:, None]
        return np.where(during, np.minimum(cooled(since), usual), np.where(past, again, usual))


@dataclass(frozen=True)
class Happenings:
    """What a plan brings, or plans of one tank each: times on the first axis, tanks on the last."""

    room: Floats
    """At each time [degC]."""
    middle_room: Floats
    """In the middle of each step [degC]."""
    lit: Floats
    """Share of each step that the lamps burn."""
    obeying: Floats
    """Share of the heaters' power that the thermostat has in each step; so are the others."""
    stuck: Floats
    """Share of it that is on, whatever the thermostat does."""
    pumping: Floats
    """1 where the pump runs, 0 where it doesn't."""
    filtered: NDArray[np.bool_]
    """Whether the filter runs at the start of each rest; so are the others."""
    stirred: NDArray[np.bool_]
    """Whether anything moves the water."""
    cared: NDArray[np.bool_]
    """Whether somebody changes water and tops it up."""


def happenings(
    plans: Sequence[Plan], weather: Weather, day_length: Floats, time: Floats, steps: int
) -> Happenings:
    """What the plans bring in each step.

    Args:
        plans: one for all tanks, or one for each; with the same steps
        weather: of the tanks
        day_length [s]: of the tanks
        time [s]: at which steps begin and end
        steps: how many there are in each rest
    """
    if len(plans) == 1:
        return _happening(plans[0], weather, day_length, time, steps)
    each = [
        _happening(plan, weather.of_tank(n), day_length[n : n + 1], time, steps)
        for n, plan in enumerate(plans)
    ]
    names = (item.name for item in fields(Happenings))
    return Happenings(
        **{name: np.concatenate([getattr(one, name) for one in each], axis=1) for name in names}
    )


def _happening(
    plan: Plan, weather: Weather, day_length: Floats, time: Floats, steps: int
) -> Happenings:
    faults, starts = plan.faults, time[:-1:steps]
    middles: Floats = time[:-1] + 0.5 * plan.step
    cut = faults.power_cut.holds(middles)
    stuck = faults.heater_stuck.holds(middles) & ~cut
    failing = np.where(stuck | faults.heater_dead.holds(middles), faults.share, 0.0)
    still = faults.filter_stopped.holds(starts) | faults.power_cut.holds(starts)
    return Happenings(
        plan.room(time, weather),
        plan.room(middles, weather),
        plan.lit(middles, day_length),
        np.where(cut, 0.0, 1.0 - failing)[:, None],
        np.where(stuck, faults.share, 0.0)[:, None],
        np.where(cut | faults.filter_stopped.holds(middles), 0.0, 1.0)[:, None],
        ~still[:, None],
        (~still | faults.air_kept)[:, None],
        ~faults.no_care.holds(starts)[:, None],
    )


def _wave(time: Floats, wave: Span) -> Floats:
    """How much of a heat wave the room has, from 0 to 1."""
    since = np.maximum(np.minimum(time, wave.end) - wave.start, 0.0)
    came = -np.expm1(-since / _HEAT_COMES)
    return np.asarray(came * np.exp(-np.maximum(time - wave.end, 0.0) / _HEAT_COMES))
