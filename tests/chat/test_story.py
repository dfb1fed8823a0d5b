"""A few sentences instead of an answer: confirmed before anything is kept."""

from __future__ import annotations

from typing import Any

import pytest
from fakes import demo, talk, up_to

from interview import assembly
from interview.chat.hearing.agreed.told_before import not_told_yet
from interview.chat.hearing.told import story
from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.told.story_lines import not_used
from interview.graph.interview import Place

STORY = (
    "I've a 3 foot tank, 18 wide and 16 tall, filled to 4 inches below the rim, two painted "
    "turtles, three and four inches, 60 watt halogen about a foot above the ledge"
)


HEATED = "One slider in a glass tank, water 5 inches below the rim, the heater is 100 watts."


def _without_number(row: tuple[str, str]) -> tuple[str, str]:
    return row[0].partition(". ")[2], row[1]


def test_a_story_is_listed_and_kept_when_it_is_right() -> None:
    held = talk([STORY, "yes", "living"])
    title, rows = held.face.listings[0]
    assert title == "I take it that:"
    assert ("Water below rim", "4 inches") in [_without_number(row) for row in rows]
    assert held.said("water_line_below_rim") == "4 inches"
    assert held.said("carapace_length", 1) == "four inches"
    assert held.interview.animal_count == 2
    assert held.said("stage") == "living"
    assert held.saves[0]["heat_lamp_power"] == "60 watt"
    assert held.face.worked_out == ["Reading that."]  # of the story only: no answer takes a second


def test_a_story_is_forgotten_when_it_is_wrong() -> None:
    held = talk([STORY, "no", "living"])
    assert set(held.interview.answers) == {Place("stage")}


def test_what_was_not_used_is_shown() -> None:
    held = talk([STORY + ", and my brother plays the trombone", "yes"])
    notes = " ".join(held.face.tones("note"))
    assert "Not used:" in notes
    assert "trombone" in notes


@pytest.mark.parametrize(
    ("told", "unused"),
    [
        ("My tank is 80 x 40 x 40 cm outside, the water line is 9 cm below the rim, and the "
         "hose is 2 m long.", ("2 m",)),
        ("One slider in a glass tank. Water line: 9 cm", ()),
        ("The water line is 9 cm below the rim, the rim is dusty.", ("rim is dusty",)),
        ("The water line is 9 cm below the rim, the hose is 2 m long, no pipe.", ("pipe",)),
        ("The water line is 9 cm below the rim, the hose is 2 m long, a pipe.", ()),
    ],
)  # fmt: skip
def test_words_that_name_what_was_taken_are_not_given_back(
    told: str, unused: tuple[str, ...]
) -> None:
    story = read_story(assembly.new_interview(), told)
    assert "water_line_below_rim" in [place.id for place, _ in story.answers]
    assert story.unused == unused


@pytest.mark.parametrize(
    ("told", "unused"),
    [
        ("Two sliders, 600 g each, 15 cm each.", ()),
        ("Three musks, each 9 cm.", ()),
        ("Each of the three sliders weighs 600 g.", ("600 g",)),
        ("The room is 18 C in winter, age 12.", ("age 12",)),
        ("Hose length: 2 m", ()),
        ("Hose length: 2 m. A hose of 2 m.", ("hose of 2 m",)),
        ("Lamp fixings: 2; pH: 7.2", ()),
        ("Lamp fixings: 2; pH: 7.2, 2", ("2",)),
    ],
)
def test_an_amount_is_given_back_where_nothing_was_taken_from_it(
    told: str, unused: tuple[str, ...]
) -> None:
    assert read_story(assembly.new_interview(), told).unused == unused


@pytest.mark.parametrize(
    ("told", "strange"),
    [
        ("I have a yellow turtle.", ""),
        ("My giant turtle is 30 cm.", ""),
        ("My oblong turtle is 12 cm.", "I have no facts about “oblong turtle”"),
        ("I have a yellow mud turtle.", "I have no facts about “yellow mud turtle”"),
    ],
)
def test_a_colour_or_a_size_is_no_kind(told: str, strange: str) -> None:
    said = not_used(read_story(assembly.new_interview(), told))
    assert said.startswith(strange) and ("no facts" in said) == bool(strange)


def test_the_interview_asks_only_for_the_rest() -> None:
    situation = ["living", "north america", "66 F", "78 F", "no"]
    held = talk([STORY, "yes", *situation, "female", "female", "aquarium"])
    assert "species" not in held.face.ids
    assert "tank_size" not in held.face.ids
    assert "stand" in held.face.ids


