"""Fault tanks are judged as those would judge them who know: keeper, veterinarian, electrician."""

from __future__ import annotations

from typing import Any

import pytest
import yaml
from typed_tanks import TESTS, changed, interview_in, judged

from interview import assembly
from interview.audit.grades import grade_all
from interview.care.species.catalogue import profiles
from interview.graph.interview import Interview


def _rows(name: str) -> list[dict[str, Any]]:
    """Every scalar as the characters that a keeper would type."""
    text = (TESTS / "audit" / name).read_text(encoding="utf-8")
    rows: list[dict[str, Any]] = yaml.load(text, Loader=yaml.BaseLoader)
    return rows


ROWS, SOUND = _rows("fault_tanks.yaml"), _rows("sound_tanks.yaml")


def _typed(row: dict[str, Any]) -> Interview:
    assert set(row["change"]) <= {q.id for q in assembly.questionnaire()} | {"animals"}
    return changed(interview_in(TESTS / "tanks" / f"{row['like']}.yaml"), row["change"])


def test_each_tank_stands_once_and_has_its_reason() -> None:
    assert len({row["tank"] for row in ROWS}) == len(ROWS) >= 50
    assert all(row["because"] and row["finds"] and row["grade"] for row in ROWS)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["tank"])
def test_it_is_judged_as_those_would_who_know(row: dict[str, Any]) -> None:
    findings = judged(_typed(row))
    found = {f.check: f for f in findings}
    for check, wanted in row["finds"].items():
        verdicts = wanted if isinstance(wanted, list) else [wanted]
        assert found[check].verdict in verdicts, (row["because"], found[check].say)
    dangers = {f.check for f in findings if f.verdict == "danger"}
    assert dangers <= set(row["finds"]), "a danger nobody meant"
    grades = grade_all(findings)
    told = [(f.check, f.verdict, f.risk) for f in findings if f.verdict != "good" or f.risk]
    assert grades.overall in row["grade"], (grades.overall, told)


def test_a_shelf_is_warned_of_before_anything_is_filled() -> None:
    """A planned tank has no animals to move: the order holds before and after filling."""
    row = next(row for row in ROWS if row["tank"] == "a tank planned for a bookshelf")
    found = next(f for f in judged(_typed(row)) if f.check == "stand")
    assert found.do.startswith("Today: fill no tank there; if it is filled, move the animals")


@pytest.mark.parametrize("row", SOUND, ids=lambda row: row["tank"])
def test_a_sound_tank_has_no_worry_that_is_only_open(row: dict[str, Any]) -> None:
    tank = _typed(row)
    findings = judged(tank)
    unbuilt = tank.given()["stage"].value == "planning"
    allowed = {"close", "unmeasured"} if unbuilt else {"close"}
    worries = [f for f in findings if f.applies and f.verdict != "good"]
    assert {f.verdict for f in worries} <= allowed, [f.check for f in worries]
    open_ = [f.check for f in worries if f.verdict != "unmeasured" and f.certainty == "open"]
    assert not open_ and not any(f.risk for f in worries)
    assert unbuilt or grade_all(findings).overall in ("A", "B")


def test_the_sound_tanks_are_of_every_kind_stage_and_region() -> None:
    typed = [_typed(row).given() for row in SOUND]
    assert {given["stage"].value for given in typed} == {"planning", "set_up", "living"}
    regions = {"north_america", "europe", "united_kingdom", "australia", "elsewhere"}
    assert {given["region"].value for given in typed} == regions
    families = {profiles()[kind].family for given in typed for kind in given["species"].value}
    assert families == {profile.family for profile in profiles().values()}
