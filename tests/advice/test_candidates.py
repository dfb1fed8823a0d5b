"""Candidates judged side by side fare as each would alone, inside and outside of formulas."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from advice_tanks import TANKS, tank_of

from interview.advice.what_if import candidates as side_by_side
from interview.advice.what_if.candidates import severities
from interview.advice.what_if.severity import WRONG
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank

BASKING = tuple(check for check in all_checks() if check.section == "basking")
LINES = np.linspace(0.05, 0.35, 41)
PAIR = [
    {"species": "painted turtle", "carapace_length": "12 cm", "sex": "male"},
    {"species": "painted turtle", "carapace_length": "9 cm", "sex": "female"},
]


def _low_lamp(**change: Any) -> Tank:
    """A raft under a lamp so low that the water can carry it into the lamp."""
    low = {"heat_lamp_height": "12 cm", "water_line_below_rim": "28 cm", "lamp_control": "none"}
    return tank_of(TANKS / "base.yaml", {**low, **change})


@pytest.mark.parametrize("animals", [{}, {"animals": PAIR, "region": "north_america"}])
def test_side_by_side_is_as_alone(animals: dict[str, Any]) -> None:
    tank = _low_lamp(**animals)
    rows = [{"water_line_below_rim": float(line)} for line in LINES]
    whole = severities(tank, BASKING, rows)
    alone = np.concatenate([severities(tank, BASKING, [row]) for row in rows])
    hopeless = (whole >= WRONG) & (alone >= WRONG)
    assert ((whole == alone) | hopeless).all(), "a shell in the lamp is wrong or dangerous"
    heat = [check.id for check in BASKING].index("basking_heat")
    assert (whole[:, heat] == WRONG).any(), "some lines carry the raft into the lamp"


def test_what_lies_outside_a_formula_is_set_apart_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Not by halving until each such candidate stands alone."""
    tank, calls = _low_lamp(), 0
    judge = side_by_side.severity_in

    def counted(*given: Any, **rest: Any) -> Any:
        nonlocal calls
        calls += 1
        return judge(*given, **rest)

    monkeypatch.setattr(side_by_side, "severity_in", counted)
    rows = [
        {"water_line_below_rim": float(line), "heat_lamp_power": power}
        for line in LINES
        for power in (25.0, 50.0, 75.0, 100.0)
    ]
    severities(tank, BASKING, rows)
    assert calls <= 6 * len(BASKING)
