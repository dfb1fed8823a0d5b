"""The checks as data: each runs its own examples; a bad file is refused with file and line."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from every import every

import interview.care.facts as facts
from interview import assembly
from interview.audit.checks.check import Check
from interview.audit.checks.faults import faults
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks, checks_by_id, read_checks
from interview.audit.checks.rows import SECTIONS
from interview.audit.immediate_action import ImmediateAction
from interview.audit.inconsistencies import all_inconsistencies
from interview.audit.tank import Tank
from interview.base.rows.lines import FileError
from interview.care.facts import STATUSES, assumptions, bibliography, doubts, limits, read_facts
from interview.care.mishaps import mishap_rules
from interview.core.wiring import quantities
from interview.graph.given import Place

SHIPPED = Path(assembly.__file__).parent

# The ids people's scripts depend on, by section.
CHECKS = {
    "space": "swim_area swim_depth depth_for_young volume_rule escape outgrow grown_size company",
    "basking": (
        "platform_space platform_float platform_gap ramp basking_heat basking_hot_day "
        "basking_cold_day lamp_holder lamp_plastic lamp_fixing lamp_reach lamp_glass photoperiod "
        "night_dark"
    ),
    "ultraviolet": (
        "uv_zone uv_barrier compact_lamp arc_lamp uvb_lamp_holder uvb_reach uv_overdose uv_lamp_age"
    ),
    "water": (
        "water_temperature hot_room_water breathing_air heater_power heater_stuck heater_cover "
        "heater_glass water_change_dip"
    ),
    "filter": (
        "turnover media intake intake_cover intake_sand cycling ph ammonia ammonia_peak nitrite "
        "nitrate nitrate_today dechlorination"
    ),
    "feeding": "feeding diet feeding_pause",
    "structure": "floor_load tank_glass acrylic stand tank_damage",
    "electricity": "circuit rcd drip_loops strip cords",
    "hazards": "substrate_grain decor wood plants poisonous_plants additives warning_signs",
    "household": "hygiene small_turtle_law invasive_law quarantine other_pets",
}

# Checks whose conditions leave nothing over to be merely wrong.
DANGER_OR_GOOD = {
    "platform_gap": "a gap traps, is at the edge of trapping, or is harmless",
    "tank_glass": "what is more than to ask the maker about can break, and that is a danger",
    "rcd": "there is one or there is none, and none is a danger",
}

# Checks that can't be wrong, and why; their failing example is close.
NEVER_WRONG = {
    "small_turtle_law": "owning a small turtle is not banned, only selling it",
    "acrylic": "nothing is known of it but that nobody stands for it",
    "intake_sand": "sand in the pump harms no animal",
    "wood": "unsoaked wood is untidy and seldom harms; weight 1",
}


def _tank(pinned: Mapping[str, Any], system: str = "metric") -> Tank:
    """A tank of which only the pinned quantities are known, without doubt."""
    known: dict[str, Any] = {name: fact.value for name, fact in assumptions().items()}
    known |= {n: tuple(v) if isinstance(v, list) else v for n, v in pinned.items()}
    working = quantities().working(known)
    asked = {q.id: q.unit for q in assembly.questionnaire()}
    units = {**asked, **working.wiring.units}
    return Tank(working, working, lambda n: units.get(n, "1"), assembly.label_of, system)


def _judged(check: Check, pinned: Mapping[str, Any]) -> Finding:
    return judge(check, _tank(pinned))


each_check = every("check", all_checks(), ids=lambda c: c.id)


def test_every_check_exists_once_in_its_section() -> None:
    found = [(c.section, c.id) for c in all_checks()]
    wanted = [(section, name) for section in SECTIONS for name in CHECKS[section].split()]
    assert sorted(found) == sorted(wanted), "a new check is added to CHECKS above, in its section"


def test_the_shipped_data_has_no_faults() -> None:
    assert assembly.faults() == []


@each_check
def test_the_passing_example_is_good(check: Check) -> None:
    finding = _judged(check, check.passes)
    assert (finding.verdict, finding.applies) == ("good", True), finding.say
    assert finding.chance == 1.0


@each_check
def test_the_failing_example_fails(check: Check) -> None:
    finding = _judged(check, check.fails)
    wanted = {"close"} if check.id in NEVER_WRONG else {"wrong", "danger"}
    assert finding.verdict in wanted, (finding.verdict, finding.say)
    assert finding.do, "a finding that fails says what to do"


def test_an_unknown_circuit_is_good_only_where_the_smallest_one_carries_all() -> None:
    """10 A at 100 V carry 800 W for hours: 80 % of the breaker (nec_2023, from memory)."""
    circuit = next(check for check in all_checks() if check.id == "circuit")
    tank = {"region": "elsewhere", "connected_load": 300.0, "heater_mount": "horizontal"}
    told = {load: _judged(circuit, {**tank, "circuit_other_load": load}) for load in (500.0, 510.0)}
    assert {load: finding.verdict for load, finding in told.items()} == {
        500.0: "good",
        510.0: "unmeasured",
    }


@each_check
def test_every_number_compared_has_status_and_source(check: Check) -> None:
    formulas, known = quantities().formulas, {**limits(), **assumptions()}
    asked = {name for q in assembly.questionnaire() for name in (q.id, *q.names)}
    for _, bound in check.compared:
        if bound in known:
            assert known[bound].status in STATUSES
            assert known[bound].source in bibliography()
        elif bound in formulas:
            assert all(c.key in bibliography() for c in formulas[bound].sources)
        else:
            assert bound in asked
    for pinned in (check.passes, check.fails):
        finding = _judged(check, pinned)
        assert finding.status in STATUSES
        assert finding.sources and set(finding.sources) <= set(bibliography())


def test_ammonia_that_shows_an_unripe_filter_excuses_no_small_one() -> None:
    """Media too small by the table is close while the kit reads none; 0.5 mg/L isn't none."""
    tank = {"media_area": 1.0, "media_area_needed": 2.0, "filter_age": 3e7, "nitrite": 0.0}
    told = {
        read: _judged(
            checks_by_id()["media"],
            {**tank, "ammonia": read, "filter_kind": "canister", "stage": "living"},
        ).verdict
        for read in (0.0, 0.4, facts.limit("unripe_ammonia"))
    }
    assert told == {0.0: "close", 0.4: "close", 0.5: "wrong"}


