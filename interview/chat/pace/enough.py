"""When the first look is over: what the rest could still change, and whether to go on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.audit.grade_rules import rules
from interview.audit.grades import grade_all
from interview.graph.interview import Interview
from interview.report.naming import spoken

if TYPE_CHECKING:
    from interview.audit.audit import Audit

__all__ = ["could_change", "minutes_said", "offer_said"]

_NAMED = 5
_SHORT = 1.5
"""Below so many minutes the time is said as a minute or two."""


def offer_said(interview: Interview, audit: Audit) -> str:
    """The grade so far, what the open questions could still change, and how long they take."""
    head = f"That was the first look. So far: {audit.grades.headline}"
    checks = could_change(interview, audit)
    if not checks:
        return f"{head} What is left can hardly change that; {minutes_said(interview)} more."
    names = ", ".join(spoken(check) for check in checks[:_NAMED])
    more = f" and {len(checks) - _NAMED} more" if len(checks) > _NAMED else ""
    return (
        f"{head} What is left could still change: {names}{more}; {minutes_said(interview)} more. "
        f"{_at_best(audit, checks)}"
    )


def could_change(interview: Interview, audit: Audit) -> list[str]:
    """The checks that wait for an open question, what costs most if missed first."""
    open_ = {
        name
        for place in interview.open_places()
        for name in (*interview.question(place).names, place.id)
    }
    waiting = {f.check for f in audit.findings if f.applies and open_ & {*_waits_for(f)}}
    harms = rules().harms
    costs = {c.id: max(harms[name].cost for name in c.harm.values()) for c in all_checks()}
    order = [finding.check for finding in audit.findings]
    return sorted(waiting, key=lambda check: (-costs[check], order.index(check)))


def _waits_for(finding: Finding) -> Iterator[str]:
    yield from finding.missing
    yield from finding.assumed
    yield from finding.guessed


def _at_best(audit: Audit, checks: Sequence[str]) -> str:
    """What the grade is if nothing more is found."""
    good = [
        replace(finding, verdict="good", certainty="sure", assumed=(), guessed=(), risk="")
        if finding.check in checks
        else finding
        for finding in audit.findings
    ]
    best = grade_all(good).overall
    if best == audit.grades.overall:
        return "It can't get better by that, only worse."
    return f"If all of that is in order, it is {'a STOP' if best == 'STOP' else f'grade {best}'}."


def minutes_said(interview: Interview) -> str:
    """How long the open questions take, in words."""
    minutes = interview.minutes_left()
    return "a minute or two" if minutes < _SHORT else f"about {round(minutes)} minutes"
