"""The steps of the week: those of the plan that is told, then what no step mends."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING

from interview.advice.purchase.larger_tank import CRAMPED
from interview.advice.purchase.parting import tank_each
from interview.advice.what_if.candidates import rests_on
from interview.audit.checks.loader import all_checks
from interview.audit.gravity import gravity
from interview.report.first_page.step import Step, numbered, step_of
from interview.report.marks import Mark
from interview.report.naming import fault_of, spoken, verdict_of

if TYPE_CHECKING:
    from interview.advice.plans.plan import Change, Plan
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["marks_of", "steps_left", "steps_parted", "steps_week"]

_NUMBER = re.compile(r"\d")
_GRAVE = ("wrong", "danger")
_RANK = {"good": 0, "close": 1, "wrong": 2, "danger": 3}


def steps_parted(audit: Audit) -> tuple[Step, ...]:
    """Which tank is for whom, where animals must be parted; what hangs on that waits for it."""
    found = {finding.check: finding for finding in audit.findings}
    if found["company"].verdict not in _GRAVE or not (say := tank_each(audit.tank)):
        return ()
    waits = sorted(check for check in CRAMPED if found[check].verdict in _GRAVE)
    return (Step(0, say, ("company", *waits)),)


def steps_week(audit: Audit, plan: Plan | None, today: Sequence[Step]) -> tuple[Step, ...]:
    """The plan's steps that today doesn't hold; none where there is no plan.

    Args:
        audit: the tank
        plan: the plan that is told
        today: the steps before these
    """
    met = {check for step in today for check in step.about}
    return numbered(_of_plan(audit, plan, met) if plan else (), len(today))


def steps_left(
    audit: Audit, plan: Plan | None, before: Sequence[Step], settled: Collection[str] = ()
) -> tuple[Step, ...]:
    """What is wrong and neither today nor a step of the plan mends, by its own remedy.

    Args:
        audit: the tank
        plan: the plan that is told
        before: the steps before these
        settled: checks that the list of a planned tank settles
    """
    after = {f.check: f for f in plan.findings} if plan else {}
    met = {*settled, *(check for step in before for check in step.about)}
    left = (
        finding
        for finding in sorted(audit.findings, key=gravity)
        if finding.verdict == "wrong"
        and finding.applies
        and _bad(after.get(finding.check, finding)) >= _RANK["wrong"]
        and finding.check not in met
    )
    return numbered(map(step_of, left), len(before))


def _of_plan(audit: Audit, plan: Plan, met: set[str]) -> Iterator[Step]:
    """The plan's steps; not those that a remedy of today is already.

    What is set to so much follows the remedy of today, and so does what is got: that remedy only
    holds until then.
    """
    about = _mended_by(audit, plan)
    told = [change.say for change in plan.changes if change.say]
    for say, option in zip(told, plan.steps, strict=True):
        mends = about.get(say, ())
        holds = not (_NUMBER.search(say) or option.lever.buys)
        if not (holds and mends and met.issuperset(mends)):
            yield Step(0, say, mends)


def _mended_by(audit: Audit, plan: Plan) -> dict[str, tuple[str, ...]]:
    """For each step the checks it betters: those that of all steps it is the most made for."""
    was = {finding.check: finding for finding in audit.findings}
    better = {f.check for f in plan.findings if _bad(f) < _bad(was[f.check])}
    named = _named(plan.changes)
    reach = {say: _reached(audit, names) for say, names in named.items()}
    lever = {say: step.lever for say, step in zip(named, plan.steps, strict=True)}
    found: dict[str, list[str]] = {}
    for check in (c.id for c in all_checks() if c.id in better):
        feel = [say for say in reach if check in reach[say]]
        ways = [say for say in feel if lever[say].meant_for(check)] or feel
        if ways:
            made_for = min(
                ways, key=lambda say: (check not in lever[say].only_for, len(reach[say]))
            )
            found.setdefault(made_for, []).append(check)
    return {say: tuple(checks) for say, checks in found.items()}


def _bad(finding: Finding) -> int:
    return _RANK.get(finding.verdict, 0) if finding.applies else 0


def _named(changes: Sequence[Change]) -> dict[str, set[str]]:
    """The names each step sets; what has no sentence belongs to the step before it."""
    named: dict[str, set[str]] = {}
    said = ""
    for change in changes:
        said = change.say or said
        named.setdefault(said, set()).add(change.quantity)
    return named


def _reached(audit: Audit, names: set[str]) -> set[str]:
    wiring = audit.tank.best.wiring
    return {check.id for check in all_checks() if names & rests_on(check.decides, wiring)}


def marks_of(audit: Audit, steps: Sequence[Step]) -> Iterator[Mark]:
    """The findings that some step mends, by the number of the first that does."""
    found = {finding.check: finding for finding in audit.findings}
    for step in steps:
        for check in step.about:
            of = found.pop(check, None)
            if of is None:
                continue
            grave = of.verdict in ("wrong", "danger")
            word = fault_of(of) if grave else spoken(check)
            yield Mark(step.number, check, word, verdict_of(of), of.measures)
