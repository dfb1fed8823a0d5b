"""What is told of one of several known turtles goes to that turtle, or is asked."""

from __future__ import annotations

import pytest
from fakes import Held, talk

from interview import assembly
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


def test_a_few_words_of_another_turtle_are_no_answer() -> None:
    held = talk(["change turtle 1 sex", "turtle 2 male", "yes"], _two("slider", "map"))
    assert ("sex", 0) not in _of_turtles(held)
