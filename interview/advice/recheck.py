"""Before and after: what a change did to grades and verdicts, and readings that surprise."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.audit.findings import Finding
from interview.audit.judge import Tank
from interview.core.numeric import is_number

__all__ = ["Comparison", "Surprise", "Turn", "compare", "surprises"]

_SURPRISING = 2.0  # standard deviations of reading and prediction together


@dataclass(frozen=True)
class Turn:
    """A check whose verdict changed."""

    check: str
    before: str
    after: str
    say: str


@dataclass(frozen=True)
class Comparison:
    """What changed between two audits of a tank."""

    grade_before: str
    grade_after: str
    sections: tuple[tuple[str, str, str], ...]
    turns: tuple[Turn, ...]


@dataclass(frozen=True)
class Surprise:
    """A reading that does not fit what was predicted from the tank before."""

    name: str
    predicted: float
    read: float
    unit: str


def compare(before: Any, after: Any) -> Comparison:
    """Compare two audits (or plans): grades, section grades, verdicts that turned."""
    graded = dict(before.grades.sections)
    sections = tuple(
        (section, graded[section], grade)
        for section, grade in after.grades.sections
        if graded[section] != grade
    )
    return Comparison(
        before.grades.overall,
        after.grades.overall,
        sections,
        _turns(before.findings, after.findings),
    )


def _turns(before: Sequence[Finding], after: Sequence[Finding]) -> tuple[Turn, ...]:
    old = {finding.check: finding for finding in before}
    return tuple(
        Turn(new.check, old[new.check].verdict, new.verdict, new.say)
        for new in after
        if new.verdict != old[new.check].verdict or new.applies != old[new.check].applies
    )


def surprises(predicted: Tank, read: Mapping[str, float]) -> tuple[Surprise, ...]:
    """Readings further from the prediction than both doubts together explain.

    Args:
        predicted: the tank as the change should have left it
        read: what was measured afterwards, by name, in core units
    """
    found = []
    for name, value in read.items():
        best, cloud = predicted.best.get(name), predicted.cloud.get(name)
        if best is None or not is_number(best):
            continue
        spread = float(np.std(np.asarray(cloud, dtype=float))) if cloud is not None else 0.0
        if spread > 0 and abs(value - float(best)) > _SURPRISING * spread:
            found.append(Surprise(name, float(best), float(value), predicted.unit_of(name)))
    return tuple(found)
