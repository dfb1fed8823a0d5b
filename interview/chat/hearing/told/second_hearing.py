"""A story read a second time, as a whole: how likely it tells what phrases took of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from interview.chat.hearing.told.turtles_heard import COUNT, KIND, Turtles
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.graph.questions import Question
from interview.words.amounts.reading import Reading
from interview.words.learned.names import asked_by, of_turtle, one_of
from interview.words.text.refusal import NotUnderstood

if TYPE_CHECKING:
    from interview.words.learned.candidates import Candidate
    from interview.words.learned.readings import Heard

__all__ = [
    *("BELIEVED", "SecondHearing", "asked_amounts", "chance_of", "chances_of", "of_all"),
    *("second_hearing",),
]

BELIEVED = 0.4
"""Chance under which phrases aren't believed; what other bounds do stands in tests/RESULTS.md."""
_COUNTS = (COUNT, "filter_count", "heater_count")
"""Told by how many are named: no amount need stand there."""
_SHARED = 0.5
"""Share of the likeliest turtle's chance: from here on an amount is another's, too (assumption)."""
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


def chances_of(
    interview: Interview,
    hearing: SecondHearing,
    answers: Sequence[tuple[Place, str]],
    turtles: Turtles,
    region: str,
) -> dict[Place, float]:
    """How likely the story as a whole tells each answer of phrases; none of those it can't judge.

    Of several turtles one whose kind is doubted may be another's, with all that was told of it.
    """
    found: dict[Place, float] = {}
    many = Counter((place.id, said) for place, said in answers)
    for place, said in answers:
        counted = place.id in _COUNTS or not (turtles.believed or place.animal is None)
        if counted or (place.animal or 0) in turtles.untold:
            continue
        animal = place.animal
        name = place.id if animal is None else of_turtle(place.id, turtles.order[animal])
        together = many[place.id, said] > 1
        found[place] = chance_of(interview, hearing, name, said, region, together=together)
    if turtles.number > 1:
        kinds = ((place, chance) for place, chance in found.items() if place.id == KIND)
        strange = {place.animal for place, chance in kinds if chance < BELIEVED}
        found |= {place: 0.0 for place, _ in answers if place.animal in strange - {None}}
    return found


def chance_of(
    interview: Interview,
    hearing: SecondHearing,
    name: str,
    said: str,
    region: str,
    *,
    together: bool = False,
) -> float:
    """How likely a story tells an answer of phrases; 1 where nothing else was heard of it.

    `together` says that phrases took it of several turtles.
    """
    question = interview.questionnaire.by_id[asked_by(name)[0]]
    answer = understand(question, said, interview.lists, region)
    choices = hearing.heard.choices
    if question.type == "choices":
        told = answer.value if isinstance(answer.value, tuple) else ()
        names = (one_of(question.id, str(choice)) for choice in told)
        return min((choices[one].chances["yes"] for one in names if one in choices), default=1.0)
    if name in choices:
        return choices[name].chances.get(answer.chosen, 1.0)
    value = answer.value
    found = _of_amount(interview, hearing, name, value, region, together=together)
    return max(found, default=1.0)


def _of_amount(
    interview: Interview,
    hearing: SecondHearing,
    name: str,
    value: Any,
    region: str,
    *,
    together: bool,
) -> Iterator[float]:
    """The chance of each amount that is as large; of a water line of any depth, too."""
    from interview.words.learned.candidates import WATER_DEPTH

    asked = asked_by(name)[0]
    question = interview.questionnaire.by_id[asked]
    for one, chances in zip(hearing.amounts, hearing.heard.amounts, strict=True):
        if asked == "water_line_below_rim" and WATER_DEPTH in chances:
            yield chances[WATER_DEPTH]
        if name not in chances:
            continue
        try:
            told = understand(question, one.says[asked], interview.lists, region).value
        except NotUnderstood:
            continue
        if _is_alike(value, told):
            yield of_all(chances, name, together=together)


def of_all(chances: Mapping[str, float], name: str, *, together: bool = False) -> float:
    """How likely an amount answers a question; what is told of several turtles at once, of each.

    Or, where it is known to be told `together`, of more turtles than this one.
    """
    asked, _ = asked_by(name)
    likely = [one for other, one in chances.items() if asked_by(other)[0] == asked]
    shared = [one for one in likely if together or one >= _SHARED * max(likely)]
    return sum(shared) if chances[name] in shared else chances[name]


def _is_alike(one: Any, other: Any) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_is_alike, one, other))
    if isinstance(one, Reading) and isinstance(other, Reading):
        size = max(abs(one.best), abs(other.best))
        return abs(one.best - other.best) <= _ALIKE * size + 1e-9
    return bool(one == other)