@pytest.mark.parametrize(
    ("names", "poisonous", "forbidden"),
    [
        ("two dumb canes", "wrong", "good"),
        ("Dieffenbachia seguine", "wrong", "good"),
        ("lilies-of-the-valley", "wrong", "good"),
        ("pothos plant", "close", "good"),
        ("Devil’s ivy cuttings", "close", "good"),
        ("elephant ears", "close", "good"),
        ("water hyacinths", "good", "wrong"),
        ("a bit of green cabomba", "good", "wrong"),
        ("anubias, java moss, duckweed", "good", "good"),
        ("plastic dumb cane, anubias", "good", "good"),
    ],
)
def test_plants_are_known_in_the_plural_and_beside_other_words(
    names: str, poisonous: str, forbidden: str
) -> None:
    interview = assembly.new_interview()
    interview.record(Place("live_plants"), names)
    pinned = {"live_plants": interview.given()["live_plants"].value, "region": "europe"}
    checks = checks_by_id()
    found = [_judged(checks[name], pinned).verdict for name in ("poisonous_plants", "plants")]
    assert found == [poisonous, forbidden]


@each_check
def test_words_compared_are_choices_of_their_question(check: Check) -> None:
    conditions = [*check.whens.values(), *([check.relevant] if check.relevant else [])]
    for name, word in (pair for c in conditions for pair in c.words()):
        question = assembly.questionnaire().by_id.get(name)
        if question is None or question.type == "names":
            assert name in quantities().units or question, name
            continue
        allowed = {o.name for o in question.choices or assembly.lists().options.get(name, ())}
        assert word in ({"yes", "no"} if question.type == "yes_no" else allowed), (name, word)


@each_check
def test_each_verdict_a_check_can_give_has_words(check: Check) -> None:
    """Numbers doubted or out of band: every check that compares them can be close."""
    if check.compared:
        assert {"close", "close_low", "close_high"} & set(check.say), "no words for close"
    if check.danger or "danger_when" in check.whens:
        assert check.say["danger"] and check.do["danger"]
    if "wrong_when" in check.whens or (
        check.good is None and check.id not in {*NEVER_WRONG, *DANGER_OR_GOOD}
    ):
        assert check.say["wrong"] and check.do["wrong"]
    if check.good:
        for side, bounded in (("low", check.good.low), ("high", check.good.high)):
            assert not bounded or {side, f"close_{side}"} & set(check.say), side
    for outcome in set(check.say) - {"good", "unmeasured"}:
        assert {outcome, "close"} & set(check.do), f"{outcome} is said, but nothing to do"


