"""Tanks for the audit's tests, by file, and with some answers typed anew."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from kept import for_a_file

from interview import assembly, setups
from interview.audit.audit import Audit
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.graph.interview import Interview, Place

TESTS = Path(__file__).parent.parent
DEMOS = TESTS.parent / "transcripts_demo"

Audited = Callable[..., Audit]


@cache
def interview_in(path: Path) -> Interview:
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(path, assembly.questionnaire()))
    return interview


def changed(base: Interview, change: Mapping[str, Any]) -> Interview:
    """The same tank with some answers typed anew (an empty one: not answered)."""
    new = {place: said for name, said in change.items() for place, said in _typed(name, said)}
    regrouped = Place("animal_count") in new
    kept = {p: a for p, a in base.answers.items() if not (regrouped and p.animal is not None)}
    interview = assembly.new_interview()
    interview.answers = {p: a for p, a in kept.items() if p not in new}
    if regrouped:
        interview.record(Place("animal_count"), new.pop(Place("animal_count")))
    for place in [p for p in interview.places() if new.get(p)]:
        interview.record(place, new[place])
    return interview


def _typed(name: str, said: Any) -> list[tuple[Place, str]]:
    if name != "animals":
        return [(Place(name), str(said))]
    rows = [(Place("animal_count"), str(len(said)))]
    for number, animal in enumerate(said):
        rows += [(Place(key, number), str(value)) for key, value in animal.items()]
    return rows


@for_a_file
def audit_in(path: Path) -> Audit:
    return assembly.audit_of(interview_in(path), path.stem)


def judged(interview: Interview) -> list[Finding]:
    """The findings on a tank without what would settle them, which costs most of an audit."""
    tank = assembly.tank_of(interview, drawn=True)
    return [judge(check, tank) for check in all_checks()]
