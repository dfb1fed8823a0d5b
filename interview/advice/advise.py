"""Everything the advice has to say about one audit."""

from __future__ import annotations

import datetime
from collections.abc import Iterator
from dataclasses import dataclass, replace

from interview.advice.calendar import Duty, calendar
from interview.advice.plans.choosing import told
from interview.advice.plans.plan import Plan
from interview.advice.plans.plans import plans, plans_in_steps
from interview.advice.plans.remedies import what_would
from interview.advice.purchase.planning import Specification, specify
from interview.advice.search.budget import Budget
from interview.advice.window import Pairing, Window, lamp_window, water_window, windows_together
from interview.audit.audit import Audit
from interview.audit.checks.loader import all_checks
from interview.audit.gravity import gravity

__all__ = ["Advice", "Progress", "advise", "advise_in_steps"]

_PLANS = "the smallest set of changes"
_WINDOWS = "workable water lines and lamp heights"
_LIST = "the list of what to get"
"""What is worked out next, in a keeper's words."""


@dataclass(frozen=True)
class Advice:
    """Plans, workable windows, calendar; a specification for a tank in planning.

    `would` says what else would do where the last plan, or none, leaves something wrong.
    """

    plans: tuple[Plan, ...]
    windows: tuple[Window, ...]
    together: Pairing | None
    duties: tuple[Duty, ...]
    specification: Specification | None
    would: str = ""


@dataclass(frozen=True)
class Progress:
    """The advice as far as it is worked out, and what is worked out next ("" at the end)."""

    advice: Advice
    next: str

    @property
    def searching(self) -> bool:
        """Whether more plans may come."""
        return self.next == _PLANS


def advise(audit: Audit, today: datetime.date, budget: Budget | None = None) -> Advice:
    """Work out the advice for an audited tank.

    Args:
        audit: the tank and what was found
        today: from when the calendar counts
        budget: what the search for plans may take; the shipped number of steps if None
    """
    found = () if _planning(audit) else plans(audit.tank, audit.findings, budget)
    advice = _with_plans(_without_search(audit, today), audit, found, today)
    for progress in _the_rest(advice, audit):
        advice = progress.advice
    return advice


def advise_in_steps(
    audit: Audit, today: datetime.date, budget: Budget | None = None
) -> Iterator[Progress]:
    """The advice bit by bit: calendar, what ends a danger, each plan as it is found, windows.

    Whoever stops asking keeps the last `advice`, which is whole in itself; the last one of all
    is that of `advise`. The grade stands in the audit already.
    """
    advice = _without_search(audit, today)
    yield Progress(advice, _PLANS)
    found: tuple[Plan, ...] = ()
    budget = budget or Budget.shipped()
    for found in () if _planning(audit) else plans_in_steps(audit.tank, audit.findings, budget):
        yield Progress(replace(advice, plans=found), _PLANS)
    advice = _with_plans(advice, audit, found, today)
    yield Progress(advice, _WINDOWS)
    yield from _the_rest(advice, audit)


def _without_search(audit: Audit, today: datetime.date) -> Advice:
    return Advice((), (), None, _duties(audit, (), today), None)


def _duties(audit: Audit, found: tuple[Plan, ...], today: datetime.date) -> tuple[Duty, ...]:
    """What is dangerous comes first; what comes again is that of the tank after the told plan."""
    if _planning(audit):
        return ()
    dangers = sorted((f for f in audit.findings if f.verdict == "danger"), key=gravity)
    plan = told(found)
    after = plan.carried_out(audit.tank) if plan else audit.tank
    return calendar(after, today, dangers=dangers, before=audit.tank)


def _planning(audit: Audit) -> bool:
    return bool(audit.tank.lookup("stage") == "planning")


def _with_plans(
    advice: Advice, audit: Audit, found: tuple[Plan, ...], today: datetime.date
) -> Advice:
    """The plans, the calendar after the told one, and what else would do where the last ends."""
    wanting = [f for f in audit.findings if f.applies and f.verdict in ("wrong", "danger")]
    left = found[-1].left if found else wanting
    would = what_would(audit.tank, {finding.check for finding in left})
    return replace(advice, plans=found, would=would, duties=_duties(audit, found, today))


def _the_rest(advice: Advice, audit: Audit) -> Iterator[Progress]:
    """Windows, then the list for a tank in planning."""
    tank, checks = audit.tank, all_checks()
    windows = (water_window(tank, checks), lamp_window(tank, checks))
    advice = replace(
        advice,
        windows=tuple(window for window in windows if window is not None),
        together=windows_together(tank, checks, windows),
    )
    yield Progress(advice, _LIST if _planning(audit) else "")
    if _planning(audit):
        yield Progress(replace(advice, specification=specify(tank)), "")
