"""A few sentences instead of an answer: confirmed before anything is kept."""

from __future__ import annotations

from fakes import talk

from interview.graph.interview import Place

STORY = (
    "I've a 3 foot tank, 18 wide and 16 tall, filled to 4 inches below the rim, two painted "
    "turtles, three and four inches, 60 watt halogen about a foot above the ledge"
)


def test_a_story_is_listed_and_kept_when_it_is_right() -> None:
    held = talk([STORY, "yes", "living"])
    title, rows = held.face.listings[0]
    assert title == "I take it that:"
    assert ("Water below rim", "4 inches") in rows
    assert held.said("water_line_below_rim") == "4 inches"
    assert held.said("carapace_length", 1) == "four inches"
    assert held.interview.animal_count == 2
    assert held.said("stage") == "living"
    assert held.saves[0]["heat_lamp_power"] == "60 watt"


def test_a_story_is_forgotten_when_it_is_wrong() -> None:
    held = talk([STORY, "no", "living"])
    assert set(held.interview.answers) == {Place("stage")}


def test_what_was_not_used_is_shown() -> None:
    held = talk([STORY + ", and my brother plays the trombone", "yes"])
    notes = " ".join(held.face.tones("note"))
    assert "Not used:" in notes
    assert "trombone" in notes


def test_the_interview_asks_only_for_the_rest() -> None:
    held = talk([STORY, "yes", "living", "north america", "66 F", "78 F", "no", "aquarium"])
    assert "species" not in held.face.ids
    assert "tank_size" not in held.face.ids
    assert "tank_origin" in held.face.ids


def test_a_long_wrong_answer_is_no_story() -> None:
    held = talk(["I really do not have any idea about that one", "living"])
    assert held.face.tones("refusal")
    assert held.said("stage") == "living"