def test_doubts_are_in_the_unit_of_their_answer() -> None:
    asked = {q.id: q.unit for q in assembly.questionnaire()}
    for name, doubt in doubts().items():
        unit = "K" if doubt.unit == "K" and asked[name] == "degC" else doubt.unit
        assert unit in (asked[name], "K"), name


def test_an_assumption_in_another_unit_is_a_fault_with_file_and_line() -> None:
    units = {q.id: q.unit for q in assembly.questionnaire()} | quantities().units
    doubted = {name for inconsistency in all_inconsistencies() for name in inconsistency.names}
    doubted |= {one.name for one in mishap_rules().limits}
    assert not list(faults(all_checks(), units, doubted))
    spoilt = {**units, "evaporation_factor": "kg"}
    assert [fault.partition(": ")[2] for fault in faults(all_checks(), spoilt, doubted)] == [
        "evaporation_factor is assumed in [1], but formulas take it in [kg]"
    ]
    assert next(faults(all_checks(), spoilt, doubted)).startswith(
        "interview/care/assumptions/heat.yaml, line "
    )


def test_a_limit_that_nothing_uses_is_a_fault() -> None:
    units = {q.id: q.unit for q in assembly.questionnaire()} | quantities().units
    (fault, *_) = faults(all_checks(), units)
    assert fault == "the limit ammonia_of_ripe_filter is used by no check and no misfit"


def test_actions_that_fit_no_other_check_are_faults() -> None:
    """Typed keys instead of how sentences begin: a word anew in a check parts no orders."""
    units = {q.id: q.unit for q in assembly.questionnaire()} | quantities().units
    by_id = {check.id: check for check in all_checks()}

    def told(check: str, now: ImmediateAction) -> list[str]:
        spoilt = replace(by_id[check], now={"danger": now})
        checks = [spoilt if one.id == check else one for one in all_checks()]
        return [f.partition(": ")[2] for f in faults(checks, units) if "limit" not in f]

    assert told("stand", ImmediateAction(say="Empty the tank.")) == [
        f"{check}: no check's `now` has the effect tank_emptied"
        for check in (
            *("platform_float", "platform_gap", "water_temperature", "heater_cover"),
            *("heater_glass", "intake", "intake_cover", "ammonia", "nitrite", "nitrate_today"),
            *("dechlorination", "floor_load", "tank_glass", "tank_damage"),
        )
    ]
    assert told("heater_cover", ImmediateAction(say="Unplug it.", joined={"heater": "Off."})) == [
        "heater_cover: `joined` names heater, which is no check"
    ]


# ---- bad files


CHECK = """\
section: water
checks:
  - check: water_temperature
    claim: Warm enough.
    measures: water_temperature
    why: Because.
    weight: 4
    harm: {danger: animal, wrong: health}
    good: {at_least: [water_band_low], at_most: [water_band_high]}
    danger: {above: [water_danger_high]}
    say: {good: "fine", low: "cold", high: "hot", close: "near", danger: "hot"}
    sources: [common_practice]
    passes: {water_temperature: 24}
    fails: {water_temperature: 16}
    known_limits: none known
"""

