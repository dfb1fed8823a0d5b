"""What stands on the first page, before any format dresses it."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.advice.shopping import to_buy
from interview.advice.what_if.suppose import changed
from interview.audit.measure_next import best_tool
from interview.report.first_page.sentences import TWO_LINES, beginning
from interview.report.first_page.steps import Step, marks_of, steps_today, steps_week
from interview.report.first_page.why import why_graded
from interview.report.naming import capital

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.advice.plans.plans import Plan
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding
    from interview.audit.tank import Tank
    from interview.report.marks import Mark

__all__ = ["FirstPage", "after_the_plan", "first_page", "plan_told"]

_LAWS = ("invasive_law", "small_turtle_law")
_FINE = ("good", "unmeasured")
_MOST_TO_MEASURE = 3
_NOT_BOUGHT = ("The law", "Water line", "Electricity", "Circuit", "Running cost", "Water changes")
"""Rows of a planned tank's list that are set, not got."""
_ALWAYS = (
    "Plugs out before hands go in, soap after. Your local code, an electrician and a reptile "
    "veterinarian come before this page."
)
_VET = (
    "Shut or swollen eyes, no basking or eating for days, swimming askew, bubbles at the mouth, a "
    "soft or smelling shell: go."
)


@dataclass(frozen=True)
class FirstPage:
    """One page for a keeper: the grade, what to do and to get, when to look again.

    `planned` says that the tank isn't set up yet. `why` is one sentence. `confirm` names answers
    that don't fit together. Steps are numbered through `today` and `week`; `marks` carry these
    numbers into the picture. `plan` is the one whose steps are told, None where there is none or
    not yet; `leads_to` says to which grade, and `after` is the tank once they are done.
    """

    title: str
    planned: bool
    date: str
    grade: str
    headline: str
    why: str
    confirm: tuple[str, ...]
    today: tuple[Step, ...]
    week: tuple[Step, ...]
    plan: Plan | None
    leads_to: str
    marks: tuple[Mark, ...]
    after: Tank | None
    buy: tuple[str, ...]
    measure: tuple[str, ...]
    again: tuple[str, ...]
    law: tuple[str, ...]
    vet: str
    always: str


def first_page(audit: Audit, advice: Advice | None = None, date: str = "") -> FirstPage:
    """The first page of an audit.

    Args:
        audit: the tank, judged
        advice: what there is of it by now; without, the findings' own remedies are the steps
        date: the day of the audit, as it is to be told
    """
    plan = plan_told(advice)
    today = steps_today(audit)
    week = steps_week(audit, plan, today)
    return FirstPage(
        title=audit.title,
        planned=audit.tank.lookup("stage") == "planning",
        date=date,
        grade=audit.grades.overall,
        headline=audit.grades.headline,
        why=why_graded(audit),
        confirm=tuple(beginning(m.say, TWO_LINES) for m in audit.inconsistencies),
        today=today,
        week=week,
        plan=plan,
        leads_to=_leads_to(plan),
        marks=tuple(marks_of(audit, (*today, *week))),
        after=after_the_plan(audit, plan),
        buy=tuple(_buy(audit, advice)),
        measure=tuple(itertools.islice(_measure(audit), _MOST_TO_MEASURE)),
        again=tuple(_again(advice, bool(today or week))),
        law=tuple(_law(audit.findings)),
        vet=_VET,
        always=_ALWAYS,
    )


def _leads_to(plan: Plan | None) -> str:
    """Where the steps lead, as “grade B”."""
    if plan is None:
        return ""
    if plan.grades.stop:
        return "STOP still"
    ripe = " once the new filter is ripe" if plan.meanwhile else ""
    return f"grade {plan.grades.overall}{ripe}"


def plan_told(advice: Advice | None) -> Plan | None:
    """The plan that does the most, whose steps are told; None where there is none or not yet."""
    return advice.plans[-1] if advice and advice.plans else None


def after_the_plan(audit: Audit, plan: Plan | None) -> Tank | None:
    """The tank once a plan's steps are done; None where there is no plan."""
    if plan is None:
        return None
    return changed(audit.tank, {change.quantity: change.after for change in plan.changes})


def _buy(audit: Audit, advice: Advice | None) -> Iterator[str]:
    """What to get, by specification: a planned tank's gear, or what the plans take."""
    if advice and advice.specification:
        for row in advice.specification.rows:
            if row.what not in _NOT_BOUGHT:
                yield f"{row.what}: {row.specification.partition(':')[0]}"
    elif advice:
        yield from (item.text for item in to_buy(audit, advice.plans))


def _measure(audit: Audit) -> Iterator[str]:
    """What to measure or look up next, with the tool that settles it."""
    for name in audit.measure_next:
        tool = best_tool(name)
        needed = any(name in finding.missing for finding in audit.findings)
        by = f" ({tool.called})" if tool and tool.called and not needed else ""
        yield f"{capital(audit.label_of(name))}{by}"


def _again(advice: Advice | None, to_do: bool) -> Iterator[str]:
    """When to look again: after the steps, and on the next date of the calendar."""
    if to_do:
        yield "When these steps are done."
    dated = [duty for duty in advice.duties if duty.due] if advice else []
    for duty in dated[:1]:
        what = beginning(duty.what, TWO_LINES).partition(";")[0].rstrip(".")
        yield f"{capital(duty.when)}: {what}."


def _law(findings: Sequence[Finding]) -> Iterator[str]:
    for finding in findings:
        if finding.check in _LAWS and finding.applies and finding.verdict not in _FINE:
            yield beginning(finding.say, TWO_LINES)
