"""How names stand in sentences."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.audit.checks.loader import checks_by_id

if TYPE_CHECKING:
    from interview.audit.checks.findings import Finding

__all__ = ["MAY_BE", "capital", "fault_of", "inside", "spoken", "verdict_of"]

MAY_BE = "may be dangerous"
"""What is said of a likely danger wherever it is told, whatever the best values say."""


def verdict_of(finding: Finding) -> str:
    """How a keeper hears of a verdict: one word for one thing on all of a page."""
    risky = finding.risk == "likely" and finding.verdict != "danger"
    return MAY_BE if risky else finding.verdict


def spoken(check: str) -> str:
    """How a keeper hears of a check, by its id; of any other name the name with spaces."""
    found = checks_by_id().get(check)
    return (found.called if found else "") or check.replace("_", " ").replace("uv ", "UV ")


def fault_of(finding: Finding) -> str:
    """How a keeper hears of what is wrong or dangerous: by the fault, not by the remedy."""
    check = finding.check
    return finding.lacks or checks_by_id()[check].fault or spoken(check)


def capital(text: str) -> str:
    """The text as it begins a line, a cell or a sentence; pH stays pH."""
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]


def inside(text: str) -> str:
    """The text as it stands inside a sentence; UV stays UV."""
    return text if text[1:2].isupper() else text[:1].lower() + text[1:]
