"""A recheck hears what happens to tanks: a turtle grew, a bulb is new, the tank is built."""

from __future__ import annotations

import contextlib
from collections.abc import Sequence

import pytest
from fakes import FakeFace, demo

from interview import assembly
from interview.chat.faces.face import Left
from interview.chat.rechecks.prediction import Prediction
from interview.chat.rechecks.recheck_talk import RecheckTalk
from interview.graph.interview import Interview, Place

SHELL = Place("carapace_length", 0)
AGE = Place("uvb_lamp_age")
STAGE = Place("stage")


def _recheck(interview: Interview, lines: Sequence[str]) -> FakeFace:
    before = assembly.audit_of(interview, "")
    face = FakeFace(lines)
    prediction = Prediction(interview, before, interview.known())
    with contextlib.suppress(Left):
        RecheckTalk(interview, face, lambda: None, prediction=prediction).run()
    return face


@pytest.mark.parametrize(
    ("told", "length"),
    [
        ("The turtle grew 3 cm", 0.125),
        ("she grew by 3 cm", 0.125),
        ("he has grown 10 mm", 0.105),
        ("she has grown to 14 cm", 0.14),
        ("our musk turtle grew an inch", 0.1204),
    ],
)
def test_a_grown_turtle_is_offered_at_the_sum(told: str, length: float) -> None:
    """It was 9.5 cm long."""
    interview = demo("musk_turtle")
    face = _recheck(interview, [told, ""])
    assert face.asked[1].place == SHELL
    assert "Enter takes that" in face.asked[1].hint
    assert interview.known()["carapace_length"][0] == pytest.approx(length, abs=6e-4)


def test_what_is_measured_goes_before_the_sum() -> None:
    interview = demo("musk_turtle")
    _recheck(interview, ["The turtle grew 3 cm", "12 cm"])
    assert interview.answers[SHELL].said == "12 cm"


@pytest.mark.parametrize(
    "lines", [["turtle 2 grew 1 inch"], ["one of the turtles grew 1 inch", "2"]]
)
def test_of_several_the_one_meant_grew(lines: list[str]) -> None:
    """The second was 4 1/2 in long."""
    interview = demo("painted_turtles_classroom")
    before = interview.known()["carapace_length"]
    _recheck(interview, [*lines, ""])
    after = interview.known()["carapace_length"]
    assert after[1] == pytest.approx(before[1] + 0.0254)
    assert (after[0], after[2]) == (before[0], before[2])


def test_a_turtle_that_grew_without_a_number_is_asked() -> None:
    interview = demo("musk_turtle")
    face = _recheck(interview, ["he grew", "11 cm"])
    assert face.asked[1].place == SHELL and "Enter takes that" not in face.asked[1].hint
    assert interview.answers[SHELL].said == "11 cm"


@pytest.mark.parametrize(
    "told",
    ["changed the UVB bulb", "I replaced the UVB lamp", "new UVB tube", "the UVB bulb is new"],
)
def test_a_new_uvb_lamp_is_offered_at_no_hours(told: str) -> None:
    interview = demo("musk_turtle")
    face = _recheck(interview, [told, ""])
    assert face.asked[1].place == AGE
    assert interview.known()["uvb_lamp_age"] == 0.0


def test_another_kind_of_lamp_is_asked_about() -> None:
    interview = demo("musk_turtle")
    face = _recheck(interview, ["swapped the UVB tube for a compact lamp", ""])
    assert face.asked[1].place != AGE
    assert interview.known()["uvb_lamp_age"] > 0


def test_two_things_in_one_line_are_both_heard() -> None:
    interview = demo("musk_turtle")
    _recheck(interview, ["The turtle grew 3 cm and I changed the UVB bulb", "", ""])
    assert interview.known()["carapace_length"][0] == pytest.approx(0.125)
    assert interview.known()["uvb_lamp_age"] == 0.0


def test_beside_a_moved_lamp_the_growth_is_heard() -> None:
    interview = demo("musk_turtle")
    _recheck(interview, ["The turtle grew 3 cm and I raised the heat lamp by 5 cm", "", ""])
    before = demo("musk_turtle").known()
    assert interview.known()["carapace_length"][0] == pytest.approx(0.125)
    moved = interview.known()["heat_lamp_height"] - before["heat_lamp_height"]
    assert moved == pytest.approx(0.05)


@pytest.mark.parametrize(
    ("was", "told", "now"),
    [
        ("planning", "the tank is built now", "set_up"),
        ("planning", "the tank is set up and filled", "set_up"),
        ("planning", "the turtle lives in it now", "living"),
        ("set up", "the turtle has moved in", "living"),
    ],
)
def test_a_tank_that_came_further_is_offered_so(was: str, told: str, now: str) -> None:
    interview = demo("musk_turtle")
    interview.record(STAGE, was)
    face = _recheck(interview, [told, ""])
    assert face.asked[1].place == STAGE
    assert interview.known()["stage"] == now


def test_what_a_plan_could_not_know_is_asked_once_it_is_built() -> None:
    interview = demo("musk_turtle")
    interview.record(STAGE, "planning")
    measured = {place for place in interview.answers if place.id in ("ph", "nitrate")}
    face = _recheck(interview, ["the tank is built now", "", "", "7.5"])
    asked = {asked.place for asked in face.asked}
    assert measured & asked


@pytest.mark.parametrize(
    "told",
    [
        "the filter is running now",
        "the UVB lamp is in",
        "the turtle is shy",
        "the heater is set up",
    ],
)
def test_what_is_told_of_a_device_builds_no_tank(told: str) -> None:
    interview = demo("musk_turtle")
    interview.record(STAGE, "planning")
    face = _recheck(interview, [told])
    assert STAGE not in [asked.place for asked in face.asked]


@pytest.mark.parametrize("told", ["the gap grew 1 cm", "the plants have grown 3 cm"])
def test_not_only_turtles_grow(told: str) -> None:
    interview = demo("musk_turtle")
    face = _recheck(interview, [told])
    assert SHELL not in [asked.place for asked in face.asked]


def test_a_lived_in_tank_stays_so() -> None:
    interview = demo("musk_turtle")
    face = _recheck(interview, ["the tank is built now"])
    assert STAGE not in [asked.place for asked in face.asked]
    assert interview.known()["stage"] == "living"
