"""Turtles that phrases took of a story, laid beside those heard in it as a whole."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from interview import assembly
from interview.chat.hearing.told.turtles_heard import Turtles, chance_of_number, turtles
from interview.graph.interview import Place
from interview.words.learned.names import MOST_TURTLES, asked_by, of_turtle
from interview.words.learned.readings import NONE, Choosing, Heard

MUSK, SLIDER, MAP = (
    "sternotherus_odoratus",
    "trachemys_scripta_elegans",
    "graptemys_pseudogeographica",
)
TOLD = {"musk": "common musk turtle", "slider": "red-eared slider", "map": "false map turtle"}


def _heard(kinds: tuple[str, ...], count: Mapping[str, float]) -> Heard:
    """A story that surely tells these kinds, in their order."""
    counts = dict.fromkeys((NONE, *"23456"), 0.0) | dict(count)
    found = {"animal_count": Choosing(counts)}
    for turtle in range(MOST_TURTLES):
        kind = kinds[turtle] if turtle < len(kinds) else NONE
        found[of_turtle("species", turtle)] = Choosing({kind: 1.0})
    return Heard(found, ())


def _turtles(heard: Heard, *kinds: str) -> Turtles:
    """What becomes of turtles of these kinds, one after the other."""
    told = [(Place("species", n), TOLD[kind]) for n, kind in enumerate(kinds)]
    count = [(Place("animal_count"), str(len(kinds)))] if kinds else []
    return turtles(assembly.new_interview(), heard, [*count, *told], "")


def test_each_turtle_has_a_name_of_its_own_and_the_last_ones_share_one() -> None:
    names = [of_turtle("age", animal) for animal in (None, 0, 1, 2, 3)]
    assert names == ["age", "age", "age@2", "age@3", "age@3"]
    assert [asked_by(name) for name in names[1:4]] == [("age", 0), ("age", 1), ("age", 2)]


@pytest.mark.parametrize(
    ("kinds", "order"),
    [
        (("musk", "slider"), [0, 1]),
        (("slider", "musk"), [1, 0]),
        (("slider",), [1]),
        (("map", "musk", "slider"), [2, 0, 1]),
    ],
)
def test_turtles_are_laid_side_by_side_by_their_kinds(
    kinds: tuple[str, ...], order: list[int]
) -> None:
    heard = _heard((MUSK, SLIDER, MAP)[: max(2, len(kinds))], {"2": 1.0, "3": 0.5, NONE: 0.5})
    assert list(_turtles(heard, *kinds).order)[: len(order)] == order


def test_where_kinds_tell_nothing_the_order_stands() -> None:
    heard = _heard((MUSK, MUSK), {"2": 1.0})
    assert list(_turtles(heard, "musk", "musk").order) == [0, 1]


def test_a_number_that_the_story_hardly_tells_is_not_believed() -> None:
    one = _heard((MUSK,), {NONE: 0.9, "2": 0.1})
    assert chance_of_number(one, 1) == 0.9
    assert not _turtles(one, "musk", "slider").believed
    assert _turtles(one, "musk").believed


def test_more_turtles_than_are_counted_are_as_many_as_can_be() -> None:
    assert chance_of_number(_heard((), {NONE: 0.1, "2": 0.2, "6": 0.7}), 9) == 0.7


def test_of_a_crowd_the_last_are_not_told_apart() -> None:
    heard = _heard((MUSK, MUSK, MUSK), {"4": 1.0})
    assert list(_turtles(heard, "musk", "musk", "musk", "musk").untold) == [2, 3]
    assert list(_turtles(heard, "musk", "musk", "musk").untold) == []


def test_a_story_of_no_turtle_has_none() -> None:
    assert _turtles(_heard((), {NONE: 1.0})) == Turtles(0, True, ())
