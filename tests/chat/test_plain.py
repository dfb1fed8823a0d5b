"""The plain face: pure lines for pipes and screen readers."""

from __future__ import annotations

import io
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from fakes import up_to

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.chat.faces.face import Asked, Interrupted
from interview.chat.faces.line_face import PlainFace
from interview.chat.faces.scripted_face import ScriptedFace
from interview.chat.talks.guided import Left, Talk
from interview.report.page.whole import page_of

DEMOS = [path.stem for path in sorted(demo_folder().glob("*.yaml"))]
BOXES = re.compile("[\u2500-\u259f\u2800-\u28ff|]")  # lines, boxes, blocks, braille, bars


@cache
def _conversation(name: str) -> str:
    """A whole conversation with its audit, as the plain face prints it."""
    interview = assembly.new_interview()
    setup = setups.read(demo_folder() / f"{name}.yaml", interview.questionnaire)
    out = io.StringIO()
    face = PlainFace(io.StringIO(), out)
    Talk(interview, ScriptedFace(face, setup), save=lambda: None).run()
    face.blocks(page_of(assembly.audit_of(interview, setup.title), whole=False))
    return out.getvalue()


@pytest.mark.parametrize("name", DEMOS)
def test_a_whole_conversation_is_pure_lines(name: str) -> None:
    text = _conversation(name)
    assert text.count("\n") > 300
    assert "\x1b" not in text
    assert not BOXES.search(text)
    assert all(letter.isprintable() or letter == "\n" for letter in text)
    assert max(len(line) for line in text.splitlines()) <= 80


def test_nothing_is_said_twice_in_a_row() -> None:
    """No redraws: a paragraph never follows itself."""
    lines = [line for line in _conversation("musk_turtle").splitlines() if line]
    repeated = [a for a, b in pairwise(lines) if a == b]
    assert repeated == []


def test_a_conversation_is_the_same_every_time() -> None:
    first = _conversation("musk_turtle")
    _conversation.cache_clear()
    assert _conversation("musk_turtle") == first


def _face(typed: str = "") -> tuple[PlainFace, io.StringIO]:
    out = io.StringIO()
    return PlainFace(io.StringIO(typed), out), out


def test_choices_are_numbered_a_line_each() -> None:
    face, out = _face()
    face.show(
        Asked(
            "Which filter?",
            "Look.",
            topic="Filter",
            number=3,
            about=40,
            animal="Turtle 2: ",
            choices=[("canister", "canister, outside"), ("none", "no filter")],
        )
    )
    assert out.getvalue().splitlines() == [
        "",
        "Filter, question 3 of about 40",
        "Turtle 2: Which filter?",
        "Look.",
        "  1. canister, outside",
        "  2. no filter",
        "Answer: ",
    ]


def test_the_number_of_a_choice_answers_it() -> None:
    interview = up_to("substrate")
    face, _ = _face("3\n")
    with pytest.raises(Left):
        Talk(interview, face, save=lambda: None).run()
    assert [p.id for p in interview.answers][-1] == "substrate"
    assert list(interview.answers.values())[-1].value == "gravel"


def test_the_answer_before_is_told_and_enter_keeps_it() -> None:
    face, out = _face("\n")
    asked = Asked("How deep?", before="4 cm", keeps="4 cm")
    face.show(asked)
    assert "Answered before: 4 cm. Press Enter to keep it." in out.getvalue()
    assert face.hear(asked) == "4 cm"


def test_asked_again_only_the_question_is_repeated() -> None:
    face, out = _face()
    asked = Asked("Which filter?", "Look.", choices=[("none", "no filter")])
    face.show(asked)
    face.say("There is no such filter.", "refusal")
    face.show(asked)
    assert out.getvalue().count("Which filter?") == 2
    assert out.getvalue().count("no filter") == out.getvalue().count("Look.") == 1


def test_what_becomes_longer_in_ascii_still_fits() -> None:
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    PlainFace(io.StringIO(), out).say("25 °C… " * 40)
    out.seek(0)
    lines = out.read().splitlines()
    assert "25 degC..." in lines[0]
    assert max(map(len, lines)) <= 80


def test_what_a_pipe_types_is_shown() -> None:
    face, out = _face("  25 C  \n")
    assert face.hear(Asked("")) == "25 C"
    assert out.getvalue() == "25 C\n"


