"""A story read a second time, as a whole: how likely it tells what phrases took of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.graph.questions import Question
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

if TYPE_CHECKING:
    from interview.words.learned.candidates import Candidate
    from interview.words.learned.readings import Heard

__all__ = ["SecondHearing", "asked_amounts", "doubted", "second_hearing"]

_LEAST = 0.3
"""Chance under which phrases aren't believed; what other bounds do stands in tests/RESULTS.md."""
_COUNTS = ("animal_count", "filter_count", "heater_count")
"""Told by how many are named: no amount need stand there."""
_NAMED = "species"
"""Told by its own name, which phrases know best."""
_ALIKE = 0.05
"""Share by which two readings of the same words may differ."""


@dataclass(frozen=True)
class SecondHearing:
    """The amounts of a story, and how likely each of them and each choice is told."""

    amounts: Sequence[Candidate]
    heard: Heard


def asked_amounts(questions: Iterable[Question]) -> dict[str, str]:
    """The type of each question that an amount answers, by its id."""
    return {one.id: one.type for one in questions if one.unit not in ("choice", "yes/no")}


def second_hearing(interview: Interview, text: str, region: str) -> SecondHearing:
    """Read a story; what reads it is loaded when the first one is told."""
    from interview.words.learned.candidates import candidates
    from interview.words.learned.model import model
    from interview.words.learned.readings import heard

    asked, sizes = asked_amounts(interview.questionnaire), interview.lists.sizes["tank_size"]
    found = candidates(text, asked, region=region, sizes=sizes)
    return SecondHearing(found, heard(model(), text, found))


def doubted(
    interview: Interview,
    hearing: SecondHearing,
    answers: Sequence[tuple[Place, str]],
    region: str,
) -> set[Place]:
    """The answers of phrases that the story as a whole hardly tells.

    Of several turtles no choice is doubted, as only one can be heard.
    """
    several = any(place.animal for place, _ in answers)
    found = set()
    for place, said in answers:
        if place.id in _COUNTS or place.id == _NAMED:
            continue
        question = interview.questionnaire.by_id[place.id]
        answer = understand(question, said, interview.lists, region)
        if place.id not in hearing.heard.choices:
            chances = list(_of_amount(interview, hearing, place, answer.value, region))
        elif several and place.animal is not None:
            chances = []
        else:
            heard = hearing.heard.choices[place.id].chances
            chances = [heard[answer.chosen]] if answer.chosen in heard else []
        if chances and max(chances) < _LEAST:
            found.add(place)
    return found


def _of_amount(
    interview: Interview, hearing: SecondHearing, place: Place, value: Any, region: str
) -> Iterator[float]:
    """The chance of each amount that is as large; of a water line of any depth, too."""
    from interview.words.learned.candidates import WATER_DEPTH

    question = interview.questionnaire.by_id[place.id]
    for one, chances in zip(hearing.amounts, hearing.heard.amounts, strict=True):
        if place.id == "water_line_below_rim" and WATER_DEPTH in chances:
            yield chances[WATER_DEPTH]
        if place.id not in chances:
            continue
        try:
            told = understand(question, one.says[place.id], interview.lists, region).value
        except NotUnderstood:
            continue
        if _is_alike(value, told):
            yield chances[place.id]


def _is_alike(one: Any, other: Any) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_is_alike, one, other))
    if isinstance(one, Reading) and isinstance(other, Reading):
        size = max(abs(one.best), abs(other.best))
        return abs(one.best - other.best) <= _ALIKE * size + 1e-9
    return bool(one == other)
