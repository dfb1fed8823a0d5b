"""Audits to dress: the demo tanks, and one whose keeper types what no page should obey."""

from __future__ import annotations

from pathlib import Path

import pytest
from hostile import HOSTILE

from interview import assembly, setups
from interview.audit.audit import Audit

DEMOS = Path(__file__).parent.parent.parent / "transcripts_demo"


def _audit(path: Path, title: str = "") -> Audit:
    interview, setup = assembly.new_interview(), setups.read(path, assembly.questionnaire())
    setups.fill(interview, setup)
    return assembly.audit_of(interview, title or setup.title)


@pytest.fixture(scope="session")
def demos() -> dict[str, Audit]:
    return {path.stem: _audit(path) for path in sorted(DEMOS.glob("*.yaml"))}


@pytest.fixture(scope="session")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Audit:
    """A musk turtle's tank with a title and plant names full of marks."""
    text = (DEMOS / "musk_turtle.yaml").read_text(encoding="utf-8")
    plants = "live_plants: 'anubias | `x` <script>alert(1)</script>, [p](http://x), *fern*_'"
    path = tmp_path_factory.mktemp("hostile") / "hostile.yaml"
    path.write_text(text.replace("live_plants: none", plants), encoding="utf-8")
    return _audit(path, HOSTILE)
