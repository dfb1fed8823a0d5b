"""How a tank's slow quantities went from one recheck to the next."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

__all__ = ["TRACKED", "Trend", "trends"]

TRACKED = ("carapace_length", "nitrate", "uvb_lamp_age")
"""What creeps: the largest shell, the nitrate reading, the lamp's lit hours."""


@dataclass(frozen=True)
class Trend:
    """One quantity over time: dates, the oldest first, and its values in core units."""

    name: str
    points: tuple[tuple[datetime.date, float], ...]


def trends(states: Sequence[tuple[datetime.date, Mapping[str, Any]]]) -> tuple[Trend, ...]:
    """The tracked quantities that are known at two dates at least.

    Args:
        states: what was known of the tank when, the oldest first; of two states of one day
            the later counts, and of several animals the largest
    """
    found = []
    for name in TRACKED:
        points = {
            date: float(np.max(known[name]))
            for date, known in states
            if known.get(name) is not None
        }
        if len(points) > 1:
            found.append(Trend(name, tuple(points.items())))
    return tuple(found)
