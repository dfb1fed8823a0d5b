"""One tank in lanes side by side: its best values first, then draws of its doubt."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.audit.sampling.sample import COUNT
from interview.audit.tank import Tank
from interview.care.facts import limits
from interview.core.time.dissolved.chemistry import Water
from interview.core.time.lags import SteadyByRoom, approached
from interview.core.time.plan import DAY, HOUR, Plan
from interview.core.time.run import Course, started, through
from interview.core.time.tank import TankInTime
from interview.core.working import Working

__all__ = ["BEFORE", "Lanes", "Value", "settled", "value_of"]

Floats: TypeAlias = NDArray[np.float64]
BEFORE = 6 * HOUR
"""So long before time 0 a run's own steps begin, so that lamp and thermostat are in their round."""
_SETTLING = 4 * DAY
"""So long before time 0 the water begins to come into the round of its days, in longer steps."""
_NITRATE_UNCHANGED = 400.0  # mg/L, our own choice: far past every limit, where no change is made
_FOAM = 0.02 / 0.035  # m²K/W, 2 cm of polystyrene foam, conductivity recalled


@dataclass(frozen=True)
class Value:
    """A number at the best values, with its 5 % and 95 % points over the draws."""

    best: float
    low: float
    high: float


def settled(tank: TankInTime, plans: Sequence[Plan]) -> Floats:
    """The water as runs find it at their start, come into the round of its days [degC].

    Args:
        tank: the tanks
        plans: one for all of them or one for each; all start at the same time before their time 0
    """
    before = [
        replace(
            plan, length=-plan.settling, settling=_SETTLING, step=HOUR, rest=plan.settling,
            averaged=True,
        )
        for plan in plans
    ]  # fmt: skip
    water: Floats = through(tank, before, tank.setting).before_care[-1]
    return water


def value_of(lanes: Floats) -> Value:
    """A number from its lanes; infinite ones count as larger than all others."""
    low, high = np.percentile(lanes, [5, 95], method="inverted_cdf")
    return Value(float(lanes[0]), float(low), float(high))


@dataclass(frozen=True)
class Lanes:
    """A tank ready to be run: quantities and what the runs need, in as many lanes."""

    working: Working
    tank: TankInTime

    @classmethod
    def of(cls, tank: Tank, count: int) -> Lanes:
        """The tank at its best values and in count − 1 draws.

        Raises Missing for what a run can't do without.
        """
        known = {name: _row(name, tank, count) for name in tank.sample.known}
        working = Working(tank.sample.wiring, known, draws=True)
        return cls(working, TankInTime.of(working, count))

    @classmethod
    def best(cls, working: Working, *, wrapped: bool = False) -> Lanes:
        """Best values alone, one lane; `wrapped` puts 2 cm of foam round the glass."""
        if wrapped:
            resistance = working.value("wall_resistance") + _FOAM
            working = working.with_known({**working.known, "wall_resistance": resistance})
        return cls(working, TankInTime.of(working, 1))

    def limit(self, name: str) -> Floats:
        """A quantity or a limit, lane by lane."""
        fact = limits().get(name)
        value = fact.value if fact else self.working.value(name)
        return np.array(np.broadcast_to(np.asarray(value, dtype=float), self.tank.count))

    def settled(self, plan: Plan) -> Floats:
        """The water as a run finds it at its start, come into the round of its days [degC].

        Args:
            plan: the run, which starts its `settling` before time 0
        """
        return settled(self.tank, (plan,))

    def dissolved(self, *, before_change: bool = False) -> Water | None:
        """What is in the water at the start; None where it can't be followed.

        Args:
            before_change: with the nitrate there is just before a change, else as measured
        """
        fed = self.tank.filter
        nitrate = self.nitrate(before_change=before_change)
        return None if fed is None else started(self.tank, fed, nitrate)

    def nitrate(self, *, before_change: bool) -> Floats:
        """Nitrate at the start, just before a change or as measured, as the ion [mg/L]."""
        fed = self.tank.filter
        names = ("nitrate_peak",) if before_change else ("nitrate", "nitrate_peak")
        told = (self.working.get(name) for name in names)
        nitrate = next((value for value in told if value is not None), None)
        tap = 0.0 if fed is None else fed.tap_nitrate
        found = tap if nitrate is None else np.asarray(nitrate, dtype=float)
        found = np.where(np.isfinite(found), found, _NITRATE_UNCHANGED)
        return np.array(np.broadcast_to(np.maximum(found, 0.0), self.tank.count))

    def surfaces(self, course: Course) -> tuple[Floats, Floats] | None:
        """Platform's surface and shell through a course; None where there is no such lamp.

        The shell is that of an animal which lies under the lamp as long as it burns and is in the
        water else.
        """
        basking = self.tank.basking
        if basking is None:
            return None
        ends = (float(course.room.min()), float(course.room.max()))
        count, room = self.tank.count, course.room[1:]
        burns = course.lit > 0.5
        step = float(course.time[1] - course.time[0])
        platform = SteadyByRoom.of(basking.platform, ends, count)(room)
        shell = SteadyByRoom.of(basking.shell, ends, count)(room)
        water = course.water[1:]
        lag = basking.platform_lag
        lags = (basking.shell_warming, basking.shell_cooling)
        return (
            approached(course.room[0], np.where(burns, platform, room), lag, lag, step),
            approached(course.water[0], np.where(burns, shell, water), *lags, step),
        )


def _row(name: str, tank: Tank, count: int) -> Any:
    """One name's lanes: numbers that are drawn as best value and draws, all else as it is."""
    drawn, best = tank.sample.known[name], tank.best.known.get(name)
    if best is None or not isinstance(drawn, np.ndarray) or drawn.ndim == np.ndim(best):
        return drawn
    if drawn.shape[0] != COUNT:
        return drawn
    return np.concatenate([np.asarray(best, dtype=float)[None], drawn[: count - 1]])
