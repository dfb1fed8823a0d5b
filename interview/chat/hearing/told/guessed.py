"""What a story probably tells where no phrase took it: guesses by what was learned.

An amount that nothing was made of chooses among the questions it can answer, and none; a question
with choices among them and none. A guess is made only where one is far likelier than all else
together, and nothing else in the story tells the same question otherwise.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence, Set
from contextlib import suppress
from typing import TYPE_CHECKING, NamedTuple

from interview.chat.hearing.in_context import below_rim
from interview.chat.hearing.told.second_hearing import SecondHearing
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.questions import Question
from interview.words.intents.story import Extracted
from interview.words.learned.retracted import Clause, clauses_in, is_retracted
from interview.words.text.refusal import NotUnderstood

if TYPE_CHECKING:
    from interview.words.learned.candidates import Candidate
    from interview.words.learned.readings import Choosing

__all__ = ["Guess", "guesses", "makes_safer"]

_SURE, _SURER = 0.9, 0.95
"""Chance from which a guess is made; what other bounds do stands in tests/RESULTS.md."""
_SAFER = frozenset(
    {
        *(("vulnerable_person", "no"), ("lamp_holder", "ceramic")),
        *((name, "yes") for name in ("rcd", "drip_loops", "strip_raised", "lamp_guard")),
        *((name, "yes") for name in ("heater_cutout", "heater_guard")),
    }
)
"""What makes a tank look safer than it may be."""
_TOLD = 0.5
_WATER_LINE = "water_line_below_rim"
_COUNT, _STAGE = Place("animal_count"), Place("stage")


class Guess(NamedTuple):
    """A likely answer, as it would be typed, and the clause it is from."""

    place: Place
    said: str
    chance: float
    clause: Clause
    start: int
    stop: int
    """The characters it rests on most."""
    amount: Candidate | None = None

    def meets(self, other: Guess) -> bool:
        """Whether both are amounts of the same words."""
        one, more = self.amount, other.amount
        return bool(one and more and one.start < more.stop and more.start < one.stop)


def guesses(
    interview: Interview,
    told: Extracted,
    answers: Sequence[tuple[Place, str]],
    hearing: SecondHearing,
    doubts: Set[Place] = frozenset(),
    *,
    whole: bool = True,
) -> Iterator[Guess]:
    """Likely answers, the surest first, that can be beside all others.

    Args:
        interview: the answers that there are; of none another is guessed
        told: what phrases took of a story
        answers: that, by their questions
        hearing: how likely it tells what
        doubts: where phrases took another answer than is likely, which are asked instead
        whole: whether a story is told; of a line or two a turtle need not be there yet
    """
    known = {place for place, _ in answers} | interview.answers.keys() | doubts
    likely = [
        one
        for one in _likely(interview, told, known, hearing)
        if _is_sure(one) and (whole or one.place != _STAGE)
    ]
    likely.sort(key=lambda one: -one.chance)
    if not likely:
        return
    trial = Interview(interview.questionnaire, interview.lists)
    trial.answers.update(interview.answers)
    for place, said in answers:
        with suppress(NotUnderstood, AnswerRefused):
            trial.record(place, said)
    relevant = trial.relevance()
    made: list[Guess] = []
    for guess in likely:
        said = guess.said
        if guess.place.id == _WATER_LINE and said.endswith(" deep"):
            said = below_rim(trial, said, float(trial.known().get("tank_height", 0.0)))
        if any(map(guess.meets, made)):
            continue
        if relevant.get(guess.place) is not False and trial.takes(guess.place, said):
            trial.record(guess.place, said)
            made.append(guess)
            yield guess._replace(said=said)


def _is_sure(guess: Guess) -> bool:
    return guess.chance >= (_SURER if makes_safer(guess.place.id, guess.said) else _SURE)


def makes_safer(name: str, said: str) -> bool:
    """Whether an answer makes a tank look safer than it may be."""
    return (name, said) in _SAFER


def _likely(
    interview: Interview, told: Extracted, known: Set[Place], hearing: SecondHearing
) -> Iterator[Guess]:
    """The likeliest of all that may be told of one place that has no answer."""
    rivals: dict[Place, list[Guess]] = defaultdict(list)
    counted = not known.isdisjoint((_COUNT, Place("species", 0))) or _COUNT in interview.answers
    several = interview.animal_count > 1 or any(place.animal for place in known)
    is_one = counted and not several  # else nobody knows of which turtle it is
    clauses = list(clauses_in(told.told))
    sets = [one for one in interview.questionnaire if one.type == "choices"]
    of_one = [name for name in hearing.heard.choices if name in interview.questionnaire.by_id]
    for guess in (
        *_of_amounts(hearing, told, clauses),
        *_of_choices(hearing, clauses, of_one),
        *_of_sets(sets, hearing, clauses),
    ):
        of_a_turtle = interview.questionnaire.by_id[guess.place.id].repeat
        place = Place(guess.place.id, 0 if of_a_turtle else None)
        unknown_kind = guess.place.id == "species" and told.strange
        if place not in known and not unknown_kind and (is_one or not of_a_turtle):
            rivals[place].append(guess._replace(place=place))
    for row in rivals.values():
        best = max(row, key=lambda guess: guess.chance)
        others = (one.chance for one in row if one.said != best.said and not one.meets(best))
        sure = best.chance * (1 - max(others, default=0.0))
        yield best._replace(chance=sure)


def _of_amounts(
    hearing: SecondHearing, told: Extracted, clauses: Sequence[Clause]
) -> Iterator[Guess]:
    """Those of amounts that no phrase took, neither denied nor taken back."""
    from interview.words.learned.candidates import WATER_DEPTH

    for one, chances in zip(hearing.amounts, hearing.heard.amounts, strict=True):
        clause = next((clause for clause in clauses if one.start < clause.stop), None)
        taken = any(fact.start < one.stop and one.start < fact.stop for fact in told.found)
        if clause is None or taken or is_retracted(told.told, one.start, one.stop):
            continue
        for name, chance in chances.items():
            if name == WATER_DEPTH:
                said = f"{one.says[name]} deep"
                yield Guess(Place(_WATER_LINE), said, chance, clause, one.start, one.stop, one)
            elif name:
                yield Guess(Place(name), one.says[name], chance, clause, one.start, one.stop, one)


def _of_choices(
    hearing: SecondHearing, clauses: Sequence[Clause], names: Iterable[str]
) -> Iterator[Guess]:
    for name in names:
        choosing = hearing.heard.choices[name]
        clause = _looked_at(choosing, clauses)
        piece = max(choosing.looks, key=lambda look: look[1], default=(None, 0))[0]
        for choice, chance in choosing.chances.items():
            if choice and clause is not None and piece is not None:
                yield Guess(Place(name), choice, chance, clause, piece.start, piece.stop)


def _of_sets(
    questions: Sequence[Question], hearing: SecondHearing, clauses: Sequence[Clause]
) -> Iterator[Guess]:
    """What is told of questions of which several choices may hold: all of them, or nothing."""
    from interview.words.learned.model import one_of

    for question in questions:
        told, sure, surest = list[str](), 1.0, (0.0, "")
        for choice in question.choices:
            name = one_of(question.id, choice.name)
            if name not in hearing.heard.choices:  # it came after the weights were learned
                continue
            chance = hearing.heard.choices[name].chances["yes"]
            sure *= max(chance, 1 - chance)
            if chance > _TOLD:
                told.append(choice.name)
                surest = max(surest, (chance, name))
        for guess in _of_choices(hearing, clauses, [surest[1]] if told else []):
            yield guess._replace(place=Place(question.id), said=", ".join(told), chance=sure)


def _looked_at(choosing: Choosing, clauses: Sequence[Clause]) -> Clause | None:
    """The clause that most of the looking was at."""
    return max(clauses, key=lambda one: choosing.share(one.start, one.stop), default=None)
