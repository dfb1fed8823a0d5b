"""A day and a year of many draws at once, and one tank at a time by scipy's solve_ivp."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import numpy as np

_DAY = 86400.0
_BAND = 0.2  # K, over which that run's heater comes in: a switch would make it far slower
_SHORT = 10.0  # days of the run by solve_ivp, which a year is reckoned from


def day(tank: Any, count: int) -> list[float]:
    """Processor time of one day, after a settling day, at steps of ten minutes."""
    from interview.core.time.plan import ALWAYS, Faults, Plan

    plan = Plan(length=_DAY, settling=_DAY, faults=Faults(no_care=ALWAYS))
    return _of_plan(tank, count, plan)


def year(tank: Any, count: int) -> list[float]:
    """Processor time of a year at steps of an hour."""
    from interview.core.time.plan import Plan

    plan = Plan(length=365 * _DAY, step=3600.0, rest=0.5 * _DAY, season="year", averaged=True)
    return _of_plan(tank, count, plan)


def year_by_solve_ivp(tank: Any) -> list[float]:
    """Processor time of a year of one tank's temperature by solve_ivp and the laws themselves.

    From ten days; its steps are an hour at most, so that no lamp and no limit is missed.
    """
    from scipy.integrate import solve_ivp

    from interview.advice.forecast.lanes import Lanes
    from interview.core.time.plan import Plan

    one = Lanes.of(tank, 1).tank
    plan = Plan(length=_SHORT * _DAY, season="year")

    def rate(now: float, water: Any) -> Any:
        at = np.array([now])
        room, lit = plan.room(at, one.weather)[0], plan.lit(at, one.day_length)[0]
        heater = one.heater * np.clip((one.setting - water) / _BAND, 0.0, 1.0)
        free = one.pump_heat + one.lamp_heat * lit
        return (free + heater - np.asarray(one.losses(water, room))) / one.stores

    def work() -> None:
        solve_ivp(rate, (0.0, _SHORT * _DAY), one.setting, method="LSODA", max_step=3600.0)

    return [_processor(work) * 365.25 / _SHORT]


def _of_plan(tank: Any, count: int, plan: Any) -> list[float]:
    from interview.advice.forecast.lanes import Lanes
    from interview.core.time.run import through

    lanes = Lanes.of(tank, count)
    start = lanes.dissolved()
    return [
        _processor(lambda: through(lanes.tank, plan, lanes.tank.setting, start)) for _ in range(3)
    ]


def _processor(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start
