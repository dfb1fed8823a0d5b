"""The audit as JSON: the keys people's scripts read, strict JSON, core units."""

from __future__ import annotations

import json
import math
from typing import Any

import numpy as np
import pytest
from hostile import HOSTILE
from kept import anew
from report_tanks import DEMOS, audit_at

from interview import assembly, setups
from interview.audit.audit import Audit
from interview.audit.checks.loader import all_checks
from interview.audit.checks.rows import SECTIONS
from interview.care.facts import STATUSES, bibliography
from interview.core.wiring import quantities
from interview.report.formats.json_form import audit_json
from interview.report.formats.json_values import number

TOP = {
    "format", "title", "grade", "stop", "sections", "quantities", "findings", "changes",
    "after_changes", "measure_next", "notes", "sources",
}  # fmt: skip
FINDING = {
    "check", "section", "verdict", "chance", "measures", "value", "band", "unit", "say", "do",
    "sources", "status",
}  # fmt: skip
HOW = ("measured", "estimated", "assumed", "computed", "unmeasured", "decided")
FIGURE = {"value", "low", "high", "unit", "how"}
CHANGE = {"quantity", "from", "to", "unit", "say"}
GRADES = {"A", "B", "C", "D", "E", "no grade"}


def _strict(text: str) -> dict[str, Any]:
    def refuse(word: str) -> None:
        raise AssertionError(f"{word} is no JSON")

    tree: dict[str, Any] = json.loads(text, parse_constant=refuse)
    return tree


@pytest.fixture(scope="module")
def trees(demos: dict[str, Audit]) -> dict[str, dict[str, Any]]:
    return {name: _strict(audit_json(audit)) for name, audit in demos.items()}


def test_the_keys_are_those_of_the_vocabulary(trees: dict[str, dict[str, Any]]) -> None:
    for tree in trees.values():
        assert set(tree) >= TOP
        assert tree["format"] == "tankside/audit/1"
        assert [row["section"] for row in tree["sections"]] == list(SECTIONS)
        assert all(set(row) == {"section", "grade"} for row in tree["sections"])
        assert {row["grade"] for row in tree["sections"]} <= GRADES
        assert tree["grade"] in GRADES | {"STOP"}
        assert tree["stop"] is (tree["grade"] == "STOP")
        assert set(tree["after_changes"]) >= {"grade", "stop"}
        for change in tree["changes"]:
            assert set(change) >= CHANGE


def test_every_check_has_its_finding(trees: dict[str, dict[str, Any]]) -> None:
    for tree in trees.values():
        assert [row["check"] for row in tree["findings"]] == [c.id for c in all_checks()]
        for row in tree["findings"]:
            assert set(row) >= FINDING
            assert row["verdict"] in ("good", "close", "wrong", "danger", "unmeasured")
            assert row["status"] in STATUSES
            assert row["sources"], row["check"]
            if row["verdict"] == "unmeasured":
                assert row["chance"] is None and row["missing"]
            elif row["applies"]:
                assert 0 <= row["chance"] <= 1
            else:
                assert row["chance"] is None and row["verdict"] == "good"
                assert row["say"].startswith("Does not apply here: ")
            assert row["band"] is None or len(row["band"]) == 2


def test_quantities_hold_answers_and_what_follows(
    demos: dict[str, Audit], trees: dict[str, dict[str, Any]]
) -> None:
    for name, tree in trees.items():
        rows = tree["quantities"]
        assert set(quantities().formulas) - set(rows) == {
            n for n, f in quantities().formulas.items() if f.unit in ("choice", "yes/no")
        } - set(rows)
        for label, row in rows.items():
            assert set(row) >= FIGURE
            assert row["how"] in HOW
            assert row["unit"] not in ("choice", "yes/no")
            if isinstance(row["low"], float):
                assert row["high"] == "infinite" or row["low"] <= row["high"], label
        for item in demos[name].readings:
            if item.unit not in ("choice", "yes/no"):
                assert rows[item.name]["how"] == item.how


def test_the_musk_turtle_by_hand(trees: dict[str, dict[str, Any]]) -> None:
    """100 x 40 x 40 cm with 11 cm to the rim: what the file says, in core units."""
    rows = trees["musk_turtle"]["quantities"]
    assert rows["tank_length"]["value"] == 1.0
    assert rows["tank_length"]["how"] == "measured"
    assert rows["water_line_below_rim"]["value"] == pytest.approx(0.11)
    assert rows["water_line_below_rim"]["how"] == "estimated"
    assert rows["water_temperature"]["unit"] == "degC"
    assert rows["carapace_length"]["value"] == [pytest.approx(0.095)]
    assert rows["water_depth"]["how"] == "computed"
    depth = rows["inside_height"]["value"] - 0.11 - 0.03
    assert rows["water_depth"]["value"] == pytest.approx(depth, abs=1e-6)
    assert rows["outgrow_time"]["value"] == "infinite"


