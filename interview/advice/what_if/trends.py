"""How a tank's slow quantities went from one recheck to the next."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Any, TypeAlias

import numpy as np

__all__ = ["TRACKED", "Extreme", "State", "Trend", "past_extremes", "trends"]

_TURTLES, _LAMP = "carapace_length", "uvb_lamp_age"
_EXTREMES = {"room_temperature_low": min, "room_temperature_high": max}
TRACKED = (_TURTLES, "nitrate", _LAMP, *_EXTREMES)
"""What creeps: the largest shell, the nitrate reading, the lamp's lit hours; and the seasons."""
_YEAR = datetime.timedelta(days=365)
_ALIKE = 0.25  # K: nobody reads a room more finely (assumption)

State: TypeAlias = tuple[datetime.date, Mapping[str, Any]]
"""What was known of a tank when."""


@dataclass(frozen=True)
class Trend:
    """One quantity over time: dates, the oldest first, and its values in core units."""

    name: str
    points: tuple[tuple[datetime.date, float], ...]

    @property
    def renewed(self) -> frozenset[datetime.date]:
        """When a lamp was first told of that is another: no lamp grows younger."""
        if self.name != _LAMP:
            return frozenset()
        return frozenset(date for (_, old), (date, new) in pairwise(self.points) if new < old)


@dataclass(frozen=True)
class Extreme:
    """An end of the room's year that was told within a year, and what counts in its place now."""

    name: str
    date: datetime.date
    value: float
    now: float


def trends(states: Sequence[State]) -> tuple[Trend, ...]:
    """The tracked quantities that had two values at least.

    What stands as it stood was not measured anew, so only the first date of a value counts. Shells
    are followed while the turtles are as many: the largest of others is no growth.

    Args:
        states: what was known of the tank when, the oldest first; of two states of one day
            the later counts, and of several animals the largest
    """
    found = []
    for name in TRACKED:
        values = {
            date: float(np.max(known[name]))
            for date, known in (_of_these_turtles(states) if name == _TURTLES else states)
            if known.get(name) is not None
        }
        points = tuple(next(alike) for _, alike in groupby(values.items(), lambda one: one[1]))
        if len(points) > 1:
            found.append(Trend(name, points))
    return tuple(found)


def _of_these_turtles(states: Sequence[State]) -> Sequence[State]:
    """The states since the turtles are as many as in the last one that tells of them."""
    many = [
        (n, np.size(known[_TURTLES])) for n, (_, known) in enumerate(states) if _TURTLES in known
    ]
    others = [n for n, count in many if count != many[-1][1]]
    return states[others[-1] + 1 :] if others else states


def past_extremes(states: Sequence[State]) -> Iterator[Extreme]:
    """What the last state newly forgets of the room's year: it was colder, or warmer, within one.

    Args:
        states: as of trends
    """
    if not states:
        return
    today, known = states[-1]
    within = [(date, past) for date, past in states[:-1] if today - _YEAR <= date <= today]
    for name, end in _EXTREMES.items():
        told = [(float(past[name]), date) for date, past in within if past.get(name) is not None]
        if not told or known.get(name) is None:
            continue
        now, farthest = float(known[name]), end(value for value, _ in told)
        if told[-1][0] == now:
            continue  # it was said when that was new
        if end(now, farthest) != now and abs(now - farthest) > _ALIKE:
            date = next(date for value, date in told if value == farthest)
            yield Extreme(name, date, farthest, now)
