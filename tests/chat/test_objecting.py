"""A sentence that objects to a list, and tells what it should be, puts the list right."""

from __future__ import annotations

import pytest
from fakes import talk, up_to

from interview.graph.interview import Place
from interview.words.intents.contrast import asserted

TOLD = "We have a slider of 20 cm in a 100 x 40 x 40 cm tank on a shelf, the heater is 100 W"
PUT_RIGHT = {
    "but the heater isn't 100 it's 150 W": ("heater_power", "150 W"),
    "the heater isn't 100 W but 150 W": ("heater_power", "150 W"),
    "not 100 W but 150 W": ("heater_power", "150 W"),
    "no, the heater is 150 W, not 100": ("heater_power", "150 W"),
    "the tank is not on a shelf, it is on the floor": ("stand", "floor"),
    "yes but the filter is a canister": ("filter_kind", "canister"),
    "but we have no lid": ("cover_water", "none"),
    "number 7 is 150 W": ("heater_power", "150 W"),
    "the second should be 2": ("animal_count", "2"),
}


@pytest.mark.parametrize("line", PUT_RIGHT)
def test_what_an_objection_tells_is_in_the_list_that_is_shown_again(line: str) -> None:
    held = talk([TOLD, line, "yes", "stop"])
    name, said = PUT_RIGHT[line]
    assert [asked.label for asked in held.face.asked][1:3] == ["Is that right?"] * 2
    assert len(held.face.listings) == 2 and held.said(name) == said
    assert held.said("tank_size") == "100 x 40 x 40 cm" and not held.face.tones("refusal")


@pytest.mark.parametrize("line", ["the tank isn't that big", "but it's not on a shelf"])
def test_an_objection_that_tells_nothing_else_is_asked_which_line_it_means(line: str) -> None:
    held = talk([TOLD, line, "yes", "stop"])
    assert "Which line is it?" in held.face.tones("note")[-1]
    assert len(held.face.listings) == 1 and held.said("stand") == "shelf"


LEFT_OUT = {
    "everything but the heater": "heater_power",
    "yes, all except number 7": "heater_power",
    "not a slider": "species",
    "no slider": "species",
    "drop the third one": "species",
}


@pytest.mark.parametrize("line", LEFT_OUT)
def test_a_line_goes_by_its_place_or_by_what_stands_there(line: str) -> None:
    held = talk([TOLD, line, "yes", "stop"])
    told = {place.id for place in held.interview.answers}
    assert {"species", "heater_power", "tank_size"} - told == {LEFT_OUT[line]}
    assert not held.face.tones("refusal")


def test_a_line_called_wrong_by_its_place_is_asked_anew() -> None:
    held = talk([TOLD, "the fourth one is wrong", "18 cm", "yes", "stop"])
    assert held.said("carapace_length", 0) == "18 cm"


def test_a_short_sentence_with_a_number_goes_into_the_list() -> None:
    held = talk(["a slider in a 100 x 40 x 40 cm tank", "she's about 20cm", "yes", "stop"])
    assert held.said("carapace_length", 0) == "about 20cm"
    assert not [said for said in held.face.tones("refusal") if "No line goes by" in said]


@pytest.mark.parametrize(
    "line",
    [
        "no, I have a musk",
        "but one is a musk turtle",
        "yes but my turtle is a girl",
        "no, the musk is 9 cm",
    ],
)
def test_what_may_be_of_either_turtle_takes_none_off_the_list(line: str) -> None:
    two = "Two turtles, a map of 9 cm and a slider of 14 cm, live in a 120x50x50 cm tank in Ohio."
    held = talk([two, line, "yes", "stop"])
    assert "which turtle" in held.face.tones("refusal")[0]
    assert held.said("animal_count") == "2" and held.said("carapace_length", 1) == "14 cm"


@pytest.mark.parametrize("line", ["but two are musk turtles", "no, I have two musks"])
def test_some_of_three_turtles_leave_the_third_on_the_list(line: str) -> None:
    three = "Three turtles, a map of 9 cm, a slider of 14 cm and a cooter of 20 cm, in Ohio."
    held = talk([three, line, "yes", "stop"])
    assert held.said("animal_count") == "3" and held.said("carapace_length", 2) == "20 cm"


@pytest.mark.parametrize("line", ["no, I have one turtle", "but there's only one turtle"])
def test_turtles_counted_anew_are_as_many_as_that(line: str) -> None:
    two = "Two turtles, a map of 9 cm and a slider of 14 cm, live in a 120x50x50 cm tank in Ohio."
    assert talk([two, line, "yes", "stop"]).said("animal_count") == "1"


