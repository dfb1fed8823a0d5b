"""What is told of one of several known turtles goes to that turtle, or is asked."""

from __future__ import annotations

import pytest
from fakes import Held, demo, talk, up_to

from interview import assembly
from interview.chat.hearing.changes import changes_in
from interview.graph.interview import Interview, Place


def _two(*kinds: str) -> Interview:
    interview = assembly.new_interview()
    for name, said in (("stage", "living"), ("region", "Germany"), ("animal_count", "2")):
        interview.record(Place(name), said)
    for turtle, kind in enumerate(kinds):
        interview.record(Place("species", turtle), kind)
    return interview


def _of_turtles(held: Held) -> dict[tuple[str, int], str]:
    return {
        (at.id, at.animal): answer.said
        for at, answer in held.interview.answers.items()
        if at.animal is not None and at.id != "species"
    }


@pytest.mark.parametrize(
    ("line", "name", "turtle", "said"),
    [
        ("the map is a boy", "sex", 1, "male"),
        ("the slider is a boy", "sex", 0, "male"),
        ("turtle 2 is a boy", "sex", 1, "male"),
        ("the second turtle is a girl", "sex", 1, "female"),
        ("the map is 9 cm long", "carapace_length", 1, "9 cm"),
    ],
)
@pytest.mark.parametrize("question", ["change turtle 1 sex", "change turtle 1 shell length"])
def test_a_kind_or_a_number_tells_which_turtle(
    question: str, line: str, name: str, turtle: int, said: str
) -> None:
    held = talk([question, line, "yes"], _two("slider", "map"))
    ((_, rows),) = held.face.listings
    assert [row for row, _ in rows] == [f"1. Turtle {turtle + 1}: " + _short(held, name)]
    assert _of_turtles(held) == {(name, turtle): said}
    assert [held.said("species", n) for n in (0, 1)] == ["slider", "map"]


def _short(held: Held, name: str) -> str:
    return held.interview.question(Place(name, 0)).short


@pytest.mark.parametrize(
    ("kinds", "line"),
    [(("slider", "map"), "the musk is a boy"), (("slider", "slider"), "the slider is a boy")],
)
def test_what_may_be_of_either_turtle_is_not_taken(kinds: tuple[str, str], line: str) -> None:
    held = talk([line], _two(*kinds))
    assert any("I can't tell which turtle that is of" in text for _, text in held.face.said)
    assert not held.face.listings and not _of_turtles(held)


def test_of_two_of_a_kind_the_one_that_is_asked_of_is_meant() -> None:
    lines = ["change turtle 2 sex", "the slider is a boy", "yes"]
    assert _of_turtles(talk(lines, _two("slider", "slider"))) == {("sex", 1): "male"}


def test_the_kind_told_where_it_is_asked_is_of_that_turtle() -> None:
    held = talk(["change turtle 2 species", "it is a slider too", "yes"], _two("slider"))
    assert held.said("species", 1) and not _of_turtles(held)


def test_a_line_that_replaces_what_stands_says_so() -> None:
    interview = _two("slider", "map")
    interview.record(Place("sex", 1), "female")
    held = talk(["the map is a boy", "yes"], interview)
    assert held.face.listings[0][1] == [("1. Turtle 2: Sex", "male, in place of female")]


# ---- by its number, its turn, its looks


def _kept(lines: list[str], interview: Interview) -> dict[tuple[str, int], str]:
    return _of_turtles(talk(lines, interview))


@pytest.mark.parametrize("line", ["turtle 2 male", "turtle 2: male", "#2 is male", "the 2nd: male"])
def test_a_few_words_of_another_turtle_are_kept_for_that_one(line: str) -> None:
    kept = _kept(["change turtle 1 sex", line, "yes"], _two("slider", "map"))
    assert kept == {("sex", 1): "male"}


_OTHER = [
    "turtle 2: 9 cm",
    "turtle two is 9 cm",
    "the second is 9 cm",
    "the 2nd one is 9 cm",
    "#2 is 9 cm",
    "the other one is 9 cm",
    "the other is about 9 cm",
    "Turtle no. 2 9cm",
    "the second turtle's shell is 9 cm",
    "turtle 2's shell is 9 cm",
    "the last one is 9 cm",
]


@pytest.mark.parametrize("line", _OTHER)
def test_a_length_of_another_turtle_is_kept_for_that_one(line: str) -> None:
    held = talk(["change turtle 1 shell length", line, "yes"], _two("slider", "map"))
    assert "Do you mean" not in held.face.everything
    ((_, rows),) = held.face.listings
    assert [row for row, _ in rows] == ["1. Turtle 2: Shell length"]
    kept = _of_turtles(held)
    assert [*kept] == [("carapace_length", 1)] and "9" in kept["carapace_length", 1]


