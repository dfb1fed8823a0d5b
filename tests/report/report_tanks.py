"""Setup files as audits to dress."""

from __future__ import annotations

from pathlib import Path

from interview import assembly, setups
from interview.audit.audit import Audit

__all__ = ["DEMOS", "audit_at"]

DEMOS = Path(__file__).parent.parent.parent / "transcripts_demo"


def audit_at(path: Path, title: str = "") -> Audit:
    """The audit of a setup file."""
    interview, setup = assembly.new_interview(), setups.read(path, assembly.questionnaire())
    setups.fill(interview, setup)
    return assembly.audit_of(interview, title or setup.title)
