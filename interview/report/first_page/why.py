"""Why a tank has its grade, in one sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.audit.gravity import gravity
from interview.report.first_page.sentences import enumerated
from interview.report.naming import capital, spoken

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["why_graded"]

_NAMED = 5


def why_graded(audit: Audit) -> str:
    """One sentence: what is dangerous; else what is wrong, may be dangerous, or is a little off."""
    judged = sorted((f for f in audit.findings if f.applies), key=gravity)
    dangers = [f.check for f in judged if f.verdict == "danger"]
    if dangers:
        return f"{capital(_named(dangers))} {_are(dangers)} dangerous."
    groups = (
        ("may be dangerous", [f.check for f in judged if f.risk == "likely"]),
        ("wrong", [f.check for f in judged if f.verdict == "wrong" and f.risk != "likely"]),
        ("not as wanted", [f.check for f in judged if _is_off(f)]),
        ("not known", [f.check for f in judged if f.verdict == "unmeasured"]),
    )
    told = [_said(checks, what) for what, checks in groups if checks][:2]
    return f"{capital('; '.join(told))}." if told else audit.grades.say


def _is_off(finding: Finding) -> bool:
    """Whether it is off by a little, surely enough to name it; or a danger is possible."""
    if finding.risk:
        return finding.risk == "possible" and finding.verdict != "wrong"
    return finding.verdict == "close" and finding.certainty != "open" and not finding.assumed


def _said(checks: list[str], what: str) -> str:
    if what.startswith("may"):
        return f"{_named(checks)} {what}"
    return f"{_named(checks)} {_are(checks)} {what}"


def _are(checks: list[str]) -> str:
    return "is" if len(checks) == 1 else "are"


def _named(checks: list[str]) -> str:
    names = [spoken(check) for check in checks]
    if len(names) > _NAMED:
        names = [*names[: _NAMED - 1], f"{len(names) - _NAMED + 1} more"]
    return enumerated(names)
