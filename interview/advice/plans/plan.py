"""A plan: what to do, what it leads to, and what it leaves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from interview.advice.levers.lever import Option
from interview.advice.plans.leaving import NotMended
from interview.advice.search.tables.severity_tables import merged
from interview.advice.what_if.suppose import changed
from interview.audit.checks.findings import Finding
from interview.audit.grades import Grades
from interview.audit.tank import Tank

__all__ = ["Change", "Plan"]


@dataclass(frozen=True)
class Change:
    """One answer that would be another: what it is, what it becomes, what to do for it.

    `bought` says that something has to be got for it.
    """

    quantity: str
    before: Any
    after: Any
    unit: str
    say: str
    bought: bool = False


@dataclass(frozen=True)
class Plan:
    """A set of changes, and the audit of the tank after them.

    The changes against a danger come first, then what the grade needs. `urgent` of them end the
    danger by themselves and lead to `then`; 0 and None where there is none to end so.
    `left` are the findings that still want a change afterwards; `against` names, for such a
    check, the checks it can't be brought in line with. `moved` are answers that change by
    themselves (a floating platform's lamp distances). `grades` leave out what only time mends
    and the plan brings about, as a new filter's start; `meanwhile` are the grades with it.
    `worse` are sections with a lower letter than today: name, letter before, letter after.
    `nearer` are the findings that are nearer to a limit than today, or beyond it. `proven` says
    that no smaller or cheaper set of changes does as much; else it is the best that was found
    before the budget of the search ended. `take_again` are the readings that tell nothing of
    the changed tank, or were taken before something was moved. `needed` of the steps lead to
    the grade, those after them are also worth it. `rest` names everything wrong that is left,
    and why. `steps` are the levers' settings in the order of the changes.
    """

    name: str
    changes: tuple[Change, ...]
    moved: tuple[Change, ...]
    findings: tuple[Finding, ...]
    grades: Grades
    left: tuple[Finding, ...]
    cost: float
    against: tuple[tuple[str, ...], ...] = ()
    urgent: int = 0
    then: Grades | None = None
    meanwhile: Grades | None = None
    worse: tuple[tuple[str, str, str], ...] = ()
    nearer: tuple[Finding, ...] = ()
    proven: bool = True
    take_again: tuple[str, ...] = ()
    needed: int = 0
    rest: tuple[NotMended, ...] = ()
    steps: tuple[Option, ...] = ()

    def carried_out(self, tank: Tank) -> Tank:
        """The tank that it is for, once all steps are done."""
        return changed(tank, merged(self.steps))
