"""What is kept of lines that tell of one turtle of several, or of more than is asked."""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
import yaml
from fakes import FakeFace, demo, talk

from interview import assembly
from interview.chat.faces.face import Left
from interview.chat.rechecks.prediction import Prediction
from interview.chat.rechecks.recheck_talk import RecheckTalk
from interview.chat.together.guided_talk import GuidedTalk
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.words.amounts.reading import Reading

ROWS: list[dict[str, Any]] = yaml.safe_load(
    Path(__file__).with_name("lines_told.yaml").read_text("utf-8")
)


def _place(name: str) -> Place:
    question, _, turtle = name.partition("@")
    return Place(question, int(turtle) if turtle else None)


def _known(row: dict[str, Any]) -> Interview | None:
    if "known" not in row:
        return None
    begun = {} if row.get("talk") == "recheck" else {"stage": "living", "region": "Germany"}
    interview = assembly.new_interview() if begun else demo("musk_turtle")
    for name, said in {**begun, **row["known"]}.items():
        interview.record(_place(name), said)
    return interview


def _held(row: dict[str, Any]) -> tuple[FakeFace, Interview]:
    interview = _known(row)
    if interview is None or row.get("talk") is None:
        held = talk(row["type"], interview)
        return held.face, held.interview
    face = FakeFace(row["type"])
    if row["talk"] == "rows":
        talking = GuidedTalk(interview, face, lambda: None, "guided")
    else:
        before = Prediction(interview, assembly.audit_of(interview, ""), interview.known())
        talking = RecheckTalk(interview, face, lambda: None, prediction=before)
    with suppress(Left):
        talking.run()
    return face, interview


def _value(interview: Interview, place: Place, said: str) -> Any:
    question = interview.questionnaire.by_id[place.id]
    value = understand(question, said, interview.lists, interview.region).value
    return round(value.best, 6) if isinstance(value, Reading) else value


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['about']}: {row['type']}")
def test_of_a_line_is_kept_what_it_tells(row: dict[str, Any]) -> None:
    face, interview = _held(row)
    kept: dict[str, Any] = {}
    for name in row["kept"]:
        answer = interview.answers.get(_place(name))
        kept[name] = _value(interview, _place(name), answer.said) if answer else None
    wanted = {
        name: said and _value(interview, _place(name), said) for name, said in row["kept"].items()
    }
    assert kept == wanted
    assert re.search(row.get("says", ""), face.everything)
    assert "says_not" not in row or not re.search(row["says_not"], face.everything)
