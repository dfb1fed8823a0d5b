"""Which answers fix the grade of a tank, and how many are given until they do."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from functools import cache
from typing import Any

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
from interview.graph.interview import Interview

__all__ = ["Graded"]

_ALWAYS = frozenset({"stage", "animal_count", "species", "region"})
"""So much hangs on these that every check is judged anew without one."""
_PASSES = 2
_judged: dict[Any, Finding] = {}
"""Findings of all tanks, by the answers they look at: most tanks are alike but for one thing."""


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

    def answers_until_fixed(self, order: Sequence[str]) -> int:
        """How many answers it takes until no later one changes the grade of the whole."""
        for number in range(len(order), 0, -1):
            if self.grade(order[: number - 1]) != self.final:
                return self.answers(order[:number])
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

    def by_file(self) -> list[str]:
        """Its questions in the order of the files, finer ones last."""
        ids = [q.id for q in assembly.questionnaire() if q.id in self.questions]
        usual = {place.id for place in self._tank.answers if self._tank.usual(place)}
        return sorted(ids, key=lambda question: question not in usual)

    def as_asked(self) -> list[str]:
        """Its questions as the guided talk asks them, finer ones last."""
        talk, order = assembly.new_interview(), list[str]()
        guided = GuidedTalk(talk, PlainFace(), lambda: None)
        while (place := talk.next()) is not None:
            for one in guided.group(place):
                if one in self._tank.answers:
                    talk.answers[one] = self._tank.answers[one]
                    order.append(one.id)
                else:
                    talk.skip(one)
            talk._worked_out = None
        order += [p.id for p in self._tank.in_asking_order() if p in self._tank.answers]
        return list(dict.fromkeys(order))


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