BAD_CHECKS = {
    "no why": ("    why: Because.\n", "", "has no why", 3),
    "no known limits": ("    known_limits: none known\n", "", "has no known_limits", 3),
    "no harm": ("    harm: {danger: animal, wrong: health}\n", "", "has no harm", 3),
    "a harm nobody knows": ("wrong: health}", "wrong: money}", "money", 8),
    "unknown key": (
        "    weight: 4\n",
        "    weight: 4\n    wieght: 4\n",
        "unknown key “wieght”; did you mean “weight”?",
        8,
    ),
    "unknown source": (
        "[common_practice]",
        "[a_friend]",
        "“a_friend” is not in the bibliography",
        12,
    ),
    "an effect nobody knows": (
        "    sources:",
        "    now: {danger: {say: Unplug it., effects: [tank_empty]}}\n    sources:",
        "tank_empty",
        12,
    ),
    "off for ever": (
        "    sources:",
        "    now: {danger: {isolates: heat_lamp}}\n    sources:",
        "`until` goes with `isolates` or `adjusts`",
        12,
    ),
    "two sentences for one action": (
        "    sources:",
        "    now: {danger: {say: Off., isolates: heat_lamp, until: higher}}\n    sources:",
        "either `say` or `isolates`",
        12,
    ),
    "unless without a clause": (
        "    sources:",
        "    now: {danger: {say: Off., unless: tank_emptied}}\n    sources:",
        "the clause `then`, which isn't there",
        12,
    ),
    "unknown status": (
        "    weight: 4\n",
        "    weight: 4\n    status: sure\n",
        "“sure” is none of",
        8,
    ),
    "unknown bound": ("water_band_low", "water_band_lowest", "water_band_lowest, which nobody", 3),
    "another unit": ("water_band_low", "required_depth", "required_depth in [m]", 3),
    "limit in another unit": ("water_danger_high", "dip_good", "dip_good in [K]", 3),
    "upside down": (
        "{at_least: [water_band_low], at_most: [water_band_high]}",
        "{at_least: [water_danger_high], at_most: [water_close_high]}",
        "water_danger_high is above water_close_high",
        3,
    ),
    "close inside good": (
        "    danger: {above: [water_danger_high]}\n",
        "    close: {at_most: [water_danger_high]}\n    danger: {above: [water_close_high]}\n",
        "upside down",
        3,
    ),
    "a band of another shape": ("{above: [water", "{over: [water", "unknown key “over”", 10),
    "an outcome nobody gives": ("close: ", "nearly: ", "“nearly” is none of good", 11),
    "unreadable condition": (
        "    weight: 4\n",
        "    weight: 4\n    wrong_when: rather cold\n",
        "can't read the condition",
        8,
    ),
    "a bare number": (
        "    weight: 4\n",
        "    weight: 4\n    wrong_when: water_temperature below 12 degC\n",
        "bare number",
        3,
    ),
    "a condition with another unit": (
        "    weight: 4\n",
        "    weight: 4\n    wrong_when: water_depth below water_danger_high\n",
        "water_danger_high in [degC]",
        3,
    ),
    "overrules what is not there": (
        "    weight: 4\n",
        "    weight: 4\n    overrules_danger: good_when\n",
        "good_when is no condition here",
        8,
    ),
}


