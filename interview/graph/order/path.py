"""The way through the questions: which one is next, which was before, how many there are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from interview.graph.given import Place
from interview.graph.known import Known
from interview.graph.order.asking_order import Order, order_of
from interview.graph.order.look_round import LookRound, look_with
from interview.graph.order.together import Together, together_with
from interview.graph.order.worth import minutes_for

__all__ = ["Asking"]

_COMING = 0.9
"""Of the questions that may come up so many do in a usual tank: their number seldom grows."""


class Asking(Known):
    """The usual path through the questions, with what is still open on it."""

    at_counter = False
    """Whether the first look is the shorter one of the counter."""
    in_groups = False
    """Whether what belongs together is asked, and counted, as one question."""

    @property
    def order(self) -> Order:
        """In which order the questions are asked."""
        return order_of(self.questionnaire, counter=self.at_counter)

    def in_asking_order(self) -> Iterator[Place]:
        """Every place as it is asked, round by round; an animal's stay together."""
        for repeated, group in groupby(self.order.questions, key=lambda q: bool(q.repeat)):
            ids = [question.id for question in group]
            animals = range(self.animal_count) if repeated else (None,)
            yield from (Place(name, animal) for animal in animals for name in ids)

    def open_places(self) -> Iterator[Place]:
        """The relevant places without an answer, or with a doubtful one, as they are asked."""
        relevant = self.relevance()
        for place in self.in_asking_order():
            if relevant[place] and self.asked(place) and not self._is_settled(place):
                yield place

    def next(self) -> Place | None:
        """The open place that comes first; None at the end."""
        return next(self.open_places(), None)

    def minutes_left(self, *, first_look: bool = False) -> float:
        """How long the open questions take [minutes], those of the first look alone if asked.

        What may still come up counts nearly whole, as in `progress`.
        """
        relevant, minutes = self.relevance(), 0.0
        for place in self.in_asking_order():
            holds = relevant[place]
            if holds is False or not self.usual(place) or self._is_settled(place):
                continue
            if self.is_first_look(place) or not first_look:
                question = self.question(place)
                share = 1.0 if holds else _COMING
                minutes += share * minutes_for(question.id, question.type)
        return minutes

    def is_first_look(self, place: Place) -> bool:
        """Whether a question belongs to those that decide most."""
        return place.id in self.order.first_look

    def previous(self, place: Place | None) -> Place | None:
        """The last relevant place with an answer (or skipped) before this one."""
        relevant = self.relevance()
        found = None
        for candidate in self.in_asking_order():
            if candidate == place:
                break
            if relevant[candidate] and (candidate in self.answers or candidate in self.skipped):
                found = candidate
        return found

    def progress(self, place: Place) -> tuple[str, int, int]:
        """Topic, number of this question, and about how many there will be.

        An open question comes after all that is settled, an earlier answer has its place in
        the order. What may still come up counts nearly whole, what no open question can bring not.
        """
        relevant = self.relevance()
        path = [
            p
            for p in self.in_asking_order()
            if p == place or (relevant[p] is not False and self._counts(p, place))
        ]
        sure = [p for p in path if relevant[p] or p == place]
        units = list(dict.fromkeys(self.counted_as(p) for p in sure))
        open_ = [p for p in sure if p == place or not self._is_settled(p)]
        each = sum(1 for q in self.questionnaire.repeated if q.finer is None)
        coming = self._may_come_up(path, open_) - {*units}
        about = len(units) + round(_COMING * len(coming)) + (0 if self.animal_count else each)
        number = 1 + units.index(self.counted_as(place))
        if not self._is_settled(place):
            number = 1 + len(units) - len({self.counted_as(p) for p in open_})
        return self.questionnaire.topic_of[place.id].name, number, about

    def _counts(self, place: Place, at: Place) -> bool:
        """Whether a question is counted at another: at the counter the first look is by itself."""
        alone = self.at_counter and self.is_first_look(at)
        return self.usual(place) and (self.is_first_look(place) or not alone)

    def counted_as(self, place: Place) -> Place:
        """What a question is counted as: itself, or the first of those asked with it."""
        if not self.in_groups:
            return place
        if look := self.look_of(place):
            return Place(look.items[0].ask)
        row = self.row_of(place)
        return Place(row.ask[0], place.animal) if row else place

    def row_of(self, place: Place) -> Together | None:
        """What may be asked in one go with a question: of an animal where there are several."""
        return together_with(place.id) if place.animal is None or self.animal_count > 1 else None

    def look_of(self, place: Place) -> LookRound | None:
        """The list of faults a question is asked in; None for a tank that nobody can look at."""
        stage = self.answers.get(Place("stage"))
        return None if stage and stage.value == "planning" else look_with(place.id)

    def brought_up_by(self, place: Place) -> list[Place]:
        """The open questions whose condition names what a question gives, as they are asked."""
        names = frozenset(self.question(place).names)
        return [p for p in self.open_places() if names & self.question(p).comes_up_by]

    def _is_settled(self, place: Place) -> bool:
        answered = place in self.answers and place not in self.doubtful
        return answered or place in self.skipped

    def _may_come_up(self, path: Iterable[Place], open_: Iterable[Place]) -> set[Place]:
        """The undecided questions an open one can bring, directly or through another."""
        relevant, bringing, found = self.relevance(), {p.id for p in open_}, set()
        for place in path:
            if relevant[place] is None and {p.id for p in self.waits_for(place)} & bringing:
                bringing.add(place.id)
                found.add(self.counted_as(place))
        return found

    def waits_for(self, place: Place) -> list[Place]:
        """The questions whose answers decide whether one applies, as far as they lack one."""
        condition, giver = self.question(place).relevant, self.questionnaire.giver
        lacking = condition.unknown(self.known().get) if condition else ()
        return [Place(giver[name].id) for name in lacking if name in giver]
