"""Holds an answer, or the tank as it would be, against what the questions call possible."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from interview.graph.answers import Answer
from interview.graph.examples import with_examples_in
from interview.graph.given import Place, named
from interview.graph.known import Known
from interview.graph.questions import Must
from interview.vocabulary.phrases import fill
from interview.vocabulary.vocabulary import read_with
from interview.words.amounts.reading import Reading

__all__ = ["MOST_ANIMALS", "AnswerRefused", "hold_answer", "hold_tank"]

MOST_ANIMALS = 30


class AnswerRefused(ValueError):
    """An answer that was understood but can't be: `alert` is the sentence to say."""

    def __init__(self, place: Place, alert: str) -> None:
        self.place, self.alert = place, alert
        super().__init__(alert)


def hold_answer(known: Known, place: Place, answer: Answer) -> None:
    """Hold an answer against the constraints of its question; AnswerRefused if it breaks one."""
    question = known.question(place)
    if answer.value is None:
        return
    if question.count_of and isinstance(answer.value, Reading):
        number = answer.value.best
        if not 1 <= number <= MOST_ANIMALS or number != round(number):
            told = f"Type a whole number from 1 to {MOST_ANIMALS}, as 2."
            raise AnswerRefused(place, f"That reads as {number:g}. {told}")
    if question.constraint:
        own = named(question, answer.value)
        _hold(known, place, question.constraint, _looking_up(known, own))


def _looking_up(known: Known, own: Mapping[str, Any]) -> Callable[[str], Any]:
    """Finds a new value; nothing else is worked out before a constraint speaks of it."""
    whole: list[Callable[[str], Any]] = []

    def lookup(name: str) -> Any:
        if name in own:
            return own[name]
        if not whole:
            whole.append(known.lookup_with(known.known() | dict(own)))
        return whole[0](name)

    return lookup


def hold_tank(known: Known, changes: Mapping[str, Any]) -> None:
    """Hold the tank as it would be with these values against every constraint they touch.

    Args:
        known: the tank as it is
        changes: new values by name, in core units

    Raises:
        AnswerRefused: for what cannot be, as at the question itself.
    """
    lookup, before = known.lookup_with(known.known() | dict(changes)), known.lookup()
    relevant = known.relevance()
    _hold_readings(known, changes, lookup)
    for question in known.questionnaire.of_tank:
        new = not set(changes).isdisjoint(question.names)
        rules = [r for r in question.constraint if new or _kept(known, r, before)]
        if new or (relevant.get(Place(question.id)) and lookup(question.id)):
            _hold(known, Place(question.id), rules, lookup)


def _hold_readings(known: Known, changes: Mapping[str, Any], lookup: Callable[[str], Any]) -> None:
    """Refuse half a reading, and the reading of a lamp that isn't there: it calibrates nothing."""
    questions = known.questionnaire.by_id
    for part, reading in read_with().items():
        noted, read = questions[part], questions[reading]
        both = f"“{read.short}” and “{noted.short}”"
        if part in changes and reading not in changes:
            said = f"“{noted.short}” is part of a reading. Suppose {both} together, as a new one."
            raise AnswerRefused(Place(part), said)
        if reading not in changes:
            continue
        if read.relevant and read.relevant.holds(lookup, known.unit_of) is False:
            said = f"“{read.short}” can't be supposed: nothing is there that it could be read of."
            raise AnswerRefused(Place(reading), said)
        if noted.finer is None and lookup(part) is None:
            said = f"A reading counts for where it was taken. Suppose {both} together."
            raise AnswerRefused(Place(reading), said)


def _kept(known: Known, rule: Must, lookup: Callable[[str], Any]) -> bool:
    return rule.condition.holds(lookup, known.unit_of) is not False


def _hold(known: Known, place: Place, rules: Iterable[Must], lookup: Callable[[str], Any]) -> None:
    for rule in rules:
        if not _kept(known, rule, lookup):
            alert = fill(rule.alert, lookup, known.unit_of, known.system, exact=True)
            said = with_examples_in(known.question(place), alert or rule.alert, known.shown_system)
            raise AnswerRefused(place, said)
