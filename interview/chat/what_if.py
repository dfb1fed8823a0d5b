"""“what if the water is 3 cm lower and the lamp 5 cm higher”: the clauses as changes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from interview.core.coupling import coupled
from interview.graph.answers import understand
from interview.graph.given import named
from interview.graph.interview import AnswerRefused, Interview
from interview.graph.questions import DIMENSIONS, Question
from interview.words.quantity import read_quantity
from interview.words.refusal import NotUnderstood

__all__ = ["NotAnIf", "read_what_if"]

_LOWER = re.compile(r"\b(lower|down|less|fewer|nearer|closer|smaller|weaker|shorter)\b")
_HIGHER = re.compile(r"\b(higher|up|more|farther|further|larger|bigger|stronger|longer)\b")
_FILLER = re.compile(
    r"\b(what|if|i|we|you|the|a|an|is|are|was|were|be|by|to|at|set|put|make|move|moved|hang|raise|"
    r"raised|lower|lowered|use|used|had|has|with|my|of|them|it|line|level|and|that|so|instead)\b"
)
_SPOKEN = (
    (r"\buvb?\b|\btube\b", "uvb_lamp_height"),
    (r"\bwater change|\bchanges?\b", "water_change_share"),
    (r"\bwater\b(?! temp)|\blevel\b", "water_line_below_rim"),
    (r"\bheater\b", "heater_power"),
    (r"\blamp\b.*\bw(atts?)?\b|\bw(atts?)?\b.*\blamp\b", "heat_lamp_power"),
    (r"\blamp\b|\bhalogen\b|\bbulb\b", "heat_lamp_height"),
)
_THINGS = re.compile(r"\b(uvb?|heat|lamp|water|heater|tube|halogen|bulb|changes?)\b")
_FALLING = ("water_line_below_rim",)
"""Answers that grow when the thing is lower."""
_FIRST = ("water_line_below_rim",)
"""What carries others along moves first."""


class NotAnIf(ValueError):
    """A what-if that can't be read; the message says what was and gives an example."""


def read_what_if(interview: Interview, text: str) -> dict[str, Any]:
    """The changes a what-if speaks of, in core units; NotAnIf says which clause fails."""
    said = re.sub(r"^\s*what if\s*", "", text.casefold()).strip(" ?.")
    said = re.sub(r"[_=\s]+", " ", said)
    if not said:
        raise NotAnIf("Say what would be different, as “what if the water is 3 cm lower”.")
    named: dict[str, Any] = {}
    moves: dict[str, float] = {}
    for clause in re.split(r"\s*(?:,|;|\band\b)\s*", said):
        if clause:
            new, moved = _clause(interview, clause)
            named |= new
            moves |= moved
    changes = _together(interview.known(), named, moves)
    try:
        interview.hold_together(changes)
    except AnswerRefused as refused:
        raise NotAnIf(refused.alert) from refused
    return changes


def _together(
    known: Mapping[str, Any], named: dict[str, Any], moves: Mapping[str, float]
) -> dict[str, Any]:
    """New values of all: a lamp raised over a sinking raft moves by both."""
    changes = dict(named)
    for name in sorted(moves, key=lambda name: name not in _FIRST):
        now = coupled(known, changes).get(name, known.get(name))
        changes[name] = max(float(now or 0.0) + moves[name], 0.0)
    return changes


def _clause(interview: Interview, clause: str) -> tuple[dict[str, Any], dict[str, float]]:
    """The first reading of a clause that makes sense: new values, or how far something moves."""
    failed = NotAnIf(
        f"I don't see what would change in “{clause}”. Name it, as “what if the lamp is 5 cm "
        "higher” or “what if the heater is 100 W”."
    )
    for question, rest in _candidates(interview, clause):
        amount = " ".join(_FILLER.sub(" ", _HIGHER.sub(" ", _LOWER.sub(" ", rest))).split())
        try:
            return _change(interview, question, _direction(clause), amount)
        except NotUnderstood as problem:
            failed = NotAnIf(f"In “{clause}”: {problem}")
    raise failed


def _candidates(interview: Interview, clause: str) -> Iterator[tuple[Question, str]]:
    """Questions a clause may be about, with what is left of it: full names, then spoken ones."""
    names = [
        (name, question)
        for question in interview.questionnaire.of_tank
        for name in (question.id.replace("_", " "), question.short.casefold())
        if name in clause
    ]
    for name, question in sorted(names, key=lambda pair: -len(pair[0])):
        yield question, clause.replace(name, " ")
    for pattern, spoken in _SPOKEN:
        if re.search(pattern, clause):
            yield interview.questionnaire.by_id[spoken], _THINGS.sub(" ", clause)


def _change(
    interview: Interview,
    question: Question,
    direction: int,
    amount: str,
) -> tuple[dict[str, Any], dict[str, float]]:
    if direction == 0 or question.type not in DIMENSIONS:
        return _named(interview, question, amount), {}
    step = read_quantity(amount, question.type, region=interview.region).best
    if interview.known().get(question.id) is None:
        raise NotAnIf(f"“{question.short}” isn't known yet, so I can't move it.")
    sign = -direction if question.id in _FALLING else direction
    return {}, {question.id: sign * step}


def _named(interview: Interview, question: Question, said: str) -> dict[str, Any]:
    """A new value, typed as at the question itself."""
    value = understand(question, said, interview.lists, interview.region).value
    if value is None:
        raise NotAnIf(
            f"“{said}” leaves “{question.short}” open. Type a value, as {question.example}."
        )
    return named(question, value)


def _direction(clause: str) -> int:
    if re.search(r"\blower the\b", clause) or _LOWER.search(clause):
        return -1
    if re.search(r"\braised?\b", clause) or _HIGHER.search(clause):
        return 1
    return 0
