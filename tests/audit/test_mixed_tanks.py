"""Several animals in one tank: each is held to its own limits, and the finding names it."""

from __future__ import annotations

from typing import Any

import pytest
from typed_tanks import Audited

from interview.audit.audit import Audit
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.report.formats.json_form import audit_json
from interview.report.formats.markdown import markdown

MUSK = {"species": "common musk turtle", "carapace_length": "11 cm", "sex": "female"}
MAP = {"species": "Ouachita map turtle", "carapace_length": "8 cm", "sex": "male"}
HATCHLING = {"species": "red-eared slider", "carapace_length": "4 cm", "sex": "unknown"}
SOFTSHELL = {"species": "spiny softshell", "carapace_length": "10 cm", "sex": "male"}
EACH = {check.id for check in all_checks() if check.each_animal}


def _by(audit: Audit) -> dict[str, Finding]:
    return {finding.check: finding for finding in audit.findings}


@pytest.fixture(scope="module")
def mixed(audited: Audited) -> Audit:
    return audited(animals=[MUSK, MAP])


@pytest.mark.parametrize(
    "check", ["basking_heat", "uv_zone", "water_temperature", "swim_depth", "platform_gap"]
)
def test_each_animal_gets_what_it_would_get_alone(
    check: str, mixed: Audit, audited: Audited
) -> None:
    together = _by(mixed)[check]
    alone = [_by(audited(animals=[animal]))[check] for animal in (MUSK, MAP)]
    assert [one.value for one in together.each] == [pytest.approx(f.value) for f in alone]
    assert [one.band for one in together.each] == [f.band for f in alone]


def test_the_finding_is_about_the_animal_that_fares_worst(mixed: Audit) -> None:
    zone = _by(mixed)["uv_zone"]
    assert [one.verdict for one in zone.each] == ["good", "close"]
    assert zone.animal is not None and (zone.animal.row, zone.verdict) == (1, "close")
    assert zone.band == (2.9, 7.4)
    assert zone.say.startswith("For the Ouachita map turtle (8 cm): UV index 1.7")
    assert "2.9 to 7.4 are wanted" in zone.say


def test_no_verdict_of_a_mixed_tank_is_better_than_that_of_any_animal(mixed: Audit) -> None:
    order = ("good", "unmeasured", "close", "wrong", "danger")
    for finding in mixed.findings:
        for one in finding.each:
            assert order.index(finding.verdict) >= order.index(one.verdict)


def test_two_that_exclude_each_other_are_named(audited: Audited) -> None:
    """A grown pond turtle wants 20 to 25 °C, a hatchling slider 26 to 28 °C."""
    cool = {"species": "European pond turtle", "carapace_length": "12 cm", "sex": "male"}
    found = _by(audited(animals=[cool, HATCHLING], water_temperature="23 °C"))["water_temperature"]
    assert [one.band for one in found.each] == [(20.0, 25.0), (26.0, 28.0)]
    assert (found.animal, found.band) == (found.each[1].animal, (26.0, 28.0))
    assert found.say.endswith(
        "The red-eared slider (4 cm) wants at least 26 °C, the European pond turtle (12 cm) "
        "at most 25 °C: no one setting suits both."
    )


def test_bands_that_meet_are_not_called_a_clash(mixed: Audit) -> None:
    for finding in mixed.findings:
        assert "suits both" not in finding.say


def test_animals_that_are_alike_are_not_told_apart(audited: Audited) -> None:
    for finding in audited(animals=[MUSK, MUSK]).findings:
        assert finding.animal is None and not finding.each


def test_one_animal_is_never_named(audited: Audited) -> None:
    for finding in audited().findings:
        assert finding.animal is None and not finding.each


def test_same_kind_and_length_are_told_apart_by_sex(audited: Audited) -> None:
    audit = audited(animals=[MUSK, {**MUSK, "sex": "male"}, MAP])
    names = [animal.name for animal in audit.tank.animals]
    assert names == [
        "common musk turtle (11 cm, female)",
        "common musk turtle (11 cm, male)",
        "Ouachita map turtle (8 cm)",
    ]


def test_a_gap_is_held_to_the_shell_of_the_kind(audited: Audited) -> None:
    """A flat softshell of 10 cm gets under a gap of 2.4 cm that a musk turtle can't enter."""
    change: dict[str, Any] = {"platform_wall_gap": "2.4 cm", "region": "north_america"}
    musk = _by(audited(animals=[{**MUSK, "carapace_length": "10 cm"}], **change))
    soft = _by(audited(animals=[SOFTSHELL], **change))
    both = _by(audited(animals=[{**MUSK, "carapace_length": "10 cm"}, SOFTSHELL], **change))
    assert musk["platform_gap"].verdict == "good"
    assert soft["platform_gap"].verdict == both["platform_gap"].verdict == "danger"
    assert both["platform_gap"].say.startswith("For the spiny softshell turtle (10 cm): a gap of")


def test_page_and_json_tell_of_each_animal(mixed: Audit) -> None:
    text = markdown(mixed)
    assert "Animal by animal: common musk turtle (11 cm) good (1.9, 1.1 to 3 wanted)" in text
    assert "Ouachita map turtle (8 cm) close (1.7, 2.9 to 7.4 wanted)" in text
    assert '"name": "Ouachita map turtle (8 cm)"' in audit_json(mixed)


def test_only_limits_that_differ_by_animal_are_judged_apart() -> None:
    assert {"basking_heat", "uv_zone", "water_temperature", "swim_depth", "escape"} <= EACH
    assert not EACH & {"swim_area", "volume_rule", "outgrow", "platform_space", "feeding"}


def test_a_band_is_first_left_by_the_smallest_or_the_largest_of_a_kind(audited: Audited) -> None:
    """Changes are searched with these alone; what they lead to is audited with every animal."""
    lengths = ("11 cm", "10 cm", "9 cm")
    musks = [{**MUSK, "carapace_length": length} for length in lengths]
    tank = audited(animals=[*musks, MAP]).tank
    assert [animal.row for animal in tank.animals] == [0, 1, 2, 3]
    assert [animal.row for animal in tank.outermost] == [0, 2, 3]
