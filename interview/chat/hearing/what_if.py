"""“what if the water is 3 cm lower and the lamp 5 cm higher”: the changes as values."""

from __future__ import annotations

import re
from collections.abc import Mapping
from math import isclose
from typing import Any

from interview.chat.hearing.changes import FALLING, Change, changes_in, spoken, step_of
from interview.chat.hearing.references import name_of
from interview.graph.answers import understand
from interview.graph.examples import example_in
from interview.graph.given import named
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.vocabulary.phrases import in_words
from interview.words.text.refusal import NotUnderstood, either

__all__ = ["NotAnIf", "read_changes", "read_what_if", "said_back"]

_WHAT_IF = re.compile(r"\s*what if\b", re.IGNORECASE)
_BY_HAND = "Name it, as “what if the lamp is 5 cm higher” or “what if the heater is 100 W”."
_ANOTHER = "Another animal has a kind and a size of its own: tell me of it once it is there."
_MOST = 4
"""Answers that are named where a clause can be about several."""


class NotAnIf(ValueError):
    """A what-if that can't be read; the message says what was and gives an example."""


def read_what_if(interview: Interview, text: str) -> dict[str, Any]:
    """The changes a what-if speaks of, in core units; NotAnIf says which clause fails."""
    changes = read_changes(interview, text)
    tank = {name for question in interview.questionnaire.of_tank for name in question.names}
    if not changes.keys() <= tank:
        raise NotAnIf("A what-if is about the tank; “change …” mends what is known of a turtle.")
    return changes


def read_changes(interview: Interview, text: str) -> dict[str, Any]:
    """The changes a line speaks of, in core units; NotAnIf says which clause fails."""
    heard = changes_in(interview, _WHAT_IF.sub("", text), supposed=True)
    if not heard:
        raise NotAnIf("Say what would be different, as “what if the water is 3 cm lower”.")
    new: dict[str, Any] = {}
    moves: dict[str, float] = {}
    for change in heard:
        if change.place is None or change.told is None:
            raise NotAnIf(_not_clear(interview, change))
        try:
            _add(interview, change, new, moves)
        except NotUnderstood as problem:
            raise NotAnIf(f"In “{change.clause.text}”: {problem}") from problem
    changes = _together(interview, new, moves)
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


def _add(
    interview: Interview, change: Change, new: dict[str, Any], moves: dict[str, float]
) -> None:
    """Put a change among the new values, or what moves among the moves."""
    place, told = change.places[0], change.told
    assert told is not None
    question = interview.question(place)
    if told.way and question.count_of:
        raise NotAnIf(_ANOTHER)
    if not told.way:
        value = understand(question, told.said, interview.lists, interview.region).value
        sides, known = named(question, value), interview.known()
        if question.parts:  # of a longer tank only the length is new
            new |= {n: side for n, side in sides.items() if not _as_before(side, known.get(n))}
        new |= sides if new.keys().isdisjoint(sides) else {}
        return
    if interview.known().get(place.id) is None:
        raise NotAnIf(f"“{question.short}” isn't known yet, so I can't move it.")
    moves[place.id] = moves.get(place.id, 0.0) + step_of(interview, change)


def _as_before(side: Any, before: Any) -> bool:
    return before is not None and isclose(side, before, rel_tol=0.005)


def _together(
    interview: Interview, new: dict[str, Any], moves: Mapping[str, float]
) -> dict[str, Any]:
    """New values of all: a lamp raised over a sinking raft moves by both."""
    from interview.advice.what_if.coupling import coupled  # heavy: not before the first question

    known, changes = interview.known(), dict(new)
    for name in sorted(moves, key=lambda name: name not in FALLING):
        now = coupled(known, changes).get(name, known.get(name))
        now = now[0] if isinstance(now, tuple) else now
        changes[name] = float(now or 0.0) + moves[name]
        if changes[name] < 0:
            raise NotAnIf(_too_far(interview, Place(name), float(now or 0.0), moves[name]))
    return changes


def _too_far(interview: Interview, place: Place, now: float, moved: float) -> str:
    """Why an answer can't be so much less."""
    if interview.question(place).type == "temperature":
        return f"“{name_of(interview, place)}” can't be so much less."
    left, far = spoken(interview, place, now), spoken(interview, place, -moved)
    return f"“{name_of(interview, place)}” is {left}, so it can't be {far} less."


def _not_clear(interview: Interview, change: Change) -> str:
    """What a clause lacks, the nearest thing it may mean, and how that would be said."""
    said, places = change.clause.text, change.places
    if change.problem:
        return f"In “{said}”: {change.problem}"
    if not 0 < len(places) <= _MOST:
        return f"I don't see what would change in “{said}”. {_BY_HAND}"
    shorts = [name_of(interview, place) for place in places]
    example = example_in(interview.question(places[0]), interview.system)
    as_said = f"“what if {shorts[0]} is {example}”"
    if len(places) > 1:
        names = either(f"“{short}”" for short in shorts)
        return f"“{said}” can be about {names}. Name one, as {as_said}."
    if interview.question(places[0]).type == "yes_no":
        ways = f"“what if {shorts[0]} is yes” or “what if {shorts[0]} is no”"
        return f"I can't tell what “{said}” makes of “{shorts[0]}”. Say it as {ways}."
    if change.clause.amounts:
        return f"I can't tell what “{said}” makes of “{shorts[0]}”. Say it as {as_said}."
    return f"“{said}” doesn't say how much. Say it as {as_said}."
