"""Which of several turtles words call, and what only looks like it."""

from __future__ import annotations

import pytest

from interview.words.intents.which_turtle import turtles_in

CALLED: dict[str, list[int | str]] = {
    "turtle 2: 9 cm": [2],
    "turtle two is 9 cm": [2],
    "Turtle no. 2 male": [2],
    "#2 is 9 cm": [2],
    "number 2 is 9 cm": [2],
    "turtle 2's shell is 9 cm": [2],
    "second turtle's shell is 9 cm": [2],
    "the second is 9 cm": [2],
    "the 2nd one is 9 cm": [2],
    "the other one is 9 cm": ["other"],
    "the biggest died": ["greatest"],
    "turtle 1 is male and turtle 2 is female": [1, 2],
    "turtles 1 and 2 are male": [1, 2],
    "the bigger one is a girl, the smaller one a boy": ["greatest", "least"],
    "our new second turtle is a slider": [2],
    "the last one is a boy": ["latest"],
    "the third one is a girl": [3],
    "the smallest of them is 5 cm": ["least"],
    "the biggest is 20 cm, the smallest 9": ["greatest", "least"],
    "the big one grew 2 cm": ["greatest"],
    "two of them are male": ["all"],
    "one of the turtles grew 1 inch": ["all"],
    "two of my turtles are male": ["all"],
    "all of the turtles are male": ["all"],
    "all three are girls": ["all"],
    "both turtles are 9 cm": ["all"],
    "they are both girls": ["all"],
    "my two turtles are girls": ["all"],
}
NOT_CALLED = [
    "painted turtle 4 inches",
    "my painted turtle 5 in is a girl",
    "map turtle 3 years old is a boy",
    "painted turtle 4",
    "no 2 male",
    "a second turtle, a slider",
    "the second filter is a canister",
    "I changed the other lamp",
    "a second hand filter",
    "the turtle is 2 years old",
    "the first time I fed the turtle",
    "the biggest tank in the shop",
    "3 turtles in 40 gallons",
    "a third of the water",
    "we have one more turtle",
    "two turtles are girls",
    "all of it is new",
    "they told me to buy a heater",
    "smaller than the big one",
    "the size of turtle 2",
    "some of the turtles grew",
    "none of my turtles are male",
]


@pytest.mark.parametrize("line", CALLED)
def test_a_turtle_is_called_by_its_number_its_turn_or_its_looks(line: str) -> None:
    assert [one.rank or one.number for one in turtles_in(line)] == CALLED[line]


@pytest.mark.parametrize("line", NOT_CALLED)
def test_what_counts_or_measures_calls_no_turtle(line: str) -> None:
    assert turtles_in(line) == []