def test_sources_are_those_used_and_resolved(trees: dict[str, dict[str, Any]]) -> None:
    for tree in trees.values():
        used = {key for row in tree["findings"] for key in row["sources"]}
        assert used <= set(tree["sources"])
        for key, text in tree["sources"].items():
            assert text == bibliography()[key]


def test_what_is_missing_can_be_asked(trees: dict[str, dict[str, Any]]) -> None:
    asked = {n for q in assembly.questionnaire() for n in (q.id, *q.names)}
    for tree in trees.values():
        assert set(tree["measure_next"]) <= asked
        for row in tree["findings"]:
            assert set(row.get("missing", ())) <= asked


def test_twice_the_same_bytes(demos: dict[str, Audit]) -> None:
    for audit in demos.values():
        assert audit_json(audit) == audit_json(audit)


@pytest.mark.parametrize("name", ["musk_turtle", "painted_turtles_classroom"])
def test_the_same_file_audited_anew_gives_the_same_bytes(
    name: str, demos: dict[str, Audit]
) -> None:
    interview = assembly.new_interview()
    setup = setups.read(DEMOS / f"{name}.yaml", interview.questionnaire)
    setups.fill(interview, setup)
    again = anew(interview, setup.title)
    assert again is not demos[name]
    assert audit_json(again).encode() == audit_json(demos[name]).encode()


def test_a_hostile_title_stays_a_string(hostile: Audit) -> None:
    assert _strict(audit_json(hostile))["title"] == HOSTILE


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (None, None),
        ("floating", "floating"),
        (True, True),
        (1.23456789012, 1.2345679),
        (math.inf, "infinite"),
        (-math.inf, "-infinite"),
        (math.nan, None),
        (np.float64(2.5), 2.5),
        (np.array(3), 3.0),
        (np.array([1.0, math.nan]), [1.0, None]),
        ((1, 2.0), [1.0, 2.0]),
        (("a", "b"), ["a", "b"]),
        (0.1 + 0.2, 0.3),
    ],
    ids=str,
)
def test_numbers_json_can_hold(value: Any, shown: Any) -> None:
    assert number(value) == shown
    json.dumps(number(value), allow_nan=False)


def test_a_chance_of_danger_worth_a_warning_is_told(trees: dict[str, dict[str, Any]]) -> None:
    """As on the page: the classroom's basking spot, too hot, and by chance dangerous."""
    warned = {
        row["check"]: row["warning"]
        for row in trees["painted_turtles_classroom"]["findings"]
        if "warning" in row
    }
    assert warned["basking_heat"] == pytest.approx(0.29, abs=0.01)
    assert all(0.05 <= chance < 0.42 for chance in warned.values())


def test_what_lowered_a_grade_is_told(trees: dict[str, dict[str, Any]]) -> None:
    caps = trees["musk_turtle"]["caps"]
    assert caps[0]["section"] is None and caps[0]["grade"] == "D"
    (basking,) = [cap for cap in caps if cap["section"] == "basking"]
    assert basking["checks"] == ["photoperiod", "night_dark"]
    assert basking["missing"] == ["day_length", "night_light"]
    assert basking["say"].startswith("Basking can be B at best: not known is “Hours of light”")


def test_every_plan_is_there_with_its_moved_answers_and_grade() -> None:
    audit = audit_at(DEMOS / "river_cooter_adult.yaml")
    advice = assembly.advice_of(audit)
    tree = _strict(audit_json(audit, advice))
    assert [row["name"] for row in tree["plans"]] == [plan.name for plan in advice.plans]
    for row, plan in zip(tree["plans"], advice.plans, strict=True):
        assert set(row) >= {"changes", "moved", "grade", "stop", "left", "take_again"}
        assert (row["grade"], row["stop"]) == (plan.grades.overall, plan.grades.stop)
        assert [one["quantity"] for one in row["moved"]] == [m.quantity for m in plan.moved]
        assert all(set(one) >= CHANGE for one in (*row["changes"], *row["moved"]))
        assert row["sections"] and all(set(one) == {"section", "grade"} for one in row["sections"])
    last = tree["plans"][-1]
    assert tree["changes"] == last["changes"]
    assert tree["after_changes"] == {"grade": last["grade"], "stop": last["stop"]}
    assert "basking_temperature" in last["take_again"], "the lamp hangs higher"
