"""Which findings are a reason to change the tank, and which only to measure."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.guesses import mostly_guessed
from interview.audit.checks.judging import judge
from interview.audit.tank import Tank

__all__ = ["worth_changing"]


def worth_changing(
    tank: Tank, checks: Sequence[Check], findings: Iterable[Finding] = ()
) -> frozenset[str]:
    """Ids of the checks that may be changed for: a danger always, a guess never.

    Nor what rests on an answer that can't be right: that is put right first. What is only
    open, and neither wrong nor near danger, is measured first. What can wait is a date in the
    calendar of a tank in use (nobody buys another one years before it is due), and counts in one
    that is still to be bought.

    Args:
        tank: the tank
        checks: those asked about
        findings: what is found already; the other checks are judged
    """
    found = {finding.check: finding for finding in findings}
    found |= {check.id: judge(check, tank) for check in checks if check.id not in found}
    in_use = tank.lookup("stage") != "planning"
    return frozenset(
        check.id
        for check in checks
        if found[check.id].verdict == "danger"
        or not (
            found[check.id].verdict == "unmeasured"
            or found[check.id].assumed
            or found[check.id].fit == "impossible"
            or _only_open(found[check.id])
            or (found[check.id].verdict == "close" and check.can_wait and in_use)
            or (found[check.id].verdict == "close" and mostly_guessed(check, tank))
        )
    )


def _only_open(finding: Finding) -> bool:
    """Whether the readings leave it open, with nothing wrong and no danger in it."""
    mild = finding.verdict in ("good", "close") and not finding.risk
    return mild and finding.certainty == "open"
