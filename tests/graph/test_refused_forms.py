"""A refusal shows the form of an answer, never which answer to give."""

from __future__ import annotations

import pytest

from interview import assembly
from interview.graph.answers import understand
from interview.words.text.refusal import NotUnderstood

QUESTIONS = assembly.questionnaire()
LISTS = assembly.new_interview().lists


def _refusal(name: str, said: str) -> str:
    with pytest.raises(NotUnderstood) as refused:
        understand(QUESTIONS.by_id[name], said, LISTS, "europe")
    return str(refused.value)


def test_a_count_names_no_number() -> None:
    refusal = _refusal("lamp_fixings", "just the clamp")
    assert refusal.endswith("Type a whole number: 1, 2, 3 and so on.")


def test_a_quantity_shows_its_example_as_a_form() -> None:
    example = QUESTIONS.by_id["lamp_holder_rating"].example
    refusal = _refusal("lamp_holder_rating", "plenty")
    assert refusal.endswith(f"Type it like this: {example}.")
    assert f"Type {example}" not in refusal
