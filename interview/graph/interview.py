"""The state of one interview: which question next, what an edit makes doubtful.

Pure: no terminal, no files. A `worker` turns what is known into quantities, so that a
condition or an alert may speak of computed ones; without it only answers are known.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Protocol

from interview.base.conditions import Condition
from interview.graph.answers import Answer, Lists, understand
from interview.graph.examples import with_examples_in
from interview.graph.given import NOT_ASKED, Given, Place, best, complete_animals, give, named
from interview.graph.questions import Must, Question, Questionnaire, Topic
from interview.graph.spoken import spoken_system
from interview.vocabulary.phrases import fill
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

__all__ = ["AnswerRefused", "Given", "Interview", "Place", "Quantities", "Recorded"]

MOST_ANIMALS = 30


@dataclass(frozen=True)
class Recorded:
    """What recording an answer did: the answer, and the relevant places it makes doubtful."""

    answer: Answer
    doubtful: tuple[Place, ...] = ()
    read_anew: tuple[str, ...] = ()
    """What earlier answers are understood as, now that the region says which gallon is meant."""


@dataclass
class _State:
    """What follows from the answers so far."""

    relevant: dict[Place, bool | None] = field(default_factory=dict)
    asked: dict[Place, bool] = field(default_factory=dict)
    given: dict[str, Given] = field(default_factory=dict)


class Quantities(Protocol):
    """Computed values by name (None when they can't be worked out)."""

    def get(self, name: str) -> Any:
        """The value, or None."""

    def unit_of(self, name: str) -> str:
        """The name's core unit."""


class AnswerRefused(ValueError):
    """An answer that was understood but can't be: `alert` is the sentence to say."""

    def __init__(self, place: Place, alert: str) -> None:
        self.place, self.alert = place, alert
        super().__init__(alert)


class Interview:
    """Answers so far, over a questionnaire."""

    def __init__(
        self,
        questionnaire: Questionnaire,
        lists: Lists,
        worker: Callable[[Mapping[str, Any]], Quantities] | None = None,
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
        self._guesses: dict[tuple[str, str], Answer] = {}

    # ---- what there is to ask

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
        for topic in self.questionnaire.topics:
            yield from self._places_of(topic)

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
        """Whether the usual path stops here (finer questions only when wanted)."""
        return self._state.asked[place]

    @property
    def _state(self) -> _State:
        if self._worked_out is None:
            self._worked_out = self._work_out()
        return self._worked_out

    def _work_out(self) -> _State:
        """One pass in asking order: what is relevant, what is asked, what is given."""
        state = _State()
        known: dict[str, Any] = {}
        for place in self.places():
            question = self.question(place)
            relevant = self._relevant(question.relevant, known, state.relevant)
            finer = question.finer is not None and (
                question.finer.holds(known.get, self.unit_of) is not False
            )
            state.relevant[place] = relevant
            state.asked[place] = self.finer or not finer or place in self.answers
            # nothing is assumed before something is said: the first question needs no pint
            maybe = finer or self.questionnaire.follows_finer(question)
            assumed = maybe and relevant and bool(self.answers)
            answer = self.answers.get(place) or (self._unasked(question) if assumed else None)
            if relevant and answer and answer.value is not None:
                give(state.given, place, question, answer)
                for name in question.names:
                    known[name] = best(state.given[name].value)
        complete_animals(state.given, self.questionnaire.repeated, self.animal_count)
        return state

    def _relevant(
        self, condition: Condition | None, known: dict[str, Any], so_far: dict[Place, bool | None]
    ) -> bool | None:
        """Whether a question applies: never by an answer that itself does not apply."""
        if condition is None:
            return True
        holds = condition.holds(known.get, self.unit_of)
        if holds is not None:
            return holds
        giver = self.questionnaire.giver
        missing = [Place(giver[n].id) for n in condition.unknown(known.get) if n in giver]
        absent = [so_far.get(place) is False for place in missing]
        return False if absent and all(absent) else None

    def _unasked(self, question: Question) -> Answer | None:
        """What a finer question is taken to be until it is answered."""
        if not question.unsure.assume:
            return None
        key = question.id, self.region
        if key not in self._guesses:
            guess = understand(question, "not sure", self.lists, self.region)
            self._guesses[key] = replace(guess, said=NOT_ASKED)
        return self._guesses[key]

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

    # ---- what is known

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
    def _examples(self) -> str:
        """The units examples are shown in, once the keeper has told where they live."""
        return self.system if self.answers else ""

    def unit_of(self, name: str) -> str:
        """Core unit of an answer, a part of one, or a computed quantity."""
        if name in self.questionnaire.giver or self.worker is None:
            return self.questionnaire.unit_of(name)
        return self.worker({}).unit_of(name)

    def known(self) -> dict[str, Any]:
        """Best value of every relevant answer and part, in core units."""
        return {name: best(item.value) for name, item in self.given().items()}

    def lookup(self) -> Callable[[str], Any]:
        """Finds a name among the answers, else among what follows from them."""
        return self._lookup(self.known())

    def _lookup(self, known: dict[str, Any]) -> Callable[[str], Any]:
        computed = self.worker(known) if self.worker else None

        def lookup(name: str) -> Any:
            if name in known:
                return known[name]
            return computed.get(name) if computed else None

        return lookup

    # ---- saying something

    def try_answer(self, place: Place, text: str) -> Answer:
        """Read an answer and hold it against its constraints; records nothing.

        Raises NotUnderstood for words that make no sense here, AnswerRefused for an
        answer that can't be.
        """
        question = self.question(place)
        answer = understand(question, text, self.lists, self.region, self._examples)
        if answer.value is not None:
            self._hold_against_constraints(place, question, answer)
        return answer

    def _hold_against_constraints(self, place: Place, question: Question, answer: Answer) -> None:
        if question.count_of and isinstance(answer.value, Reading):
            number = answer.value.best
            if not 1 <= number <= MOST_ANIMALS or number != round(number):
                raise AnswerRefused(
                    place,
                    f"That reads as {number:g}. Type a whole number from 1 to "
                    f"{MOST_ANIMALS}, as 2.",
                )
        if question.constraint:
            lookup = self._lookup(self.known() | named(question, answer.value))
            self._hold(place, question.constraint, lookup)

    def hold_together(self, changes: Mapping[str, Any]) -> None:
        """Hold the tank as it would be with these values against every constraint they touch.

        Args:
            changes: new values by name, in core units

        Raises:
            AnswerRefused: for what cannot be, as at the question itself.
        """
        lookup, before = self._lookup(self.known() | dict(changes)), self._lookup(self.known())
        relevant = self.relevance()
        for question in self.questionnaire.of_tank:
            new = not set(changes).isdisjoint(question.names)
            rules = [r for r in question.constraint if new or self._kept(r, before)]
            if new or (relevant.get(Place(question.id)) and lookup(question.id)):
                self._hold(Place(question.id), rules, lookup)

    def _kept(self, rule: Must, lookup: Callable[[str], Any]) -> bool:
        return rule.condition.holds(lookup, self.unit_of) is not False

    def _hold(self, place: Place, rules: Iterable[Must], lookup: Callable[[str], Any]) -> None:
        for rule in rules:
            if not self._kept(rule, lookup):
                alert = fill(rule.alert, lookup, self.unit_of, self.system, exact=True)
                question = self.question(place)
                raise AnswerRefused(
                    place, with_examples_in(question, alert or rule.alert, self._examples)
                )

    def record(self, place: Place, text: str) -> Recorded:
        """Answer a question; tells which other answers this one makes doubtful."""
        answer = self.try_answer(place, text)
        before, animals = self.answers.get(place), self.animal_count
        self.answers[place] = answer
        self.skipped.discard(place)
        self.doubtful.discard(place)
        self._forget_lost_animals()
        stale: set[Place] = set()
        if before is not None and not _same(before.value, answer.value):
            more_animals = self.animal_count > animals
            stale = {p for p in self.answers if self._stale(p, place, more_animals)}
        told_before = dict(self.answers)
        if place.id == "region" and (before is None or not _same(before.value, answer.value)):
            stale |= set(self._read_again())
        self._worked_out = None
        stale |= set(self._contradicted(place))
        self.doubtful |= stale
        relevant = self.relevance()
        anew = tuple(
            found.understood
            for p, found in self.answers.items()
            if p in told_before
            and found.understood
            and not _same(told_before[p].value, found.value)
        )
        return Recorded(answer, tuple(p for p in self.places() if p in stale and relevant[p]), anew)

    def touched_by(self, place: Place) -> list[Place]:
        """The relevant answers that another answer at a place may make doubtful."""
        relevant = self.relevance()
        return [p for p in self.answers if relevant.get(p) and self._stale(p, place, False)]

    def take_up(self, place: Place, text: str, *, doubtful: bool = False) -> None:
        """Put back a saved answer. One in doubt, or irrelevant, may break its constraints."""
        answer = understand(self.question(place), text, self.lists, self.region, guess=False)
        if answer.value is not None and self.relevance()[place] and not doubtful:
            self._hold_against_constraints(place, self.question(place), answer)
        self.answers[place] = answer
        if doubtful:
            self.doubtful.add(place)
        self._worked_out = None

    def _stale(self, place: Place, changed: Place, more_animals: bool) -> bool:
        """Whether a change makes an answer doubtful: of the same animal, and not by a new one."""
        stale_when = self.question(place).stale_when
        if place == changed or changed.id not in stale_when:
            return False
        condition = stale_when[changed.id]
        if condition and condition.holds(self.known().get, self.unit_of) is False:
            return False
        if place.animal is None:
            return True
        return not more_animals if changed.animal is None else place.animal == changed.animal

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

    def _contradicted(self, changed: Place) -> Iterator[Place]:
        """Other answers that can no longer be, now that one has changed."""
        known, relevant = self.known(), self.relevance()
        found = None
        for place, answer in self.answers.items():
            question = self.question(place)
            rules = [r for r in question.constraint if r.condition.names - set(question.names)]
            if not rules or place == changed or not relevant[place] or answer.value is None:
                continue
            found = found or self._lookup(known)
            if any(rule.condition.holds(found, self.unit_of) is False for rule in rules):
                yield place

    def _forget_lost_animals(self) -> None:
        count = self.animal_count
        for places in (self.answers, self.skipped, self.doubtful):
            for place in [p for p in places if p.animal is not None and p.animal >= count]:
                if isinstance(places, dict):
                    del places[place]
                else:
                    places.discard(place)

    def skip(self, place: Place) -> None:
        """Leave a question open; it comes back when the interview is taken up again."""
        self.skipped.add(place)

    # ---- what the audit is told

    def given(self) -> dict[str, Given]:
        """Every relevant answer with its doubt, by the name the core knows it under."""
        return dict(self._state.given)


def _same(before: object, after: object) -> bool:
    """Whether two answers mean the same, however they were typed."""
    if isinstance(before, tuple) and isinstance(after, tuple):
        alike = (_same(a, b) for a, b in zip(before, after, strict=False))
        return len(before) == len(after) and all(alike)
    if isinstance(before, Reading) and isinstance(after, Reading):
        return (before.low, before.best, before.high) == (after.low, after.best, after.high)
    return before == after