@pytest.mark.parametrize(
    ("tone", "lead"), [("remark", "So: "), ("refusal", "Not taken: "), ("help", ""), ("note", "")]
)
def test_a_word_tells_what_a_paragraph_is(tone: str, lead: str) -> None:
    face, out = _face()
    face.say("Hello.", tone)  # type: ignore[arg-type]
    assert out.getvalue() == f"{lead}Hello.\n"


def test_each_row_carries_its_label() -> None:
    face, out = _face()
    face.listing("Tank", [("Size", "1 m"), ("Bottom", "")])
    assert out.getvalue() == "\nTank\n  Size: 1 m\n  Bottom\n"


def test_the_end_of_input_is_told_by_eof() -> None:
    face, _ = _face()
    with pytest.raises(EOFError):
        face.hear(Asked(""))


def test_ctrl_c_interrupts() -> None:
    class Pressed(io.StringIO):
        def readline(self, *_: object) -> str:
            raise KeyboardInterrupt

    with pytest.raises(Interrupted):
        PlainFace(Pressed(), io.StringIO()).hear(Asked(""))


HOSTILE = ["\x1b[31mred", "a\x07b\x08c", "\x9b2J", "\u202egnp", "[bold]x[/]", "y" * 9_000]


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: ascii(text)[:20])
def test_nothing_raw_reaches_the_screen(text: str) -> None:
    face, out = _face(f"{text}\n")
    face.show(Asked(text, text, topic=text, choices=[(text, text)], prefill=text, animal=text))
    face.hear(Asked(""))
    face.heard(text)
    face.topic(text, text)
    face.say(text, "refusal")
    face.listing(text, [(text, text)])
    shown = out.getvalue()
    assert all(letter.isprintable() or letter == "\n" for letter in shown)
    assert max(len(line) for line in shown.splitlines()) <= 80


def test_an_answer_that_is_refused_ends_the_script() -> None:
    """A scripted keeper whose answer isn't taken leaves instead of typing it for ever."""
    interview = assembly.new_interview()
    setup = setups.Setup(answers={})
    face = ScriptedFace(PlainFace(io.StringIO(), io.StringIO()), setup)
    with pytest.raises(Left):
        Talk(interview, face, save=lambda: None).run()


def test_a_scripted_keeper_of_several_turtles_takes_them_in_turn() -> None:
    interview, out = assembly.new_interview(), io.StringIO()
    setup = setups.read(demo_folder() / "painted_turtles_classroom.yaml", interview.questionnaire)
    Talk(interview, ScriptedFace(PlainFace(io.StringIO(), out), setup), save=lambda: None).run()
    asked = re.findall(r"^Turtle (\d): Which kind", out.getvalue(), re.MULTILINE)
    assert set(asked) == {"1", "2", "3"}
    assert asked == sorted(asked)


# ---- as a program, over pipes


def _piped(typed: bytes, folder: Path, **environment: str) -> Iterator[str]:
    done = subprocess.run(
        [sys.executable, "-m", "interview", "--plain", "talk", str(folder / "tank.yaml")],
        input=typed,
        capture_output=True,
        timeout=60,
        env={**os.environ, "TANKSIDE_FOLDER": str(folder), **environment},
        check=False,
    )
    assert done.stderr == b"", done.stderr
    assert done.returncode == 0
    return iter(done.stdout.decode(environment.get("PYTHONIOENCODING", "utf-8")).splitlines())


def test_a_pipe_that_ends_leaves_everything_saved(tmp_path: Path) -> None:
    lines = list(_piped(b"living\neurope\n17 C\n", tmp_path))
    assert any(line.startswith("Saved in") for line in lines)
    saved = (tmp_path / "tank.yaml").read_text(encoding="utf-8")
    assert "room_temperature_low: 17 C" in saved


def test_bytes_that_are_no_text_are_refused(tmp_path: Path) -> None:
    lines = list(_piped(b"\xff\xfe\x80\nliving\n", tmp_path, PYTHONIOENCODING="utf-8"))
    assert any(line.startswith("Not taken: ") for line in lines)
    assert "stage: living" in (tmp_path / "tank.yaml").read_text(encoding="utf-8")


def test_an_ascii_screen_gets_ascii(tmp_path: Path) -> None:
    lines = list(_piped(b"living\neurope\n36\n", tmp_path, PYTHONIOENCODING="ascii"))
    assert any(line.startswith("Not taken: ") and "36 degC" in line for line in lines)
