"""Everyday forms at the questions they are typed at; tests/words holds what fits everywhere."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from every import every

from interview import assembly
from interview.base.units import convert
from interview.graph.answers import understand
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

QUESTIONS = assembly.questionnaire()
LISTS = assembly.new_interview().lists
TABLE = yaml.safe_load((Path(__file__).parent / "everyday_answers.yaml").read_text("utf-8"))
ROWS = [
    pytest.param(name, str(text), meaning, id=f"{name}: {text}")
    for name, forms in TABLE.items()
    for text, meaning in forms.items()
]


@every(("name", "text", "meaning"), ROWS)
def test_everyday_answer(name: str, text: str, meaning: str) -> None:
    question = QUESTIONS.by_id[name]
    if meaning.startswith("refused: "):
        with pytest.raises(NotUnderstood) as refusal:
            understand(question, text, LISTS, "europe")
        assert meaning.removeprefix("refused: ") in str(refusal.value)
        return
    answer = understand(question, text, LISTS, "europe")
    value, _, says = meaning.partition("; says ")
    numbers, _, unit = value.rpartition(" ")
    low, _, high = numbers.partition(" to ")
    expected = [convert(float(end), unit, question.unit) for end in (low, high or low)]
    assert isinstance(answer.value, Reading)
    assert [answer.value.low, answer.value.high] == pytest.approx(expected)
    assert answer.said == answer.value.said == text
    assert (says in answer.understood) if says else (answer.understood == "")
