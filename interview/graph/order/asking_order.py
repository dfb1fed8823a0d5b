"""The order in which questions are asked: a first look round the tank, what is grave, the rest.

Each round keeps the natural order of the topics, but what is grave begins with the gravest;
within a topic the answer comes first that is worth most. No question comes before one that its
relevance or its constraints rest on.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from functools import lru_cache

from interview.graph.order.worth import first_look_ids, second_round_ids, worth_of
from interview.graph.questions import Question, Questionnaire

__all__ = ["Order", "order_of"]


class Order:
    """The questions of a questionnaire as they are asked."""

    def __init__(self, questionnaire: Questionnaire, *, counter: bool = False) -> None:
        """Put the questions in order, at the counter with a shorter first look."""
        self._questionnaire = questionnaire
        self._rests_on = {q.id: _rests_on(questionnaire, q) for q in questionnaire}
        self.first_look = self._first_look(counter=counter)
        grave = self._with_all_before(second_round_ids()) - self.first_look
        rest = frozenset(questionnaire.by_id) - grave - self.first_look
        self.rounds = (self.first_look, grave, rest)
        self._round_of = {q: number for number, ids in enumerate(self.rounds) for q in ids}
        self.questions: tuple[Question, ...] = tuple(
            question
            for ids in self.rounds
            for topic in self._topics(ids, by_harm=ids is grave)
            for question in self._of_topic(topic)
        )

    def round_of(self, question: str) -> int:
        """In which round a question is asked, the first look being 0."""
        return self._round_of[question]

    def _first_look(self, *, counter: bool) -> frozenset[str]:
        """What must be answered, what the data put first, and all that these rest on.

        An animal is spoken of once, so all that is asked of it comes in one round.
        """
        put_first = first_look_ids(counter=counter)
        found = {
            q.id
            for q in self._questionnaire
            if q.required or q.id in put_first or (q.repeat and not _is_always_finer(q))
        }
        return self._with_all_before(found)

    def _with_all_before(self, ids: Collection[str]) -> frozenset[str]:
        """Questions and all that they rest on."""
        found, waiting = set(ids), list(ids)
        while waiting:
            for name in self._rests_on[waiting.pop()] - found:
                found.add(name)
                waiting.append(name)
        return frozenset(found)

    def _topics(self, ids: Collection[str], *, by_harm: bool) -> list[list[Question]]:
        """The questions of a round by topic, in natural order or the gravest topic first."""
        topics = self._questionnaire.topics
        asked = ([q for q in topic.questions if q.id in ids] for topic in topics)
        found = [questions for questions in asked if questions]
        if by_harm:
            found.sort(key=lambda questions: -max(worth_of(q.id)[0] for q in questions))
        return found

    def _of_topic(self, questions: Sequence[Question]) -> list[Question]:
        """The most valuable first; what is asked of each animal stays together."""
        ordered = sorted(questions, key=_rank)
        done: list[Question] = []
        ids = {question.id for question in questions}
        while ordered:
            known = {question.id for question in done}
            ready = (q for q in ordered if not (self._waits_for(q) & ids) - known)
            free = next(ready)
            ordered.remove(free)
            done.append(free)
        return done

    def _waits_for(self, question: Question) -> frozenset[str]:
        """Questions of its topic that are asked before: also those whose change makes it stale."""
        mine = self._questionnaire.topic_of[question.id].questions
        earlier = {q.id for q in mine[: mine.index(question)]}
        return frozenset(self._rests_on[question.id] | ({*question.stale_when} & earlier))


def _is_always_finer(question: Question) -> bool:
    return question.finer is not None and not question.finer.names


def _rank(question: Question) -> tuple[bool, bool, float]:
    """What must be known comes first, in its natural order, then what is worth most."""
    must = bool(question.required or question.repeat)
    return not question.count_of, not must, 0.0 if must else -sum(worth_of(question.id))


def _rests_on(questionnaire: Questionnaire, question: Question) -> frozenset[str]:
    """The questions named by the condition and the constraints of one."""
    conditions = [question.relevant, *(rule.condition for rule in question.constraint)]
    names = {name for condition in conditions if condition for name in condition.names}
    giver = questionnaire.giver
    return frozenset({giver[name].id for name in names if name in giver} - {question.id})


@lru_cache(maxsize=8)
def order_of(questionnaire: Questionnaire, *, counter: bool = False) -> Order:
    """The order of a questionnaire, put together once."""
    return Order(questionnaire, counter=counter)
