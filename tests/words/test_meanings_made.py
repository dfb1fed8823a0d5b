"""The maker of known meanings checks itself: enough of them, all askable, always the same."""

from __future__ import annotations

import math
import subprocess
import sys
from pathlib import Path

import pytest
import yaml
from made.spans import Case, Span, celsius, in_words
from meanings import BY_HAND, by_question, cases

HERE = Path(__file__).parent
QUESTIONS = HERE.parent.parent / "questions"
CASES = list(cases())

# Each type of question, and what is made for it. Choices, names and yes/no have no amount.
DIMENSIONS = {
    "length": {"length", "side", "by_hand"},
    "size": {"size", "by_hand"},
    "volume": {"volume", "by_hand"},
    "temperature": {"temperature", "by_hand"},
    "temperature_difference": {"temperature_difference"},
    "duration": {"duration", "interval", "hours_a_day", "by_hand"},
    "lit_time": {"lit_time", "by_hand"},
    "per_week": {"frequency", "by_hand"},
    "flow": {"flow", "by_hand"},
    "mass": {"mass", "by_hand"},
    "power": {"power", "by_hand"},
    "share": {"share", "by_hand"},
    "percent": {"percent", "by_hand"},
    "concentration": {"concentration", "by_hand"},
    "count": {"count", "by_hand"},
    "rating": {"rating", "by_hand"},
    "angle": {"angle", "by_hand"},
    "voltage": {"voltage"},
    "current": {"current"},
    "price": {"price"},
}
WITHOUT_AMOUNT = {"choice", "choices", "yes_no", "names"}


def _questions() -> dict[str, dict[str, object]]:
    asked = {}
    for path in sorted(QUESTIONS.glob("*.yaml")):
        for question in yaml.safe_load(path.read_text(encoding="utf-8"))["questions"]:
            asked[question["id"]] = question
    return asked


ASKED = _questions()


def test_there_are_at_least_five_thousand_strings() -> None:
    assert len({case.text for case in CASES}) >= 5000


def test_the_hand_written_ones_are_about_two_hundred() -> None:
    listed = yaml.safe_load(BY_HAND.read_text(encoding="utf-8"))
    assert sum(len(entries) for entries in listed.values()) >= 200
    assert sum(case.dimension == "by_hand" for case in CASES) >= 150


def test_every_case_stands_at_a_question_of_its_type() -> None:
    for case in CASES:
        assert case.question in ASKED, case
        assert case.dimension in DIMENSIONS[str(ASKED[case.question]["type"])], case


def test_every_question_with_an_amount_has_its_cases() -> None:
    with_amount = {i for i, q in ASKED.items() if q["type"] not in WITHOUT_AMOUNT}
    assert with_amount == set(by_question()), "its cases go into tests/words/made"
    few = {i for i, listed in by_question().items() if len(listed) < 30}
    assert not few


def test_every_dimension_is_covered() -> None:
    wanted = set().union(*DIMENSIONS.values())
    made = {case.dimension for case in CASES}
    assert made == wanted


def test_a_size_has_a_span_for_each_side_and_an_amount_has_one() -> None:
    for case in CASES:
        parts = ASKED[case.question].get("parts", [case.question])
        assert isinstance(parts, list)
        assert all(len(reading) == len(parts) for reading in case.readings), case


def test_a_string_stands_once_at_a_question() -> None:
    assert len({(case.text, case.question) for case in CASES}) == len(CASES)


def test_nothing_is_both_read_and_told_for_another_name() -> None:
    for case in CASES:
        assert not (case.readings and case.told_for), case
        assert bool(case.told_for) == (case.told is not None), case
    assert {case.told_for for case in CASES} >= {"water_depth", "shell_width", "shell_height"}


def test_amounts_are_numbers_from_nothing_up() -> None:
    for case in CASES:
        for reading in case.readings:
            for span in reading:
                assert math.isfinite(span.low) and math.isfinite(span.high), case
                assert span.low >= 0, case


def test_it_is_the_same_in_every_process(tmp_path: Path) -> None:
    program = (
        "import hashlib; from meanings import cases; "
        "print(hashlib.sha256(repr(list(cases())).encode()).hexdigest())"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", program],
            cwd=HERE,
            env={"PYTHONHASHSEED": seed, "PYTHONDONTWRITEBYTECODE": "1", "PYTHONUTF8": "1"},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("0", "1")
    }
    assert len(digests) == 1


def test_nothing_of_the_program_is_imported() -> None:
    program = "import sys, meanings; print(any(m.startswith('interview') for m in sys.modules))"
    said = subprocess.run(
        [sys.executable, "-c", program], cwd=HERE, capture_output=True, text=True, check=True
    )
    assert said.stdout.strip() == "False"


def _meaning(text: str, question: str) -> Case:
    (found,) = [case for case in CASES if (case.text, case.question) == (text, question)]
    return found


@pytest.mark.parametrize(
    ("text", "question", "low", "high"),
    [
        # Reckoned by hand with 1 in = 25.4 mm and 1 ft = 304.8 mm, exact since 1959.
        ("13'-1\"", "joist_span", 3.9878, 3.9878),
        ("2-3/4 in", "water_line_below_rim", 0.06985, 0.06985),
        ("16/22 mm", "hose_diameter", 0.016, 0.016),
        ("low 80s", "water_temperature", 26.6667, 28.8889),
        ("10/14 days", "water_change_interval", 864000.0, 1209600.0),
        ("8h-20h", "day_length", 43200.0, 43200.0),
        ("10-12", "day_length", 36000.0, 43200.0),
        ("6 months, 10 hours a day", "uvb_lamp_age", 6480000.0, 6696000.0),
        ("3/4", "feeds_per_week", 3.0, 4.0),
        ("1 kg 200", "mass", 1.2, 1.2),
        ("0.5 L in 2 seconds", "filter_rated_flow", 2.5e-4, 2.5e-4),
    ],
)
def test_meanings_reckoned_by_hand(text: str, question: str, low: float, high: float) -> None:
    ((span,),) = _meaning(text, question).readings
    assert span.low == pytest.approx(low, rel=1e-4)
    assert span.high == pytest.approx(high, rel=1e-4)


def test_feet_and_inches_of_a_size() -> None:
    (sides,) = _meaning("4'-0\" x 2'-0\" x 2'-0\"", "tank_size").readings
    assert [round(span.low, 4) for span in sides] == [1.2192, 0.6096, 0.6096]


def test_a_depth_is_not_a_distance_from_the_rim() -> None:
    case = _meaning("28 cm deep", "water_line_below_rim")
    assert case.readings == ()
    assert case.told_for == "water_depth"
    assert case.told == Span(0.28, 0.28)


def test_its_own_helpers() -> None:
    assert in_words(0) == "zero"
    assert in_words(42) == "forty two"
    assert in_words(100) == "one hundred"
    assert in_words(215) == "two hundred and fifteen"
    # 77 °F is 25 °C and 212 °F is 100 °C by definition.
    assert celsius(77) == pytest.approx(25)
    assert celsius(212) == pytest.approx(100)
    with pytest.raises(ValueError, match="span from"):
        Span(2, 1)
