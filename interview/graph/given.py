"""What the core and the audit are told: every relevant answer by the name they know it under."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from interview.graph.answers import Answer, How
from interview.graph.questions import Question
from interview.words.amounts.reading import Reading

__all__ = [
    "LISTED",
    "NOT_ASKED",
    "Given",
    "Place",
    "best",
    "complete_animals",
    "decided",
    "give",
    "named",
]

NOT_ASKED = "not asked"
"""What stands for the words of an answer nobody was asked for."""
LISTED = "as the list has it"
"""What stands for the words of an answer that the list of a planned tank decides."""


class Place(NamedTuple):
    """Where an answer belongs: a question, and which animal if it is asked for each."""

    id: str
    animal: int | None = None


@dataclass(frozen=True)
class Given:
    """What the core and the audit are told about one name."""

    name: str
    unit: str
    value: Any
    how: How
    said: str
    question: str


def decided(name: str, unit: str, value: Any) -> Given:
    """An answer that the list of a planned tank gives, in the core's unit."""
    number = isinstance(value, int | float) and not isinstance(value, bool)
    said = float(value) if number else value
    told = Reading(said, said, said, LISTED, unit) if number else value
    return Given(name, unit, told, "decided", LISTED, name)


def give(given: dict[str, Given], place: Place, question: Question, answer: Answer) -> None:
    """Add one answer: as it is, side by side for a size, in a row for animals."""
    value, how, said = answer.value, answer.how, answer.said
    if place.animal is not None:
        earlier = given[place.id].value if place.id in given else ()
        gap = (None,) * (place.animal - len(earlier))
        rows, said = (*earlier, *gap, value), _joined(given, place.id, said)
        given[place.id] = Given(place.id, question.unit, rows, how, said, place.id)
    elif question.parts and isinstance(value, tuple):
        for part, side in zip(question.parts, value, strict=True):
            given[part] = Given(part, question.unit, side, how, said, question.id)
    else:
        given[place.id] = Given(place.id, question.unit, value, how, said, question.id)


def complete_animals(given: dict[str, Given], repeated: Iterable[Question], count: int) -> None:
    """Make rows of animals whole: an unknown sex is "unknown"; a gap elsewhere drops the row."""
    for question in repeated:
        row = given.get(question.id)
        values = (*(row.value if row else ()), *(None,) * count)[:count]
        if question.id == "sex" and count:
            values = tuple(v or "unknown" for v in values)
            said, how = (row.said, row.how) if row else (NOT_ASKED, "assumed")
            given["sex"] = Given("sex", "choice", values, how, said, "sex")
        elif row and (question.finer is not None or None not in values):
            given[question.id] = Given(
                question.id, row.unit, values, row.how, row.said, question.id
            )
        elif row:
            del given[question.id]


def _joined(given: Mapping[str, Given], name: str, said: str) -> str:
    return f"{given[name].said}; {said}" if name in given else said


def named(question: Question, value: Any) -> dict[str, Any]:
    """An answer's best values under the names the core knows: a size as its sides."""
    if question.parts and isinstance(value, tuple):
        return dict(zip(question.parts, map(best, value), strict=True))
    return {question.id: best(value)}


def best(value: Any) -> Any:
    """Readings as their best value, one by one in a row of them."""
    if isinstance(value, tuple):
        return tuple(best(item) for item in value)
    return value.best if isinstance(value, Reading) else value
