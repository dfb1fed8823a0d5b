"""Bad tanks are caught by the named check, good ones raise no alarm, odd ones get through."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from typed_tanks import TESTS, Audited, changed, interview_in

from interview import assembly
from interview.audit.audit import Audit
from interview.audit.checks.loader import all_checks
from interview.audit.grades import NO_GRADE, STOP
from interview.core.wiring import quantities
from interview.report.formats.json_form import audit_json


def _rows(name: str) -> list[dict[str, Any]]:
    """Every scalar as the characters that a keeper would type."""
    text = (TESTS / name).read_text(encoding="utf-8")
    rows: list[dict[str, Any]] = yaml.load(text, Loader=yaml.BaseLoader)
    return rows


BAD, GOOD = _rows("setups_bad.yaml"), _rows("setups_good.yaml")
UNCLEAN = re.compile(r"[{}]|\bnan\b|\binf\b|None|True|False|  |\.\.|-\d| ,| \.|_")
"""What no sentence may hold: braces, what computers say, negative numbers, loose marks."""


def test_there_are_enough_tanks_and_every_check_is_broken_by_one() -> None:
    assert len(BAD) >= 45 and len({row["slip"] for row in BAD}) == len(BAD)
    assert len(GOOD) >= 15 and len({row["tank"] for row in GOOD}) == len(GOOD)
    broken = {check for row in BAD for check in row["finds"]}
    assert broken == {c.id for c in all_checks()}, "each in a tank of tests/setups_bad.yaml"
    dangers = {check for row in BAD for check, v in row["finds"].items() if v == "danger"}
    able = {c.id for c in all_checks() if c.danger or "danger_when" in c.whens}
    assert dangers == able, "every check that can call danger does so in one of these tanks"


def test_the_base_tank_is_good_all_over(audited: Audited) -> None:
    audit = audited()
    other = {f.check for f in audit.findings if f.verdict != "good"}
    assert not other
    assert not [f.check for f in audit.findings if f.certainty == "open"]
    assert audit.grades.overall == "A"
    assert not audit.measure_next, "nothing is missing, and nothing open"


@pytest.mark.parametrize("row", BAD, ids=lambda row: row["slip"])
def test_a_slip_is_caught(row: dict[str, Any], audited: Audited) -> None:
    audit = audited(**row["change"])
    found = {f.check: f for f in audit.findings}
    for check, wanted in row["finds"].items():
        finding = found[check]
        verdicts = wanted if isinstance(wanted, list) else [wanted]
        assert finding.verdict in verdicts, (check, finding.verdict, finding.chance, finding.say)
        if finding.verdict != "good":
            assert finding.applies and finding.say and finding.do
    for check in row.get("warns", ()):
        assert 0.05 <= found[check].warning < 0.42
    for finding in audit.findings:
        for sentence in (finding.say, finding.do, finding.also):
            assert not UNCLEAN.search(sentence), (finding.check, sentence)
        assert finding.say.endswith(".")
        assert finding.say[0].isupper() or finding.say[0].isdigit()
    assert [inconsistency.id for inconsistency in audit.inconsistencies] == row.get("misfits", [])
    doubted = {name for inconsistency in audit.inconsistencies for name in inconsistency.rests}
    for finding in audit.findings:
        assert set(finding.doubted) <= doubted
        assert not (finding.doubted and finding.verdict == "good"), finding.check
    dangers = {f.check for f in audit.findings if f.verdict == "danger"}
    assert dangers <= set(row["finds"]), "a danger nobody meant"
    assert audit.grades.stop == bool(dangers)
    assert (audit.grades.overall == STOP) == bool(dangers)


@pytest.mark.parametrize("row", GOOD, ids=lambda row: row["tank"])
def test_a_good_tank_raises_no_alarm(row: dict[str, Any]) -> None:
    base = interview_in(TESTS / "tanks" / f"{row['like']}.yaml")
    audit = assembly.audit_of(changed(base, row["change"]), row["tank"])
    alarms = {f.check: f.say for f in audit.findings if f.verdict in ("wrong", "danger")}
    assert not alarms
    assert audit.grades.overall in ("A", "B")
    assert not audit.inconsistencies
    assert not any(f.risk for f in audit.findings)


# ---- odd tanks: whatever is known, every name of the vocabulary has its place

ODD: dict[str, dict[str, Any]] = {
    "nothing but the stage": {"stage": "living"},
    "one animal and no tank": {"animals": [{"species": "painted turtle"}]},
    "a tank without animals": {"tank_size": "90 x 40 x 40 cm", "water_line_below_rim": "10 cm"},
    "everything not sure": {
        "stage": "living", "animals": [{"species": "slider", "carapace_length": "12 cm"}],
        "tank_size": "90 x 40 x 40 cm", "water_line_below_rim": "not sure", "ph": "not sure",
        "heat_lamp_kind": "not sure", "uvb_lamp_kind": "not sure", "filter_kind": "not sure",
        "platform_kind": "not sure", "heater_mount": "not sure", "floor": "not sure",
    },
    "five animals of five kinds": {
        "stage": "living", "region": "europe", "tank_size": "200 x 80 x 70 cm",
        "water_line_below_rim": "10 cm", "substrate": "sand", "substrate_depth": "4 cm",
        "animals": [
            {"species": "spiny softshell", "carapace_length": "25 cm", "sex": "female"},
            {"species": "common musk turtle", "carapace_length": "6 cm"},
            {"species": "river cooter", "carapace_length": "28 cm", "mass": "3 kg"},
            {"species": "African helmeted turtle", "carapace_length": "14 cm"},
            {"species": "red-eared slider", "carapace_length": "3 cm", "age": "2 months"},
        ],
        "platform_kind": "floating", "platform_size": "40 x 30 cm",
        "platform_height_above_water": "3 cm", "platform_wall_gap": "5 cm",
    },
    "no heat, no light, no filter": {
        "stage": "living", "region": "elsewhere", "tank_size": "60 x 30 x 30 cm",
        "animals": [{"species": "Reeves turtle", "carapace_length": "10 cm"}],
        "water_line_below_rim": "20 cm", "platform_kind": "none", "heat_lamp_kind": "none",
        "uvb_lamp_kind": "none", "filter_kind": "none", "heater_mount": "none",
        "room_temperature_low": "20 °C", "room_temperature_high": "20 °C",
    },
}  # fmt: skip


# ---- what nobody could say


def test_nothing_known_is_no_grade(tmp_path: Path) -> None:
    audit = _odd(ODD["nothing but the stage"], tmp_path)
    assert audit.grades.overall == NO_GRADE
    assert not [f for f in audit.findings if f.applies and f.verdict == "good"]


def test_a_verdict_on_a_guess_says_that_it_is_one(audited: Audited) -> None:
    found = {f.check: f for f in audited(rcd="not sure", day_length="", night_light="").findings}
    assert found["rcd"].verdict == "danger"
    assert found["rcd"].assumed == ("rcd",)
    assert found["rcd"].say.startswith("Not known yet: “")
    for check in ("photoperiod", "night_dark"):
        assert found[check].verdict == "unmeasured"
        assert found[check].missing == found[check].assumed
    sure = {f.check: f for f in audited(rcd="no").findings}["rcd"]
    assert not sure.assumed
    assert "Not known" not in sure.say


def test_a_guess_that_decides_nothing_is_not_mentioned(audited: Audited) -> None:
    """Behind a guard it doesn't matter what the heater is made of."""
    found = {f.check: f for f in audited(heater_guard="yes", heater_body="").findings}
    assert (found["heater_glass"].verdict, found["heater_glass"].assumed) == ("good", ())


