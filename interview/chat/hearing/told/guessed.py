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
from interview.chat.hearing.told.second_hearing import SecondHearing, of_all
from interview.chat.hearing.told.turtles_heard import (
    COUNT,
    KIND,
    Turtles,
    chance_of_number,
    is_of_turtles,
)
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.questions import Question
from interview.words.intents.story import Extracted
from interview.words.learned.names import asked_by, one_of
from interview.words.learned.retracted import Clause, clauses_in, is_retracted
from interview.words.mentions.turtles.details import SEX, is_plural, pronoun_of, sex_of
from interview.words.text.refusal import NotUnderstood

if TYPE_CHECKING:
    from interview.words.learned.candidates import Candidate
    from interview.words.learned.readings import Choosing, Heard

__all__ = ["Guess", "guesses", "makes_safer"]

_OF_TURTLES, _SURE, _SUREST = 0.9, 0.95, 0.99
"""Chance from which a guess is made: of turtles, of anything else in a story, and in a line or two
or of what makes a tank look safer (assumption; tests/RESULTS.md tells what others do)."""
_SAFER = frozenset(
    {
        *(("vulnerable_person", "no"), ("lamp_holder", "ceramic")),
        *((name, "yes") for name in ("rcd", "drip_loops", "strip_raised", "lamp_guard")),
        *((name, "yes") for name in ("heater_cutout", "heater_guard")),
    }
)
"""What makes a tank look safer than it may be."""
_NO_SURER = 0.97
"""What was learned is too sure of itself: no rival counts as surer (assumption)."""
_TOLD = 0.5
_WATER_LINE = "water_line_below_rim"
_COUNT, _STAGE = Place(COUNT), Place("stage")
_OF_THE_WHOLE = ("stage", COUNT, KIND)
"""Taken from all that is told of turtles, with the amounts between."""
_ELSEWHERE = {"media": "substrate"}
"""What told of the other isn't told of this one too: gravel on the bottom fills no filter."""
_FIRST = (_COUNT, Place("tank_size"))
"""What others rest on: of which turtle, and how far a depth is below the rim."""


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
        """Whether both are amounts of the same words, and not of several turtles at once."""
        one, more = self.amount, other.amount
        if one is more and self.place.id == other.place.id:
            return False
        return bool(one and more and one.start < more.stop and more.start < one.stop)


