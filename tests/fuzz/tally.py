"""What was tried, how often, and what went wrong: one rule, short in CI and long by hand."""

from __future__ import annotations

import time
import traceback
import warnings
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis.strategies import SearchStrategy

__all__ = ["Fault", "Lost", "Misread", "Tally", "tried_out"]


class Fault(AssertionError):
    """Something that may never happen, other than a traceback."""

    kind = "broken"


class Lost(Fault):
    """An acknowledged answer that is gone."""

    kind = "lost"


class Misread(Fault):
    """Words taken for something else without a word."""

    kind = "misread"


@dataclass
class Tally:
    """The count of one kind of trial. `ends` are how trials ended where nothing was wrong."""

    what: str
    tried: int = 0
    ends: Counter[str] = field(default_factory=Counter)
    faults: Counter[str] = field(default_factory=Counter)
    told: list[str] = field(default_factory=list)
    seconds: float = 0.0

    def add(self, trial: Callable[[Any], str], example: Any) -> None:
        """One trial; what goes wrong is kept and stops none of the others. Warnings are wrong."""
        self.tried += 1
        try:
            with warnings.catch_warnings():
                warnings.simplefilter("error")
                end = trial(example)
            self.ends[end] += 1
        except Exception as problem:
            kind = problem.kind if isinstance(problem, Fault) else "traceback"
            self.faults[kind] += 1
            where = "" if isinstance(problem, Fault) else f"\n{traceback.format_exc(limit=-3)}"
            self.told.append(f"{self.what}, {kind}: {example!r}: {problem}{where}")

    @property
    def row(self) -> str:
        """A line of the table in tests/RESULTS.md."""
        ends = ", ".join(f"{count:,} {end}" for end, count in self.ends.most_common())
        bad = [str(self.faults[kind]) for kind in ("lost", "traceback", "misread", "broken")]
        return f"| {self.what} | {self.tried:,} | {ends} | {' | '.join(bad)} |"


def tried_out(
    what: str, examples: SearchStrategy[Any], trial: Callable[[Any], str], count: int
) -> Tally:
    """Try `count` examples at random, and count."""
    tally, start = Tally(what), time.monotonic()

    @settings(
        max_examples=count, deadline=None, database=None, derandomize=False,
        phases=[Phase.generate], suppress_health_check=list(HealthCheck),
    )  # fmt: skip
    @given(examples)
    def run(example: Any) -> None:
        tally.add(trial, example)

    if count:
        run()
    tally.seconds = time.monotonic() - start
    return tally
