"""Many tanks at a glance: a line for each, the worst first."""

from __future__ import annotations

import datetime
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.advice.calendar import calendar
from interview.audit.grades import NO_GRADE, STOP
from interview.audit.gravity import gravity
from interview.report.blocks import Block, Heading, Paragraph, Table
from interview.report.naming import fault_of, spoken, verdict_of
from interview.report.regional import Worded

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["Summary", "overview_blocks", "summary_of"]

_ORDER = (STOP, "E", "D", "C", "B", "A", NO_GRADE)
_GRAVE = ("danger", "wrong", "close", "unmeasured")
_VERDICTS = {"unmeasured": "not judged"}
_NONE = "–"


@dataclass(frozen=True)
class Summary:
    """One tank in a line: grade, the worst that was found, the next date, its file.

    `dangers` and `wrong` count what was found, so that of two tanks of a grade the worse is known.
    """

    title: str
    grade: str
    worst: str
    due: str
    file: str
    dangers: int = 0
    wrong: int = 0


def summary_of(audit: Audit, file: str, today: datetime.date) -> Summary:
    """One audit in a line; what is dangerous is due on the day itself."""
    grade = audit.grades.overall
    found = [f for f in audit.findings if f.applies and f.verdict in _GRAVE]
    found.sort(key=lambda f: (f.verdict != "danger", f.risk != "likely", *_worst(f)))
    worst = Worded(audit.tank.lookup("region")).text(_said(found[0])) if found else "nothing"
    dangers, wrong = (sum(f.verdict == kind for f in found) for kind in ("danger", "wrong"))
    return Summary(audit.title, grade, worst, _due(audit, today), file, dangers, wrong)


def _said(finding: Finding) -> str:
    verdict = _VERDICTS.get(verdict_of(finding), verdict_of(finding))
    grave = verdict not in ("close", "not judged")
    return f"{fault_of(finding) if grave else spoken(finding.check)} ({verdict})"


def _worst(finding: Finding) -> tuple[float, ...]:
    return _GRAVE.index(finding.verdict), *gravity(finding)


def _due(audit: Audit, today: datetime.date) -> str:
    if audit.grades.stop:
        return today.isoformat()
    if audit.tank.lookup("stage") == "planning":
        return _NONE
    dated = (duty.due for duty in calendar(audit.tank, today))
    return next((day.isoformat() for day in dated if day), _NONE)


def _rank(tank: Summary) -> tuple[int, int, int, str, str]:
    return _ORDER.index(tank.grade), -tank.dangers, -tank.wrong, tank.due, tank.title


def overview_blocks(summaries: Iterable[Summary], faults: int) -> Iterator[Block]:
    """The table, the worst first.

    Args:
        summaries: the tanks that could be judged
        faults: how many files could not
    """
    rows = sorted(summaries, key=_rank)
    yield Heading(1, f"{len(rows)} tank{'' if len(rows) == 1 else 's'}, the worst first")
    if faults:
        yield Paragraph(f"Not judged: {faults} file{'' if faults == 1 else 's'}, named above.")
    if rows:
        cells = tuple((s.title, s.grade, s.worst, s.due, s.file) for s in rows)
        yield Table(("Tank", "Grade", "Worst finding", "Next date", "File"), cells)
