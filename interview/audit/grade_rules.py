"""The rule by which findings become letters, as typed rows of care/grades.yaml."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Literal

import interview.care
from interview.base.rows import Row, WrongKey, read

__all__ = [
    "PATH",
    "CapRule",
    "HarmClass",
    "HarmRule",
    "Letter",
    "Rules",
    "ScoreName",
    "rules",
]

PATH = Path(interview.care.__file__).parent / "grades.yaml"
Letter = Literal["A", "B", "C", "D", "E"]
ScoreName = Literal["good", "close", "close_inside", "wrong", "danger"]
HarmClass = Literal["people", "animal", "refuge", "rare_refuge", "health", "comfort", "upkeep"]


class WeightMeaning(Row, frozen=True, kw_only=True):
    """What a weight stands for, and why."""

    meaning: str
    why: str


class Score(Row, frozen=True, kw_only=True):
    """How much a verdict counts, from 0 to 1."""

    value: float
    why: str


class HarmRule(Row, frozen=True, kw_only=True):
    """What is at stake, and from which chance on it decides.

    `good_with_broken` is the highest chance of a broken limit that what is called good may
    have, `good_from` the chance of being good that makes up for a best value a little outside.
    A chance of danger from `stop_from` on is a STOP, from `settle_from` on to be settled today,
    from `watch_from` on worth a warning. `cost` compares the classes with each other.
    """

    meaning: str
    cost: float
    good_from: float
    good_with_broken: float
    stop_from: float
    settle_from: float
    watch_from: float
    why: str

    def __post_init__(self) -> None:
        """Refuse chances that are none, or in no order."""
        rising = [0.0, self.watch_from, self.settle_from, self.stop_from, 1.0]
        if rising != sorted(rising):
            raise WrongKey("watch_from", "watch_from, settle_from and stop_from rise from 0 to 1")
        for key in ("good_from", "good_with_broken"):
            if not 0 <= getattr(self, key) <= 1:
                raise WrongKey(key, "a chance lies between 0 and 1")


class CertaintyRule(Row, frozen=True, kw_only=True):
    """The chance from which on a verdict is called so certain."""

    at_least: float
    why: str


class LetterRule(Row, frozen=True, kw_only=True):
    """A letter, the least mean score that earns it, and what it means."""

    letter: Letter
    at_least: float
    say: str


class Stop(Row, frozen=True, kw_only=True):
    """What is said of a tank that has no grade, because something in it is dangerous."""

    say: str
    why: str


class CapRule(Row, frozen=True, kw_only=True):
    """The best letter that a section with such a finding may get; `whole` ones cap the whole."""

    letter: Letter
    say: str
    why: str
    verdict: Literal["close", "wrong", "danger", "unmeasured"] | None = None
    fit: Literal["unlikely", "impossible"] | None = None
    risk: Literal["possible", "likely"] | None = None
    hides_nothing: bool = False
    from_weight: int = 0
    whole: bool = False


class MostlyUnmeasured(Row, frozen=True, kw_only=True):
    """The best letter of a section of which less than a share of the weight was judged."""

    letter: Letter
    below_share: float
    say: str
    why: str


class NoAnimal(Row, frozen=True, kw_only=True):
    """What is not judged for want of these names betters no grade."""

    names: tuple[str, ...]
    no_grade_from_weight: int
    letter: Letter
    say: str
    say_of_section: str
    why: str


class LeastJudged(Row, frozen=True, kw_only=True):
    """The share of the weight below which the whole gets no letter."""

    share: float
    why: str


class Overall(Row, frozen=True, kw_only=True):
    """How many letters the whole may stand above its worst section."""

    above_worst: int
    say: str
    least_judged: LeastJudged
    why: str


class Rules(Row, frozen=True, kw_only=True):
    """The whole rule; the file says why each number is what it is."""

    weights: dict[int, WeightMeaning]
    harms: dict[HarmClass, HarmRule]
    certainty: dict[Literal["sure", "likely"], CertaintyRule]
    scores: dict[ScoreName, Score]
    letters: tuple[LetterRule, ...]
    stop: Stop
    caps: dict[str, CapRule]
    mostly_unmeasured: MostlyUnmeasured
    no_animal: NoAnimal
    overall: Overall
    without_findings: Literal["no grade"]


@cache
def rules() -> Rules:
    """The shipped rule; FileError names file and line of what is wrong."""
    return read(PATH, Rules)
