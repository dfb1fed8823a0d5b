"""What amounts of a told text may say: a table, and that each can be typed where it is said."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml
from every import every

from interview import assembly
from interview.chat.hearing.told.second_hearing import asked_amounts
from interview.graph.answers import understand
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.learned.candidates import Candidate, candidates
from interview.words.text.refusal import NotUnderstood

ROWS = yaml.load(Path(__file__).with_name("candidates.yaml").read_text("utf-8"), yaml.BaseLoader)
LISTS, QUESTIONS = assembly.lists(), assembly.questionnaire().by_id
ASKED = asked_amounts(QUESTIONS.values())
MAY_BE_TWO = ("hose_diameter",)
"""Where a fraction behind a whole number may be the other size of a hose."""


def _found(row: Mapping[str, Any]) -> list[Candidate]:
    region = row.get("region", "")
    return candidates(row["text"], ASKED, region=region, sizes=LISTS.sizes["tank_size"])


def _values(question: str, said: str, region: str) -> list[Reading]:
    if question == "water_depth":
        return [read_quantity(said, "length", region=region)]
    value = understand(QUESTIONS[question], said, LISTS, region).value
    return list(value) if isinstance(value, tuple) else [value]  # type: ignore[list-item]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["text"][:40])
def test_words_say_what_they_come_to(row: Mapping[str, Any]) -> None:
    said = {row["text"][one.start : one.stop]: one.says for one in _found(row)}
    for line in row["says"]:
        words, question, wanted = map(str.strip, line.split(" | "))
        assert words in said, f"{words!r} is none of {list(said)}"
        got = _values(question, said[words][question], row.get("region", ""))
        want = _values(question, wanted, row.get("region", ""))
        assert [one.best for one in got] == pytest.approx([one.best for one in want], rel=0.003)
        assert [one.high for one in got] == pytest.approx([one.high for one in want], rel=0.003)


@every("row", ROWS)
def test_all_that_is_said_can_be_typed(row: Mapping[str, Any]) -> None:
    for one in _found(row):
        for question, said in one.says.items():
            if question not in MAY_BE_TWO:
                try:
                    _values(question, said, row.get("region", ""))
                except NotUnderstood as problem:
                    pytest.fail(f"{question}: {said!r}: {problem}")


def test_spans_are_of_the_text_and_in_order() -> None:
    text = "Two turtles,\nten inches each; the tank — 60 × 24 × 24 in — came from a friend."
    found = candidates(text, ASKED)
    assert [(one.start, one.stop) for one in found] == sorted((o.start, o.stop) for o in found)
    assert "60 × 24 × 24 in" in {text[one.start : one.stop] for one in found}
    assert all(0 <= one.start < one.stop <= len(text) and one.says for one in found)


def test_there_is_nothing_in_a_text_without_amounts() -> None:
    assert candidates("Hello there, my turtle is lovely.", ASKED) == []


def test_a_share_is_not_made_of_unlike_units() -> None:
    for one in candidates("I swap 10 gallons of the 200 litres.", ASKED):
        assert "water_change_share" not in one.says


def test_a_number_before_and_is_no_rhythm() -> None:
    for one in candidates("Six and a half inches, and a dotless sıx or nıne.", ASKED):
        assert one.says.get("feeds_per_week") != "42 times a week"