@pytest.mark.parametrize(
    "line",
    [
        "smaller than the other one, 9 cm",
        "half of the other one, 9 cm",
        "like the other one, 9 cm",
        "half the size of the other one, 9 cm",
        "as big as turtle 1, 9 cm",
        "the same as the first, 9 cm",
        "9 cm, shorter than the biggest",
    ],
)
def test_a_turtle_that_another_is_compared_with_is_not_told_of(line: str) -> None:
    interview = _two("slider", "map")
    interview.record(Place("carapace_length", 0), "20 cm")
    kept = _kept(["change turtle 2 shell length", line, "yes"], interview)
    assert kept == {("carapace_length", 0): "20 cm", ("carapace_length", 1): "9 cm"}


@pytest.mark.parametrize(
    "line", ["it looks like the other one is 9 cm", "the length of the other one is 9 cm"]
)
def test_a_turtle_called_behind_like_or_of_is_told_of(line: str) -> None:
    kept = _kept(["change turtle 1 shell length", line, "yes"], _two("slider", "map"))
    assert [*kept] == [("carapace_length", 1)]


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        (
            "the map is 9 cm, the other one is a girl",
            {("carapace_length", 1): "9 cm", ("sex", 0): "female"},
        ),
        (
            "the slider is a girl and the other one is a boy",
            {("sex", 0): "female", ("sex", 1): "male"},
        ),
        ("the map is 9 cm, the bigger one is a girl", {("carapace_length", 1): "9 cm"}),
        ("the musk is 9 cm, the other one is a girl", {}),
    ],
)
def test_the_other_than_one_of_a_kind_is_told_of_or_nobody(
    line: str, kept: dict[tuple[str, int], str]
) -> None:
    assert _kept([line, "yes"], _two("slider", "map")) == kept


@pytest.mark.parametrize("line", _OTHER)
def test_what_is_told_of_another_turtle_and_not_agreed_to_is_nobodys(line: str) -> None:
    lines = ["change turtle 1 shell length", line, "no", line, "yes"]
    assert not _kept(lines, _two("slider", "map"))


@pytest.mark.parametrize(
    "line",
    [
        "turtle 1 is male and turtle 2 is female",
        "turtle 1 male, turtle 2 female",
        "the first is male the second is female",
        "male, and the other one is female",
        "turtle 2 is female, turtle 1 male",
    ],
)
def test_each_of_two_turtles_told_in_a_line_gets_its_own(line: str) -> None:
    kept = _kept(["change turtle 1 sex", line, "yes"], _two("slider", "map"))
    assert kept == {("sex", 0): "male", ("sex", 1): "female"}


def test_of_turtles_named_together_each_gets_what_is_told() -> None:
    kept = _kept(["change turtle 1 sex", "turtles 1 and 2 are male", "yes"], _two("slider", "map"))
    assert kept == {("sex", 0): "male", ("sex", 1): "male"}


@pytest.mark.parametrize(
    ("line", "name", "said"),
    [
        ("painted turtle 4 inches", "carapace_length", "4 inches"),
        ("my painted turtle 5 in is a girl", "carapace_length", "5 in"),
        ("the painted turtle is a girl", "sex", "female"),
    ],
)
@pytest.mark.parametrize("question", ["change turtle 1 shell length", "change room humidity"])
def test_an_amount_behind_a_kind_is_no_number_of_a_turtle(
    question: str, line: str, name: str, said: str
) -> None:
    kept = _kept([question, line, "yes", "yes"], _two("map", "painted"))
    assert kept.get((name, 1)) == said and (name, 0) not in kept


def test_an_amount_is_used_once_and_a_number_is_no_word_that_is_left() -> None:
    lines = ["change turtle 1 sex", "turtle 2 is 9 cm and weighs 300 g", "yes"]
    held = talk(lines, _two("slider", "map"))
    assert _of_turtles(held) == {("carapace_length", 1): "9 cm", ("mass", 1): "300 g"}
    assert "Not used" not in held.face.everything


def test_the_bigger_one_is_the_one_that_was_told_to_be_longer() -> None:
    interview = _two("slider", "map")
    for turtle, long in enumerate(("14 cm", "9 cm")):
        interview.record(Place("carapace_length", turtle), long)
    held = talk(["change turtle 1 sex", "the smaller one is a girl", "yes"], interview)
    assert held.said("sex", 1) == "female" and Place("sex", 0) not in interview.answers


@pytest.mark.parametrize("line", ["turtle 7 is male", "turtle 1 or turtle 2 is male"])
def test_a_turtle_that_nobody_knows_gets_nothing(line: str) -> None:
    held = talk([line], _two("slider", "map"))
    assert any("I can't tell which turtle that is of" in text for _, text in held.face.said)
    assert not _of_turtles(held)


