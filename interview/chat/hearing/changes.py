"""What a keeper tells of a change: its clauses, and where each leaves an answer."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass

from interview.chat.hearing.clauses import FALLING, Amounts, direction_of
from interview.chat.hearing.what_if import NotAnIf
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.questions import DIMENSIONS
from interview.words.amounts.format import say
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

__all__ = ["Told", "another_animal", "clauses_of", "spoken", "told_at"]

_SPOKEN = {
    "duration": ("duration", "day"),
    "lit_time": ("duration", "hour"),
    "length": ("length", "cm"),
}
"""How a figure is read and in which unit it is told, where the core's own is not spoken."""
_FIGURES = re.compile(r"\d+\.\d+")
_UNIT = (
    r"cm|mm|metres?|meters?|m|in|inch|inches|ft|feet|foot|watts?|w|°?[cf]|deg\w*|mg/l|ppm|l/h|gph|"
    r"litres?|liters?|l|gallons?|gal|hours?|days?|weeks?|months?|%"
)
_AMOUNT = rf"\d[\d.,/]*(?: \d+/\d+)? ?(?:(?:{_UNIT})\b|[\"”'’½¼¾%])?"
_LONE = re.compile(
    rf"(?:(?:now|at|to|by|about|around|its|it's|it|is|so|up|down) )*{_AMOUNT}(?: (?:now|up|down|"
    r"high|higher|lower|closer|away|above it|below the rim|more|less))*"
)
"""A clause that is an amount alone belongs to the one before it."""
_CUT = re.compile(r"\s*(?:,(?!\d)|,(?=\d{2,} ?[a-z])|;|\band\b(?! a (?:half|quarter)\b))\s*")
_OLD = re.compile(r"\b(?:instead of|rather than)\b.*")
_FROM = re.compile(rf"\bfrom {_AMOUNT}")
_TRADED = re.compile(
    r"\b(?:swapped|swap|replaced|replace|changed|exchanged|traded)\b.*?\b(?:for|with)\b"
)
_BY = re.compile(
    rf"\bby\b|{_AMOUNT} (?:higher|lower|closer|nearer|f[au]rther|deeper|shallower|more|less|warmer|"
    rf"colder|cooler)\b|\b(?:is|are|went|gone|moved|came|hung) (?:now )?(?:up|down) {_AMOUNT}"
)
_NOW = re.compile(
    rf"\bnow (?:at |about )?{_AMOUNT}|{_AMOUNT} (?:up |away |high )?now\b|\bat {_AMOUNT}"
)
_APART = re.compile(rf", ?{_AMOUNT}|\b(?:closer|nearer|f[au]rther|higher|lower) {_AMOUNT}")
_SHIFTED = re.compile(r"\b(?:mov|shift)")
_NUMBERS = ("first", "second", "third", "fourth", "fifth", "sixth")
_ANIMAL = re.compile(
    rf"\b(?:(?P<nth>{'|'.join(_NUMBERS[1:])})|another|one more|an? additional|an? extra)\b.*"
    r"\b(?:turtle|slider|cooter|terrapin|animal)\b"
)


@dataclass(frozen=True)
class Told:
    """Where a clause leaves an answer, as it would be typed; both where it can mean both."""

    amount: str = ""
    """The amount told, in the keeper's words."""
    at: str = ""
    by: str = ""

    @property
    def is_open(self) -> bool:
        """Whether it can be where it is now, and how far it was moved."""
        return bool(self.at and self.by)


def clauses_of(line: str) -> list[str]:
    """Cut what was told at commas and “and”; an amount alone stays with what it is about."""
    said = _OLD.sub("", " ".join(line.casefold().split())).strip(" .!")
    said = _FROM.sub("", said)
    said = _TRADED.sub(lambda old: re.sub(rf"\b{_AMOUNT}", "", old[0]), said)
    found: list[str] = []
    for clause in filter(None, _CUT.split(said)):
        if found and _LONE.fullmatch(clause):
            found[-1] += f", {clause}"
        else:
            found.append(clause)
    return [" ".join(clause.split()) for clause in found]


def another_animal(interview: Interview, clause: str) -> int:
    """How many animals there are once another one came; 0 where none did."""
    found = _ANIMAL.search(clause)
    if not found:
        return 0
    nth = found["nth"]
    return max(_NUMBERS.index(nth) + 1 if nth else 0, interview.animal_count + 1)


def told_at(interview: Interview, place: Place, clause: str, now: float | None) -> Told:
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
        return Told()
    amounts = Amounts(interview, question, clause.replace(",", " ") if ", " in clause else clause)
    try:
        amount = amounts.words()
        amount = re.sub(r"^(?:by|to|at) ", "", amount)
    except (NotUnderstood, NotAnIf):
        return Told()
    at = amount if _can_be(interview, place, amount) else ""
    direction = -direction_of(clause) if place.id in FALLING else direction_of(clause)
    if question.type not in DIMENSIONS or now is None:
        return Told(amount, at=at)
    answer = interview.try_answer(place, at).value if at else None
    told = answer.best if isinstance(answer, Reading) else now
    if direction == 0:
        unclear = _SHIFTED.search(clause) and not re.search(r"\b(?:to|at|is|now)\b", clause)
        return Told(amount, at="" if unclear and told < now / 2 else at)
    if told == now or (told > now) != (direction > 0):
        at = ""
    try:
        value = now + direction * amounts.step()
    except NotUnderstood:
        return Told(amount, at=at)
    by = spoken(interview, place, value) if value > 0 else ""
    by = by if by and _can_be(interview, place, by) else ""
    return _weighed(interview, clause, Told(amount, at, by), value / now if now > 0 else 1.0)


def _weighed(interview: Interview, clause: str, told: Told, share: float) -> Told:
    """The readings of a clause that can be meant, by how it says it and what would be told."""
    risky = not 0.5 <= share <= 1.5
    if _BY.search(clause):
        return Told(told.amount, told.at if risky and told.by else "", told.by)
    if _NOW.search(clause):
        return Told(told.amount, at=told.at)
    if _APART.search(clause):
        return Told(told.amount, told.at, "" if risky and told.at else told.by)
    return told if risky else Told(told.amount, "" if told.by else told.at, told.by)


def _can_be(interview: Interview, place: Place, text: str) -> bool:
    try:
        interview.try_answer(place, text)
    except (NotUnderstood, AnswerRefused):
        return False
    return True


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
