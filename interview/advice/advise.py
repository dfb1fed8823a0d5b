"""Everything the advice has to say about one audit."""

from __future__ import annotations

import datetime
from dataclasses import dataclass

from interview.advice.calendar import Duty, calendar
from interview.advice.planning import Specification, specify
from interview.advice.plans import Plan, plans
from interview.advice.window import Together, Window, lamp_window, water_window, windows_together
from interview.audit.audit import Audit
from interview.audit.checks import all_checks

__all__ = ["Advice", "advise"]


@dataclass(frozen=True)
class Advice:
    """Plans, workable windows, calendar; a specification for a tank in planning."""

    plans: tuple[Plan, ...]
    windows: tuple[Window, ...]
    together: tuple[Together, ...]
    duties: tuple[Duty, ...]
    specification: Specification | None


def advise(audit: Audit, today: datetime.date) -> Advice:
    """Work out the advice for an audited tank."""
    tank = audit.tank
    planning = tank.lookup("stage") == "planning"
    checks = all_checks()
    windows = (water_window(tank, checks), lamp_window(tank, checks))
    return Advice(
        plans=plans(tank, audit.findings),
        windows=tuple(window for window in windows if window is not None),
        together=windows_together(tank, checks),
        duties=() if planning else calendar(tank, today),
        specification=specify(tank) if planning else None,
    )
