"""Rare faults that are seen at a glance, asked of in lists: data."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Annotated, ClassVar

from interview.base.rows import Names, Row, read

__all__ = ["LEAST_OPEN", "PATH", "Glance", "LookRound", "all_looks", "look_with"]

PATH = Path(__file__).with_name("look_round.yaml")
LEAST_OPEN = 3
"""Fewer open questions are asked by themselves."""


class Glance(Row, frozen=True, kw_only=True):
    """A question of a list: what is so where the fault is found, and the answer where it isn't."""

    EXAMPLE: ClassVar[str] = "{ask: kitchen_used, say: gear is washed there, clear: 'no'}"

    ask: Annotated[str, Names("question")]
    say: str
    clear: str
    found: str = ""
    """The answer where it is so; without one the question itself is asked."""


class LookRound(Row, frozen=True, kw_only=True):
    """A list of such questions, in the order shown."""

    EXAMPLE: ClassVar[str] = "{label: Is any of this so?, hint: Type the numbers., items: []}"

    label: str
    hint: str
    items: tuple[Glance, ...]


@cache
def all_looks() -> tuple[LookRound, ...]:
    """The shipped lists; FileError names file and line of what is wrong."""
    return read(PATH, tuple[LookRound, ...])


@cache
def _by_question() -> Mapping[str, LookRound]:
    return {item.ask: look for look in all_looks() for item in look.items}


def look_with(question: str) -> LookRound | None:
    """The list a question belongs to; None where it is asked by itself."""
    return _by_question().get(question)
