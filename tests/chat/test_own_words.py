"""Answers in a keeper's own words at a question with choices, which no phrase takes."""

from __future__ import annotations

import pytest
from fakes import talk, up_to

from interview.graph.interview import Place


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
