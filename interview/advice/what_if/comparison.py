"""Before and after: what a change did to grades and verdicts, and readings that surprise."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from interview.audit.checks.findings import NOTHING, Finding
from interview.audit.tank import Tank
from interview.core.numeric import is_number

__all__ = ["Comparison", "Surprise", "Turn", "compare", "expected_answer", "surprises"]

_SURPRISING = 2.0  # standard deviations of reading and prediction together


@dataclass(frozen=True)
class Turn:
    """A check whose verdict changed, or that has something to judge now, or no more."""

    check: str
    before: str
    after: str
    say: str
    certainty: str = "sure"


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
    """Those whose verdict turned; that there is nothing to judge is no news beside “good”."""
    old = {finding.check: finding for finding in before}
    pairs = ((old[new.check], new) for new in after)
    return tuple(
        Turn(new.check, _judged(was), _judged(new), new.say, new.certainty)
        for was, new in pairs
        if was.verdict != new.verdict
        or (was.applies != new.applies and new.verdict not in ("good", "unmeasured"))
    )


def _judged(finding: Finding) -> str:
    return finding.verdict if finding.applies else NOTHING


def expected_answer(before: Tank, predicted: Tank, name: str) -> Any:
    """What a question's answer should be now; None if nothing can be told.

    A UV meter is off by the share by which it was off before, the lamp being the same.
    """
    if name != "uvb_reading":
        return predicted.best.known.get(name)
    read = predicted.best.known.get(name)
    then, now = (tank.best.get("uv_index_at_reading") for tank in (before, _unpinned(predicted)))
    return None if not read or not then or now is None else float(read) * float(now / then)


def _unpinned(tank: Tank) -> Tank:
    known = {n: v for n, v in tank.best.known.items() if not n.endswith("_when_measured")}
    return replace(tank, best=tank.best.wiring.working(known))


def surprises(predicted: Tank, read: Mapping[str, float]) -> tuple[Surprise, ...]:
    """Readings further from the prediction than both doubts together explain.

    Args:
        predicted: the tank as the change should have left it
        read: what was measured afterwards, by name, in core units
    """
    found = []
    for name, value in read.items():
        best, sample = predicted.best.get(name), predicted.sample.get(name)
        if best is None or not is_number(best):
            continue
        spread = float(np.std(np.asarray(sample, dtype=float))) if sample is not None else 0.0
        if spread > 0 and abs(value - float(best)) > _SURPRISING * spread:
            found.append(Surprise(name, float(best), float(value), predicted.unit_of(name)))
    return tuple(found)
