"""What to measure again: the readings that leave a finding in doubt, and what they would settle."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.sampling.sensitivity import doubt_of
from interview.audit.tank import Tank
from interview.care.facts import assumptions

__all__ = ["part_of", "settled_by", "with_doubt"]

_SETTLED = 0.05  # chance below which the draws agree: measuring again changes nothing
_PARTS = ((0.5, "Most"), (0.25, "A good part"), (0.0, "Some"))


def part_of(share: float) -> str:
    """A share of the doubt in words: most only above a half."""
    return next(word for least, word in _PARTS if share > least or least == 0)


def with_doubt(findings: Iterable[Finding], tank: Tank) -> tuple[Finding, ...]:
    """The findings, those in doubt with the readings it comes from and how to know better."""
    checks = {check.id: check for check in all_checks()}
    return tuple(_told(finding, checks[finding.check], tank) for finding in findings)


def _told(finding: Finding, check: Check, tank: Tank) -> Finding:
    chance = finding.chance or 0.0
    open_still = finding.warning or _SETTLED < chance < 1 - _SETTLED
    if finding.verdict != "close" or not open_still:
        return finding
    doubt = doubt_of(check.measures, tank.only(finding.animal))
    if not doubt:
        return finding
    first = doubt[0]
    said = f"{part_of(first.share)} of the doubt comes from “{tank.label_of(first.quantity)}”."
    hint = tank.hint_of(first.quantity)
    return replace(finding, doubt=doubt, settle=f"{said} {hint}".strip())


def settled_by(name: str, findings: Iterable[Finding], tank: Tank) -> tuple[str, ...]:
    """The checks in doubt that would be settled if this answer were known exactly."""
    checks = {check.id: check for check in all_checks()}
    best = {n: tank.best.known[n] for n in _answering(name) if n in tank.best.known}
    known = tank.replaced(best)
    return tuple(
        finding.check
        for finding in findings
        if any(share.quantity == name for share in finding.doubt)
        and judge(checks[finding.check], known).verdict != "close"
    )


def _answering(name: str) -> Iterator[str]:
    """The answer, and the doubts of the model that it would replace."""
    yield name
    yield from (fact.name for fact in assumptions().values() if fact.settled_by == name)
