"""Narrow, wide, colourless, dumb and ASCII terminals."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest
from keeper import Keeper

sys.path.insert(0, str(Path(__file__).parent.parent))
from golden import DEMOS

from interview import assembly, setups
from interview.graph.order.together import together_with

COLOUR = re.compile(rb"\x1b\[(?:[0-9;]*;)?(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])(?:;[0-9;]*)?m")
BOXES = re.compile("[\u2500-\u259f]")
ROOM = ("living", "2", "18 C", "25 C", "no")


def _saved(folder: Path) -> str:
    return "".join(path.read_text("utf-8") for path in folder.glob("*.yaml"))


def _squeezed(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize("columns", [60, 80])
def test_a_talk_fits_its_screen(tmp_path: Path, columns: int) -> None:
    """No line is wider than the screen, and nothing of a question is cut."""
    with Keeper(tmp_path, columns=columns, margin=120) as keeper:
        for line in (*ROOM, "1", "sllider", "common musk turtle", "why", "95 mm", "show"):
            keeper.answer(line)
        assert max(map(len, keeper.lines)) <= columns
        shown = _squeezed(keeper.words)
    situation = assembly.questionnaire().topics[0].questions
    for question in [q for q in situation if q.finer is None]:
        if row := together_with(question.id):
            assert _squeezed(row.label) in shown
            continue
        for text in (question.label, question.hint, *(o.label for o in question.choices)):
            assert _squeezed(text) in shown, text


@pytest.mark.parametrize("columns", [1, 9])
def test_a_window_of_next_to_no_width_takes_an_answer(tmp_path: Path, columns: int) -> None:
    with Keeper(tmp_path, columns=columns, rows=10) as keeper:
        keeper.wait(lambda: b"\x1b[?2004h" in keeper.raw, "a prompt that marks what is pasted")
        keeper.press("living\r")
        keeper.wait(lambda: "living" in _saved(tmp_path), "it saved")
        keeper.press("\x04")
        assert keeper.leaves() == 0
        assert "Traceback" not in keeper.raw.decode("utf-8", "replace")


def test_an_audit_fits_sixty_columns(tmp_path: Path) -> None:
    path = DEMOS / "river_cooter_adult.yaml"
    with Keeper(tmp_path, "audit", str(path), "--whole", columns=60, margin=120) as keeper:
        keeper.leaves()
        assert max(map(len, keeper.lines)) <= 60
        shown = _squeezed(keeper.words)
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(path, interview.questionnaire))
    audit = assembly.audit_of(interview, "")
    said = [f.say + f.do for f in audit.findings if f.verdict in ("danger", "wrong")]
    said += [note.say.split(". ")[0] for note in audit.notes]
    assert len(said) > 5
    for text in said:
        assert _squeezed(text) in shown, text


def test_plain_in_a_terminal_is_lines_only(tmp_path: Path) -> None:
    with Keeper(tmp_path, "--plain", margin=120) as keeper:
        for line in (*ROOM, "1", "common musk turtle", "show", "95 mm"):
            keeper.answer(line, "Answer:")
        assert keeper.last_answer("stop") == 0
        assert b"\x1b" not in keeper.raw
        assert not BOXES.search(keeper.words)
        assert "1. North America" in keeper.words
        assert max(map(len, keeper.lines)) <= 80


def test_a_dumb_terminal_gets_plain_lines(tmp_path: Path) -> None:
    with Keeper(tmp_path, TERM="dumb") as keeper:
        keeper.answer("living", "Answer:")
        assert keeper.last_answer("stop") == 0
        assert b"\x1b" not in keeper.raw


def test_colour_is_there_to_begin_with(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        assert COLOUR.search(keeper.raw)


def test_no_color_means_none(tmp_path: Path) -> None:
    with Keeper(tmp_path, NO_COLOR="1") as keeper:
        for line in ("wat", *ROOM, "1", "common musk turtle", "95 mm", "show"):
            keeper.answer(line)
        assert keeper.last_answer("stop") == 0
        assert COLOUR.search(keeper.raw) is None
    with Keeper(tmp_path, "audit", str(DEMOS / "musk_turtle.yaml"), NO_COLOR="1") as keeper:
        keeper.leaves()
        assert "Grade" in keeper.words
        assert COLOUR.search(keeper.raw) is None


ASCII = {"LC_ALL": "C", "PYTHONIOENCODING": "ascii"}


@pytest.mark.parametrize("arguments", [(), ("--plain",)], ids=["terminal", "plain"])
def test_an_ascii_terminal(tmp_path: Path, arguments: tuple[str, ...]) -> None:
    """Nothing but ASCII goes out, no question mark stands for a letter, ° comes back in."""
    start = "Answer:" if arguments else "~"
    with Keeper(tmp_path, *arguments, margin=120, **ASCII) as keeper:
        keeper.answer("living", start)
        keeper.answer("europe", start)
        keeper.press("18 °C\r")
        keeper.sees("How warm does the room get")
        keeper.answer("25 C", start)
        keeper.answer("no", start)
        keeper.answer("1", start)
        keeper.answer("common musk turtle", start)
        keeper.answer("95 mm", start)
        keeper.answer("show", start)
        assert keeper.last_answer("stop") == 0
        # A plain face leaves the echo of what is typed to the terminal.
        assert keeper.raw.replace("18 °C\r".encode(), b"", 1).isascii()
        assert "17 degC; 27 degC" in keeper.words
        assert "Coldest room" in keeper.words
    (saved,) = tmp_path.glob("*.yaml")
    assert "room_temperature_low: 18 °C" in saved.read_text("utf-8")


@pytest.mark.parametrize(
    ("arguments", "shown"),
    [((), " cm"), (("--plain",), " cm"), (("--numbers",), "degC")],
    ids=["terminal", "plain", "numbers"],
)
def test_an_audit_in_ascii(tmp_path: Path, arguments: tuple[str, ...], shown: str) -> None:
    path = DEMOS / "musk_turtle.yaml"
    with Keeper(tmp_path, "audit", str(path), *arguments, margin=120, **ASCII) as keeper:
        assert keeper.leaves() == 0
        assert keeper.raw.isascii()
        assert "?" not in keeper.words
        assert shown in keeper.words
        assert max(map(len, keeper.lines)) <= (80 if not arguments else 88)
