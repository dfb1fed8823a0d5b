"""From shares of the draws to verdicts, and from a check's rules to shares."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import read_checks
from interview.audit.checks.verdicts import LEVELS, Chances, Level, judged
from interview.audit.grade_rules import HarmClass
from interview.audit.tank import Tank
from interview.care.facts import assumptions
from interview.core.wiring import quantities

COUNT = 1000

PEOPLE: Mapping[Level, HarmClass] = {"danger": "people", "wrong": "people"}
ANIMAL: Mapping[Level, HarmClass] = {"danger": "animal", "wrong": "animal"}
HEALTH: Mapping[Level, HarmClass] = {"danger": "animal", "wrong": "health"}

# level at the best values; chances of good, close, wrong, danger; harm → verdict, chance,
# certainty, risk; by the thresholds of care/grades.yaml
TABLE = [
    ("good", (1, 0, 0, 0), HEALTH, "good", 1.00, "sure", ""),
    ("good", (0.9, 0.1, 0, 0), HEALTH, "good", 0.90, "sure", ""),
    ("good", (0.899, 0.101, 0, 0), HEALTH, "good", 0.899, "likely", ""),
    ("good", (0.65, 0.35, 0, 0), HEALTH, "good", 0.65, "likely", ""),
    ("good", (0.5, 0.5, 0, 0), HEALTH, "good", 0.50, "open", ""),
    ("good", (0.6, 0, 0.4, 0), HEALTH, "good", 0.60, "open", ""),
    ("good", (0.55, 0.04, 0.41, 0), HEALTH, "close", 0.55, "open", ""),
    ("good", (0.85, 0, 0.15, 0), ANIMAL, "good", 0.85, "likely", ""),
    ("good", (0.8, 0.04, 0.16, 0), ANIMAL, "close", 0.80, "open", ""),
    ("good", (0.85, 0.04, 0.11, 0), PEOPLE, "close", 0.85, "open", ""),
    ("good", (0.955, 0, 0, 0.045), HEALTH, "good", 0.955, "sure", ""),
    ("good", (0.95, 0, 0, 0.05), HEALTH, "close", 0.95, "open", "possible"),
    ("good", (0.7, 0.1, 0.05, 0.15), HEALTH, "close", 0.70, "open", "likely"),
    ("close", (0.5, 0.5, 0, 0), HEALTH, "good", 0.5, "open", ""),
    ("close", (0.345, 0.655, 0, 0), HEALTH, "close", 0.345, "likely", ""),
    ("close", (0.4, 0.6, 0, 0), ANIMAL, "close", 0.40, "open", ""),
    ("close", (0.05, 0.95, 0, 0), HEALTH, "close", 0.05, "sure", ""),
    ("close", (0, 0.5, 0.5, 0), HEALTH, "close", 0.00, "sure", ""),
    ("close", (0, 0.36, 0.64, 0), HEALTH, "close", 0.00, "sure", ""),
    ("close", (0, 0.35, 0.65, 0), HEALTH, "wrong", 0.65, "likely", ""),
    ("wrong", (0.3, 0.2, 0.5, 0), HEALTH, "wrong", 0.50, "open", ""),
    ("wrong", (0, 0, 1, 0), HEALTH, "wrong", 1.00, "sure", ""),
    ("wrong", (0, 0.0625, 0.625, 0.3125), HEALTH, "wrong", 0.9375, "sure", "likely"),
    ("wrong", (0, 0.3, 0.28, 0.42), HEALTH, "danger", 0.42, "open", ""),
    ("close", (0, 0.65, 0, 0.35), PEOPLE, "danger", 0.35, "open", ""),
    ("danger", (0, 0.09, 0.59, 0.32), PEOPLE, "wrong", 0.91, "sure", "likely"),
    ("danger", (0, 0, 0, 1), PEOPLE, "danger", 1.00, "sure", ""),
]  # fmt: skip


@pytest.mark.parametrize("row", TABLE, ids=str)
def test_best_value_and_expected_harm_decide(row: Any) -> None:
    at_best, shares, harm, *wanted = row
    found = judged(at_best, Chances(*shares), harm)
    assert [found.verdict, found.certainty, found.risk] == [wanted[0], wanted[2], wanted[3]]
    assert found.chance == pytest.approx(wanted[1])
    assert found.warning == (pytest.approx(shares[3]) if found.risk else 0.0)


SHARES = [
    Chances(*(n / 20 for n in (good, close, wrong, 20 - good - close - wrong)))
    for good in range(21)
    for close in range(21 - good)
    for wrong in range(21 - good - close)
]


@pytest.mark.parametrize("harm", [PEOPLE, ANIMAL, HEALTH], ids=lambda h: h["wrong"])
@pytest.mark.parametrize("at_best", LEVELS)
def test_more_harm_never_makes_a_milder_verdict(at_best: Level, harm: Any) -> None:
    """A twentieth of the draws that gets a level worse leaves the verdict or makes it worse."""
    for chances in SHARES:
        found = judged(at_best, chances, harm)
        for better, worse in pairwise(LEVELS):
            if getattr(chances, better) >= 0.05:
                moved = {better: getattr(chances, better) - 0.05}
                moved[worse] = getattr(chances, worse) + 0.05
                other = judged(at_best, replace(chances, **moved), harm)
                ranks = LEVELS.index(found.verdict), LEVELS.index(other.verdict)
                assert ranks[0] <= ranks[1], (chances, moved)


def test_past_the_close_band_is_wrong_however_unsure() -> None:
    for chances in SHARES:
        assert judged("wrong", chances, HEALTH).verdict in ("wrong", "danger")


# ---- one made-up check on water, limits from the shipped files (32 and 35 degC, 20 in the band)

CHECK = """\
section: water
checks:
  - check: water_temperature
    claim: The water is right.
    measures: water_temperature
    why: Because.
    weight: 4
    harm: {danger: animal, wrong: health}
    good: {at_least: [water_band_low], at_most: [water_band_high]}
    close: {at_least: [water_too_cold], at_most: [water_close_high]}
    danger: {above: [water_danger_high]}
    say:
      good: "good {value}, {low} to {high}"
      low: "low {value}"
      high: "high {value}"
      close: "near {value}"
      close_low: "rather low {value}"
      wrong: "wrong by words"
      danger: "danger {value}"
    do: {low: warm, high: cool, close: wait, wrong: mend, danger: stop}
    sources: [common_practice]
    passes: {water_temperature: 24}
    fails: {water_temperature: 16}
    known_limits: made up
