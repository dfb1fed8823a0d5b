"""Readings and assumptions as clouds: repeatable, as wide as they should be, in range."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from every import every
from scipy.special import ndtri

from interview import assembly
from interview.audit.audit import Audit
from interview.audit.sampling.sample import COUNT, Spread, best_values, samples, spread_of
from interview.care.facts import Fact, assumptions, doubts
from interview.core.wiring import quantities
from interview.graph.answers import understand
from interview.graph.interview import Given, Interview
from interview.graph.questions import Question
from interview.report.formats.json_form import audit_json
from interview.words.amounts.reading import Reading

ROOT = Path(__file__).parent.parent.parent
NINETY_FIVE = 1.645
MEASURED = [q for q in assembly.questionnaire() if q.id in doubts() and not q.parts]


def _doubt(**kind: Any) -> Fact:
    return Fact(
        key="made_up",
        unit="m",
        status="assumption",
        source="modelling_choice",
        meaning="a test's",
        **kind,
    )


def _reading(best: float, low: float | None = None, high: float | None = None) -> Reading:
    return Reading(best if low is None else low, best, best if high is None else high, "", "m")


# ---- one number


def test_a_plain_reading_has_the_width_of_its_instrument() -> None:
    spread = spread_of(_reading(0.2), _doubt(spread=0.005), "m")
    assert (spread.below, spread.above) == (0.005, 0.005)
    assert spread_of(_reading(0.2), _doubt(relative=0.1), "m").above == pytest.approx(0.02)
    assert spread_of(_reading(0.2), _doubt(factor=1.5), "m").factor == 1.5
    assert spread_of(_reading(0.2), None, "m").sure


def test_a_hedge_comes_on_top_of_the_instrument() -> None:
    """Independent errors add in quadrature: 3 and 4 make 5."""
    hedged = _reading(1.0, 1.0 - 0.03 * NINETY_FIVE, 1.0 + 0.03 * NINETY_FIVE)
    spread = spread_of(hedged, _doubt(spread=0.04), "m")
    assert spread.below == pytest.approx(0.05)
    assert spread.above == pytest.approx(0.05)


def test_a_lopsided_range_stays_lopsided() -> None:
    spread = spread_of(_reading(1.0, 0.9, 1.5), _doubt(spread=0.001), "m")
    assert spread.below == pytest.approx(0.1 / NINETY_FIVE, rel=1e-3)
    assert spread.above == pytest.approx(0.5 / NINETY_FIVE, rel=1e-3)


def test_a_guess_keeps_the_width_of_the_guess() -> None:
    guess = _reading(1.0, 0.8, 1.2)
    spread = spread_of(guess, _doubt(spread=0.04), "m", guessed=True)
    assert spread.below == pytest.approx(0.2 / NINETY_FIVE)


def test_five_and_ninety_five_percent_points() -> None:
    """Of a normal, a lopsided normal and a log-normal number, by the normal tables."""
    shares = np.array([0.05, 0.5, 0.95])
    score = ndtri(0.95)
    normal = Spread(10.0, 2.0, 3.0).at(ndtri(shares))
    assert normal == pytest.approx([10 - 2 * score, 10.0, 10 + 3 * score])
    log_normal = Spread(10.0, factor=1.6).at(ndtri(shares))
    assert log_normal == pytest.approx([10 / 1.6**score, 10.0, 10 * 1.6**score])


def test_bounds_hold_what_can_be() -> None:
    assert Spread(0.0, 0.2, 0.2, low=0.0).at(ndtri([0.01, 0.99])).min() == 0.0
    assert spread_of(_reading(0.001), _doubt(spread=0.01), "m").low == 0.0
    assert spread_of(_reading(0.5), _doubt(spread=0.3, high=1.0), "1").high == 1.0
    assert spread_of(_reading(-2.0), _doubt(spread=1.0), "degC").low == -np.inf


@every("question", MEASURED, ids=lambda q: q.id)
def test_about_is_never_surer_than_a_plain_reading(question: Question) -> None:
    typed = question.example.partition(" or ")[0]
    widths = []
    for words in (typed, f"about {typed}"):
        value = understand(question, words, assembly.lists(), "europe").value
        assert isinstance(value, Reading)
        spread = spread_of(value, doubts()[question.id], question.unit)
        points = spread.at(ndtri([0.05, 0.95]))
        widths.append(points[1] - points[0])
    if widths[0] > 0:
        assert widths[1] >= 0.99 * widths[0], (question.id, widths)


# ---- a whole tank


def _given(interview: Interview) -> dict[str, Given]:
    return interview.given()


def _clouds(given: dict[str, Given]) -> dict[str, Any]:
    return samples(given, assumptions(), doubts(), quantities().range_of)


def test_the_same_answers_give_the_same_draws(base: Interview) -> None:
    first, second = _clouds(_given(base)), _clouds(dict(reversed(_given(base).items())))
    assert first.keys() == second.keys()
    for name, value in first.items():
        if isinstance(value, np.ndarray):
            assert np.array_equal(value, second[name], equal_nan=True), name
        else:
            assert value == second[name]


def test_every_reading_with_doubt_and_every_assumption_is_drawn(base: Interview) -> None:
    given, drawn = _given(base), _clouds(_given(base))
    for name, fact in assumptions().items():
        if name not in given and (fact.spread or fact.relative or fact.factor > 1):
            assert np.shape(drawn[name]) == (COUNT,), name
            assert np.std(drawn[name]) > 0, name
    for name, item in given.items():
        if hasattr(item.value, "best") and item.question in doubts():
            assert np.shape(drawn[name]) == (COUNT,), name
    assert drawn["carapace_length"].shape == (COUNT, 1)
    assert drawn["lamp_fixings"] == 2.0


def test_points_of_the_draws_are_those_of_the_reading(base: Interview) -> None:
    """A tape on a tank, good to 5 mm: 24 cm below the rim, 5 % and 95 % at 8.2 mm either way."""
    drawn = _clouds(_given(base))["water_line_below_rim"]
    low, high = np.percentile(drawn, [5, 95])
    assert low == pytest.approx(0.24 - 1.645 * 0.005, abs=2e-4)
    assert high == pytest.approx(0.24 + 1.645 * 0.005, abs=2e-4)
    assert np.median(drawn) == pytest.approx(0.24, abs=1e-4)


def test_readings_are_drawn_independently(base: Interview) -> None:
    drawn = _clouds(_given(base))
    names = [n for n, v in drawn.items() if np.shape(v) == (COUNT,) and np.std(v) > 0]
    table = np.corrcoef([ndtri((np.argsort(np.argsort(drawn[n])) + 0.5) / COUNT) for n in names])
    assert np.abs(table - np.eye(len(names))).max() < 0.15
    assert np.abs(table - np.eye(len(names))).mean() < 0.01


def test_draws_stay_in_the_range_of_their_name(demo_interviews: dict[str, Interview]) -> None:
    for interview in demo_interviews.values():
        for name, value in _clouds(_given(interview)).items():
            low, high = quantities().range_of(name)
            if isinstance(value, float | np.ndarray):
                numbers = np.asarray(value)[~np.isnan(value)]
                assert (numbers >= low).all() and (numbers <= high).all(), name


def test_what_has_a_value_has_a_cloud(demos: dict[str, Audit]) -> None:
    """The middle draw lies where the formula holds, so no chance rests on one value."""
    for title, audit in demos.items():
        for name, figure in audit.figures.items():
            if figure.value is not None:
                assert audit.tank.sample.get(name) is not None, (title, name)


def test_best_values_are_the_words(base: Interview) -> None:
    best = best_values(_given(base), assumptions())
    assert best["water_line_below_rim"] == pytest.approx(0.24)
    assert best["evaporation_factor"] == assumptions()["evaporation_factor"].value


def test_hedged_and_unsure_readings_widen_what_follows(audited: Any) -> None:
    widths = {}
    for words in ("24 cm", "about 24 cm", "20 to 28 cm", "not sure"):
        figure = audited(water_line_below_rim=words).figures["water_depth"]
        assert figure.low < figure.value < figure.high
        widths[words] = figure.high - figure.low
    assert widths["24 cm"] < widths["about 24 cm"] < widths["20 to 28 cm"]
    assert widths["24 cm"] < widths["not sure"]


def test_low_and_high_are_order_statistics_of_the_cloud(demos: dict[str, Audit]) -> None:
    audit = demos["musk_turtle"]
    for name in ("water_volume", "shell_temperature", "nitrate_peak", "uv_index_shell"):
        figure, drawn = audit.figures[name], np.sort(audit.tank.sample.value(name))
        assert np.mean(drawn <= figure.low) == pytest.approx(0.05, abs=1 / COUNT)
        assert np.mean(drawn <= figure.high) == pytest.approx(0.95, abs=1 / COUNT)
        assert figure.low <= figure.value <= figure.high


def test_no_animal_no_trouble(base: Interview) -> None:
    """An animal without a weight among weighed ones stays a gap, not a number."""
    given = _given(base)
    rows = {"mass": (*given["mass"].value, None), "species": given["species"].value * 2,
            "sex": given["sex"].value * 2,
            "carapace_length": given["carapace_length"].value * 2}  # fmt: skip
    two = {**given, **{name: replace(given[name], value=value) for name, value in rows.items()}}
    drawn = _clouds(two)
    assert drawn["mass"].shape == (COUNT, 2)
    assert np.isnan(drawn["mass"][:, 1]).all()
    assert not np.array_equal(drawn["carapace_length"][:, 0], drawn["carapace_length"][:, 1])
    assert quantities().working(drawn).value("animal_mass").shape == (COUNT,)


def test_the_same_file_gives_the_same_bytes_in_every_process(demos: dict[str, Audit]) -> None:
    """Here and in two fresh interpreters, whose hashes are seeded differently."""
    here = audit_json(demos["musk_turtle"])
    code = (
        "import sys; from pathlib import Path; from interview import assembly, setups;"
        "from interview.report.formats.json_form import audit_json;"
        "i = assembly.new_interview();"
        "setups.fill(i, setups.read(Path(sys.argv[1]), assembly.questionnaire()));"
        "sys.stdout.buffer.write(audit_json(assembly.audit_of(i, 'musk_turtle')).encode())"
    )
    path = ROOT / "transcripts_demo" / "musk_turtle.yaml"
    for seed, zone, options in (("1", "Pacific/Kiritimati", []), ("2", "America/Adak", ["-O"])):
        run = subprocess.run(
            [sys.executable, *options, "-c", code, str(path)],
            capture_output=True,
            check=True,
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone},
        )
        assert run.stdout.decode() == here