def test_the_second_of_other_things_is_no_turtle() -> None:
    held = talk(["change heat lamp kind", "the second one is a halogen"], _two("slider", "map"))
    assert not _of_turtles(held) and not held.face.listings


_STORY = "Two turtles, a map of 9 cm and a slider of 14 cm, live in a 120x50x50 cm tank in Ohio."


@pytest.mark.parametrize(
    ("line", "name", "turtle", "said"),
    [
        ("no, the slider is 16 cm", "carapace_length", 1, "16 cm"),
        ("no, turtle 1 is 10 cm", "carapace_length", 0, "10 cm"),
        ("no, the bigger one is 16 cm", "carapace_length", 1, "16 cm"),
        ("no, the map is a boy", "sex", 0, "male"),
    ],
)
def test_a_list_knows_its_own_turtles(line: str, name: str, turtle: int, said: str) -> None:
    held = talk([_STORY, line, "yes"])
    assert "I can't tell which" not in held.face.everything
    assert held.said(name, turtle) == said
    other = 1 - turtle
    assert held.said("carapace_length", other) == ("9 cm", "14 cm")[other]


# ---- one that came to the others


@pytest.mark.parametrize(
    "line",
    [
        "our new second turtle is a slider of 14 cm",
        "my second turtle is a slider, 14 cm",
        "we got another slider of 14 cm",
    ],
)
@pytest.mark.parametrize("question", ["room humidity", "shell length"])
def test_what_is_told_of_one_more_turtle_leaves_the_first_as_it_was(
    question: str, line: str
) -> None:
    interview = demo("musk_turtle")
    kind = interview.answers[Place("species", 0)].said
    held = talk([f"change {question}", line, "yes"], interview)
    assert "in place of 9.5" not in held.face.everything
    assert [held.said("species", n) for n in (0, 1)] == [kind, "slider"]
    assert held.said("animal_count") == "2" and held.said("carapace_length", 1) == "14 cm"


@pytest.mark.parametrize(
    "line",
    ["we would like another slider of 14 cm", "my friend has another slider of 14 cm"],
)
def test_one_more_that_is_only_wished_for_is_not_counted(line: str) -> None:
    held = talk(["change room humidity", line, "yes"], demo("musk_turtle"))
    assert held.said("animal_count") == "1"


@pytest.mark.parametrize(
    ("line", "many"),
    [
        ("I took the filter out and got another slider of 14 cm", "2"),
        ("we sold the old lamp and got another slider, 14 cm", "2"),
        ("the lamp died and our new second turtle is a slider of 14 cm", "2"),
        ("my second turtle is a slider, 14 cm, he lost a claw", "2"),
        ("our second turtle, a slider of 14 cm, died", "1"),
        ("our turtle died, so we got another slider of 14 cm", "1"),
        ("the second slider has escaped", "1"),
    ],
)
def test_only_a_turtle_that_is_gone_is_not_counted(line: str, many: str) -> None:
    held = talk(["change room humidity", line, "yes"], demo("musk_turtle"))
    assert held.said("animal_count") == many


def test_a_kind_and_a_number_tell_of_two_turtles_in_one_line() -> None:
    line = "the map is a boy and turtle 1 is 14 cm"
    kept = _kept(["change room humidity", line, "yes"], _two("slider", "map"))
    assert kept == {("sex", 1): "male", ("carapace_length", 0): "14 cm"}


def test_two_kinds_told_by_their_turn_are_both_taken() -> None:
    line = "the first is a slider, the second a musk of 9 cm"
    held = talk(["change turtle 1 species", line, "yes"], _two())
    assert [held.said("species", n) for n in (0, 1)] == ["slider", "musk"]
    assert held.said("carapace_length", 1) == "9 cm"


def test_the_number_of_a_turtle_is_no_answer_that_is_refused() -> None:
    held = talk(["change turtle 1 shell length", "14 cm"], _two("slider", "map"))
    assert not held.face.tones("refusal") and held.said("carapace_length", 0) == "14 cm"


@pytest.mark.parametrize("who", ["moss", "one of them", "the bigger one"])
def test_what_grew_beside_a_new_lamp_is_a_turtle(who: str) -> None:
    held = up_to("tank_size")
    for place, said in (("uvb_lamp_kind", "T5 tube"), ("uvb_lamp_height", "20 cm")):
        held.record(Place(place), said)
    lamp, grown = changes_in(held, f"changed the UVB bulb and {who} grew 1 cm")
    assert lamp.place == Place("uvb_lamp_age")
    assert grown.place == Place("carapace_length", 0)
    assert grown.told and grown.told.form == "by"
