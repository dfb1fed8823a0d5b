"""Audits to dress: the demo tanks, and one whose keeper types what no page should obey."""

from __future__ import annotations

import pytest
from hostile import HOSTILE
from report_tanks import DEMOS, audit_at

from interview.audit.audit import Audit


@pytest.fixture(scope="package")
def demos() -> dict[str, Audit]:
    return {path.stem: audit_at(path) for path in sorted(DEMOS.glob("*.yaml"))}


@pytest.fixture(scope="package")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Audit:
    """A musk turtle's tank with a title and plant names full of marks."""
    text = (DEMOS / "musk_turtle.yaml").read_text(encoding="utf-8")
    plants = "live_plants: 'anubias | `x` <script>alert(1)</script>, [p](http://x), *fern*_'"
    path = tmp_path_factory.mktemp("hostile") / "hostile.yaml"
    path.write_text(text.replace("live_plants: none", plants), encoding="utf-8")
    return audit_at(path, HOSTILE)
