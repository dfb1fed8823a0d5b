"""Where what a keeper tells of a change leaves an answer: told outright, or moved by how much."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from interview.chat.hearing.references import matches
from interview.chat.hearing.what_if import FALLING, asked_at
from interview.graph.interview import Interview, Place
from interview.graph.questions import DIMENSIONS
from interview.words.amounts.format import say
from interview.words.amounts.reading import Reading
from interview.words.intents.reference import spoken_of
from interview.words.intents.value import step_in, value_in
from interview.words.mentions.clauses import Clause, whole_clause
from interview.words.text.refusal import NotUnderstood

__all__ = ["LeftAt", "another_animal", "left_at", "new_answer", "spoken"]

_SPOKEN = {
    "duration": ("duration", "day"),
    "lit_time": ("duration", "hour"),
    "length": ("length", "cm"),
}
"""How a figure is read and in which unit it is told, where the core's own is not spoken."""
_FIGURES = re.compile(r"\d+\.\d+")


@dataclass(frozen=True)
class LeftAt:
    """Where a clause leaves an answer, as it would be typed; both where it can mean both."""

    amount: str = ""
    """The amount told, in the keeper's words."""
    at: str = ""
    by: str = ""

    @property
    def is_open(self) -> bool:
        """Whether it can be where it is now, and how far it was moved."""
        return bool(self.at and self.by)


def another_animal(interview: Interview, clause: Clause) -> int:
    """How many animals there are once another one came; 0 where none did."""
    number = clause.another_animal
    return max(number, interview.animal_count + 1) if number else 0


def new_answer(interview: Interview, line: str) -> tuple[Place, str] | None:
    """The one answer a line names and what it shall be, as “heat lamp to one hundred watts”.

    None where it only names one, as “lamp to platform”, or where the words fit no one answer.
    """
    clause = whole_clause(line)
    if clause is None:
        return None
    for at in clause.goals:
        said, meant = clause.after(at + 1).text, [matches(interview, clause.before(at))]
        if not any(_is_amount(interview, place) for place in meant[0]) or len(meant[0]) > 1:
            meant += [list(map(Place, answers)) for answers in spoken_of(clause)]
        fits = ([place for place in some if interview.takes(place, said)] for some in meant)
        fit = next(filter(None, fits), []) if said else []
        if len(fit) == 1:
            return fit[0], said
    return None


def _is_amount(interview: Interview, place: Place) -> bool:
    return interview.question(place).type in DIMENSIONS


def left_at(interview: Interview, place: Place, clause: Clause, now: float | None) -> LeftAt:
    """Where a clause leaves the answer at a place: told outright, or moved from where it was.

    Args:
        interview: the answers so far
        place: what the clause is about
        clause: what was told
        now: where it stood before, in the core's unit

    A bare amount tells where it is; how far it moved is said with “by”, “5 cm higher” or
    “raised it 5 cm”. A move that would leave less than half of a distance is never taken alone.
    """
    question = interview.question(place)
    if place.animal is not None or question.type not in (*DIMENSIONS, "count", "choice"):
        return LeftAt()
    asked = asked_at(interview, question)
    try:
        amount, _ = value_in(clause, asked)
    except NotUnderstood:
        return LeftAt()
    at = amount if interview.takes(place, amount) else ""
    direction = -clause.direction if place.id in FALLING else clause.direction
    if question.type not in DIMENSIONS or now is None:
        return LeftAt(amount, at=at)
    answer = interview.try_answer(place, at).value if at else None
    told = answer.best if isinstance(answer, Reading) else now
    if direction == 0:
        return LeftAt(amount, at="" if clause.is_moved and told < now / 2 else at)
    if told == now or (told > now) != (direction > 0):
        at = ""
    try:
        value = now + direction * step_in(clause, asked, interview.region)
    except NotUnderstood:
        return LeftAt(amount, at=at)
    by = spoken(interview, place, value) if value > 0 else ""
    by = by if by and interview.takes(place, by) else ""
    return _weighed(clause, LeftAt(amount, at, by), value / now if now > 0 else 1.0)


def _weighed(clause: Clause, left: LeftAt, share: float) -> LeftAt:
    """The readings of a clause that can be meant, by how it says it and what would be left."""
    risky = not 0.5 <= share <= 1.5
    if clause.says("told_by"):
        return LeftAt(left.amount, left.at if risky and left.by else "", left.by)
    if clause.says("told_now"):
        return LeftAt(left.amount, at=left.at)
    if clause.says("told_apart"):
        return LeftAt(left.amount, left.at, "" if risky and left.at else left.by)
    return left if risky else LeftAt(left.amount, "" if left.by else left.at, left.by)


def spoken(interview: Interview, place: Place, value: float) -> str:
    """A worked out value as a keeper would type it."""
    question = interview.question(place)
    kind, unit = _SPOKEN.get(question.type, (question.type, question.unit))
    exact = float(value)
    said = say(Reading(exact, exact, exact, "", unit), kind, interview.system)
    return _FIGURES.sub(_three_digits, said)


def _three_digits(number: re.Match[str]) -> str:
    """A figure that nobody would type, in three digits or whole."""
    value = float(number[0])
    return f"{round(value, max(0, 2 - math.floor(math.log10(value)))):g}" if value else "0"
