"""The search keeps few changed tanks worked out; how many changes nothing of what it finds."""

from __future__ import annotations

import itertools

import numpy as np
import pytest

from interview import assembly, setups
from interview.advice.search import severity_tables
from interview.advice.search.severity_tables import SeverityTables
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.base.places import demo_folder


def _classroom() -> Tank:
    interview = assembly.new_interview()
    path = demo_folder() / "painted_turtles_classroom.yaml"
    setups.fill(interview, setups.read(path, interview.questionnaire))
    return assembly.audit_of(interview, "").tank


def _every_pair(tables: SeverityTables) -> list[np.ndarray]:
    found = []
    for check in range(len(tables.checks)):
        levers = np.flatnonzero(tables.reach[:, check]).tolist()[:4]
        found += [tables.table(check, pair) for pair in itertools.combinations(levers, 2)]
    return found


def test_tables_are_the_same_however_few_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    tank, checks = _classroom(), all_checks()
    whole = SeverityTables(tank, checks)
    many = _every_pair(whole)
    monkeypatch.setattr(severity_tables, "_MOST_ROWS", 40)
    bounded = SeverityTables(tank, checks)
    few = _every_pair(bounded)
    assert len(many) > 50
    assert all(np.array_equal(one, other) for one, other in zip(many, few, strict=True))
    assert len(bounded._after) < len(whole._after) / 4
    kept = sum(bounded._count(moved) for moved in bounded._after)
    assert kept == bounded._rows
    assert kept <= 40 or len(bounded._after) == 1