def _refused(
    good: str, fault: tuple[str, str, str, int], path: Path, read: Callable[[Path], object]
) -> None:
    """Spoil a good file in one place; its reader names file, line and fault."""
    old, new, message, line = fault
    assert good.count(old) >= 1
    path.write_text(good.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(FileError, match=re.escape(message)) as caught:
        read(path.parent)
    assert str(caught.value).startswith(f"{path.name}, line {line}: ")


@pytest.mark.parametrize("fault", BAD_CHECKS)
def test_a_bad_check_is_refused_with_file_and_line(fault: str, tmp_path: Path) -> None:
    _refused(CHECK, BAD_CHECKS[fault], tmp_path / "water.yaml", read_checks)


def test_the_good_check_of_these_tests_is_read(tmp_path: Path) -> None:
    (tmp_path / "water.yaml").write_text(CHECK, encoding="utf-8")
    assert [c.id for c in read_checks(tmp_path)] == ["water_temperature"]


def test_a_check_given_twice_or_in_no_section_is_refused(tmp_path: Path) -> None:
    twice = CHECK + CHECK.partition("checks:\n")[2]
    (tmp_path / "water.yaml").write_text(twice, encoding="utf-8")
    with pytest.raises(FileError, match=r"water.yaml, line 16: .* given twice"):
        read_checks(tmp_path)
    (tmp_path / "water.yaml").write_text(CHECK.replace("section: water", "section: sea"))
    with pytest.raises(FileError, match="“sea” is none of space"):
        read_checks(tmp_path)


LIMIT = """\
# limits of a test
nitrite_good:
  value: 0.5
  unit: mg/L
  status: practice
  source: common_practice
  meaning: what a running filter keeps below
"""

BAD_LIMITS = {
    "no source": ("  source: common_practice\n", "", "has no source", 3),
    "no status": ("  status: practice\n", "", "has no status", 3),
    "no unit": ("  unit: mg/L\n", "", "has no unit", 3),
    "no meaning": ("  meaning: what a running filter keeps below\n", "", "has no meaning", 3),
    "no value": ("  value: 0.5\n", "", "has no value", 3),
    "unknown status": ("practice\n", "certain\n", "status: “certain” is none of", 5),
    "unknown source": ("common_practice", "a_friend", "“a_friend” is not in the bibliography", 6),
    "unknown key": ("  value", "  limit: 3\n  value", "unknown key “limit”", 3),
    "unknown unit": ("mg/L", "ppm", "unit “ppm”", 4),
    "a word for a number": ("0.5", "half", "value: “half” is no number", 3),
    "endless": ("0.5", ".inf", "is no number", 3),
    "upside down": ("  unit", "  low: 2\n  high: 1\n  unit", "not in order", 4),
    "value outside": ("  unit", "  low: 2\n  high: 3\n  unit", "not in order", 4),
    "negative doubt": ("  unit", "  spread: -1\n  unit", "can't be negative", 4),
    "factor under one": ("  unit", "  factor: 0.5\n  unit", "at least 1", 4),
}


@pytest.mark.parametrize("fault", BAD_LIMITS)
def test_a_bad_limit_or_assumption_is_refused_with_file_and_line(
    fault: str, tmp_path: Path
) -> None:
    _refused(LIMIT, BAD_LIMITS[fault], tmp_path / "filter.yaml", read_facts)


DOUBT = """\
# doubts of a test
ph:
  spread: 0.2
  unit: "1"
  status: assumption
  source: modelling_choice
  meaning: drop kit
"""

BAD_DOUBTS = {
    "no source": ("  source: modelling_choice\n", "", "ph has no source", 3),
    "no unit": ('  unit: "1"\n', "", "ph has no unit", 3),
    "unknown unit": ('"1"', "pints", "unit “pints”", 4),
    "upside down": ("  unit", "  low: 9\n  high: 5\n  unit", "not in order", 4),
    "negative": ("0.2", "-0.2", "can't be negative", 3),
    "negative by an instrument": (
        "drop kit\n",
        "drop kit\n  instruments:\n    strip: {called: a strip, spread: -0.4, meaning: strip, "
        "status: memory, source: recalled}\n",
        "can't be negative",
        9,
    ),
}


@pytest.mark.parametrize("fault", BAD_DOUBTS)
def test_a_bad_doubt_is_refused_with_file_and_line(fault: str, tmp_path: Path) -> None:
    def read_doubts(folder: Path) -> object:
        return facts.read_doubts(folder / "doubts.yaml")

    _refused(DOUBT, BAD_DOUBTS[fault], tmp_path / "doubts.yaml", read_doubts)


@pytest.mark.parametrize("folder", ["limits", "assumptions"])
def test_a_source_taken_out_anywhere_is_told(folder: str, tmp_path: Path) -> None:
    """Each file of the folder, its first source taken out, is refused by file and line."""
    for path in sorted((SHIPPED / "care" / folder).glob("*.yaml")):
        text = re.sub(r"\n  source: \w+\n", "\n", path.read_text(encoding="utf-8"), count=1)
        (tmp_path / path.stem).mkdir()
        (tmp_path / path.stem / path.name).write_text(text, encoding="utf-8")
        with pytest.raises(FileError, match=rf"^{path.name}, line \d+: \w+ has no source"):
            read_facts(tmp_path / path.stem)


def test_a_limit_given_in_two_files_is_refused(tmp_path: Path) -> None:
    for name in ("filter.yaml", "water.yaml"):
        (tmp_path / name).write_text(LIMIT, encoding="utf-8")
    with pytest.raises(FileError, match=r"water.yaml, line 3: .*another file"):
        read_facts(tmp_path)


def test_the_shipped_files_go_through_the_same_door(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A source taken out of a shipped limit stops the audit at load, naming the file."""
    folder = tmp_path / "limits"
    shutil.copytree(SHIPPED / "care" / "limits", folder)
    path = folder / "water.yaml"
    path.write_text(path.read_text().replace("  source: modelling_choice\n", "", 1))
    with pytest.raises(FileError, match=r"water.yaml, line \d+: water_close_high has no source"):
        facts.read_facts(folder)


def test_an_animal_row_is_shown_not_compared() -> None:
    """No check compares a row of animals: what differs by animal is reduced in the core."""
    best = _tank({"species": ("chrysemys_picta",) * 2, "sex": ("male",) * 2,
                  "carapace_length": np.array([0.1, 0.12])}).best  # fmt: skip
    for check in all_checks():
        for name in {n for pair in check.compared for n in pair}:
            value = None if name in limits() else best.get(name)
            assert not getattr(value, "ndim", 0), name
