"""What follows from the answers so far: what is relevant, what is asked, what is known.

Pure: no terminal, no files. A `worker` turns what is known into quantities, so that a
condition or an alert may speak of computed ones; without it only answers are known.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, Protocol, TypeAlias

from interview.base.conditions import Condition
from interview.graph.answers import Answer, Lists, understand
from interview.graph.given import NOT_ASKED, Given, Place, best, complete_animals, give
from interview.graph.questions import Question, Questionnaire, Topic
from interview.graph.spoken import spoken_system
from interview.words.amounts.reading import Reading

__all__ = ["Known", "Quantities", "Worker"]


@dataclass
class _State:
    """What follows from the answers so far, for every place but those that are left."""

    left: list[Place]
    """In asking order, the next one last."""
    relevant: dict[Place, bool | None] = field(default_factory=dict)
    usual: dict[Place, bool] = field(default_factory=dict)
    given: dict[str, Given] = field(default_factory=dict)
    known: dict[str, Any] = field(default_factory=dict)
    lookup: Callable[[str], Any] | None = None
    """Made when it is first asked for; what it has worked out once serves until the next answer."""


class Quantities(Protocol):
    """Computed values by name (None when they can't be worked out)."""

    def get(self, name: str) -> Any:
        """The value, or None."""

    def unit_of(self, name: str) -> str:
        """The name's core unit."""


Worker: TypeAlias = Callable[[Mapping[str, Any], Quantities | None], Quantities]
"""Works out what follows from best values, from what followed before where it still does."""


class _Rule:
    """A condition whose verdict is kept as long as what it speaks of stays the same."""

    __slots__ = ("_condition", "_names", "_spoken_of", "_unknown", "_verdict")

    def __init__(self, condition: Condition) -> None:
        self._condition = condition
        self._names = tuple(sorted(condition.names))
        self._spoken_of: list[Any] | None = None
        self._verdict: bool | None = None
        self._unknown: tuple[str, ...] | None = None

    def holds(self, known: Mapping[str, Any], unit_of: Callable[[str], str]) -> bool | None:
        spoken_of = [known.get(name) for name in self._names]
        if spoken_of != self._spoken_of:
            self._spoken_of = self._unknown = None
            self._verdict = self._condition.holds(known.get, unit_of)
            self._spoken_of = spoken_of  # last, as Ctrl-C may come in between
        return self._verdict

    def unknown(self, known: Mapping[str, Any]) -> tuple[str, ...]:
        """What is lacking for a verdict; asked after it of the same answers."""
        if self._unknown is None:
            self._unknown = self._condition.unknown(known.get)
        return self._unknown


class _Rules:
    """What decides of one question: when it applies, when it is finer, what it is taken for."""

    __slots__ = ("finer", "relevant", "taken_for")

    def __init__(self, question: Question, questionnaire: Questionnaire) -> None:
        self.relevant = _Rule(question.relevant) if question.relevant else None
        self.finer = _Rule(question.finer) if question.finer is not None else None
        self.taken_for = question.assumed_until_asked or questionnaire.follows_finer(question)
        """Whether it is taken to be something until it is asked, finer or not."""


@lru_cache(1000)
def _guess(questionnaire: Questionnaire, name: str, lists: Lists, region: str) -> Answer:
    """What a question is taken to be until it is answered: the same in every interview."""
    guess = understand(questionnaire.by_id[name], "not sure", lists, region)
    return replace(guess, said=NOT_ASKED)


class Known:
    """Answers so far, over a questionnaire, and what follows from them."""

    def __init__(
        self,
        questionnaire: Questionnaire,
        lists: Lists,
        worker: Worker | None = None,
    ) -> None:
        """Start with no answers."""
        self.questionnaire = questionnaire
        self.lists = lists
        self.worker = worker
        self.answers: dict[Place, Answer] = {}
        self.skipped: set[Place] = set()
        self.doubtful: set[Place] = set()
        self._finer = False
        self._worked_out: _State | None = None
        self._quantities: Quantities | None = None
        self._rules = {q.id: _Rules(q, questionnaire) for q in questionnaire}
        self._places: dict[int, tuple[Place, ...]] = {}

    @property
    def finer(self) -> bool:
        """Whether the keeper wants the finer questions too."""
        return self._finer

    @finer.setter
    def finer(self, wanted: bool) -> None:
        self._finer, self._worked_out = wanted, None

    @property
    def animal_count(self) -> int:
        """How many animals the keeper has spoken of."""
        counter = next((q for q in self.questionnaire if q.count_of == "animals"), None)
        answer = self.answers.get(Place(counter.id)) if counter else None
        return round(answer.value.best) if answer and isinstance(answer.value, Reading) else 0

    def places(self) -> Iterator[Place]:
        """Every place in asking order; the questions of one animal stay together."""
        count = self.animal_count
        if count not in self._places:
            topics = self.questionnaire.topics
            self._places[count] = tuple(p for topic in topics for p in self._places_of(topic))
        return iter(self._places[count])

    def _places_of(self, topic: Topic) -> Iterator[Place]:
        repeated = [q for q in topic.questions if q.repeat]
        done = False
        for question in topic.questions:
            if not question.repeat:
                yield Place(question.id)
            elif not done:
                done = True
                for animal in range(self.animal_count):
                    yield from (Place(q.id, animal) for q in repeated)

    def question(self, place: Place) -> Question:
        """The question asked at a place."""
        return self.questionnaire.by_id[place.id]

    def relevance(self) -> dict[Place, bool | None]:
        """For each place: relevant, not, or not yet decided. Irrelevant answers count as absent."""
        return self._state.relevant

    def asked(self, place: Place) -> bool:
        """Whether the way stops here: on the usual path, or answered without being asked."""
        return self._state.usual[place] or place in self.answers

    def usual(self, place: Place) -> bool:
        """Whether the usual path stops here (finer questions only when wanted)."""
        return self._state.usual[place]

    @property
    def _state(self) -> _State:
        state = self._worked_out
        return self._up_to(None) if state is None or state.left else state

    def _up_to(self, end: Place | None) -> _State:
        """Goes through the places before one, in asking order, or through all there are."""
        state = self._worked_out or _State([*self.places()][::-1])
        if not state.left:
            return state
        self._worked_out = None  # until it is done, as Ctrl-C may come in between
        last = end if end in state.left else None
        while state.left and state.left[-1] != last:
            self._go_through(state, state.left.pop())
        if not state.left:
            complete_animals(state.given, self.questionnaire.repeated, self.animal_count)
        self._worked_out = state
        return state

    def _go_through(self, state: _State, place: Place) -> None:
        """What holds at one place: whether it is relevant, whether it is asked, what is given."""
        question, rules = self.question(place), self._rules[place.id]
        relevant = self._relevant(rules.relevant, state)
        finer = (
            rules.finer is not None and rules.finer.holds(state.known, self.unit_of) is not False
        )
        state.relevant[place] = relevant
        state.usual[place] = self.finer or not finer
        # nothing is assumed before something is said: the first question needs no pint
        assumed = (finer or rules.taken_for) and relevant and bool(self.answers)
        answer = self.answers.get(place) or (self._unasked(question) if assumed else None)
        if relevant and answer and answer.value is not None:
            give(state.given, place, question, answer)
            for name in question.names:
                state.known[name] = best(state.given[name].value)

    def _relevant_at(self, place: Place) -> bool | None:
        """The relevance of one place, without what follows from it."""
        state = self._up_to(place)
        if place in state.relevant:
            return state.relevant[place]
        return self._relevant(self._rules[place.id].relevant, state)

    def _put_back(self, place: Place, answer: Answer) -> None:
        """Take an answer that was saved; what was worked out for the places before it holds."""
        state, question = self._worked_out, self.question(place)
        here = state is not None and place in state.left
        everywhere = place.id == "region" or question.count_of or not self.answers
        self.answers[place] = answer
        if everywhere or not here:
            self._worked_out = None

    def _relevant(self, rule: _Rule | None, state: _State) -> bool | None:
        """Whether a question applies: never by an answer that itself does not apply."""
        if rule is None:
            return True
        holds = rule.holds(state.known, self.unit_of)
        if holds is not None:
            return holds
        giver = self.questionnaire.giver
        missing = [Place(giver[n].id) for n in rule.unknown(state.known) if n in giver]
        absent = [state.relevant.get(place) is False for place in missing]
        return False if absent and all(absent) else None

    def _unasked(self, question: Question) -> Answer | None:
        """What a finer question is taken to be until it is answered."""
        if not question.unsure.assume:
            return None
        return _guess(self.questionnaire, question.id, self.lists, self.region)

    @property
    def region(self) -> str:
        """Where the keeper lives, for units; "elsewhere" until said."""
        answer = self.answers.get(Place("region"))
        return answer.value if answer and isinstance(answer.value, str) else "elsewhere"

    @property
    def system(self) -> str:
        """The units the keeper speaks in: us where most answers came in inches, gallons or °F.

        In the United Kingdom a gallon is another one: inches there come with litres.
        """
        return spoken_system(self.answers.values(), self.region)

    @property
    def shown_system(self) -> str:
        """The units examples are shown in, once the keeper has told where they live."""
        return self.system if self.answers else ""

    def unit_of(self, name: str) -> str:
        """Core unit of an answer, a part of one, or a computed quantity."""
        if name in self.questionnaire.giver or self.worker is None:
            return self.questionnaire.unit_of(name)
        if self._quantities is None:
            self._quantities = self.worker({}, None)
        return self._quantities.unit_of(name)

    def known(self) -> dict[str, Any]:
        """Best value of every relevant answer and part, in core units."""
        return {name: best(item.value) for name, item in self.given().items()}

    def lookup(self) -> Callable[[str], Any]:
        """Finds a name among the answers, else among what follows from them."""
        state = self._state
        if state.lookup is None:
            state.lookup = self.lookup_with(self.known())
        return state.lookup

    def lookup_with(self, known: dict[str, Any]) -> Callable[[str], Any]:
        """Finds a name among these values, else among what follows from them."""
        computed = None
        if self.worker:
            computed = self._quantities = self.worker(known, self._quantities)

        def lookup(name: str) -> Any:
            if name in known:
                return known[name]
            return computed.get(name) if computed else None

        return lookup

    def given(self) -> dict[str, Given]:
        """Every relevant answer with its doubt, by the name the core knows it under."""
        return dict(self._state.given)