"""
BAND = {"water_band_low": 22.0, "water_band_high": 26.0, "water_too_cold": 20.0}


def _finding(
    tmp_path: Path, known: Mapping[str, Any], extra: str = "", system: str = "metric"
) -> Finding:
    """The finding of the check with more keys, on a tank given by best values and clouds."""
    (tmp_path / "water.yaml").write_text(CHECK + extra, encoding="utf-8")
    (check,) = read_checks(tmp_path)
    start = {name: fact.value for name, fact in assumptions().items()} | BAND
    best = {n: v[0] if isinstance(v, tuple) else v for n, v in known.items()}
    sample = {n: v[1] if isinstance(v, tuple) else v for n, v in known.items()}
    wiring = quantities()
    return judge(
        check,
        Tank(
            wiring.working({**start, **best}),
            wiring.working({**start, **sample}),
            lambda name: wiring.units.get(name, "1"),
            lambda name: name.replace("_", " "),
            system,
        ),
    )


def _split(*parts: tuple[float, int]) -> np.ndarray[Any, Any]:
    """A cloud with so many draws at each value."""
    drawn = np.concatenate([np.full(count, value) for value, count in parts])
    assert drawn.size == COUNT
    return drawn


BANDS = [
    (24.0, _split((24.0, 950), (27.0, 50)), "good", 0.95, 0, "good 24 °C, 22 to 26 °C"),
    (24.0, _split((24.0, 600), (27.0, 400)), "good", 0.60, 0, "good 24 °C, 22 to 26 °C"),
    (24.0, _split((24.0, 550), (33.0, 450)), "close", 0.55, 0, "near 24 °C"),
    (26.5, _split((26.5, 500), (25.0, 500)), "good", 0.5, 0, "near 26.5 °C"),
    (26.5, _split((26.5, 660), (25.0, 340)), "close", 0.34, 0, "high 26.5 °C"),
    (21.0, _split((21.0, 700), (23.0, 300)), "close", 0.30, 0, "rather low 21 °C"),
    (18.0, _split((18.0, 920), (21.0, 80)), "wrong", 0.92, 0, "low 18 °C"),
    (33.0, _split((33.0, 930), (31.0, 70)), "wrong", 0.93, 0, "high 33 °C"),
    (33.0, _split((33.0, 700), (36.0, 300)), "wrong", 1.0, 0.3, "high 33 °C"),
    (31.0, _split((31.0, 700), (36.0, 300)), "close", 0.0, 0.3, "high 31 °C"),
    (24.0, _split((24.0, 905), (36.0, 95)), "close", 0.905, 0.095, "near 24 °C"),
    (24.0, _split((24.0, 960), (36.0, 40)), "good", 0.96, 0, "good 24 °C, 22 to 26 °C"),
    (36.0, _split((36.0, 500), (31.0, 500)), "danger", 0.5, 0, "danger 36 °C"),
]


@pytest.mark.parametrize(("best", "sample", "verdict", "chance", "warning", "said"), BANDS)
def test_bands_count_the_draws(
    best: float,
    sample: Any,
    verdict: str,
    chance: float,
    warning: float,
    said: str,
    tmp_path: Path,
) -> None:
    finding = _finding(tmp_path, {"water_temperature": (best, sample)})
    assert finding.verdict == verdict
    assert finding.chance == pytest.approx(chance)
    assert finding.warning == pytest.approx(warning)
    assert finding.say == said
    assert finding.band == (22.0, 26.0)


def test_a_bound_that_is_in_doubt_counts_too(tmp_path: Path) -> None:
    band = (22.0, _split((22.0, 600), (25.0, 400)))
    finding = _finding(tmp_path, {"water_temperature": 24.0, "water_band_low": band})
    assert (finding.verdict, finding.chance, finding.certainty) == ("good", 0.6, "open")


@pytest.mark.parametrize("key", ["good_when", "close_when", "wrong_when"])
def test_no_condition_masks_a_danger(key: str, tmp_path: Path) -> None:
    extra = f"    {key}: rcd is yes\n"
    hot = {"water_temperature": 36.0, "rcd": True}
    assert _finding(tmp_path, hot, extra).verdict == "danger"
    half = {"water_temperature": (34.0, _split((34.0, 700), (36.0, 300))), "rcd": True}
    finding = _finding(tmp_path, half, extra)
    assert finding.verdict in ("close", "wrong")
    assert finding.warning == pytest.approx(0.3)


def test_a_condition_overrules_danger_only_where_the_check_says_so(tmp_path: Path) -> None:
    extra = "    good_when: rcd is yes\n    overrules_danger: good_when\n"
    assert _finding(tmp_path, {"water_temperature": 36.0, "rcd": True}, extra).verdict == "good"
    assert _finding(tmp_path, {"water_temperature": 36.0, "rcd": False}, extra).verdict == "danger"


def test_danger_when_comes_before_everything(tmp_path: Path) -> None:
    extra = (
        "    danger_when: kitchen_used is yes\n    good_when: rcd is yes\n"
        "    overrules_danger: good_when\n"
    )
    known = {"water_temperature": 24.0, "rcd": True, "kitchen_used": True}
    assert _finding(tmp_path, known, extra).verdict == "danger"


def test_conditions_come_before_bands(tmp_path: Path) -> None:
    extra = "    wrong_when: rcd is no\n    good_when: kitchen_used is no\n"
    known = {"water_temperature": 24.0, "rcd": False, "kitchen_used": False}
    finding = _finding(tmp_path, known, extra)
    assert (finding.verdict, finding.chance, finding.say) == ("wrong", 1.0, "wrong by words")
    assert finding.band is None
    known = {"water_temperature": 16.0, "rcd": True, "kitchen_used": False}
    assert _finding(tmp_path, known, extra).verdict == "good"
    known = {"water_temperature": 16.0, "rcd": True, "kitchen_used": True}
    assert _finding(tmp_path, known, extra).say == "low 16 °C"


def test_a_condition_on_numbers_counts_doubt(tmp_path: Path) -> None:
    extra = "    wrong_when: water_temperature above water_close_high\n"
    sample = _split((33.0, 600), (31.0, 400))
    finding = _finding(tmp_path, {"water_temperature": (33.0, sample)}, extra)
    assert (finding.verdict, finding.chance, finding.certainty) == ("wrong", 0.6, "open")
    sample = _split((33.0, 940), (25.0, 60))
    finding = _finding(tmp_path, {"water_temperature": (33.0, sample)}, extra)
    assert (finding.verdict, finding.chance, finding.say) == ("wrong", 0.94, "wrong by words")
    assert finding.limits == ("water_close_high",)
    assert finding.status == "assumption"


def test_an_unknown_condition_leaves_it_to_the_band(tmp_path: Path) -> None:
    extra = "    wrong_when: rcd is no\n"
    assert _finding(tmp_path, {"water_temperature": 24.0}, extra).verdict == "good"
    assert _finding(tmp_path, {"water_temperature": 36.0}, extra).verdict == "danger"


def test_unmeasured_names_what_is_missing(tmp_path: Path) -> None:
    finding = _finding(tmp_path, {})
    assert (finding.verdict, finding.chance) == ("unmeasured", None)
    assert finding.missing == ("water_temperature",)
    assert finding.say == "Not judged yet: nothing is known of “water temperature”."
    finding = _finding(tmp_path, {}, "    wrong_when: rcd is no\n")
    assert finding.missing == ("rcd",)


def test_relevance_unknown_is_unmeasured_and_untrue_does_not_apply(tmp_path: Path) -> None:
    extra = "    relevant: rcd is yes\n    otherwise: Nothing to see.\n"
    known: dict[str, Any] = {"water_temperature": 36.0}
    assert _finding(tmp_path, known, extra).missing == ("rcd",)
    finding = _finding(tmp_path, {**known, "rcd": False}, extra)
    assert (finding.verdict, finding.applies, finding.say) == ("good", False, "Nothing to see.")
    assert _finding(tmp_path, {**known, "rcd": True}, extra).verdict == "danger"


def test_a_keeper_of_us_units_reads_fahrenheit(tmp_path: Path) -> None:
    finding = _finding(tmp_path, {"water_temperature": 24.0}, system="us")
    assert finding.say == "good 75 °F, 72 to 79 °F"
    assert finding.value == 24.0
    assert finding.band == (22.0, 26.0)


def test_the_grounds_of_a_verdict_carry_status_and_source(tmp_path: Path) -> None:
    danger = _finding(tmp_path, {"water_temperature": 36.0})
    assert danger.limits == ("water_danger_high",)
    assert danger.status == "assumption"
    assert "modelling_choice" in danger.sources
    wrong = _finding(tmp_path, {"water_temperature": 16.0})
    assert wrong.limits[:2] == ("water_band_low", "water_band_high")
    assert "common_practice" in wrong.sources
