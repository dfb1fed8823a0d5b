"""Where a finding's doubt comes from, in words that fit its share, and how to know better."""

from __future__ import annotations

import json

import numpy as np
import pytest
from typed_tanks import Audited

from interview import assembly
from interview.audit.audit import Audit
from interview.audit.checks.findings import Finding
from interview.audit.measure_next import _widest, part_of, settled_by
from interview.audit.sampling import sensitivity
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
    """Read with an infrared thermometer, good to 1.7 K: that decides; a probe would settle it."""
    heat = _by(audited(basking_temperature="31.5 °C"))["basking_heat"]
    assert (heat.verdict, heat.certainty) == ("good", "open")
    assert heat.doubt[0].quantity == "basking_temperature" and heat.doubt[0].share > 0.5
    hint = assembly.questionnaire().by_id["basking_temperature"].hint
    said, how, taken = heat.settle.split("”", 3)[0], *heat.settle.split(". ", 2)[1:]
    assert said == "Most of the doubt comes from “Basking surface"
    assert how == "“Basking surface” read with a digital probe would most likely settle it"
    assert taken and hint.startswith(taken)


def test_an_instrument_that_is_named_narrows_the_doubt_or_widens_it(audited: Audited) -> None:
    """heat.md of the care notes: probe 0.5 K, glass 0.7 K, dial 1 K, stick-on strip 1.5 K."""
    chances = [
        _by(audited(water_temperature=f"25.5 °C{said}"))["water_temperature"].chance or 0.0
        for said in (
            " with a probe",
            " with a glass thermometer",
            "",
            " with a dial",
            " on a strip",
        )
    ]
    assert chances == sorted(chances, reverse=True)
    assert chances[1] == chances[2] and chances[0] > chances[1] + 0.05
    assert chances[-1] < chances[2] - 0.05


def test_a_reading_taken_with_the_best_instrument_is_not_asked_for_again(audited: Audited) -> None:
    for said, asked in (("31.5 °C", True), ("31.5 °C with a probe", False)):
        audit = audited(basking_temperature=said)
        assert ("basking_temperature" in audit.measure_next) is asked


def test_shares_are_told_where_they_matter(demos: dict[str, Audit]) -> None:
    told = 0
    for audit in demos.values():
        for finding in audit.findings:
            shares = [share.share for share in finding.doubt]
            assert shares == sorted(shares, reverse=True)
            assert all(0.1 <= share <= 1 for share in shares)
            assert not finding.doubt or finding.certainty == "open" or finding.risk
            assert not finding.settled_by or finding.settled_by in {
                share.quantity for share in finding.doubt
            }
            told += len(shares)
    assert told >= 10


def test_json_tells_the_doubt_and_what_to_do_about_it(demos: dict[str, Audit]) -> None:
    rows = [r for audit in demos.values() for r in json.loads(audit_json(audit))["findings"]]
    settled = [row for row in rows if "settled_by" in row]
    assert len(settled) >= 5
    for row in settled:
        assert row["settled_by"] in {share["quantity"] for share in row["doubt"]}
        assert all(0.1 <= share["share"] <= 1 for share in row["doubt"])
        assert row["certainty"] == "open" or row["risk"]
        assert sum(row["chances"].values()) == pytest.approx(1)
        assert "would most likely settle it." in row["do"]
    for row in rows:
        if "risk" in row:
            assert row["chances"]["danger"] == pytest.approx(row["warning"], abs=1e-4)


def test_what_settles_more_verdicts_is_measured_first(audited: Audited) -> None:
    """Water at the edge of its band and nitrate at its limit: one reading each."""
    audit = audited(water_temperature="26 °C", nitrate="40 mg/L")
    settles = [len(settled_by(name, audit.findings)) for name in audit.measure_next]
    assert settles == sorted(settles, reverse=True)
    assert "water_temperature" in audit.measure_next
    assert settled_by("water_temperature", audit.findings) == ("water_temperature",)


@pytest.mark.parametrize(("typed", "promised"), [("26 °C", True), ("26 °C with a probe", False)])
def test_what_is_promised_is_kept(audited: Audited, typed: str, promised: bool) -> None:
    """Twenty true waters round a reading at the edge of the band, each read again with a probe."""
    audit = audited(water_temperature=typed)
    assert (_by(audit)["water_temperature"].settled_by == "water_temperature") is promised
    if promised:
        rng = np.random.default_rng(5)
        read = 26 + rng.normal(0, 0.7, 20) + rng.normal(0, 0.5, 20)
        again = [
            _by(audited(water_temperature=f"{value:.2f} °C with a probe"))["water_temperature"]
            for value in read
        ]
        assert np.mean([finding.certainty != "open" for finding in again]) >= 0.5


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


@pytest.mark.filterwarnings("error")
def test_what_is_known_of_one_animal_only_has_the_spread_of_that_one() -> None:
    draws = np.random.default_rng(3).normal(0.2, [0.01, 0.03, 1.0], (256, 3))
    draws[:, 2] = np.nan
    assert _widest(draws) == pytest.approx(np.std(draws[:, 1]))
    assert _widest(draws[:, 0]) == pytest.approx(np.std(draws[:, 0]))
    assert _widest(draws[:, 2:]) == 0.0


def test_the_ranks_of_draws_are_kept_as_long_as_the_draws() -> None:
    draws = np.array([[3.0, 1.0], [1.0, 1.0], [2.0, 1.0]])
    key, columns = id(draws), sensitivity._columns_of(draws)
    assert [column.tolist() for column in columns] == [[2.0, 0.0, 1.0]], "the second doesn't vary"
    assert sensitivity._columns_of(draws) is columns
    del draws
    assert key not in sensitivity._ranked
