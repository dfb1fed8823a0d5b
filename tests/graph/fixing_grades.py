"""Which answers fix the grade of a tank, and how many are given until they do."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import Any, NamedTuple

from interview import assembly
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.grades import grade_all
from interview.audit.inconsistencies import all_inconsistencies
from interview.audit.tank import Tank
from interview.chat.faces.line_face import PlainFace
from interview.chat.together.guided_talk import GuidedTalk
from interview.core.wiring import quantities
from interview.graph.interview import Interview, Place
from interview.graph.order.look_round import LookRound
from interview.words.amounts.reading import Reading

__all__ = ["Graded", "Step"]

_ALWAYS = frozenset({"stage", "animal_count", "species", "region"})
"""So much hangs on these that every check is judged anew without one."""
_PASSES = 2
_judged: dict[Any, Finding] = {}
"""Findings of all tanks, by the answers they look at: most tanks are alike but for one thing."""


class Step(NamedTuple):
    """What one prompt asks, and how many answers it takes."""

    questions: tuple[str, ...]
    answers: int


class Graded:
    """The grade of one tank by which of its questions are answered."""

    def __init__(self, tank: Interview) -> None:
        self._tank = tank
        self._grades: dict[frozenset[str], str] = {}
        self.questions = frozenset(place.id for place in tank.answers)
        self.final = self.grade(self.questions)

    def grade(self, asked: Collection[str]) -> str:
        """The grade of the whole where only these questions are answered."""
        asked = frozenset(asked) & self.questions
        if asked not in self._grades:
            self._grades[asked] = grade_all(list(self._findings(asked))).overall
        return self._grades[asked]

    def _findings(self, asked: frozenset[str]) -> Iterator[Finding]:
        part = assembly.new_interview()
        part.answers = {p: a for p, a in self._tank.answers.items() if p.id in asked}
        given = part.given()
        told = {name: hash((name, repr(item.value), item.how)) for name, item in given.items()}
        tank: Tank | None = None
        unfit = tuple(told.get(name) for name in _unfit())
        for check in all_checks():
            key = check.id, unfit, tuple(told.get(name) for name in _looked_at(check.id))
            if key not in _judged:
                tank = tank or assembly.tank_of(part, drawn=True)
                found = judge(check, tank)
                _judged[key] = replace(found, chances=None, say="", do="", also="", why="")
            yield _judged[key]

    def answers(self, questions: Collection[str]) -> int:
        """How many answers these questions take, one for each animal."""
        return sum(place.id in questions for place in self._tank.answers)

    def answers_until_fixed(self, steps: Sequence[Step]) -> int:
        """How many answers it takes until no later one changes the grade of the whole."""
        for number in range(len(steps), 0, -1):
            known = [question for step in steps[: number - 1] for question in step.questions]
            if self.grade(known) != self.final:
                return sum(step.answers for step in steps[:number])
        return 1

    def needed(self, order: Sequence[str]) -> frozenset[str]:
        """Questions that fix the grade, known only afterwards: the last that can go is dropped.

        Args:
            order: its questions; those behind are dropped before those in front
        """
        left = set(self.questions)
        for _ in range(_PASSES):
            for question in reversed(order):
                rests = any(question in _conditions(other) for other in left)
                can_go = question in left - {"stage", "animal_count"} and not rests
                if can_go and self.grade(left - {question}) == self.final:
                    left.discard(question)
        return frozenset(left)

    def by_file(self) -> list[Step]:
        """Its questions in the order of the files, finer ones last."""
        ids = [q.id for q in assembly.questionnaire() if q.id in self.questions]
        usual = {place.id for place in self._tank.answers if self._tank.usual(place)}
        return self._singly(sorted(ids, key=lambda question: question not in usual))

    def as_asked(self) -> list[Step]:
        """Its questions as the guided talk asks them, finer ones last.

        A list of faults takes one answer, and one more for each that has to be asked by itself;
        what a fault brings up comes next.
        """
        talk, steps = assembly.new_interview(), list[Step]()
        guided = GuidedTalk(talk, PlainFace(), lambda: None)
        while (place := guided.coming() or talk.next()) is not None:
            group = guided.group(place)
            look = guided.look_at(group)
            told = [one for one in group if one in self._tank.answers]
            for one in group:
                if one in told:
                    talk.answers[one] = self._tank.answers[one]
                else:
                    talk.skip(one)
            talk._worked_out = None
            if look:
                singly = sum(not self._is_told(look, one) for one in told)
                steps.append(Step(tuple(one.id for one in told), 1 + singly))
                guided.found += [one for one in told if not self._is_clear(look, one)]
            else:
                steps += self._singly([one.id for one in told])
        steps = list(dict.fromkeys(steps))  # of each animal the same is asked
        asked = {question for step in steps for question in step.questions}
        rest = (p.id for p in self._tank.in_asking_order() if p in self._tank.answers)
        return steps + self._singly([name for name in dict.fromkeys(rest) if name not in asked])

    def _singly(self, questions: Sequence[str]) -> list[Step]:
        """A step for each question, however many animals it is asked of."""
        return [Step((name,), self.answers({name})) for name in dict.fromkeys(questions)]

    def _is_clear(self, look: LookRound, place: Place) -> bool:
        """Whether a list's “none” tells the answer of the tank."""
        return self._is_told(look, place, of_a_fault=False)

    def _is_told(self, look: LookRound, place: Place, *, of_a_fault: bool = True) -> bool:
        """Whether a list tells the answer of the tank, or that it lies within what it tells."""
        (item,) = (item for item in look.items if item.ask == place.id)
        own = self._tank.answers[place].value
        for said in filter(None, (item.clear, item.found if of_a_fault else "")):
            told = self._tank.try_answer(place, said).value
            if isinstance(own, Reading) and isinstance(told, Reading):
                below, above = said.startswith("at most"), said.startswith("at least")
                if (below and own.high <= told.high) or (above and own.low >= told.low):
                    return True
                if own.best == told.best:
                    return True
            elif own == told:
                return True
        return False


@cache
def _looked_at(check: str) -> tuple[str, ...]:
    """Every name that a verdict can hang on."""
    (found,) = (one for one in all_checks() if one.id == check)
    return tuple(sorted(_with_upstream(found.decides) | _ALWAYS))


@cache
def _unfit() -> tuple[str, ...]:
    names = frozenset[str]().union(*(template.names for template in all_inconsistencies()))
    return tuple(sorted(_with_upstream(names)))


def _with_upstream(names: frozenset[str]) -> frozenset[str]:
    wiring = quantities()
    return names.union(*(wiring.upstream(name) for name in names if name in wiring.formulas))


@cache
def _conditions(question: str) -> frozenset[str]:
    """The questions that decide whether one applies, or is finer."""
    questionnaire = assembly.questionnaire()
    found = questionnaire.by_id[question]
    names = {n for c in (found.relevant, found.finer) if c is not None for n in c.names}
    giver = questionnaire.giver
    return frozenset(giver[name].id for name in names if name in giver) - {question}
