"""When a course first passes a limit, and how long it stays past it."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.numeric import Num

__all__ = ["crossings", "first_crossing", "time_past"]

Floats: TypeAlias = NDArray[np.float64]


def first_crossing(time: Floats, course: Floats, limit: Num, *, falling: bool) -> Floats:
    """Time at which each course first lies past a limit [s]; infinite if it never does.

    Every step is looked at, so a limit that is passed for an hour only isn't missed.

    Args:
        time [s]: of each value
        course: values, tanks on the last axis
        limit: of each tank
        falling: whether past means below it
    """
    past = _past(course, limit, falling=falling)
    ever = past.any(axis=0)
    after = past.argmax(axis=0)
    before = np.maximum(after - 1, 0)
    tanks = np.arange(course.shape[-1])
    early, late = course[before, tanks], course[after, tanks]
    way = late - early
    share = np.where(way == 0, 0.0, (limit - early) / np.where(way == 0, 1.0, way))
    when = time[before] + np.clip(share, 0.0, 1.0) * (time[after] - time[before])
    when = np.where(after == 0, time[0], when)
    return np.where(ever, when, np.inf)


def crossings(time: Floats, course: Floats, limit: float) -> Floats:
    """Every time at which one course passes a limit, in either direction [s]."""
    over = course - limit
    at = np.flatnonzero(np.signbit(over[:-1]) != np.signbit(over[1:]))
    share = over[at] / (over[at] - over[at + 1])
    found: Floats = time[at] + share * (time[at + 1] - time[at])
    return found


def time_past(time: Floats, course: Floats, limit: Num, *, falling: bool) -> Floats:
    """How long each course lies past a limit [s], straight lines between its values."""
    over = (limit - course) if falling else (course - limit)
    early, late = over[:-1], over[1:]
    span = np.diff(time)[:, None]
    apart = np.abs(early) + np.abs(late)
    share = np.maximum(early, 0.0) + np.maximum(late, 0.0)
    part = np.where(apart > 0, share / np.where(apart > 0, apart, 1.0), 0.0)
    found: Floats = (part * span).sum(axis=0)
    return found


def _past(course: Floats, limit: Num, *, falling: bool) -> NDArray[np.bool_]:
    past: NDArray[np.bool_] = course < limit if falling else course > limit
    return past
