"""What a line says was changed, as “raised the lamp 5 cm”: the places it may be about."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING, TypeAlias

from interview.chat.hearing.changes import another_animal, clauses_of, told_at
from interview.chat.hearing.clauses import FALLING
from interview.chat.hearing.references import matches
from interview.graph.interview import Interview, Place

if TYPE_CHECKING:
    pass

__all__ = ["Change", "Find", "changes_told", "is_length"]

_MOVED = re.compile(r"\b(?:mov|rais|lift|lower|higher|clos|near|f[au]rther|drop|up|down|hung|hang)")
Change: TypeAlias = tuple[Place, str, list[Place]]
"""What was changed, what was told of it, and what else that fits."""
Find: TypeAlias = Callable[[str], Place | None]
"""Which place a few words mean, asked back where several are meant."""


def changes_told(interview: Interview, line: str, find: Find) -> list[Change]:
    """What a line tells of, the water first: it carries others along."""
    clauses = clauses_of(line)
    if len(clauses) > 1 and not re.search(r"\d", line):
        whole = all(matches(interview, clause) for clause in clauses)
        clauses = clauses if whole else [line]
    if len(clauses) < 2:
        clauses = [clauses[0] if clauses and re.search(r"\d", line) else line]
    changes: list[Change] = []
    for clause in clauses:
        place, others = _place_meant(interview, clause, find)
        if place is not None:
            changes.append((place, clause.casefold(), others))
    return sorted(changes, key=lambda change: change[0].id not in FALLING)


def _place_meant(interview: Interview, clause: str, find: Find) -> tuple[Place | None, list[Place]]:
    """The place meant; where several were moved alike, the first, with all of them."""
    if another_animal(interview, clause.casefold()):
        counter = next(q.id for q in interview.questionnaire if q.count_of)
        return Place(counter), []
    found = matches(interview, clause)
    if _MOVED.search(clause.casefold()):
        lengths = [p for p in found if is_length(interview, p)]
        if lengths and lengths == found:
            return found[0], found if len(found) > 1 else []
    fit = [p for p in found if told_at(interview, p, clause.casefold(), None).at]
    if 1 < len(fit) < len(found) and all(is_length(interview, p) for p in fit):
        return fit[0], fit
    return (fit[0] if len(fit) == 1 < len(found) else find(clause)), []


def is_length(interview: Interview, place: Place) -> bool:
    """Whether a length is asked there."""
    return interview.question(place).type == "length"
