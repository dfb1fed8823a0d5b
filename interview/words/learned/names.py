"""The names by which more than one thing is heard of a question.

Of several choices that may hold each has one, and each turtle of a tank.
"""

from __future__ import annotations

from functools import cache

__all__ = ["MOST_TURTLES", "SET", "asked_by", "of_turtle", "one_of"]

SET = "="
"""Stands between a question and each of its choices where several may hold at once."""
MOST_TURTLES = 3
"""Turtles of a tank that are told apart, in the order in which a text first speaks of them."""
_TURTLE = "@"
"""Stands between a question and the number of each turtle but the first."""


def one_of(question: str, choice: str) -> str:
    """The name by which one choice of several is heard: told (“yes”) or not."""
    return f"{question}{SET}{choice}"


def of_turtle(question: str, animal: int | None) -> str:
    """The name by which a question is heard of a turtle, 0 the first; the last ones share one."""
    number = min(animal or 0, MOST_TURTLES - 1)
    return f"{question}{_TURTLE}{number + 1}" if number else question


@cache
def asked_by(name: str) -> tuple[str, int]:
    """The question that is heard by a name, and of which turtle if it is asked of each."""
    question, _, number = name.partition(_TURTLE)
    return question, int(number or 1) - 1