def test_a_long_wrong_answer_is_no_story() -> None:
    held = talk(["I really do not have any idea about that one", "living"])
    assert any("I didn't find an answer" in said for said in held.face.tones("note"))
    assert held.said("stage") == "living"


def test_the_list_says_what_a_loose_name_was_taken_for() -> None:
    held = talk([HEATED, "yes"])
    rows = dict(_without_number(row) for row in held.face.listings[0][1])
    assert rows["Species"] == "slider → red-eared slider (Trachemys scripta elegans)"


def test_every_turtle_of_the_list_is_numbered() -> None:
    held = talk([STORY, "yes"])
    names = [_without_number(row)[0] for row in held.face.listings[0][1]]
    assert {"Turtle 1: Species", "Turtle 2: Species"} <= set(names)
    assert len(names) == len(set(names))


@pytest.mark.parametrize("line", ["no heater power", "not the heater power", "heater power"])
def test_one_line_is_left_out_and_the_rest_is_kept(line: str) -> None:
    held = talk([HEATED, line, "yes"])
    assert Place("heater_power") not in held.interview.answers
    assert held.said("species", 0) == "slider"
    assert "ask it later" in " ".join(held.face.tones("note"))
    assert len(held.face.listings) == 2


def test_a_line_is_left_out_by_its_number() -> None:
    held = talk([HEATED, "no 1", "yes"])
    first = held.face.listings[0][1][0][0].removeprefix("1. ")
    assert first not in [_without_number(row)[0] for row in held.face.listings[1][1]]


@pytest.mark.parametrize("lines", [["change wall material", "acrylic"], ["change wall to acrylic"]])
def test_a_line_is_changed_before_the_story_is_kept(lines: list[str]) -> None:
    held = talk([HEATED, *lines, "yes"])
    assert held.interview.answers[Place("tank_material")].value == "acrylic"
    assert held.said("heater_power") == "100 watts"


@pytest.mark.parametrize(
    ("told", "place", "said"),
    [
        ("no, the slider is 22 cm long and male", Place("carapace_length", 0), "22 cm"),
        ("the slider is 22 cm long, not 20", Place("carapace_length", 0), "22 cm"),
        ("No, the water is 25 °C.", Place("water_temperature"), "25 °C"),
    ],
)
def test_what_is_told_otherwise_is_put_right_and_shown_again(
    told: str, place: Place, said: str
) -> None:
    held = talk(["One slider, 20 cm, in a glass tank.", told, "yes"])
    assert held.interview.answers[place].said == said
    assert said in dict(map(_without_number, held.face.listings[1][1])).values()
    assert held.said("species", 0) == "slider" and not held.face.tones("refusal")


def test_what_may_be_of_either_turtle_is_asked_for_by_its_line() -> None:
    held = talk([STORY, "no, the turtle is 9 cm long and the water is 25 °C", "yes"])
    assert "which turtle" in held.face.tones("refusal")[0]
    assert held.said("water_temperature") == "25 °C"


def test_what_fits_no_line_is_given_back_as_it_was_typed() -> None:
    assert "No line goes by “18 C”." in talk([HEATED, "no 18 C", "yes"]).face.tones("refusal")[0]


def test_a_name_that_fits_several_lines_or_none_changes_nothing() -> None:
    held = talk([STORY, "no species", "no trombone", "yes"])
    which, none = held.face.tones("refusal")[:2]
    assert "“Turtle 1: Species” or “Turtle 2: Species”" in which
    assert "No line goes by “trombone”" in none
    assert held.interview.animal_count == 2


def test_fewer_turtles_take_their_lines_along() -> None:
    held = talk([STORY, "change number of turtles to 1", "yes"])
    assert held.interview.animal_count == 1
    assert Place("species", 1) not in held.interview.answers


def test_no_turtles_are_kept_without_their_number() -> None:
    held = talk([STORY, "no number of turtles", "yes"])
    assert not [place for place in held.interview.answers if place.animal is not None]


def test_what_the_region_reads_anew_is_said_back() -> None:
    told = "One slider in a glass tank, the filter is rated 350 gph, the heater is 100 watts."
    held = talk([told, "yes", "living", "australia"])
    assert any("350 imp gph" in note for note in held.face.tones("note"))
    reading = held.interview.answers[Place("filter_rated_flow")].value
    assert getattr(reading, "unit", "") == "imperial_gallon/hour"


def test_a_temperature_without_a_scale_is_marked_as_a_guess() -> None:
    bare = "One slider in a glass tank. The water is at 24."
    rows = dict(map(_without_number, talk([bare, "yes"]).face.listings[0][1]))
    assert rows["Water temperature"] == "24 °C (the scale is my guess)"
    for told in (f"I live in Leeds. {bare}", f"{bare} Basking is at 33 °C."):
        rows = dict(map(_without_number, talk([told, "yes"]).face.listings[0][1]))
        assert "guess" not in rows["Water temperature"]


