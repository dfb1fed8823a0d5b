"""One interview: answers are given, changed, skipped and taken up again."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from interview.graph.answers import Answer, understand
from interview.graph.constraints import MOST_ANIMALS, AnswerRefused, hold_answer, hold_tank
from interview.graph.given import NOT_ASKED, Given, Place
from interview.graph.known import Quantities
from interview.graph.order.path import Asking
from interview.graph.staleness import contradicted, is_stale, same
from interview.words.text.refusal import NotUnderstood

__all__ = [
    "MOST_ANIMALS",
    "NOT_ASKED",
    "AnswerRefused",
    "Given",
    "Interview",
    "Place",
    "Quantities",
    "Recorded",
]


@dataclass(frozen=True)
class Recorded:
    """What recording an answer did: the answer, and the relevant places it makes doubtful."""

    answer: Answer
    doubtful: tuple[Place, ...] = ()
    read_anew: tuple[str, ...] = ()
    """What earlier answers are understood as, now that the region says which gallon is meant."""


class Interview(Asking):
    """Answers so far, over a questionnaire, and how they change."""

    def try_answer(self, place: Place, text: str) -> Answer:
        """Read an answer and hold it against its constraints; records nothing.

        Raises NotUnderstood for words that make no sense here, AnswerRefused for an
        answer that can't be.
        """
        answer = understand(self.question(place), text, self.lists, self.region, self.shown_system)
        hold_answer(self, place, answer)
        return answer

    def takes(self, place: Place, text: str) -> bool:
        """Whether a question takes the words as its answer; records nothing."""
        try:
            self.try_answer(place, text)
        except (NotUnderstood, AnswerRefused):
            return False
        return True

    def hold_together(self, changes: Mapping[str, Any]) -> None:
        """Refuse new values, by name and in core units, that can't be together: AnswerRefused."""
        hold_tank(self, changes)

    def record(self, place: Place, text: str) -> Recorded:
        """Answer a question; tells which other answers this one makes doubtful."""
        if self.question(place).type in ("choice", "choices"):
            text = text.replace("_", " ")  # a name out of a list of ours, as a keeper would say it
        answer = self.try_answer(place, text)
        before, animals = self.answers.get(place), self.animal_count
        self.answers[place] = answer
        self.skipped.discard(place)
        self.doubtful.discard(place)
        self._forget_lost_animals()
        stale: set[Place] = set()
        if before is not None and not same(before.value, answer.value):
            more_animals = self.animal_count > animals
            stale = {p for p in self.answers if is_stale(self, p, place, more_animals=more_animals)}
        told_before = dict(self.answers)
        if place.id == "region" and (before is None or not same(before.value, answer.value)):
            stale |= set(self._read_again())
        self._worked_out = None
        stale |= set(contradicted(self, place))
        self.doubtful |= stale
        relevant = self.relevance()
        anew = tuple(
            found.understood
            for p, found in self.answers.items()
            if p in told_before and found.understood and not same(told_before[p].value, found.value)
        )
        return Recorded(answer, tuple(p for p in self.places() if p in stale and relevant[p]), anew)

    def touched_by(self, place: Place) -> list[Place]:
        """The relevant answers that another answer at a place may make doubtful."""
        relevant = self.relevance()
        return [p for p in self.answers if relevant.get(p) and is_stale(self, p, place)]

    def take_up(self, place: Place, text: str, *, doubtful: bool = False) -> None:
        """Put back a saved answer. One in doubt, or irrelevant, may break its constraints."""
        answer = understand(self.question(place), text, self.lists, self.region, guess=False)
        if not doubtful and self._relevant_at(place):
            hold_answer(self, place, answer)
        self._put_back(place, answer)
        if doubtful:
            self.doubtful.add(place)

    def _read_again(self) -> Iterator[Place]:
        """The region decides gallons and decimal marks; yields what it leaves unreadable."""
        region = self.region
        for place, answer in list(self.answers.items()):
            question = self.question(place)
            try:
                self.answers[place] = understand(question, answer.said, self.lists, region)
            except NotUnderstood:
                del self.answers[place]
                yield place

    def _forget_lost_animals(self) -> None:
        count = self.animal_count or math.inf  # “sliders, 15 cm” may be told before how many
        for places in (self.answers, self.skipped, self.doubtful):
            for place in [p for p in places if p.animal is not None and p.animal >= count]:
                if isinstance(places, dict):
                    del places[place]
                else:
                    places.discard(place)

    def skip(self, place: Place) -> None:
        """Leave a question open; it comes back when the interview is taken up again.

        An old answer in doubt goes: it would count as if it had been measured now.
        """
        self.skipped.add(place)
        if place in self.doubtful:
            self.doubtful.discard(place)
            self.answers.pop(place, None)
            self._worked_out = None
