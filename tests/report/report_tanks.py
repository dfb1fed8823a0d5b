"""Setup files as audits to dress."""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import yaml

from interview import assembly, setups
from interview.audit.audit import Audit

__all__ = ["DEMOS", "audit_at", "audit_of"]

DEMOS = Path(__file__).parent.parent.parent / "transcripts_demo"


def audit_at(path: Path, title: str = "") -> Audit:
    """The audit of a setup file."""
    interview, setup = assembly.new_interview(), setups.read(path, assembly.questionnaire())
    setups.fill(interview, setup)
    return assembly.audit_of(interview, title or setup.title)


def audit_of(path: Path, change: Mapping[str, Any]) -> Audit:
    """The audit of a setup file with some answers typed anew."""
    setup = yaml.load(path.read_text("utf-8"), yaml.BaseLoader)
    setup["answers"] |= change
    with tempfile.TemporaryDirectory() as folder:
        typed = Path(folder) / path.name
        typed.write_text(yaml.safe_dump(setup, allow_unicode=True), encoding="utf-8")
        return audit_at(typed)
