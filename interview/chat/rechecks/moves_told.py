"""What a line says was changed, as “raised the lamp 5 cm”: the places it may be about."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeAlias

from interview.chat.hearing.changes import another_animal, left_at
from interview.chat.hearing.references import matches
from interview.chat.hearing.what_if import FALLING
from interview.graph.interview import Interview, Place
from interview.words.mentions.clauses import Clause, clauses_in, whole_clause

__all__ = ["Change", "Find", "changes_told", "is_length"]

Change: TypeAlias = tuple[Place, Clause, list[Place]]
"""What was changed, what was told of it, and what else that fits."""
Find: TypeAlias = Callable[[str], Place | None]
"""Which place a few words mean, asked back where several are meant."""


def changes_told(interview: Interview, line: str, find: Find) -> list[Change]:
    """What a line tells of, the water first: it carries others along."""
    clauses, whole = clauses_in(line), whole_clause(line)
    if whole is None:
        return []
    if not whole.amounts and (
        len(clauses) < 2 or not all(matches(interview, clause) for clause in clauses)
    ):
        clauses = (whole,)
    changes: list[Change] = []
    for clause in clauses:
        place, others = _place_meant(interview, clause, find)
        if place is not None:
            changes.append((place, clause, others))
    return sorted(changes, key=lambda change: change[0].id not in FALLING)


def _place_meant(
    interview: Interview, clause: Clause, find: Find
) -> tuple[Place | None, list[Place]]:
    """The place meant; where several were moved alike, the first, with all of them."""
    if another_animal(interview, clause):
        counter = next(q.id for q in interview.questionnaire if q.count_of)
        return Place(counter), []
    found = matches(interview, clause)
    if clause.is_of_a_move:
        lengths = [p for p in found if is_length(interview, p)]
        if lengths and lengths == found:
            return found[0], found if len(found) > 1 else []
    fit = [p for p in found if left_at(interview, p, clause, None).at]
    if 1 < len(fit) < len(found) and all(is_length(interview, p) for p in fit):
        return fit[0], fit
    return (fit[0] if len(fit) == 1 < len(found) else find(clause.text)), []


def is_length(interview: Interview, place: Place) -> bool:
    """Whether a length is asked there."""
    return interview.question(place).type == "length"
