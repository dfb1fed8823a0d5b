"""What one check found."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from interview.audit.animal import Animal
from interview.audit.checks.verdicts import Certainty, Chances, Risk
from interview.audit.immediate_action import ImmediateAction
from interview.audit.inconsistencies import Fit
from interview.audit.sampling.sensitivity import Sensitivity

__all__ = ["NOTHING", "Finding", "OfAnimal", "Verdict", "unjudged"]

Verdict: TypeAlias = Literal["good", "close", "wrong", "danger", "unmeasured"]
NOTHING = "nothing to judge"
"""What is told in a verdict's place where the tank has nothing for a check to judge."""


@dataclass(frozen=True)
class OfAnimal:
    """What a check found for one of several animals."""

    animal: Animal
    verdict: Verdict
    certainty: Certainty
    value: float | str | bool | tuple[str, ...] | None
    band: tuple[float | None, float | None] | None


@dataclass(frozen=True, slots=True)
class Finding:
    """One check's verdict on one tank.

    `chance` is how sure the verdict is: for good and close the chance that the limit is
    kept, for wrong that it is broken, for danger that the safety limit is crossed; None
    when nothing was measured. `assumed` names the answers nobody gave that decide it.
    `certainty` says how probable it is that the true value gives the same verdict (or a
    worse one, where it is not good), `chances` how probable each level is; what rests on an
    answer nobody gave is open. `warning` is the chance of danger where it counts though it is
    not the verdict, `risk` how much it counts.
    `inside` says that the best value is good, whatever the doubt about it, `leaves` that an animal
    can leave what is dangerous here.
    `now` is what can't wait of what is to be done, in the fewest words; None where all can.
    `takes` lists what has to be at hand for it, each thing with its specification.
    `applies` is False where the tank has nothing to judge. Where each of several animals was
    judged by limits of its own, `animal` is the one that fares worst, which the finding is
    about, and `each` tells of all. `lacks` says what isn't there at all, as “no heater”.
    `doubted` names answers it rests on that don't fit the others, `fit` how badly: no such
    finding is good.
    `guessed` names answers nobody gave that lie further behind a danger, or behind what is wrong
    mostly by them.
    `doubt` tells which answers the doubt comes from, the first the most, `settled_by` the one
    of which a better reading would most likely settle it, and `settle` how to take that.
    """

    check: str
    section: str
    verdict: Verdict
    measures: str
    claim: str
    why: str
    say: str
    do: str = ""
    now: ImmediateAction | None = None
    takes: tuple[str, ...] = ()
    also: str = ""
    chance: float | None = None
    certainty: Certainty = "sure"
    chances: Chances | None = None
    warning: float = 0.0
    risk: Risk = ""
    value: float | str | bool | tuple[str, ...] | None = None
    band: tuple[float | None, float | None] | None = None
    unit: str = "1"
    status: str = "assumption"
    sources: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    weight: int = 1
    hides_nothing: bool = False
    applies: bool = True
    lacks: str = ""
    limits: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    guessed: tuple[str, ...] = ()
    inside: bool = False
    leaves: bool = False
    fit: Fit = ""
    doubted: tuple[str, ...] = ()
    doubt: tuple[Sensitivity, ...] = ()
    settle: str = ""
    settled_by: str = ""
    animal: Animal | None = None
    each: tuple[OfAnimal, ...] = ()


def unjudged(finding: Finding, say: str, missing: tuple[str, ...]) -> Finding:
    """The finding without its verdict: what it would have been rests on what is missing."""
    return replace(
        finding, verdict="unmeasured", chance=None, value=None, certainty="open", chances=None,
        warning=0.0, risk="", say=say, missing=missing,
    )  # fmt: skip
