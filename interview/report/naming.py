"""How names stand in sentences."""

from __future__ import annotations

from functools import cache

from interview.audit.checks.loader import all_checks

__all__ = ["capital", "fault_of", "spoken"]


def spoken(check: str) -> str:
    """How a keeper hears of a check, by its id; of any other name the name with spaces."""
    return _called().get(check) or check.replace("_", " ").replace("uv ", "UV ")


def fault_of(check: str) -> str:
    """How a keeper hears of a check that is wrong or dangerous: by the fault, not by the remedy."""
    return _faults().get(check) or spoken(check)


@cache
def _faults() -> dict[str, str]:
    return {check.id: check.fault for check in all_checks()}


@cache
def _called() -> dict[str, str]:
    return {check.id: check.called for check in all_checks()}


def capital(text: str) -> str:
    """The text as it begins a line, a cell or a sentence; pH stays pH."""
    return text if text[1:2].isupper() else text[:1].upper() + text[1:]
