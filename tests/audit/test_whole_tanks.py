"""Whole setups of good keepers, and one fault each, judged as those would judge them who know.

Written from the reference tables and from practice before the program was asked. A random half
was looked at while the checks were mended, the other half was only counted.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Any

import pytest
import yaml
from typed_tanks import TESTS, changed, judged

from interview import assembly
from interview.audit.checks.findings import Finding
from interview.audit.grades import grade_all
from interview.graph.interview import Interview


def _rows(name: str) -> list[dict[str, Any]]:
    text = (TESTS / "audit" / "whole_tanks" / name).read_text(encoding="utf-8")
    rows: list[dict[str, Any]] = yaml.load(text, Loader=yaml.BaseLoader)
    return rows


SOUND, FAULTS = _rows("sound.yaml"), _rows("faults.yaml")
HOMES = {row["key"]: row["answers"] for row in SOUND if "key" in row}


@cache
def _home(key: str) -> Interview:
    return _all_of(changed(assembly.new_interview(), HOMES[key]), HOMES[key])


def _typed(row: dict[str, Any]) -> Interview:
    """The tank with all that was typed of it."""
    if "like" not in row:
        return _home(row["key"])
    return _all_of(changed(_home(row["like"]), row["change"]), row["change"])


def _all_of(tank: Interview, said: dict[str, Any]) -> Interview:
    """The tank, of which no answer got lost."""
    told = {name for name, text in said.items() if text != ""} - {"animals"}
    assert told <= {place.id for place in tank.answers}
    return tank


def _findings(tank: Interview) -> Sequence[Finding]:
    """What the checks say; of a tank in planning with what its list decides."""
    if tank.given()["stage"].value == "planning":
        return assembly.audit_of(tank, "").findings
    return judged(tank)


@pytest.mark.parametrize("row", SOUND, ids=lambda row: row["tank"])
def test_a_good_keepers_tank_is_sound(row: dict[str, Any]) -> None:
    """Nothing wrong, no chance of danger that counts, no worry that rests on what nobody told."""
    findings = [finding for finding in _findings(_typed(row)) if finding.applies]
    worries = [f for f in findings if f.verdict != "good"]
    assert {f.verdict for f in worries} <= {"close", "unmeasured"}, [f.say for f in worries]
    assert not [f.check for f in worries if f.risk or (f.verdict == "close" and f.assumed)]
    assert grade_all(findings).overall in row["grade"], [f.say for f in worries]


@pytest.mark.parametrize("row", FAULTS, ids=lambda row: row["tank"])
def test_a_fault_is_judged_as_those_would_who_know(row: dict[str, Any]) -> None:
    findings = _findings(_typed(row))
    found = {finding.check: finding for finding in findings}
    for check, wanted in row["finds"].items():
        assert found[check].verdict in wanted, (row["because"], found[check].say)
    dangers = {finding.check for finding in findings if finding.verdict == "danger"}
    assert dangers <= set(row["finds"]), "a danger nobody meant"
    told = [(f.check, f.verdict, f.risk) for f in findings if f.verdict != "good" or f.risk]
    assert grade_all(findings).overall in row["grade"], told


def test_the_homes_are_of_many_kinds_and_regions() -> None:
    typed = [_typed(row).given() for row in SOUND]
    assert len({kind for given in typed for kind in given["species"].value}) >= 18
    assert len({given["region"].value for given in typed}) == 5
    assert len(FAULTS) >= 60 and len(SOUND) >= 20
