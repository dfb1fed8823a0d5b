"""Of the dictionary of meanings nothing is misread silently: read right, said back, or asked."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest
from made.spans import Case, Span
from meanings import cases

from interview import assembly
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

REGIONS = ("europe", "north_america")
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


def _taken(region: str, case: Case) -> tuple[str, str]:
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


@pytest.mark.parametrize("region", REGIONS)
def test_nothing_is_misread_silently(region: str) -> None:
    taken = [_taken(region, case) for case in cases()]
    counts = Counter(what for what, _ in taken)
    print(f"{region}: {dict(counts)}")
    assert [said for what, said in taken if what == "wrong"] == []
    assert counts["right"] >= 0.84 * len(taken)
    assert counts["said back"] <= 30, [said for what, said in taken if what == "said back"]