_NAMES = """
    tank_length tank_width tank_height inside_length inside_width inside_height brim_volume
    water_volume water_depth swim_area largest_carapace_length total_carapace_length animal_mass
    largest_animal_mass shell_height shell_width required_swim_area required_depth
    volume_per_shell_length escape_height outgrow_time tank_mass water_mass substrate_mass
    filled_mass floor_live_load floor_pressure joist_moment_share joist_shear_share glass_stress
    heat_loss target_water_temperature heater_margin evaporation_rate warm_up_time
    stuck_heater_temperature stuck_heater_time cooling_time water_change_dip heater_cover
    platform_temperature shell_temperature shell_temperature_hot_day shell_temperature_cold_day
    basking_rise lamp_power_share platform_area_needed platform_sinkage platform_edge_sinkage
    uvb_transmission uv_index_platform uv_index_shell uvb_lamp_output photokeratitis_margin
    actual_flow turnover feed_rate feed_need ammonia_load media_area media_area_needed
    ammonia_free_share ammonia_free nitrate_rise nitrate_peak water_change_share_needed
    cycling_time cycling_time_low cycling_time_high connected_load circuit_current circuit_share
    energy_per_month cost_per_month
"""
FIXED_NAMES = frozenset(_NAMES.split())


def _odd(answers: dict[str, Any], folder: Path) -> Audit:
    path = folder / "odd.yaml"
    setup = {"format": "tankside/1", "title": "odd", "answers": answers}
    path.write_text(json.dumps(setup, ensure_ascii=False), encoding="utf-8")
    return assembly.audit_of(interview_in(path), "odd")


@pytest.mark.parametrize("name", ODD)
def test_an_odd_tank_still_has_every_quantity_and_check(name: str, tmp_path: Path) -> None:
    tree = json.loads(audit_json(_odd(ODD[name], tmp_path)))
    assert [f["check"] for f in tree["findings"]] == [c.id for c in all_checks()]
    missing = FIXED_NAMES - set(tree["quantities"])
    assert missing <= {"tank_length", "tank_width", "tank_height"}
    assert not missing or "tank_size" not in ODD[name]
    for label, figure in tree["quantities"].items():
        if figure["how"] == "unmeasured":
            assert figure["value"] is None
            assert figure.get("missing") or figure.get("reason"), label
            known = set(quantities().units) | {q.id for q in assembly.questionnaire()}
            assert set(figure.get("missing", ())) <= known
        else:
            assert figure["value"] is not None, label
    for finding in tree["findings"]:
        assert finding["say"]
        if finding["verdict"] == "unmeasured":
            assert finding["chance"] is None and finding["value"] is None
            assert finding.get("missing") or "Not judged" in finding["say"], finding
        assert not UNCLEAN.search(f"{finding['say']} {finding['do']}".strip()), finding


def test_what_is_missing_is_what_a_keeper_can_answer(tmp_path: Path) -> None:
    """No finding asks for a computed name; the audit says first what judges most."""
    audit = _odd(ODD["one animal and no tank"], tmp_path)
    asked = {n for q in assembly.questionnaire() for n in (q.id, *q.names)}
    for finding in audit.findings:
        assert set(finding.missing) <= asked, finding.check
    assert set(audit.measure_next) <= asked
    assert audit.measure_next[0] in ("carapace_length", "stage", "platform_kind")
