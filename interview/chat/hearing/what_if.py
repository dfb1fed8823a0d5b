"""“what if the water is 3 cm lower and the lamp 5 cm higher”: the clauses as changes."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Any

from interview.chat.hearing import references as finding
from interview.chat.hearing.clauses import (
    FALLING,
    Amounts,
    denies,
    direction_of,
    moved_thing,
    rules_for,
)
from interview.chat.hearing.references import matches
from interview.core.coupling import coupled
from interview.graph.given import named
from interview.graph.interview import AnswerRefused, Interview
from interview.graph.questions import DIMENSIONS, Question
from interview.vocabulary.phrases import in_words
from interview.words.choices.choice import read_choice
from interview.words.text.refusal import NotUnderstood, either

__all__ = ["NotAnIf", "change_of", "read_what_if", "said_back"]

_FIRST = ("water_line_below_rim",)
"""What carries others along moves first."""
_DENIED = re.compile(
    r"^(?:there (?:is|was|were|are) )?(?:no|without)(?: an?| the| my| any)? (?P<thing>[a-z ]+)$"
    r"|^(?:i |we )?(?:take|took|remove|removed|leave|left)(?: off| out)? (?:the |my )?"
    r"(?P<taken>[a-z ]+?)(?: off| out| away)?$"
)
_BY_HAND = "Name it, as “what if the lamp is 5 cm higher” or “what if the heater is 100 W”."

_Reading = tuple[dict[str, Any], dict[str, float]]
"""New values, and how far something moves."""


class NotAnIf(ValueError):
    """A what-if that can't be read; the message says what was and gives an example."""


def read_what_if(interview: Interview, text: str) -> dict[str, Any]:
    """The changes a what-if speaks of, in core units; NotAnIf says which clause fails."""
    said = re.sub(r"^\s*what if\s*", "", text.casefold()).strip(" ?.")
    said = re.sub(r"[_=\s]+", " ", said)
    if not said:
        raise NotAnIf("Say what would be different, as “what if the water is 3 cm lower”.")
    new: dict[str, Any] = {}
    moves: dict[str, float] = {}
    for clause in _clauses(said):
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


def _clauses(said: str) -> list[str]:
    """Cut at commas and “and”, but not in “a foot and a half”."""
    cut = re.split(r"\s*(?:,|;|\band\b(?! a (?:half|quarter)\b))\s*", said)
    return [clause for clause in cut if clause]


def _together(
    known: Mapping[str, Any], new: dict[str, Any], moves: Mapping[str, float]
) -> dict[str, Any]:
    """New values of all: a lamp raised over a sinking raft moves by both."""
    changes = dict(new)
    for name in sorted(moves, key=lambda name: name not in _FIRST):
        now = coupled(known, changes).get(name, known.get(name))
        changes[name] = max(float(now or 0.0) + moves[name], 0.0)
    return changes


def _clause(interview: Interview, clause: str) -> _Reading:
    """The first reading of a clause that makes sense: new values, or how far something moves."""
    if found := _DENIED.match(clause):
        return _absent(interview, clause, (found["thing"] or found["taken"]).strip()), {}
    clause = re.sub(r"\b(?:instead of|rather than)\b.*", "", clause).strip()
    if denies(clause):
        raise NotAnIf(f"I don't follow “{clause}”. Say how it would be, not how it would not be.")
    failed: NotAnIf | None = None
    for several in _candidates(interview, clause):
        read: dict[str, _Reading] = {}
        for question in several:
            try:
                read[question.id] = change_of(interview, question, clause)
            except NotUnderstood as problem:
                failed = failed or NotAnIf(f"In “{clause}”: {problem}")
        if len(read) == 1 or (read and several.together):
            return _joined(read.values())
        if read:
            raise _which(interview, clause, read)
    raise failed or NotAnIf(f"I don't see what would change in “{clause}”. {_BY_HAND}")


class _Candidates(list[Question]):
    """Questions a clause may be about; all of them at once, or one of them."""

    together = False


def _candidates(interview: Interview, clause: str) -> Iterator[_Candidates]:
    """Full names first, then what is spoken of in one way only, then trade names."""
    questions = interview.questionnaire
    names = [
        (name, question)
        for question in questions.of_tank
        for name in (question.id.replace("_", " "), question.short.casefold())
        if re.search(rf"\b{re.escape(name)}\b", clause)
    ]
    for _, question in sorted(names, key=lambda pair: -len(pair[0])):
        yield _Candidates([question])
    for ids in rules_for(clause):
        several = _Candidates(questions.by_id[name] for name in ids)
        several.together = True
        yield several
    about = moved_thing(clause)
    for text in (clause, about):
        if found := dict.fromkeys(place.id for place in matches(interview, text)):
            yield _Candidates(questions.by_id[name] for name in found)


def change_of(interview: Interview, question: Question, clause: str) -> _Reading:
    """What a clause changes at one question: a new value, or how far it moves.

    Raises:
        NotUnderstood: when it says nothing about it, or not how far.
        NotAnIf: when the question is about a turtle, or has no value to move from.
    """
    if question not in interview.questionnaire.of_tank:
        raise NotAnIf("A what-if is about the tank; “change …” mends what is known of a turtle.")
    amounts = Amounts(interview, question, clause)
    direction = direction_of(clause)
    if direction == 0 or question.type not in DIMENSIONS:
        return named(question, amounts.value()), {}
    step = amounts.step()
    if interview.known().get(question.id) is None:
        raise NotAnIf(f"“{question.short}” isn't known yet, so I can't move it.")
    sign = -direction if question.id in FALLING else direction
    return {}, {question.id: sign * step}


def _absent(interview: Interview, clause: str, thing: str) -> dict[str, Any]:
    """Without a thing: every answer that can say there is none of it."""
    changes: dict[str, Any] = {}
    for name in dict.fromkeys(place.id for place in finding.named(interview, thing)):
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
        raise NotAnIf(f"“{clause}”: {already}. {_BY_HAND}")
    return moved


def _joined(read: Any) -> _Reading:
    new: dict[str, Any] = {}
    moves: dict[str, float] = {}
    for values, moved in read:
        new |= values
        moves |= moved
    return new, moves


def _which(interview: Interview, clause: str, read: Mapping[str, _Reading]) -> NotAnIf:
    """The refusal of a clause that can be about several answers."""
    shorts = [interview.questionnaire.by_id[name].short for name in read]
    names = either(f"“{short}”" for short in shorts)
    return NotAnIf(f"“{clause}” can be about {names}. Name one, as “what if {shorts[0]} is …”.")
