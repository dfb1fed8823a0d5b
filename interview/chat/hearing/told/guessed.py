"""What a story probably tells where no phrase took it: guesses by learned weights.

An amount that nothing was made of chooses among the questions it can answer, and none; a clause,
for each question it speaks of, among its choices and none. A guess is made only where one is far
likelier than all else together, and nothing else in the story tells the same question otherwise.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence, Set
from contextlib import suppress
from typing import NamedTuple

from interview.chat.hearing.in_context import below_rim
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.questions import Question, Questionnaire
from interview.words.intents.story import Extracted
from interview.words.learned.spots import Spot, amounts_in, clauses_in
from interview.words.learned.weights import Label, chances, weights
from interview.words.lexicon.rules import NO_QUESTION
from interview.words.mentions.attributes import OF_A_TURTLE
from interview.words.text.refusal import NotUnderstood

__all__ = ["DEEP", "NONE", "Guess", "guesses", "is_by_clause", "tells"]

_SURE = 0.9
"""Chance from which a guess is made; what other bounds do stands in tests/RESULTS.md."""
_LEAST_TOLD = 2
"""Answers that phrases must have taken: of less it isn't sure that a tank is told of."""
NONE: Label = (NO_QUESTION, "")
DEEP: Label = ("water_line_below_rim", "deep")
_ANSWERS: Mapping[str, tuple[str, ...]] = {
    "number": ("temperature", "rating", "concentration", "per_week"),
    "degrees": ("temperature", "temperature_difference", "angle"),
    "temperature": ("temperature", "temperature_difference"),
    "percent": ("share", "percent"),
    "part": ("share",),
    "share": ("share", "percent"),
    "duration": ("duration", "lit_time"),
}
"""Types of questions that an amount may answer, where it isn't its own kind alone."""
_COUNT = Place("animal_count")
_ABSENT = ("none", "no")
"""All that a clause with a denial in it may tell."""
_OTHERWISE = ("species", "region", "stage", "vulnerable_person", "sex")
"""Choices that are told by names, places, turtles and people."""


class Guess(NamedTuple):
    """A likely answer, as it would be typed, and the clause it is from."""

    place: Place
    said: str
    chance: float
    start: int
    stop: int


def is_by_clause(question: Question) -> bool:
    """Whether a clause may tell its answer, a choice."""
    return question.type in ("choice", "yes_no") and question.id not in _OTHERWISE


def tells(kind: str, question: Question) -> bool:
    """Whether an amount of this kind may answer it."""
    alone = not question.repeat or question.id in OF_A_TURTLE
    return alone and question.type in _ANSWERS.get(kind, (kind,))


def guesses(
    interview: Interview, told: Extracted, answers: Sequence[tuple[Place, str]]
) -> Iterator[Guess]:
    """Likely answers, the surest first, that can be beside all others.

    Args:
        interview: the answers that there are; of none another is guessed
        told: what phrases took of a story
        answers: that, by their questions
    """
    planned = any(fact.said == "planning" for fact in told.facts)
    if planned or len(told.facts) < _LEAST_TOLD:
        return
    known = {place for place, _ in answers} | interview.answers.keys()
    likely = sorted(_likely(interview, told, known), key=lambda guess: -guess.chance)
    if not likely:
        return
    trial = Interview(interview.questionnaire, interview.lists)
    trial.answers.update(interview.answers)
    for place, said in answers:
        with suppress(NotUnderstood, AnswerRefused):
            trial.record(place, said)
    relevant = trial.relevance()
    for guess in likely:
        said = guess.said
        if said.endswith(f" {DEEP[1]}"):
            said = below_rim(trial, said, float(trial.known().get("tank_height", 0.0)))
        if relevant.get(guess.place) is not False and trial.takes(guess.place, said):
            trial.record(guess.place, said)
            yield guess._replace(said=said)


def _likely(interview: Interview, told: Extracted, known: Set[Place]) -> Iterator[Guess]:
    """What is sure enough of all that may be told of one place that has no answer."""
    heard: dict[Place, list[Guess]] = defaultdict(list)
    counted = not known.isdisjoint((_COUNT, Place("species", 0))) or _COUNT in interview.answers
    several = interview.animal_count > 1 or any(place.animal for place in known)
    is_one = counted and not several  # else nobody knows of which turtle it is
    for guess in (*_of_amounts(interview.questionnaire, told), *_of_clauses(told)):
        if guess.place not in known and (is_one or guess.place.animal is None):
            heard[guess.place].append(guess)
    for rivals in heard.values():
        best = max(rivals, key=lambda guess: guess.chance)
        others = (guess.chance for guess in rivals if guess.said != best.said)
        sure = best.chance * (1 - max(others, default=0.0))
        if sure >= _SURE and best.said != "unknown":
            yield best._replace(chance=sure)


def _of_amounts(asked: Questionnaire, told: Extracted) -> Iterator[Guess]:
    heard, questions = weights().amounts, asked.by_id
    for spot in amounts_in(told.told):
        part = spot.parts[spot.amount]
        if any(one.start < part.end and part.start < one.stop for one in told.found):
            continue
        fit = [one for one in heard.labels() if one == NONE or tells(part.kind, questions[one[0]])]
        if not spot.of_a_shell:
            fit = [one for one in fit if one[0] != "carapace_length"]
        sums = heard.sums(spot.features)
        chance, label = max(zip(chances([sums[one] for one in fit]), fit, strict=True))
        if label != NONE:
            yield _guess(label, f"{part.said} {label[1]}".rstrip(), chance, spot)


def _of_clauses(told: Extracted) -> Iterator[Guess]:
    heard = weights().clauses
    for spot in clauses_in(told.told):
        sums = heard.sums(spot.features)
        for name in sorted(heard.spoken_of(spot.features)):
            fit = [one for one in heard.labels() if one == NONE or one[0] == name]
            for chance, label in zip(chances([sums[one] for one in fit]), fit, strict=True):
                if label != NONE and (label[1] in _ABSENT or not spot.denies):
                    yield _guess(label, label[1], chance, spot)


def _guess(label: Label, said: str, chance: float, spot: Spot) -> Guess:
    place = Place(label[0], 0 if label[0] in OF_A_TURTLE else None)
    return Guess(place, said, chance, spot.start, spot.stop)
