"""Audits and interviews that several of the audit's tests look at."""

from __future__ import annotations

from typing import Any

import pytest
from typed_tanks import DEMOS, TESTS, Audited, audit_in, changed, interview_in

from interview import assembly
from interview.audit.audit import Audit
from interview.graph.interview import Interview


@pytest.fixture(scope="package")
def demos() -> dict[str, Audit]:
    """The audits of the demo tanks."""
    return {path.stem: audit_in(path) for path in sorted(DEMOS.glob("*.yaml"))}


@pytest.fixture(scope="package")
def demo_interviews() -> dict[str, Interview]:
    return {path.stem: interview_in(path) for path in sorted(DEMOS.glob("*.yaml"))}


@pytest.fixture(scope="package")
def base() -> Interview:
    return interview_in(TESTS / "tanks" / "base.yaml")


@pytest.fixture(scope="package")
def audited(base: Interview) -> Audited:
    """Audits the base tank with some answers changed."""

    def audited(**change: Any) -> Audit:
        return assembly.audit_of(changed(base, change), "base")

    return audited
