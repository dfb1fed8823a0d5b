"""What became of a string of known meaning: asked about, read right, said back, or misread."""

from __future__ import annotations

from functools import cache

from made.spans import Case, Span

from interview import assembly
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

__all__ = ["taken"]

_EXACT = 1e-3
"""A thousandth: what the dictionary counts as that value."""


@cache
def _interview(region: str) -> Interview:
    interview = assembly.new_interview()
    interview.record(Place("region"), region.replace("_", " "))
    return interview


def _near(one: float, other: float) -> bool:
    return abs(one - other) <= _EXACT * max(abs(one), abs(other)) + 1e-9


def _is(reading: object, span: Span) -> bool:
    if not isinstance(reading, Reading):
        return False
    if span.loose:
        return span.low - 1e-9 <= reading.best <= span.high + 1e-9
    if span.low == span.high:
        return _near(reading.best, span.low)
    ends = _near(reading.low, span.low) and _near(reading.high, span.high)
    return ends or _near(reading.best, (span.low + span.high) / 2)


def taken(region: str, case: Case) -> tuple[str, str]:
    """What became of a string: asked, right, said back or wrong; and what it was read as."""
    interview = _interview(region)
    question = interview.questionnaire.by_id[case.question]
    place = Place(case.question, 0 if question.repeat else None)
    try:
        answer = interview.try_answer(place, case.text)
    except (NotUnderstood, AnswerRefused):
        return "asked", ""
    if answer.value is None:
        return "asked", ""
    values = answer.value if isinstance(answer.value, tuple) else (answer.value,)
    for meant in case.readings:
        if len(meant) == len(values) and all(map(_is, values, meant)):
            return "right", ""
    return ("said back" if answer.understood else "wrong"), f"{case} read as {answer.value}"
