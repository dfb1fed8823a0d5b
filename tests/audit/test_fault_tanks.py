"""Fault tanks are judged as those would judge them who know: keeper, veterinarian, electrician."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from typed_tanks import TESTS, changed, interview_in, judged

from interview import assembly
from interview.audit.grades import grade_all


def _rows() -> list[dict[str, Any]]:
    """Every scalar as the characters that a keeper would type."""
    text = (TESTS / "audit" / "fault_tanks.yaml").read_text(encoding="utf-8")
    rows: list[dict[str, Any]] = yaml.load(text, Loader=yaml.BaseLoader)
    return rows


ROWS = _rows()


def test_each_tank_stands_once_and_has_its_reason() -> None:
    assert len({row["tank"] for row in ROWS}) == len(ROWS) >= 50
    assert all(row["because"] and row["finds"] and row["grade"] for row in ROWS)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["tank"])
def test_it_is_judged_as_those_would_who_know(row: dict[str, Any]) -> None:
    assert set(row["change"]) <= {q.id for q in assembly.questionnaire()} | {"animals"}
    base = interview_in(TESTS / "tanks" / f"{row['like']}.yaml")
    findings = judged(changed(base, row["change"]))
    found = {f.check: f for f in findings}
    for check, wanted in row["finds"].items():
        verdicts = wanted if isinstance(wanted, list) else [wanted]
        assert found[check].verdict in verdicts, (row["because"], found[check].say)
    dangers = {f.check for f in findings if f.verdict == "danger"}
    assert dangers <= set(row["finds"]), "a danger nobody meant"
    grades = grade_all(findings)
    told = [(f.check, f.verdict, f.risk) for f in findings if f.verdict != "good" or f.risk]
    assert grades.overall in row["grade"], (grades.overall, told)