def guesses(
    interview: Interview,
    told: Extracted,
    answers: Sequence[tuple[Place, str]],
    hearing: SecondHearing,
    turtles: Turtles,
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
        turtles: those of the phrases beside those that were heard
        doubts: where phrases took another answer than is likely, which are asked instead
        whole: whether a story is told; of a line or two a turtle need not be there yet
    """
    known = {place for place, _ in answers} | interview.answers.keys()
    known |= doubts if turtles.believed else {one for one in doubts if not is_of_turtles(one)}
    likely = [
        one
        for one in _likely(interview, told, known, hearing, turtles)
        if _is_sure(one, whole=whole) and (whole or one.place != _STAGE)
    ]
    likely.sort(key=lambda one: (one.place not in _FIRST, -one.chance))
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


def _is_sure(guess: Guess, *, whole: bool = True) -> bool:
    if not whole or makes_safer(guess.place.id, guess.said):
        return guess.chance >= _SUREST
    return guess.chance >= (_OF_TURTLES if is_of_turtles(guess.place) else _SURE)


def makes_safer(name: str, said: str) -> bool:
    """Whether an answer makes a tank look safer than it may be."""
    return (name, said) in _SAFER


def _likely(
    interview: Interview,
    told: Extracted,
    known: Set[Place],
    hearing: SecondHearing,
    turtles: Turtles,
) -> Iterator[Guess]:
    """The likeliest of all that may be told of one place that has no answer."""
    rivals: dict[Place, list[Guess]] = defaultdict(list)
    clauses = list(clauses_in(told.told))
    sets = [one for one in interview.questionnaire if one.type == "choices"]
    asked = interview.questionnaire.by_id
    of_one = [name for name in hearing.heard.choices if asked_by(name)[0] in asked]
    found = [*_of_choices(hearing, clauses, of_one), *_of_sets(sets, hearing, clauses)]
    if not (turtles.number and turtles.believed) and _COUNT not in known:
        found += _of_the_only_one(found, hearing.heard)
    if not turtles.believed and any(2 <= n < turtles.number for n in _counted(found)):
        found = [one for one in found if one.place != _COUNT]  # who of those named is left out?
    order = _order(interview, hearing.heard, turtles, found)
    for guess in (*found, *_of_amounts(hearing, told, clauses)):
        question, turtle = asked_by(guess.place.id)
        place, other = Place(question, None), _ELSEWHERE.get(question)
        if other and any((one.id, one.said) == (other, guess.said) for one in told.found):
            continue
        if asked[question].repeat:
            if turtle not in order or (question == KIND and told.strange):
                continue
            place = Place(question, order.index(turtle))
        if place not in known and not _is_of_another(told, turtles, place, guess.said):
            rivals[place].append(guess._replace(place=place))
    for row in rivals.values():
        best = max(row, key=lambda guess: guess.chance)
        others = [one for one in row if one.said != best.said and not one.meets(best)]
        yield best._replace(chance=_alone(best.chance, [one.chance for one in others]))


def _is_of_another(told: Extracted, turtles: Turtles, place: Place, sex: str) -> bool:
    """Whether a sex is only told behind another turtle of the story: a slider, and Mia, she."""
    if place.id != SEX or turtles.number < 2 or not turtles.believed:
        return False
    own = [one for one in told.found if one.animal is not None]

    def whose(start: int) -> int | None:
        before = [one for one in own if one.start <= start]
        return max(before, key=lambda one: one.start).animal if before else None

    return not any(whose(start) in (None, place.animal) for start in _says_so(told, sex))


def _says_so(told: Extracted, sex: str) -> Iterator[int]:
    """Where words tell a sex of one turtle; of what is said of several, -1."""
    pronoun = {"female": "she", "male": "he"}.get(sex)
    for sentence in told.told:
        for at, word in enumerate(sentence.words):
            if pronoun is None or (sex_of(word) == sex and is_plural(sentence, at)):
                yield -1
            elif sex_of(word) == sex or pronoun_of(word) == pronoun:
                yield sentence.parts[at].start


def _alone(chance: float, rivals: Sequence[float]) -> float:
    """How likely something is told if at most one of it and its rivals is.

    Nothing counts as surer than it can be, as what was learned is too sure of itself.
    """
    odds, *others = (one / (1 - one) for one in (min(one, _NO_SURER) for one in (chance, *rivals)))
    return chance * (1 + odds) / (1 + odds + sum(others))


def _order(
    interview: Interview, heard: Heard, turtles: Turtles, found: Sequence[Guess]
) -> Sequence[int]:
    """Which of the turtles heard the first is, and the second; none where nobody can know."""
    if interview.animal_count or _COUNT in interview.answers:
        alone = interview.animal_count == 1 and chance_of_number(heard, 1) >= _TOLD
        return (0,) if alone else ()  # which of them the story has first?
    if not (turtles.number and turtles.believed):
        number = max(_counted(found), default=0)
        turtles = Turtles(number, True, range(number))
    return [turtle for turtle in turtles.order if turtle not in turtles.untold]


def _counted(found: Sequence[Guess]) -> Sequence[int]:
    """The number of turtles where one is sure."""
    return [int(one.said) for one in found if one.place == _COUNT and _is_sure(one)]


def _of_the_only_one(found: Sequence[Guess], heard: Heard) -> Iterator[Guess]:
    """That there is one turtle, where a kind is told and no second turtle."""
    kinds = [one for one in found if one.place.id == KIND]
    best = max(kinds, key=lambda one: one.chance, default=None)
    if best is not None:
        yield best._replace(place=_COUNT, said="1", chance=best.chance * chance_of_number(heard, 1))


def _of_amounts(
    hearing: SecondHearing, told: Extracted, clauses: Sequence[Clause]
) -> Iterator[Guess]:
    """Those of amounts that no phrase took, and that are not taken back."""
    from interview.words.learned.candidates import WATER_DEPTH

    own = [fact for fact in told.found if fact.id not in _OF_THE_WHOLE]
    for one, chances in zip(hearing.amounts, hearing.heard.amounts, strict=True):
        clause = next((clause for clause in clauses if one.start < clause.stop), None)
        taken = any(fact.start < one.stop and one.start < fact.stop for fact in own)
        if clause is None or taken or is_retracted(told.told, one.start, one.stop):
            continue
        for name in chances:
            if name in ("", COUNT):  # turtles are counted by all that is told of them
                continue
            place, said = Place(name), one.says[asked_by(name)[0]]
            if name == WATER_DEPTH:
                place, said = Place(_WATER_LINE), f"{said} deep"
            chance = of_all(chances, name)
            yield Guess(place, said, chance, clause, one.start, one.stop, one)


def _of_choices(
    hearing: SecondHearing, clauses: Sequence[Clause], names: Iterable[str]
) -> Iterator[Guess]:
    for name in names:
        choosing = hearing.heard.choices[name]
        clause, piece = _looked_at(choosing, clauses), choosing.most
        for choice, chance in choosing.chances.items():
            if choice and clause is not None and piece is not None:
                yield Guess(Place(name), choice, chance, clause, piece.start, piece.stop)


def _of_sets(
    questions: Sequence[Question], hearing: SecondHearing, clauses: Sequence[Clause]
) -> Iterator[Guess]:
    """What is told of questions of which several choices may hold: all of them, or nothing."""
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
            place, said = Place(question.id), ", ".join(told)
            yield guess._replace(place=place, said=said, chance=sure)


def _looked_at(choosing: Choosing, clauses: Sequence[Clause]) -> Clause | None:
    """The clause that most of the looking was at."""
    return max(clauses, key=lambda one: choosing.share(one.start, one.stop), default=None)
