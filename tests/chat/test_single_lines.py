"""Single lines typed at a question: what is taken of them is right, and the reply is a kind one."""

from __future__ import annotations

import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml
from fakes import talk, up_to

from interview.graph.answers import Value, understand
from interview.graph.interview import Interview
from interview.words.amounts.reading import Reading

WORDS = Path(__file__).parent.parent / "words"
LEAST_KIND = {"tuned": 0.9, "counted": 0.6}


def _lines(half: str) -> list[dict[str, Any]]:
    return yaml.load((WORDS / f"lines_{half}.yaml").read_text("utf-8"), yaml.BaseLoader)


def _alike(one: Value, other: Value) -> bool:
    if isinstance(one, tuple) and isinstance(other, tuple):
        return len(one) == len(other) and all(map(_alike, one, other))
    if isinstance(one, Reading) and isinstance(other, Reading):
        return abs(one.best - other.best) <= 0.05 * max(abs(one.best), abs(other.best)) + 1e-9
    return one == other


def _meant(interview: Interview, name: str, said: str) -> Value:
    question = interview.questionnaire.by_id[name]
    return understand(question, said, interview.lists, interview.region).value


def _outcome(row: dict[str, Any]) -> str:
    """Good, asked back or unkind; or what was taken that nobody said."""
    before = up_to(row["at"]).answers
    held = talk([row["say"], "", ""], up_to(row["at"]))
    after = held.interview.answers
    took = {place.id: answer for place, answer in after.items() if before.get(place) != answer}
    wanted = row.get("takes", {})
    for name, answer in took.items():
        if name not in wanted or not _alike(
            answer.value, _meant(held.interview, name, wanted[name])
        ):
            return f"{row['say']!r} at {row['at']}: {name} {answer.said!r}"
    if "back" in row:
        return "good" if held.face.ids[1] == _before(row) else "unkind"
    said = " ".join(text for _, text in held.face.said)
    if took or (not wanted and re.search(row.get("replies", "$^"), said)):
        return "unkind" if held.face.tones("refusal") and not took else "good"
    asked = "?" in said or "has no unit" in said or "Type only" in said
    fits = re.search(row.get("replies", "$^"), said) and not held.face.tones("refusal")
    return "asked back" if asked or fits else "unkind"


def _before(row: dict[str, Any]) -> str:
    answered = list(dict.fromkeys(place.id for place in up_to(row["at"]).answers))
    return answered[-int(row["back"])]


@pytest.mark.parametrize("half", ["tuned", "counted"])
def test_nothing_is_taken_wrongly_and_the_reply_is_kind(
    half: str, capsys: pytest.CaptureFixture[str]
) -> None:
    rows = _lines(half)
    found = Counter(map(_outcome, rows))
    good, back, unkind = (found.pop(one, 0) for one in ("good", "asked back", "unkind"))
    with capsys.disabled():
        print(f"\nlines, {half}: {good} taken or answered, {back} asked back, {unkind} unkind")
    assert not found
    assert (good + back) / len(rows) >= LEAST_KIND[half]
