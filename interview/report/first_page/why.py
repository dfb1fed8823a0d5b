"""Why a tank has its grade, in one sentence that names the faults."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from interview.audit.gravity import gravity
from interview.report.first_page.sentences import named
from interview.report.first_page.today import is_unseen
from interview.report.naming import MAY_BE, capital, fault_of, spoken

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["why_graded"]

_MOST_NAMED = (7, 3)
"""How many are named of the gravest kind, and of the next."""


def why_graded(audit: Audit) -> str:
    """One sentence: what is dangerous and wrong, or may be; else what is a little off."""
    judged = sorted((f for f in audit.findings if f.applies), key=gravity)
    dangers = [f for f in judged if f.verdict == "danger"]
    likely = [f for f in judged if f.risk == "likely" and f not in dangers]
    groups = (
        ("dangerous", _faults([f for f in dangers if not is_unseen(f)])),
        ("dangerous until somebody has looked", _faults([f for f in dangers if is_unseen(f)])),
        (MAY_BE, _faults(likely)),
        ("wrong", _faults(_known_first(f for f in judged if _is_wrong(f) and f not in likely))),
        ("not as wanted", [f.lacks or spoken(f.check) for f in judged if _is_off(f)]),
        ("not known", [spoken(f.check) for f in judged if f.verdict == "unmeasured"]),
    )
    told = [(what, names) for what, names in groups if names]
    said = [
        f"{what}: {named(names, most)}"
        for (what, names), most in zip(told, _MOST_NAMED, strict=False)
    ]
    return f"{capital('; '.join(said))}." if said else audit.grades.say


def _is_wrong(finding: Finding) -> bool:
    return finding.verdict == "wrong"


def _known_first(findings: Iterable[Finding]) -> list[Finding]:
    """Before what rests on a guess stands what rests on none."""
    return sorted(findings, key=lambda finding: bool(finding.guessed or finding.assumed))


def _faults(findings: list[Finding]) -> list[str]:
    return [fault_of(finding) for finding in findings]


def _is_off(finding: Finding) -> bool:
    """Whether it is off by a little, surely enough to name it; or a danger is possible."""
    if finding.risk:
        return finding.risk == "possible" and finding.verdict != "wrong"
    return finding.verdict == "close" and finding.certainty != "open" and not finding.assumed
