"""What is told otherwise, and where it leaves what hangs on it."""

from __future__ import annotations

import pytest
from fakes import Held, demo, talk

from interview.graph.interview import Interview, Place


def _standing() -> Interview:
    interview = demo("musk_turtle")
    interview.record(Place("platform_kind"), "fixed")
    interview.doubtful.clear()
    return interview


def test_a_standing_platform_is_offered_where_the_changed_water_leaves_it() -> None:
    held = talk(["change water line", "14 cm", "", "stop"], _standing())
    assert held.said("platform_height_above_water") == "about 5.5 cm"
    asked = next(a for a in held.face.asked if a.place == Place("platform_height_above_water"))
    assert asked.keeps == "about 5.5 cm" and "should be 5.5 cm now" in asked.hint


def test_a_second_change_moves_on_from_where_the_first_left_it() -> None:
    lines = ["change water line", "14 cm", "change water line", "12 cm", "", "stop"]
    held = talk(lines, _standing())
    assert held.said("platform_height_above_water") == "about 3.5 cm"


def test_what_was_measured_since_is_offered_as_it_is() -> None:
    lines = ["change water line", "14 cm", "4 cm", "change water line", "15 cm", "", "stop"]
    held = talk(lines, _standing())
    assert held.said("platform_height_above_water") == "about 5 cm"


def _at_the_review(*lines: str) -> Held:
    return talk([*lines, "stop"], demo("musk_turtle"))


def test_a_change_is_heard_where_the_audit_is_offered() -> None:
    held = _at_the_review("the water is 27 °C now")
    assert held.face.asked[0].label == "Ready for the audit?"
    assert held.said("water_temperature") == "27 °C"


@pytest.mark.parametrize("line", ["thanks", "no idea", "what if the water is 27 °C"])
def test_what_changes_nothing_there_changes_nothing(line: str) -> None:
    held = _at_the_review(line)
    assert held.said("water_temperature") == "24.5 °C"


def test_a_turtle_that_joined_is_counted_with_what_else_was_told() -> None:
    held = _at_the_review("the second turtle is a slider and the water is 27 °C now", "yes")
    assert held.said("animal_count") == "2" and held.said("species", 1) == "slider"
    assert held.said("water_temperature") == "27 °C"


def test_what_follows_a_yes_is_no_answer_to_what_was_confirmed() -> None:
    lines = ["change shell length", "40 cm", "yes. the heater has 100 W", "yes", "stop"]
    held = talk(lines, demo("musk_turtle"), live=True)
    assert held.said("carapace_length", 0) == "40 cm"
    assert held.said("heater_power") == "100 W"
