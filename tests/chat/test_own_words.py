"""Answers in a keeper's own words at a question with choices, which no phrase takes."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
import yaml
from fakes import talk, up_to

from interview.graph.interview import Place

NOT_ASKED = frozenset(
    {
        *("feeding_pause", "filter_seeded", "heat_lamp_beam", "heater_body", "heater_cutout"),
        *(
            "intake_guard",
            "lamp_control",
            "lamp_guard",
            "lamp_timer",
            "media",
            "night_light",
            "sex",
        ),
        *("sight_barriers", "tank_material", "tank_rim", "uvb_lamp_holder", "uvb_reflector"),
        "wood_soaked",
    }
)
"""Asked of other tanks, or of each turtle."""


@pytest.mark.parametrize(
    ("name", "line", "taken"),
    [
        ("filter_kind", "a black box hooked over the back rim of the glass", "hang_on"),
        ("filter_kind", "it sits in the cupboard below with two hoses going up", "canister"),
        ("platform_kind", "a raft of cork that drifts about on the water", "floating"),
        ("water_treatment", "I fill the buckets the evening before and let them be", "stood"),
    ],
)
def test_what_is_surely_meant_is_taken_and_said_back(name: str, line: str, taken: str) -> None:
    held = talk([line, "stop"], up_to(name))
    assert held.interview.answers[Place(name)].value == taken
    said = taken.replace("_", " ")
    assert f"I take that as “{said}”; “back” mends it." in held.face.tones("note")


def test_what_makes_a_tank_look_safer_is_asked_first() -> None:
    line = "an electrician fitted one of those that trip in a split second"
    held = talk([line, "yes", "stop"], up_to("rcd"))
    assert "Do you mean “yes”? “yes” takes that." in held.face.tones("note")
    assert held.interview.answers[Place("rcd")].value is True
    left = talk([line, "stop"], up_to("rcd"))
    assert Place("rcd") not in left.interview.answers


@pytest.mark.parametrize(
    "line", ["yes but it has tripped and I bypassed it", "yes, unless my brother bridged it again"]
)
def test_a_yes_that_is_limited_is_not_offered_where_it_makes_a_tank_look_safer(line: str) -> None:
    held = talk([line, "yes", "stop"], up_to("rcd"))
    assert not [said for said in held.face.tones("note") if "Do you mean" in said]
    assert held.face.ids[:2] == ["rcd", "rcd"]


@pytest.mark.parametrize(
    ("name", "line"),
    [
        ("lamp_holder", "my cousin's lamp sits in a porcelain one"),
        ("uvb_lamp_kind", "my neighbour swears by his T5 tube"),
        ("substrate", "we would love to have sand one day"),
        ("filter_kind", "it hums at night and wakes me up"),
    ],
)
def test_what_answers_something_else_is_not_taken(name: str, line: str) -> None:
    held = talk([line, "stop"], up_to(name))
    assert Place(name) not in held.interview.answers
    assert not held.face.tones("refusal")


def test_a_choice_by_its_name_is_taken_however_it_is_put() -> None:
    held = talk(["hang-on, I think", "stop"], up_to("filter_kind"))
    assert held.interview.answers[Place("filter_kind")].value == "hang_on"


def test_of_answers_nobody_tuned_to_nine_in_ten_are_taken_rightly(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Of those on a plain tank's way; `yes` is typed behind each, for what is offered."""
    file = Path(__file__).parent.parent / "words" / "told" / "answers_counted.yaml"
    outcomes = Counter[str]()
    for row in yaml.load(file.read_text("utf-8"), yaml.BaseLoader)[::2]:  # all take twice as long
        if (at := Place(row["question"])).id not in NOT_ASKED:
            answer = talk([row["say"], "yes", "stop"], up_to(at.id)).interview.answers.get(at)
            value = getattr(answer, "value", None)
            said = {True: "yes", False: "no"}[value] if isinstance(value, bool) else value
            tells = row["choice"] not in ("unsure", "none_of_it")
            outcomes[f"{tells} {'open' if answer is None else said == row['choice']}"] += 1
    told = sum(count for name, count in outcomes.items() if name.startswith("True"))
    with capsys.disabled():
        print(f"\nanswers in own words: {dict(outcomes)}")
    assert told >= 75
    assert outcomes["True True"] / told >= 0.9
    assert outcomes["True False"] <= 3
