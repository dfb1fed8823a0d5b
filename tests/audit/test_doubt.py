"""Where a finding's doubt comes from, in words that fit its share, and how to know better."""

from __future__ import annotations

import json

import pytest
from typed_tanks import Audited

from interview import assembly
from interview.audit.audit import Audit
from interview.audit.checks.findings import Finding
from interview.audit.measure_next import part_of, settled_by
from interview.report.formats.json_form import audit_json


def _by(audit: Audit) -> dict[str, Finding]:
    return {finding.check: finding for finding in audit.findings}


@pytest.mark.parametrize(
    ("share", "word"),
    [(0.11, "Some"), (0.25, "Some"), (0.26, "A good part"), (0.5, "A good part"), (0.51, "Most")],
)
def test_most_is_more_than_half(share: float, word: str) -> None:
    assert part_of(share) == word


def test_a_finding_in_doubt_names_the_reading_and_how_to_take_it(audited: Audited) -> None:
    """The spot of the base tank is known to 1.7 K: that decides, and its own hint says how."""
    heat = _by(audited())["basking_heat"]
    assert heat.verdict == "close" and heat.doubt[0].quantity == "basking_temperature"
    assert heat.doubt[0].share > 0.5
    hint = assembly.questionnaire().by_id["basking_temperature"].hint
    said, _, how = heat.settle.partition("”. ")
    assert said == "Most of the doubt comes from “Basking surface"
    assert how and hint.startswith(how)


def test_shares_are_told_where_they_matter(demos: dict[str, Audit]) -> None:
    told = 0
    for audit in demos.values():
        for finding in audit.findings:
            shares = [share.share for share in finding.doubt]
            assert shares == sorted(shares, reverse=True)
            assert all(0.1 <= share <= 1 for share in shares)
            assert not finding.doubt or finding.verdict == "close"
            told += len(shares)
    assert told > 20


def test_json_tells_the_doubt_and_what_to_do_about_it(demos: dict[str, Audit]) -> None:
    rows = json.loads(audit_json(demos["river_cooter_adult"]))["findings"]
    zone = next(row for row in rows if row["check"] == "uv_zone")
    assert zone["doubt"][0]["quantity"] == "uvb_reading"
    assert 0.1 <= zone["doubt"][0]["share"] <= 1
    assert (
        "of the doubt comes from “UV index reading”. Use a meter that shows UV index." in zone["do"]
    )


def test_what_settles_more_verdicts_is_measured_first(audited: Audited) -> None:
    """Water at the edge of its band and pH at that of ammonia: one reading each; counted anew."""
    audit = audited(water_temperature="26 °C", nitrate="40 mg/L")
    doubted = [name for name in audit.measure_next if name in set(audit.drivers.values())]
    settles = [len(settled_by(name, audit.findings, audit.tank)) for name in doubted]
    assert settles == sorted(settles, reverse=True)
    assert {"water_temperature", "nitrate"} <= set(doubted)


def test_a_reading_known_exactly_settles_what_it_decides_alone(audited: Audited) -> None:
    audit = audited(water_temperature="25.5 °C")
    assert _by(audit)["water_temperature"].verdict == "close"
    assert settled_by("water_temperature", audit.findings, audit.tank) == ("water_temperature",)


# ---- a danger that rests on a guess


def test_a_danger_says_what_is_not_known_behind_it(audited: Audited) -> None:
    """Nobody measured the heater's height: the STOP says so, and stays one."""
    audit = audited(heater_height="not sure", water_line_below_rim="42 cm", intake_height="1 cm")
    cover = _by(audit)["heater_cover"]
    assert (cover.verdict, cover.guessed, audit.grades.stop) == ("danger", ("heater_height",), True)
    assert cover.say.startswith(
        "Not known yet: “Heater above the bottom” is taken to be “5 cm” until someone looks."
    )


def test_a_danger_that_was_measured_supposes_nothing(audited: Audited) -> None:
    for change in ({"basking_temperature": "46 °C"}, {"platform_wall_gap": "6 cm"}):
        for finding in audited(**change).findings:
            assert not finding.guessed


@pytest.mark.filterwarnings("error")
def test_a_time_that_never_comes_has_no_doubt_to_share(audited: Audited) -> None:
    weak = audited(heater_power="10 W", heater_count="1")
    assert weak.figures["stuck_heater_time"].value == float("inf")
    assert _by(weak)["heater_stuck"].doubt == ()
