"""“what if the water is 3 cm lower and the lamp 5 cm higher”: the clauses as changes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Any, TypeAlias

from interview.chat.hearing.in_context import in_context
from interview.chat.hearing.references import matches, named, names_of
from interview.graph.answers import understand
from interview.graph.given import named as under_names
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.questions import DIMENSIONS, Question
from interview.vocabulary.phrases import in_words
from interview.words.choices.choice import read_choice
from interview.words.intents.reference import names_in, spoken_of
from interview.words.intents.value import Target, step_in, value_in
from interview.words.mentions.clauses import Clause, clauses_in
from interview.words.text.refusal import NotUnderstood, either

__all__ = ["FALLING", "NotAnIf", "asked_at", "read_what_if", "said_back"]

FALLING = ("water_line_below_rim",)
"""Answers that grow when the thing is lower; what carries others along moves first."""
_WHAT_IF = re.compile(r"\s*what if\b", re.IGNORECASE)
_BY_HAND = "Name it, as “what if the lamp is 5 cm higher” or “what if the heater is 100 W”."

_Reading: TypeAlias = tuple[dict[str, Any], dict[str, float]]
"""New values, and how far something moves."""


class NotAnIf(ValueError):
    """A what-if that can't be read; the message says what was and gives an example."""


def read_what_if(interview: Interview, text: str) -> dict[str, Any]:
    """The changes a what-if speaks of, in core units; NotAnIf says which clause fails."""
    clauses = clauses_in(_WHAT_IF.sub("", text))
    if not clauses:
        raise NotAnIf("Say what would be different, as “what if the water is 3 cm lower”.")
    new: dict[str, Any] = {}
    moves: dict[str, float] = {}
    for clause in clauses:
        values, moved = _clause(interview, clause)
        new |= values
        moves |= moved
    changes = _together(interview.known(), new, moves)
    try:
        interview.hold_together(changes)
    except AnswerRefused as refused:
        raise NotAnIf(refused.alert) from refused
    return changes


def said_back(interview: Interview, changes: Mapping[str, Any]) -> str:
    """What a what-if was taken for: each answer as it would be, and as it is."""
    known, parts = interview.known(), []
    for name, value in changes.items():
        unit = interview.unit_of(name)
        question = interview.questionnaire.giver[name]
        spoken = question.short if name == question.id else name.replace("_", " ")
        now = in_words(known[name], unit, interview.system, name) if name in known else "open"
        then = in_words(value, unit, interview.system, name)
        parts.append(f"{spoken} {then} (now {now})")
    return f"As if: {'; '.join(parts)}."


def asked_at(interview: Interview, question: Question) -> Target:
    """A question as a clause is held against it."""

    def read(said: str) -> Any:
        told = in_context(interview, Place(question.id), said) or said
        return understand(question, told, interview.lists, interview.region).value

    names = (question.short, question.id.replace("_", " "), *question.trade_names)
    names += question.absent.things
    return Target(question.type, question.example, read, names, question.choices)


def _together(
    known: Mapping[str, Any], new: dict[str, Any], moves: Mapping[str, float]
) -> dict[str, Any]:
    """New values of all: a lamp raised over a sinking raft moves by both."""
    from interview.advice.what_if.coupling import coupled  # heavy: not before the first question

    changes = dict(new)
    for name in sorted(moves, key=lambda name: name not in FALLING):
        now = coupled(known, changes).get(name, known.get(name))
        changes[name] = max(float(now or 0.0) + moves[name], 0.0)
    return changes


def _clause(interview: Interview, clause: Clause) -> _Reading:
    """The first reading of a clause that makes sense: new values, or how far something moves."""
    if clause.gone:
        return _absent(interview, clause), {}
    if clause.is_denied:
        said = f"I don't follow “{clause.text}”. Say how it would be, not how it would not be."
        raise NotAnIf(said)
    failed: NotAnIf | None = None
    for several, together in _candidates(interview, clause):
        read: dict[str, _Reading] = {}
        for question in map(interview.questionnaire.by_id.__getitem__, several):
            try:
                read[question.id] = _change_of(interview, question, clause)
            except NotUnderstood as problem:
                failed = failed or NotAnIf(f"In “{clause.text}”: {problem}")
        if len(read) == 1 or (read and together):
            values, moves = zip(*read.values(), strict=True)
            return _joined(values), _joined(moves)
        if read:
            raise _which(interview, clause, read)
    raise failed or NotAnIf(f"I don't see what would change in “{clause.text}”. {_BY_HAND}")


def _candidates(interview: Interview, clause: Clause) -> Iterator[tuple[Sequence[str], bool]]:
    """Answers a clause may be about, and whether all of them at once or one of them.

    Full names first, then what is spoken of in one way only, then trade names.
    """
    tank = {question.id for question in interview.questionnaire.of_tank}
    names = [one for one in names_of(interview.questionnaire) if one.id in tank]
    for name in names_in(names, clause):
        yield [name], False
    for answers in spoken_of(clause):
        yield answers, True
    for said in (clause, clause.without_direction()):
        if found := list(dict.fromkeys(place.id for place in matches(interview, said))):
            yield found, False


def _change_of(interview: Interview, question: Question, clause: Clause) -> _Reading:
    """What a clause changes at one question: a new value, or how far it moves.

    Raises:
        NotUnderstood: when it says nothing about it, or not how far.
        NotAnIf: when the question is about a turtle, or has no value to move from.
    """
    if question not in interview.questionnaire.of_tank:
        raise NotAnIf("A what-if is about the tank; “change …” mends what is known of a turtle.")
    asked = asked_at(interview, question)
    if clause.direction == 0 or question.type not in DIMENSIONS:
        return under_names(question, value_in(clause, asked, fewest=False)[1]), {}
    step = step_in(clause, asked, interview.region)
    if interview.known().get(question.id) is None:
        raise NotAnIf(f"“{question.short}” isn't known yet, so I can't move it.")
    sign = -clause.direction if question.id in FALLING else clause.direction
    return {}, {question.id: sign * step}


def _absent(interview: Interview, clause: Clause) -> dict[str, Any]:
    """Without a thing: every answer that can say there is none of it."""
    changes: dict[str, Any] = {}
    for name in dict.fromkeys(place.id for place in named(interview, clause.gone)):
        question = interview.questionnaire.by_id[name]
        if question.type == "yes_no" and question.absent.means != "yes":
            changes[question.id] = False
        elif question.type == "choice":
            try:
                changes[question.id] = read_choice("none", question.choices).name
            except NotUnderstood:
                continue
    known = interview.known()
    moved = {name: value for name, value in changes.items() if known.get(name) != value}
    if not moved:
        already = "that is so already" if changes else "I don't see what would be gone"
        raise NotAnIf(f"“{clause.text}”: {already}. {_BY_HAND}")
    return moved


def _joined(several: tuple[dict[str, Any], ...]) -> dict[str, Any]:
    return {name: value for one in several for name, value in one.items()}


def _which(interview: Interview, clause: Clause, read: Mapping[str, _Reading]) -> NotAnIf:
    """The refusal of a clause that can be about several answers."""
    shorts = [interview.questionnaire.by_id[name].short for name in read]
    names = either(f"“{short}”" for short in shorts)
    said = f"“{clause.text}” can be about {names}. Name one, as “what if {shorts[0]} is …”."
    return NotAnIf(said)
