"""How long a well-stirred tank takes from one temperature to another."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from interview.core.numeric import Num, floats

__all__ = ["linear_passage", "passage_time", "time_along"]


def linear_passage(step: Num, first: Num, last: Num) -> Num:
    """Time to move by `step` at a speed that changes linearly from `first` to `last`.

    Infinite where the speed points the wrong way or dies out on the way; 0 for no step.
    """
    step, first, last = (floats(item) for item in (step, first, last))
    with np.errstate(divide="ignore", invalid="ignore"):
        change = last / first - 1.0
        stretch = np.where(np.abs(change) < 1e-6, 1.0 - change / 2, np.log1p(change) / change)
        time = step / first * stretch
    arrives = (step * first > 0) & (first * last > 0)
    return np.where(step == 0, 0.0, np.where(arrives, time, np.inf))[()]


def passage_time(
    net_heat: Callable[[Num], Num], heat_capacity: Num, start: Num, end: Num, *, pieces: int = 24
) -> Num:
    """Time from `start` to `end` under a net heat that depends on the temperature.

    The net heat is taken linear between the nodes, where the time has a closed form, so a
    passage that slows down towards its end temperature stays exact; infinite if it stops.
    """
    ends = np.broadcast_arrays(floats(start), floats(end))
    dimensions = max(np.ndim(ends[0]), np.ndim(heat_capacity), np.ndim(net_heat(start)))
    share = np.linspace(0.0, 1.0, pieces + 1).reshape(-1, *[1] * dimensions)
    nodes = ends[0] + share * (ends[1] - ends[0])
    speed = np.asarray(net_heat(nodes)) / heat_capacity
    return time_along(ends[1] - ends[0], speed)


def time_along(way: Num, speeds: NDArray[np.float64]) -> NDArray[np.float64]:
    """Time for a way in even steps, from the speeds at their ends (first axis)."""
    times = linear_passage(way / (len(speeds) - 1), speeds[:-1], speeds[1:])
    total: NDArray[np.float64] = np.sum(times, axis=0)
    return total
