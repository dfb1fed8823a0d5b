"""How much work a search may take: steps, which are the same everywhere, or time as well."""

from __future__ import annotations

import math
import time
from functools import cache
from pathlib import Path

from interview.base.rows import Row, read

__all__ = ["PATH", "Budget", "Limits", "Spent", "limits_of_search"]

PATH = Path(__file__).with_name("budget.yaml")


class Limit(Row, frozen=True, kw_only=True):
    """A number, and why it is that."""

    value: float
    why: str


class Limits(Row, frozen=True, kw_only=True):
    """What a search may take: steps always, seconds where somebody waits."""

    steps: Limit
    seconds_in_a_talk: Limit


@cache
def limits_of_search() -> Limits:
    """The shipped limits; FileError names file and line of what is wrong."""
    return read(PATH, Limits)


class Spent(Exception):
    """The budget is used up; the best that was found so far stands."""


class Budget:
    """Steps and time that are left; `part` lends some, and what it spends is spent here too."""

    def __init__(self, steps: float = math.inf, seconds: float = math.inf) -> None:
        """From now on `seconds` (by the clock) and `steps`; both are endless where not said."""
        self._left, self._until = float(steps), time.monotonic() + seconds
        self._lender: Budget | None = None

    @classmethod
    def shipped(cls, *, talking: bool = False) -> Budget:
        """The program's own: by steps alone, in a talk by the clock too."""
        limits = limits_of_search()
        seconds = limits.seconds_in_a_talk.value if talking else math.inf
        return cls(limits.steps.value, seconds)

    @property
    def over(self) -> bool:
        """Whether nothing is left."""
        return self._left <= 0 or time.monotonic() >= self._until

    def spend(self, steps: int = 1) -> None:
        """Take some steps; Spent where none are left, or no time."""
        if self.over:
            raise Spent
        lender: Budget | None = self
        while lender is not None:
            lender._left -= steps
            lender = lender._lender

    def part(self, share: float = 0.5) -> Budget:
        """A budget of that share of what is left, in steps and in time."""
        part = Budget(self._left * share)
        part._until = self._until
        if math.isfinite(self._until):
            now = time.monotonic()
            part._until = now + max(0.0, self._until - now) * share
        part._lender = self
        return part