def test_a_story_never_takes_back_what_was_told_before() -> None:
    """Who plans a tank for a map turtle has no turtle yet; one of two turtles is not the other."""
    held = talk(
        ["planning", "a little map turtle of 4 cm in a tank of 120 x 50 x 50 cm", "", "stop"]
    )
    (shown,) = [rows for title, rows in held.face.listings if title.startswith("I take it")]
    assert not any("Stage of the tank" in name for name, _ in shown)
    assert held.said("stage") == "planning" and held.said("species", 0) == "map turtle"


def test_one_turtle_of_several_is_no_new_number() -> None:
    interview = demo("painted_turtles_classroom")
    told = read_story(interview, "the painted turtle has a shell of 12 cm and lives on its own")
    assert Place("animal_count") in dict(told.answers)
    assert Place("animal_count") not in dict(not_told_yet(interview, told).answers)


@pytest.mark.parametrize(
    "text",
    [
        "pH: 7.2; pH: 7.4",
        "Water temperature: should be 26 C",
        "Water temp: 24 C. No wait, that's the room.",
    ],
)
def test_a_labelled_row_is_doubted_like_a_sentence(text: str) -> None:
    assert read_story(assembly.new_interview(), text).answers == ()


def test_what_it_should_be_takes_nothing_back() -> None:
    told = read_story(assembly.new_interview(), "Water temperature: 24 C, should be 26 C")
    assert told.answers == ((Place("water_temperature"), "24 C"),)


def test_a_labelled_row_is_taken() -> None:
    told = dict(read_story(assembly.new_interview(), "pH: 7.2; lamp fixings: 2").answers)
    assert told == {Place("ph"): "7.2", Place("lamp_fixings"): "2"}


def test_what_is_told_where_a_yes_is_wanted_is_heard_next() -> None:
    told = "One slider, she is 12 cm long."
    for reply in ("yes and it is a 100 x 40 x 50 cm tank", "it is 100 x 40 x 50 cm"):
        held = talk([told, reply, "yes", "stop"], live=True)
        assert held.said("species", 0) == "slider"
        assert held.said("tank_size") == "100 x 40 x 50 cm"
        assert not held.face.tones("refusal")


def test_what_is_told_where_a_region_is_offered_is_heard_next() -> None:
    home = "we are in Ohio, in an apartment on the third floor"
    held = talk(["living", home, "it drops to 66 F at night", "yes", "stop"], live=True)
    assert held.said("region") == "usa"
    assert held.said("room_temperature_low") == "66 F"


def test_where_a_story_is_agreed_why_is_told_and_back_forgets_it() -> None:
    held = talk(["One slider, she is 12 cm long.", "why", "back", "stop"], live=True)
    assert not any("No line goes by" in said for said in held.face.tones("refusal"))
    assert not held.interview.answers
    assert any("nothing is kept until you agree" in said for said in held.face.tones("help"))


def test_who_is_not_sure_of_a_list_loses_no_more_than_the_line_it_is_of() -> None:
    told = "One slider, she is 12 cm long."
    held = talk([told, "not sure", "no shell length", "yes", "stop"], live=True)
    assert held.said("species", 0) == "slider"
    assert Place("carapace_length", 0) not in held.interview.answers
    assert any("Which line aren't you sure of?" in said for said in held.face.tones("help"))


def test_a_long_line_is_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    told, read = "The tank is 100 x 40 x 40 cm and the water is 25 C. It is lovely to look at. ", []
    extract = story.extract_facts

    def counted(text: str, **of: Any) -> Any:
        read.append(text)
        return extract(text, **of)

    monkeypatch.setattr(story, "extract_facts", counted)
    held = talk([told * 4, "yes"], up_to("tank_size"))
    assert held.said("tank_size") == "100 x 40 x 40 cm"
    assert len([text for text in read if text.startswith("The tank")]) == 1


def test_a_long_story_that_speaks_of_the_back_is_a_story() -> None:
    told = (
        "We have a common musk turtle of 9 cm in a glass tank of 80 x 35 x 40 cm with a filter "
        "hooked over the back, a heater of 100 W at the back wall, and a plank of cork at the left "
        "that floats. He gets pellets every other day, and every Sunday we change a third of the "
        "water, which goes back into the garden. The room is never colder than 17 degrees Celsius."
    )
    held = talk([told, "yes", "stop"], live=True)
    assert held.said("tank_size") == "80 x 35 x 40 cm"
    assert held.said("heater_power") == "100 W"
