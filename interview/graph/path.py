"""The way through the questions: which one is next, which was before, how many there are."""

from __future__ import annotations

from collections.abc import Iterable

from interview.graph.given import Place
from interview.graph.known import Known

__all__ = ["Asking"]


class Asking(Known):
    """The usual path through the questions, with what is still open on it."""

    def next(self) -> Place | None:
        """The first relevant place without an answer, or with a doubtful one; None at the end."""
        relevant = self.relevance()
        for place in self.places():
            if not relevant[place] or not self.asked(place) or place in self.skipped:
                continue
            if place not in self.answers or place in self.doubtful:
                return place
        return None

    def previous(self, place: Place | None) -> Place | None:
        """The last relevant place with an answer (or skipped) before this one."""
        relevant = self.relevance()
        found = None
        for candidate in self.places():
            if candidate == place:
                break
            if relevant[candidate] and (candidate in self.answers or candidate in self.skipped):
                found = candidate
        return found

    def progress(self, place: Place) -> tuple[str, int, int]:
        """Topic, number of this question, and about how many there will be.

        An open question comes after all that is settled, an earlier answer has its place in
        the order. What may still come up counts by half, what no open question can bring not.
        """
        relevant = self.relevance()
        path = [p for p in relevant if p == place or (relevant[p] is not False and self.asked(p))]
        sure = [p for p in path if relevant[p] or p == place]
        open_ = [p for p in sure if p == place or not self._is_settled(p)]
        each = sum(1 for q in self.questionnaire.repeated if q.finer is None)
        about = len(sure) + self._may_come_up(path, open_) // 2 + (0 if self.animal_count else each)
        number = 1 + sure.index(place)
        if not self._is_settled(place):
            number = 1 + len(sure) - len(open_)
        return self.questionnaire.topic_of[place.id].name, number, about

    def _is_settled(self, place: Place) -> bool:
        answered = place in self.answers and place not in self.doubtful
        return answered or place in self.skipped

    def _may_come_up(self, path: Iterable[Place], open_: Iterable[Place]) -> int:
        """How many undecided questions an open one can bring, directly or through another."""
        relevant, bringing, count = self.relevance(), {p.id for p in open_}, 0
        for place in path:
            if relevant[place] is None and {p.id for p in self.waits_for(place)} & bringing:
                bringing.add(place.id)
                count += 1
        return count

    def waits_for(self, place: Place) -> list[Place]:
        """The questions whose answers decide whether one applies, as far as they lack one."""
        condition, giver = self.question(place).relevant, self.questionnaire.giver
        lacking = condition.unknown(self.known().get) if condition else ()
        return [Place(giver[name].id) for name in lacking if name in giver]
