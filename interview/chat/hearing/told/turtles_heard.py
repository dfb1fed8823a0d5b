"""The turtles of a story as the whole of it tells them, beside those that phrases took.

What was learned tells turtles apart by the order in which the story first speaks of each; phrases
may count them in another order, so the two are laid side by side by their kinds.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import permutations
from typing import TYPE_CHECKING, NamedTuple

from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.words.amounts.reading import Reading
from interview.words.learned.names import MOST_TURTLES, of_turtle

if TYPE_CHECKING:
    from interview.words.learned.readings import Heard

__all__ = ["COUNT", "KIND", "Turtles", "chance_of_number", "is_of_turtles", "turtles"]

COUNT = "animal_count"
KIND = "species"
_BELIEVED = 0.3
"""Chance from which a number of turtles is believed that phrases counted (assumption)."""


class Turtles(NamedTuple):
    """How many turtles phrases told, whether that is believed, and which of those heard each is."""

    number: int
    """0 where phrases told of none."""
    believed: bool
    order: Sequence[int]
    """By a turtle of the phrases one of those that were heard."""

    @property
    def untold(self) -> Collection[int]:
        """Turtles that can't be told apart from others by what was heard."""
        return range(MOST_TURTLES - 1, self.number) if self.number > MOST_TURTLES else ()


def turtles(
    interview: Interview, heard: Heard, answers: Iterable[tuple[Place, str]], region: str
) -> Turtles:
    """Lay the turtles that phrases took of a story beside those that were heard in it."""
    told = [
        (place, said) for place, said in answers if place.id == COUNT or place.animal is not None
    ]
    if not told:
        return Turtles(0, True, ())
    counts = (_count(interview, said, region) for place, said in told if place.id == COUNT)
    number = max(next(counts, 0), *(1 + (place.animal or 0) for place, _ in told))
    kinds: dict[int, str] = {}
    for place, said in told:
        if place.id == KIND and place.animal is not None:
            question = interview.questionnaire.by_id[KIND]
            kinds[place.animal] = understand(question, said, interview.lists, region).chosen
    order = _order(heard, number, kinds)
    return Turtles(number, chance_of_number(heard, number) >= _BELIEVED, order)


def is_of_turtles(place: Place) -> bool:
    """Whether it is asked of each turtle, or how many there are."""
    return place.id == COUNT or place.animal is not None


def chance_of_number(heard: Heard, number: int) -> float:
    """How likely a story tells of so many turtles.

    One is told like none: that it tells of no more. Those who are not told apart are many.
    """
    from interview.words.learned.readings import NONE

    chances = heard.choices[COUNT].chances
    if number > MOST_TURTLES:
        return sum(one for name, one in chances.items() if name and int(name) > MOST_TURTLES)
    return chances[str(number) if number > 1 else NONE]


def _count(interview: Interview, said: str, region: str) -> int:
    value = understand(interview.questionnaire.by_id[COUNT], said, interview.lists, region).value
    return round(value.best) if isinstance(value, Reading) else 0


def _order(heard: Heard, number: int, kinds: Mapping[int, str]) -> Sequence[int]:
    """The order in which the kinds are likeliest; the same where that tells nothing."""

    def likely(order: Sequence[int]) -> float:
        rows = (
            (heard.choices[of_turtle(KIND, order[n])].chances, kind) for n, kind in kinds.items()
        )
        return sum(chances.get(kind, 0.0) for chances, kind in rows)

    if number > MOST_TURTLES:
        return range(number)
    return max(
        permutations(range(MOST_TURTLES), number), key=likely
    )  # the first of those that are as likely
