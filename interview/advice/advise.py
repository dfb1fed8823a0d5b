"""Everything the advice has to say about one audit."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from interview.advice.calendar import Duty, calendar
from interview.advice.plans.plans import Plan, plans
from interview.advice.plans.remedies import what_would
from interview.advice.purchase.planning import Specification, specify
from interview.advice.window import Pairing, Window, lamp_window, water_window, windows_together
from interview.audit.audit import Audit
from interview.audit.checks.loader import all_checks

__all__ = ["Advice", "advise"]


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


def advise(audit: Audit, today: datetime.date) -> Advice:
    """Work out the advice for an audited tank."""
    tank = audit.tank
    planning = tank.lookup("stage") == "planning"
    checks = all_checks()
    windows = (water_window(tank, checks), lamp_window(tank, checks))
    found = plans(tank, audit.findings)
    wanting = [f for f in audit.findings if f.applies and f.verdict in ("wrong", "danger")]
    left = found[-1].left if found else wanting
    return Advice(
        plans=found,
        windows=tuple(window for window in windows if window is not None),
        together=windows_together(tank, checks, windows),
        duties=() if planning else calendar(tank, today),
        specification=specify(tank) if planning else None,
        would=what_would(tank, {finding.check for finding in left}),
    )
