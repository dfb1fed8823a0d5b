"""What a keeper would put off: why it comes now, what will do, and when it comes again."""

from __future__ import annotations

import pytest
from fakes import demo, talk, up_to

from interview.graph.interview import Interview, Place

LATER = ["later", "skip", "can we do that later", "pass"]
SIZE = Place("tank_size")


def _without(name: str) -> Interview:
    """The musk turtle's tank, all but one answer."""
    interview = demo("musk_turtle")
    del interview.answers[Place(name)]
    return interview


@pytest.mark.parametrize("line", LATER)
@pytest.mark.parametrize("name", ["species", "carapace_length", "tank_size"])
def test_what_the_talk_can_go_on_without_is_left_for_the_end(name: str, line: str) -> None:
    held = talk([line, line], up_to(name))
    why, left = held.face.tones("note")[:2]
    assert held.face.ids[:2] == [name, name] != held.face.ids[1:3]
    assert held.interview.questionnaire.by_id[name].help in why and "leaves it for the end" in why
    assert left == "Then I ask that again at the end."


def test_a_rough_guess_is_shown_and_taken() -> None:
    held = talk(["later", "about 100 x 40 x 40 cm"], up_to("tank_size"))
    assert "“about 100 x 40 x 40 cm”" in held.face.tones("note")[0]
    assert held.interview.answers[SIZE].how == "estimated"


def test_what_was_left_comes_once_more_and_then_stays_open() -> None:
    held = talk(["later"] * 3, _without("tank_size"))
    assert held.face.ids[:3] == ["tank_size"] * 3
    notes = held.face.tones("note")
    assert "You left this one for the end." in notes
    assert "there is nothing to reckon with" in " ".join(notes)
    assert "tank_size" not in held.face.ids[3:] and SIZE not in held.interview.answers


def test_what_was_left_comes_before_more_than_the_first_look() -> None:
    lines = ["later"] * 2 + ["not sure"] * 40
    held = talk(lines, up_to("tank_size"), live=True)
    at = [asked.label for asked in held.face.asked].index("Shall we go on?")
    assert "tank_size" in held.face.ids[2:at] and "tank_size" not in held.face.ids[at:]


@pytest.mark.parametrize("line", LATER)
@pytest.mark.parametrize("name", ["stage", "region", "animal_count", "water_line_below_rim"])
def test_what_the_talk_can_not_go_on_without_says_so(name: str, line: str) -> None:
    held = talk([line, line, "not sure"], up_to(name))
    assert held.face.ids[:3] == [name] * 3
    for said in held.face.tones("note")[:2]:
        assert "I can't go on without it" in said and "“not sure”" in said
    assert held.interview.answers[Place(name)].how == "assumed"


def test_who_measures_first_is_waited_for_and_may_leave_it() -> None:
    held = talk(["I'd have to measure that", "later"], up_to("tank_size"))
    assert "I wait here" in held.face.tones("note")[0]
    assert "“skip” leaves it for the end" in held.face.tones("note")[0]
    assert held.face.ids[:3] == ["tank_size", "tank_size", "water_line_below_rim"]


def test_an_answer_given_before_is_not_put_off() -> None:
    held = talk(["change tank size", "later", "later", "stop"], demo("musk_turtle"))
    assert held.face.ids[1:4] == ["tank_size"] * 3
    assert held.interview.answers[SIZE].said == demo("musk_turtle").answers[SIZE].said


NO_THERMOMETER = [
    "I don't have that thermometer",
    "no thermometer",
    "we have no thermometer in there",
    "we dont have thermometer",
]


@pytest.mark.parametrize("line", NO_THERMOMETER)
def test_who_has_no_thermometer_is_asked_once_for_all_temperatures(line: str) -> None:
    held = talk([line, "yes", "stop"], up_to("room_temperature_low"))
    assert sum("not sure” for what else" in one.label for one in held.face.asked) == 1
    for name in ("room_temperature_low", "room_temperature_high", "water_temperature"):
        assert held.interview.answers[Place(name)].how == "assumed" or held.said(name) == "not sure"
    assert "Water temperature: Without a thermometer" in " ".join(held.face.tones("note"))
    held = talk([line, "no", "30 °C", "stop"], up_to("room_temperature_low"))
    assert held.said("room_temperature_high") == "30 °C"
    assert Place("water_temperature") not in held.interview.answers


def test_a_missing_thermometer_is_no_answer_to_what_it_does_not_tell() -> None:
    held = talk(["no thermometer", "yes", "stop"], up_to("vulnerable_person"))
    assert Place("vulnerable_person") not in held.interview.answers
    assert held.said("water_temperature") == "not sure"


def test_who_has_no_infrared_thermometer_may_have_one_in_the_water() -> None:
    held = talk(["no infrared gun", "25 °C", "stop"], up_to("water_temperature"))
    assert held.said("water_temperature") == "25 °C"
    assert "needs none of that. Hold a digital thermometer" in " ".join(held.face.tones("note"))
    held = talk(["I don't own an infrared gun yet", "stop"], up_to("basking_temperature"))
    assert held.said("basking_temperature") == "I don't own an infrared gun yet"
    assert "what else" not in held.face.everything


def test_who_has_no_kit_is_asked_once_for_all_tests() -> None:
    held = talk(["I don't have a kit", "yes", "stop"], up_to("ammonia"))
    assert held.said("nitrite") == held.said("nitrate") == "not sure"
    held = talk(["I have no ruler", "stop"], up_to("room_temperature_low"))
    assert "what else" not in held.face.everything
