"""What an answer is worth to the audit, when it is asked, and how long it takes: data.

`worth.yaml` is counted over the demo tanks and the faulty ones of the tests:

    UPDATE_GOLDEN=1 pytest tests/graph/test_worth.py
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Annotated

from interview.base.rows import Names, Row, read

__all__ = [
    "PATH",
    "Counted",
    "Worth",
    "first_look_ids",
    "minutes_for",
    "second_round_ids",
    "worth_of",
]

PATH = Path(__file__).with_name("worth.yaml")
_USUAL_TYPE = "choice"


class Counted(Row, frozen=True, kw_only=True):
    """What is lost without one answer, in the mean of the tanks counted.

    `harm` is the cost (`care/grades.yaml`) of what is wrong or dangerous and would not be seen,
    `verdicts` how many checks could not be judged.
    """

    question: Annotated[str, Names("question")]
    harm: float
    verdicts: float


class Took(Row, frozen=True, kw_only=True):
    """How long an answer takes [minutes], and why so long."""

    minutes: float
    why: str


class AtCounter(Row, frozen=True, kw_only=True):
    """How many of the gravest questions the first look at the counter has."""

    gravest: int
    why: str


class Rounds(Row, frozen=True, kw_only=True):
    """What is asked first, what after it, before the rest; with all that these rest on."""

    first: tuple[Annotated[str, Names("question")], ...]
    second: tuple[Annotated[str, Names("question")], ...]
    always: tuple[Annotated[str, Names("question")], ...]
    why: str


class Worth(Row, frozen=True, kw_only=True):
    """The whole file."""

    rounds: Rounds
    at_counter: AtCounter
    minutes: Mapping[str, Took]
    counted: tuple[Counted, ...]


@cache
def worth() -> Worth:
    """The shipped worth of answers; FileError names file and line of what is wrong."""
    return read(PATH, Worth)


@cache
def _counted() -> Mapping[str, Counted]:
    return {row.question: row for row in worth().counted}


def worth_of(question: str) -> tuple[float, float]:
    """Harm that stays unseen without an answer, and verdicts that can't be given; 0 if little."""
    row = _counted().get(question)
    return (row.harm, row.verdicts) if row else (0.0, 0.0)


@cache
def first_look_ids(*, counter: bool) -> frozenset[str]:
    """The questions of the first look: at the counter only those of the gravest."""
    rounds = worth().rounds
    if not counter:
        return frozenset({*rounds.always, *rounds.first})
    by_harm = sorted(worth().counted, key=lambda row: (-row.harm, -row.verdicts))
    gravest = by_harm[: worth().at_counter.gravest]
    return frozenset({*rounds.always, *(row.question for row in gravest)})


def second_round_ids() -> frozenset[str]:
    """The questions of the first two rounds; the counter leaves some of the first to the second."""
    return frozenset({*worth().rounds.first, *worth().rounds.second})


def minutes_for(question: str, kind: str) -> float:
    """How long an answer takes to find out and type [minutes]: its own time, or its type's."""
    rows = worth().minutes
    found = rows.get(question) or rows.get(kind) or rows[_USUAL_TYPE]
    return found.minutes
