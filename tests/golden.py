"""Stored texts that the program must still produce, and how to store them anew."""

from __future__ import annotations

import io
import os
from functools import cache
from pathlib import Path

import pytest

from interview import assembly, setups
from interview.chat.face import Asked
from interview.chat.plain import PlainFace
from interview.chat.scripted import ScriptedFace
from interview.chat.talk import Talk
from interview.graph.interview import Interview
from interview.report.markdown import markdown

DEMOS = Path(__file__).parent.parent / "transcripts_demo"
SETUPS = sorted(DEMOS.glob("*.yaml"))


class _Listening(ScriptedFace):
    """A scripted keeper whose lines are written down."""

    lines: list[str]

    def hear(self, asked: Asked) -> str:
        line = super().hear(asked)
        self.lines.append(line)
        return line


@cache
def talk_through(path: Path) -> tuple[Interview, str, tuple[str, ...]]:
    """Hold a setup's whole conversation: the interview, all that was shown, what was typed."""
    interview = assembly.new_interview()
    shown = io.StringIO()
    keeper = _Listening(PlainFace(io.StringIO(), shown), setups.read(path, interview.questionnaire))
    keeper.lines = []
    Talk(interview, keeper, save=lambda: None).run()
    return interview, shown.getvalue(), tuple(keeper.lines)


def conversation(path: Path) -> str:
    """The scripted conversation with the short audit at its end, in plain lines."""
    interview, shown, _ = talk_through(path)
    audit = io.StringIO()
    title = setups.read(path, interview.questionnaire).title
    PlainFace(io.StringIO(), audit).audit(assembly.audit_of(interview, title))
    return shown + audit.getvalue()


def typed(path: Path) -> tuple[str, ...]:
    """Every line the keeper of a setup types, the one that asks for the audit last."""
    return talk_through(path)[2]


@cache
def audit_page(path: Path) -> str:
    """The whole audit of a setup file as Markdown, without a date."""
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    setups.fill(interview, setup)
    return markdown(assembly.audit_of(interview, setup.title))


def assert_stored(stored: Path, text: str) -> None:
    """The stored file holds exactly this text; with UPDATE_GOLDEN=1 it is written first."""
    if os.environ.get("UPDATE_GOLDEN") == "1":
        stored.write_text(text, encoding="utf-8")
    if not stored.exists():
        pytest.fail(f"{stored.name} is not stored yet: UPDATE_GOLDEN=1 pytest tests/test_demo.py")
    expected = stored.read_text(encoding="utf-8")
    assert text.splitlines() == expected.splitlines(), (
        f"{stored.name} has changed. If the change is meant: "
        "UPDATE_GOLDEN=1 pytest tests/test_demo.py"
    )
    assert text == expected
