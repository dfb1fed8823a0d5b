"""When the first look is over: what the rest could still change, and whether to go on."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Protocol

from interview.audit.audit import judged
from interview.audit.checks.findings import Finding, Verdict
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.grade_rules import rules
from interview.audit.grades import STOP, Grades, grade_all
from interview.audit.tank import Tank
from interview.graph.interview import Interview
from interview.report.naming import spoken

__all__ = ["can_move", "could_change", "minutes_said", "offer_said", "open_names", "rest_can_move"]

_NAMED = 5
_SHORT = 1.5
"""Below so many minutes the time is said as a minute or two."""


class _Judged(Protocol):
    """An audit, or as much of it as is judged already."""

    @property
    def findings(self) -> tuple[Finding, ...]: ...
    @property
    def grades(self) -> Grades: ...


def offer_said(interview: Interview, audit: _Judged, *, first: bool = True) -> str:
    """The grade so far, what the open questions could still change, and how long they take."""
    asked = "That was the first look." if first else "All that is grave is asked now."
    head = f"{asked} So far: {audit.grades.headline}"
    checks = could_change(interview, audit)
    if not checks:
        return f"{head} What is left can hardly change that; {minutes_said(interview)} more."
    names = ", ".join(spoken(check) for check in checks[:_NAMED])
    more = f" and {len(checks) - _NAMED} more" if len(checks) > _NAMED else ""
    return (
        f"{head} What is left could still change: {names}{more}; {minutes_said(interview)} more. "
        f"{_range_said(audit, checks)}"
    )


def can_move(audit: _Judged, names: Collection[str]) -> bool:
    """Whether any answers could give another grade than these, of names that `open_names` tells."""
    best, worst = _range(audit, [*_waiting(audit.findings, names)])
    return not best == worst == audit.grades.overall


def rest_can_move(tank: Tank, names: Collection[str]) -> bool:
    """The same of a tank that is not judged yet; where what may be a danger tells, only that is.

    A danger that waits for nothing stays; without one, what waits and may be one decides.
    """
    grave = [judge(check, tank) for check in all_checks() if check.may_endanger]
    waiting = _waiting(grave, names)
    if any(finding.verdict == "danger" and finding.check not in waiting for finding in grave):
        return False
    return bool(waiting) or can_move(judged(tank), names)


def could_change(interview: Interview, audit: _Judged) -> list[str]:
    """The checks that wait for an open question, what costs most if missed first."""
    waiting = _waiting(audit.findings, open_names(interview))
    harms = rules().harms
    costs = {c.id: max(harms[name].cost for name in c.harm.values()) for c in all_checks()}
    order = [finding.check for finding in audit.findings]
    return sorted(waiting, key=lambda check: (-costs[check], order.index(check)))


def open_names(interview: Interview) -> frozenset[str]:
    """What the open questions ask for."""
    return frozenset(
        name
        for place in interview.open_places()
        for name in (*interview.question(place).names, place.id)
    )


def _waiting(findings: Iterable[Finding], names: Collection[str]) -> set[str]:
    return {f.check for f in findings if f.applies and {*names} & {*_waits_for(f)}}


def _waits_for(finding: Finding) -> Iterator[str]:
    yield from finding.missing
    yield from finding.assumed
    yield from finding.guessed


def _range(audit: _Judged, checks: Sequence[str]) -> tuple[str, str]:
    """The grade if all these checks are in order, and if all are as bad as they can be."""
    dangerous = {check.id for check in all_checks() if check.may_endanger}

    def graded(worst: bool) -> str:
        return grade_all([_settled(f, checks, dangerous, worst) for f in audit.findings]).overall

    return graded(worst=False), graded(worst=True)


def _settled(
    finding: Finding, checks: Sequence[str], dangerous: Collection[str], worst: bool
) -> Finding:
    """A finding as it may turn out, at its best or at its worst; itself if nothing is open."""
    if finding.check not in checks:
        return finding
    verdict: Verdict = "danger" if finding.check in dangerous else "wrong"
    verdict = verdict if worst else "good"
    return replace(finding, verdict=verdict, certainty="sure", assumed=(), guessed=(), risk="")


def _range_said(audit: _Judged, checks: Sequence[str]) -> str:
    """Between which grades the rest decides."""
    now = audit.grades.overall
    best, worst = _range(audit, checks)
    if now == best == STOP:
        return "It stays a STOP until that is mended; the rest only finds what else there is to do."
    if best == worst == now:
        return "None of it can move the grade."
    if best == now:
        return "It can't get better by that, only worse."
    return f"If all of that is in order, it is grade {best}."


def minutes_said(interview: Interview) -> str:
    """How long the open questions take, in words."""
    minutes = interview.minutes_left()
    return "a minute or two" if minutes < _SHORT else f"about {round(minutes)} minutes"
