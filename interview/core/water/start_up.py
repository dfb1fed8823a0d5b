"""The start-up of a filter stepped through: each tank in steps of its own, as long as may be.

The unknowns are the logarithms of the two films and the ammonia, nitrite and nitrate in the
water. The steps are those of Rodas3, a Rosenbrock method of third order with a second order
inside that tells the error, because a full film turns nitrogen over far faster than it grows.
Each group feeds only the next one, so the linear systems are solved by hand, row after row.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.numeric import Num
from interview.core.water.nitrifiers import DAY, FIRST_DOSE, NITRITE_SHARE, guilds

__all__ = ["CLEAR", "StartUp"]

CLEAR = 0.25  # mg/L N, the least a drop kit tells from nothing
_LONGEST = 120.0  # give up after this many growth times
_PRECISION = 1e-3  # of a step: relative for nitrogen, absolute for the logarithms
_NOTHING = 0.2  # mg/L N, below which nitrogen is judged by this much instead
_FIRST_STEP = 0.02  # share of the first dose that the first step takes up
_SHORTER, _LONGER, _CAUTION = 0.2, 5.0, 0.85  # bounds of the next step over this one
_SHORTEST = 1e-9  # growth times; a step as short comes from what is no number
_IN_USE = 0.8  # once fewer are still on their way, the others are put away
_ROUNDS = 6  # of Newton's to a crossing, which is then found to the last digits
_EATERS, _AMMONIA, _FINISHERS, _NITRITE, _NITRATE = range(5)
_HALVES = [guild.half for guild in guilds(20.0, 1.0)]
_CELLS = [guild.cells for guild in guilds(20.0, 1.0)]
_Rows: TypeAlias = NDArray[np.float64]
"""A row for each unknown, a column for each tank; times in days."""


@dataclass(frozen=True)
class StartUp:
    """How a new filter comes into its own: times in seconds, nitrogen in mg/L N.

    `ready` is when ammonia and nitrite are first both below 0.25 mg/L N, infinite if never;
    `ammonia_clear` and `nitrite_clear` are when each falls through that mark for the first time,
    and infinite if it does not before that. `ammonia`, `nitrite` and `nitrate` are the state at
    `end`, where the run stopped.
    """

    ready: NDArray[np.float64]
    ammonia_peak: NDArray[np.float64]
    ammonia_peak_time: NDArray[np.float64]
    nitrite_peak: NDArray[np.float64]
    nitrite_peak_time: NDArray[np.float64]
    end: NDArray[np.float64]
    ammonia: NDArray[np.float64]
    nitrite: NDArray[np.float64]
    nitrate: NDArray[np.float64]
    ammonia_clear: NDArray[np.float64]
    nitrite_clear: NDArray[np.float64]

    @classmethod
    def run(
        cls,
        ammonia_supply: Num,
        water_temperature: Num,
        starting_film: Num,
        nitrifier_pace: Num,
        precision: float = _PRECISION,
    ) -> StartUp:
        """Let both groups grow until ammonia and nitrite are clear.

        At the usual precision `ready` is within 0.3 % of the exact solution, but where one of
        the two just misses being clear as the other becomes it: there the exact time jumps. The
        error goes down with the precision asked for.
        """
        given = (ammonia_supply, water_temperature, starting_film, nitrifier_pace)
        supply, warmth, film, pace = np.broadcast_arrays(*(np.asarray(g, float) for g in given))
        eaters, finishers = guilds(warmth.ravel(), pace.ravel())
        rates = np.stack((supply.ravel() * DAY, eaters.growth, finishers.growth, eaters.decay))
        run = _Run(rates, film.ravel(), precision)
        with np.errstate(all="ignore"):  # a step too long is thrown away and tried again
            while run.where.size:
                run.go_on()
        scale = np.array([DAY, DAY, 1, DAY, 1, DAY, 1, 1, 1, DAY, DAY])[:, None]
        ready, *rest = (row.reshape(film.shape) for row in run.found * scale)
        return cls(ready, *(rest[n] for n in (1, 0, 3, 2, 4, 5, 6, 7, 8, 9)))


class _Run:
    """All tanks that are still on their way, and what was found of each."""

    def __init__(self, rates: _Rows, film: _Rows, precision: float) -> None:
        count = film.size
        self.where = np.arange(count)
        self.found = np.zeros((11, count))
        """Ready; peak of ammonia, time and height; of nitrite; end, nitrogen there; each clear."""
        self.found[[0, 9, 10]], self.found[2] = np.inf, FIRST_DOSE
        self._rates, self._precision = rates, precision
        self._state = np.zeros((5, count))
        self._state[_EATERS] = np.log(film)
        self._state[_FINISHERS] = np.log(NITRITE_SHARE * film)
        self._state[_AMMONIA] = FIRST_DOSE
        self._speed = _speed(rates, self._state)
        self._growth_time = 1.0 / (rates[1] - rates[3])
        hurry = np.abs(self._speed[_AMMONIA]) / (_FIRST_STEP * FIRST_DOSE)
        self._step = 1.0 / (1.0 / self._growth_time + hurry)
        self._time = np.zeros(count)

    def go_on(self) -> None:
        """One step of every tank; where it was too long, only the next one gets shorter."""
        after, error = _stepped(self._rates, self._state, self._speed, self._step)
        allowed = np.full_like(error, self._precision)
        for row in (_AMMONIA, _NITRITE, _NITRATE):
            allowed[row] *= np.maximum(np.abs(after[row]), _NOTHING)
        miss = np.max(np.abs(error) / allowed, axis=0)
        miss = np.where(np.isfinite(miss), np.maximum(miss, 1e-9), 1e9)
        good = miss <= 1.0
        speed = _speed(self._rates, after)
        self._look_at(np.flatnonzero(good), after, speed)
        self._time = np.where(good, self._time + self._step, self._time)
        self._state = np.where(good, after, self._state)
        self._speed = np.where(good, speed, self._speed)
        self._step = self._step * np.clip(_CAUTION * np.cbrt(1.0 / miss), _SHORTER, _LONGER)
        self._put_away()

    def _look_at(self, good: NDArray[np.intp], after: _Rows, speed: _Rows) -> None:
        """Note the peaks that these steps passed, and whether the water became clear."""
        for row, place in ((_AMMONIA, 1), (_NITRITE, 3)):
            passed = good[(self._speed[row, good] > 0) & (speed[row, good] <= 0)]
            if passed.size:
                self._note_peak(self._curve(row, passed, after, speed), place, passed)
        for row, other, place in ((_AMMONIA, _NITRITE, 9), (_NITRITE, _AMMONIA, 10)):
            passed = good[(self._state[row, good] >= CLEAR) & (after[row, good] < CLEAR)]
            if passed.size:
                share = self._curve(row, passed, after, speed).falls_to(CLEAR)
                clear = self._curve(other, passed, after, speed).at(share) < CLEAR
                when, tanks = self._time[passed] + share * self._step[passed], self.where[passed]
                self.found[place, tanks] = np.minimum(self.found[place, tanks], when)
                when = np.where(clear, when, np.inf)
                self.found[0, tanks] = np.minimum(self.found[0, tanks], when)

    def _curve(self, row: int, tanks: Any, after: _Rows, speed: _Rows) -> _Curve:
        step = self._step[tanks]
        return _Curve(
            self._state[row, tanks],
            after[row, tanks],
            step * self._speed[row, tanks],
            step * speed[row, tanks],
        )

    def _note_peak(self, curve: _Curve, place: int, passed: NDArray[np.intp]) -> None:
        share = curve.top()
        value, tanks = curve.at(share), self.where[passed]
        higher = value > self.found[place + 1, tanks]
        when = self._time[passed] + share * self._step[passed]
        self.found[place, tanks] = np.where(higher, when, self.found[place, tanks])
        self.found[place + 1, tanks] = np.maximum(value, self.found[place + 1, tanks])

    def _put_away(self) -> None:
        """Keep those that are on their way, unless nearly all of them are."""
        stuck = ~(self._step > _SHORTEST * self._growth_time) | (
            self._time > _LONGEST * self._growth_time
        )
        over = stuck | np.isfinite(self.found[0, self.where])
        ended = self.where[over]
        new = self.found[5, ended] == 0
        self.found[5, ended[new]] = self._time[over][new]
        self.found[6:9, ended[new]] = self._state[_AMMONIA:, over][[0, 2, 3]][:, new]
        on = ~over
        if on.sum() > _IN_USE * on.size:
            return
        self.where, self._time, self._step = self.where[on], self._time[on], self._step[on]
        self._growth_time = self._growth_time[on]
        self._rates, self._state = self._rates[:, on], self._state[:, on]
        self._speed = self._speed[:, on]


@dataclass(frozen=True)
class _Curve:
    """A cubic over one step from its ends and its slopes there, by the share of the step."""

    first: Any
    last: Any
    leaving: Any
    arriving: Any

    def at(self, share: Any) -> Any:
        """The value."""
        rest = 1.0 - share
        ends = rest * rest * (1.0 + 2.0 * share) * self.first
        ends = ends + share * share * (3.0 - 2.0 * share) * self.last
        return ends + share * rest * (rest * self.leaving - share * self.arriving)

    def falls_to(self, level: float) -> Any:
        """The share at which it passes the level downwards."""
        low, high = np.zeros_like(self.first), np.ones_like(self.first)
        share = (self.first - level) / (self.first - self.last)
        for _ in range(_ROUNDS):
            over = self.at(share) - level
            low, high = np.where(over > 0, share, low), np.where(over > 0, high, share)
            share = share - over / self._slope(share)
            share = np.where((low <= share) & (share <= high), share, 0.5 * (low + high))
        return share

    def _slope(self, share: Any) -> Any:
        """The change by the share of the step."""
        rest = 1.0 - share
        steep = 6.0 * share * rest * (self.last - self.first)
        steep = steep + rest * (1.0 - 3.0 * share) * self.leaving
        return steep - share * (2.0 - 3.0 * share) * self.arriving

    def top(self) -> Any:
        """The share at which it is highest: where its slope, a parabola, falls through zero."""
        rise = self.last - self.first
        half = 3.0 * rise - 2.0 * self.leaving - self.arriving
        bend = self.leaving + self.arriving - 2.0 * rise
        return self.leaving / (np.sqrt(half**2 - 3.0 * bend * self.leaving) - half)


def _speed(rates: _Rows, state: _Rows) -> _Rows:
    """How fast each unknown changes."""
    supply, eaters, finishers, decay = rates
    ammonia, nitrite = state[_AMMONIA], state[_NITRITE]
    first = eaters * ammonia / (ammonia + _HALVES[0])
    second = finishers * nitrite / (nitrite + _HALVES[1])
    eaten = first * np.exp(state[_EATERS]) / _CELLS[0]
    finished = second * np.exp(state[_FINISHERS]) / _CELLS[1]
    return np.stack((first - decay, supply - eaten, second - decay, eaten - finished, finished))


def _stepped(rates: _Rows, state: _Rows, speed: _Rows, step: _Rows) -> tuple[_Rows, _Rows]:
    """The state one step on, and how far off it may be (Rodas3)."""
    solve, per_day = _Solver(rates, state, speed, step), 1.0 / step
    one = solve(speed)
    two = solve(speed + 4.0 * per_day * one)
    three = solve(_speed(rates, state + 2.0 * one) + per_day * (one - two))
    near = state + 2.0 * one + three
    slow = per_day * (one - two - 8.0 / 3.0 * three)
    four = solve(_speed(rates, near) + slow)
    return near + four, four


class _Solver:
    """Solves (2 / step − slopes of the speed) · k = right, all tanks side by side."""

    def __init__(self, rates: _Rows, state: _Rows, speed: _Rows, step: _Rows) -> None:
        self._own = 2.0 / step
        self._finished = speed[_NITRATE]
        self._eaten = speed[_NITRITE] + self._finished
        self._first = rates[1] * _HALVES[0] / (state[_AMMONIA] + _HALVES[0]) ** 2
        self._second = rates[2] * _HALVES[1] / (state[_NITRITE] + _HALVES[1]) ** 2
        self._eating = self._first * np.exp(state[_EATERS]) / _CELLS[0]
        self._finishing = self._second * np.exp(state[_FINISHERS]) / _CELLS[1]
        own = self._own
        self._ammonia = 1.0 / (own * (own + self._eating) + self._first * self._eaten)
        self._nitrite = 1.0 / (own * (own + self._finishing) + self._second * self._finished)

    def __call__(self, right: _Rows) -> _Rows:
        found, own = np.empty_like(right), self._own
        film, food = right[_EATERS], right[_AMMONIA]
        found[_EATERS] = ((own + self._eating) * film + self._first * food) * self._ammonia
        found[_AMMONIA] = (own * food - self._eaten * film) * self._ammonia
        film = right[_FINISHERS]
        food = right[_NITRITE] + self._eaten * found[_EATERS] + self._eating * found[_AMMONIA]
        found[_FINISHERS] = ((own + self._finishing) * film + self._second * food) * self._nitrite
        found[_NITRITE] = (own * food - self._finished * film) * self._nitrite
        passed = self._finished * found[_FINISHERS] + self._finishing * found[_NITRITE]
        found[_NITRATE] = (right[_NITRATE] + passed) / own
        return found
