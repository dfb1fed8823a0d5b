"""Which of the plans found are worth showing, and whose steps are told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from interview.advice.plans.plan import Plan
from interview.audit.checks.findings import Finding
from interview.audit.grades import grade_all

__all__ = ["BADNESS", "TIME_MENDS", "told", "when_ripe", "worth_showing"]

BADNESS = {"wrong": 3, "danger": 4}
TIME_MENDS = ("cycling",)
"""Checks that time mends, no change does: left out of the search."""
_BOUGHT = 4.0
"""What the cheapest thing costs that is bought, on the scale of the levers."""


def worth_showing(found: Sequence[Plan], findings: Sequence[Finding]) -> tuple[Plan, ...]:
    """Plans that better something and no grade worsens; no STOP that another ends.

    Nor one that mends trifles only, where another leads to a better grade or ends what is grave.
    """
    now = grade_all(findings)
    worth = [
        plan
        for plan in found
        if plan.grades.rank < now.rank or (plan.grades.rank == now.rank and _ends(plan, findings))
    ]
    grave = [p for p in worth if p.grades.rank < now.rank or _ends_grave(p, findings)]
    worth = grave or worth
    ending = [plan for plan in worth if not plan.grades.stop]
    return tuple(_each_better(ending or worth))


def told(found: Sequence[Plan]) -> Plan | None:
    """The plan whose steps are told: the cheapest that does as much as the last, which does most.

    As much is the same grade with nothing more left wrong. None where there is none.
    """
    return next((plan for plan in found if _does(plan) == _does(found[-1])), None)


def _does(plan: Plan) -> tuple[int, frozenset[str]]:
    return plan.grades.rank, _grave(plan)


def _grave(plan: Plan) -> frozenset[str]:
    """Checks that a plan leaves wrong or dangerous."""
    return frozenset(f.check for f in plan.findings if f.applies and f.verdict in BADNESS)


def _each_better(found: Sequence[Plan]) -> Iterator[Plan]:
    """The plans that mend more, or to a better grade, than the cheaper one before them."""
    best: Plan | None = None
    for plan in found:
        if best is None or (_no_worse(plan, best) and _betters(plan, best)):
            best = plan
            yield plan


def _no_worse(plan: Plan, cheaper: Plan) -> bool:
    """Whether a dearer plan leads to no worse a grade, and leaves nothing wrong that was right.

    That a new filter has to ripen first is no fault of it.
    """
    better = plan.grades.rank < cheaper.grades.rank
    same = plan.grades.rank == cheaper.grades.rank
    return better or (same and _grave(plan) - {*TIME_MENDS} <= _grave(cheaper))


def _betters(plan: Plan, cheaper: Plan) -> bool:
    return plan.grades.rank < cheaper.grades.rank or bool(_off(cheaper) - _off(plan))


def _off(plan: Plan) -> set[str]:
    """What a plan leaves wanting, by check; a check that is better than wrong counts apart."""
    return {f"{f.check} {f.verdict}" for f in plan.findings if f.applies and f.verdict != "good"}


def _ends(plan: Plan, findings: Sequence[Finding]) -> bool:
    """Whether it ends something grave, or what is off a little: all of it, or for little money."""
    if _ends_grave(plan, findings):
        return True
    still = {f.check for f in plan.findings if f.verdict in BADNESS}
    little = {f.check for f in findings if _off_a_little(f)}
    left = {f.check for f in plan.findings if _off_a_little(f)} | still
    return (plan.cost < _BOUGHT or not plan.left) and bool(little - left)


def _ends_grave(plan: Plan, findings: Sequence[Finding]) -> bool:
    still = {f.check for f in plan.findings if f.verdict in BADNESS}
    return any(f.verdict in BADNESS and f.check not in still for f in findings)


def _off_a_little(finding: Finding) -> bool:
    sound = finding.inside or finding.certainty == "open"
    return finding.applies and finding.verdict == "close" and not sound


def when_ripe(findings: Sequence[Finding], before: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings without those that time mends and that were no worry before the changes."""
    fine = {f.check for f in before if f.verdict in ("good", "unmeasured") or not f.applies}
    started = {
        f.check
        for f in findings
        if f.check in TIME_MENDS and f.check in fine and f.verdict in ("close", "wrong")
    }
    return tuple(finding for finding in findings if finding.check not in started)
