"""Every line of the table of misreadings is read right now, or asked about."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
import yaml

from interview import assembly
from interview.base.units import convert
from interview.graph.answers import understand
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood

ROWS: list[dict[str, Any]] = yaml.safe_load(
    Path(__file__).with_name("misread.yaml").read_text("utf-8")
)
INTERVIEW = assembly.new_interview()


def _meant(said: str, unit: str) -> list[tuple[float, float]]:
    """Low and high of each side, in the core's unit."""
    numbers, _, typed = said.partition(" ") if " x " not in said else said.rpartition(" ")
    if match := re.fullmatch(r"([\d.]+) to ([\d.]+)(?: (\S+))?", said):
        ends = [convert(float(match[n]), match[3] or unit, unit) for n in (1, 2)]
        return [(ends[0], ends[1])]
    sides = [convert(float(number), typed, unit) for number in numbers.split(" x ")]
    return [(side, side) for side in sides]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['at']}: {row['say']}")
def test_it_is_read_right_or_asked(row: dict[str, Any]) -> None:
    question = INTERVIEW.questionnaire.by_id[row["at"]]
    if "asked" in row:
        with pytest.raises(NotUnderstood, match=re.escape(row["asked"])):
            understand(question, row["say"], INTERVIEW.lists, "europe")
        return
    value = understand(question, row["say"], INTERVIEW.lists, "europe").value
    readings = value if isinstance(value, tuple) else (value,)
    found = [(one.low, one.high) for one in readings if isinstance(one, Reading)]
    meant = _meant(str(row["is"]), question.unit if question.unit != "1/week" else "1")
    assert len(found) == len(meant)
    for ends, wanted in zip(found, meant, strict=True):
        assert ends == pytest.approx(wanted)