@pytest.mark.parametrize("line", ["skip", "skip this one", "can we do that later"])
def test_who_would_skip_a_list_is_told_how_to_keep_or_forget_it(line: str) -> None:
    held = talk([TOLD, line, "yes", "stop"])
    assert held.face.tones("help")[0].startswith("Enter keeps it all")
    assert held.said("stand") == "shelf" and not held.face.tones("refusal")


def test_an_illness_told_with_an_objection_is_heard() -> None:
    held = talk([TOLD, "no he is a cooter and he won't eat", "yes"])
    assert sum("within a day or two" in said for said in held.face.tones("note")) == 1
    assert held.said("species", 0) == "cooter"


CONTRASTS = {
    "It's not glass, it's acrylic.": "It's acrylic",
    "he isn't 20 cm, he's 22 cm": "he is 22 cm",
    "the water’s not 25 but 27 C": "the water’s 27 C",
    "no the lamps aren't halogens but ceramics": "no the lamps are ceramics",
    "the stand was not oak but rather pine": "the stand was pine",
    "the hose is 2 m long, and not 3": "the hose is 2 m long",
}
NONE = [
    "the heater is not new",
    "he is not eating but he basks all day and I think that the new lamp, which is hot, scares him",
    "the tank is 100 cm long",
    "we do not have a heater",
    "no 2",
    "not the heater",
]


@pytest.mark.parametrize("line", CONTRASTS)
def test_of_a_contrast_what_holds_is_left(line: str) -> None:
    assert asserted(line) == CONTRASTS[line]


@pytest.mark.parametrize("line", NONE)
def test_what_sets_nothing_against_another_stays_as_it_is(line: str) -> None:
    assert asserted(line) == line


@pytest.mark.parametrize(
    "line",
    [
        "that is it",
        "all",
        "that's all of it",
        "keep everything",
        "ok, take it all",
        "it's all right",
    ],
)
def test_all_of_a_list_is_agreed_to_in_few_words(line: str) -> None:
    held = talk([TOLD, line, "stop"])
    assert held.said("tank_size") == "100 x 40 x 40 cm" and held.said("stand") == "shelf"
    assert not held.face.tones("refusal")


@pytest.mark.parametrize("line", ["number 99 is 5", "twenty two", "22", "line 12 should be 22 cm"])
def test_a_number_that_is_no_line_of_the_list_changes_nothing_and_waits_for_nothing(
    line: str,
) -> None:
    held = talk([TOLD, line, "yes", "stop"])
    assert held.face.tones("refusal") == [
        "Which line is that of? “change 2 to 22 cm” mends the second one."
    ]
    assert held.said("animal_count") == "1" and held.said("carapace_length", 0) == "20 cm"
    assert line not in held.face.repeated


@pytest.mark.parametrize("line", ["drop it", "remove that", "scrap this one", "no, all of them"])
def test_what_leaves_out_without_a_name_is_asked_which_line_it_means(line: str) -> None:
    held = talk([TOLD, line, "yes", "stop"])
    assert "Which line is it?" in held.face.tones("note")[-1]
    assert held.said("species", 0) == "slider" and len(held.face.listings) == 1


@pytest.mark.parametrize("line", ["not a slider but a cooter", "it's not a slider, it's a cooter"])
def test_a_kind_denied_for_another_is_that_other(line: str) -> None:
    held = talk([TOLD, line, "yes", "stop"])
    assert held.said("species", 0) == "cooter"


def test_a_list_that_was_put_aside_is_not_refused_once_more() -> None:
    held = talk([TOLD, "forget it", "stop"])
    assert not held.interview.answers and not held.face.tones("refusal")
    assert "I forget that" in held.face.tones("note")[-1]


def test_what_tells_nothing_of_a_list_is_heard_at_no_later_question() -> None:
    told = "like 8 inches maybe a bit more, i used my ruler but he keeps moving"
    held = talk([TOLD, told, "yes", "stop"])
    assert not held.face.repeated and "nothing for the list" in " ".join(held.face.tones("note"))


@pytest.mark.parametrize("line", ["just one heater", "it's 1.2 m long", "only 1 W less"])
def test_who_counts_something_else_has_no_fewer_turtles(line: str) -> None:
    told = "We have two sliders in a 120x50x50 cm tank, 100 W heater, canister filter"
    held = talk([told, line, "yes", "stop"])
    assert held.said("animal_count") == "2" and held.said("species", 1) == "slider"


def test_a_kind_that_is_listed_already_tells_whose_length_is_mended() -> None:
    held = talk([TOLD, "no, the slider is more like 22", "yes", "stop"])
    assert held.said("carapace_length", 0) == "about 22 cm"


def test_two_heaters_are_no_two_turtles() -> None:
    held = talk(["two heaters", "stop"], up_to("animal_count"))
    assert Place("animal_count") not in held.interview.answers
