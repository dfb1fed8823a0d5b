"""A story typed before the first question is heard, also behind a line that was said before it."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from interview import assembly
from interview.chat.faces.line_face import PlainFace
from interview.chat.talks.guided import Left, Talk

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="there is no pseudo-terminal")

STORY = "I have two painted turtles in a 75 gallon tank."


@contextmanager
def _at_a_terminal(typed: str) -> Iterator[PlainFace]:
    """A plain face at a terminal where lines are typed already; then the input ends."""
    keyboard, terminal = os.openpty()
    os.write(keyboard, typed.encode() + b"\x04")
    with os.fdopen(terminal, encoding="utf-8") as lines:
        yield PlainFace(lines, io.StringIO())
    os.close(keyboard)


@pytest.mark.parametrize("queued", [[], ["what if"], ["hm"]])
def test_a_story_typed_ahead_is_heard_behind_what_was_said_before(queued: list[str]) -> None:
    with _at_a_terminal(f"{STORY}\n") as face:
        held = Talk(assembly.new_interview(), face, lambda: None, "guided")
        for line in queued:
            held.hear_later(line)
        with pytest.raises(Left):
            held.run()
        shown = face._out.getvalue()
    assert "I take it that:" in shown and "75 gallon" in shown


def test_a_word_typed_ahead_tells_nothing() -> None:
    with _at_a_terminal("planning\n") as face:
        talk = Talk(assembly.new_interview(), face, lambda: None, "guided")
        with pytest.raises(Left):
            talk.run()
        assert "1 line came before I asked" in face._out.getvalue()
