"""What one check found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from interview.audit.animal import Animal
from interview.audit.inconsistencies import Fit
from interview.audit.sampling.sensitivity import Sensitivity

__all__ = ["Finding", "OfAnimal", "Verdict"]

Verdict: TypeAlias = Literal["good", "close", "wrong", "danger", "unmeasured"]


@dataclass(frozen=True)
class OfAnimal:
    """What a check found for one of several animals."""

    animal: Animal
    verdict: Verdict
    value: float | str | bool | tuple[str, ...] | None
    band: tuple[float | None, float | None] | None


@dataclass(frozen=True)
class Finding:
    """One check's verdict on one tank.

    `chance` is how sure the verdict is: for good and close the chance that the limit is
    kept, for wrong that it is broken, for danger that the safety limit is crossed; None
    when nothing was measured. `assumed` names the answers nobody gave that decide it.
    `warning` is the chance of danger when that is between a
    tenth and a half. `inside` says that the best value is good, whatever the doubt about it.
    `applies` is False where the tank has nothing to judge. Where each of several animals was
    judged by limits of its own, `animal` is the one that fares worst, which the finding is
    about, and `each` tells of all. `doubted` names answers it rests on that don't fit the
    others, `fit` how badly: no such finding is good.
    `guessed` names answers nobody gave that lie further behind a danger.
    `doubt` tells which answers the doubt of a close finding comes from, the first the most,
    and `settle` how to know that one better.
    """

    check: str
    section: str
    verdict: Verdict
    measures: str
    claim: str
    why: str
    say: str
    do: str = ""
    also: str = ""
    chance: float | None = None
    warning: float = 0.0
    value: float | str | bool | tuple[str, ...] | None = None
    band: tuple[float | None, float | None] | None = None
    unit: str = "1"
    status: str = "assumption"
    sources: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    weight: int = 1
    hides_nothing: bool = False
    applies: bool = True
    limits: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    guessed: tuple[str, ...] = ()
    inside: bool = False
    fit: Fit = ""
    doubted: tuple[str, ...] = ()
    doubt: tuple[Sensitivity, ...] = ()
    settle: str = ""
    animal: Animal | None = None
    each: tuple[OfAnimal, ...] = ()
