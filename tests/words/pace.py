"""How slow this machine is now, so that limits of time hold on any."""

from __future__ import annotations

import re
import time
from collections.abc import Callable

__all__ = ["slowness", "within"]

_USUAL = 0.0018
"""CPU seconds of the measured work on the machine the limits were written for."""


def _work() -> float:
    start = time.process_time()
    for number in range(1500):
        re.sub(r"[^a-z]+", " ", f"{number} common musk turtle").split()
    return time.process_time() - start


def slowness() -> float:
    """How many times as long as usual the same work takes, at least 1."""
    return max(1.0, min(_work() for _ in range(5)) / _USUAL)


def within(limit: float, measure: Callable[[], float], tries: int = 4) -> bool:
    """Whether one of a few measurements [CPU s] keeps a limit at the usual pace."""
    return any(measure() < limit * slowness() for _ in range(tries))
