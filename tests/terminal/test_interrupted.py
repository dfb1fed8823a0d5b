"""Ctrl-C and Ctrl-D: saved, said where, no traceback."""

from __future__ import annotations

import shutil
import signal
from pathlib import Path

import pytest
from keeper import Keeper

from interview.base.places import demo_folder

_ON_BOTH_FACES = pytest.mark.parametrize(
    ("arguments", "start"), [((), "≈"), (("--plain",), "Answer:")], ids=["terminal", "plain"]
)


def _saved(folder: Path) -> str:
    (saved,) = folder.glob("*.yaml")
    return saved.read_text("utf-8")


def _well_left(keeper: Keeper, folder: Path) -> None:
    (saved,) = folder.glob("*.yaml")
    assert f"Saved in {saved}".replace(" ", "") in keeper.screen.replace("\n", "").replace(" ", "")
    assert "Traceback" not in keeper.words


@_ON_BOTH_FACES
def test_ctrl_c_twice_leaves_saved(tmp_path: Path, arguments: tuple[str, ...], start: str) -> None:
    with Keeper(tmp_path, *arguments) as keeper:
        keeper.answer("living", start)
        keeper.answer("europe", start)
        keeper.press("\x03")
        keeper.sees("Ctrl-C again leaves")
        keeper.press("\x03")
        assert keeper.leaves() == 130
        _well_left(keeper, tmp_path)
    assert "region: europe" in _saved(tmp_path)


def test_ctrl_c_once_and_enter_goes_on(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        keeper.press("\x03")
        keeper.sees("Ctrl-C again leaves")
        keeper.answer("")
        keeper.sees("Where do you live?")
        keeper.answer("europe")
        keeper.press("\x04")
        assert keeper.leaves() == 0
    assert "region: europe" in _saved(tmp_path)


@_ON_BOTH_FACES
def test_ctrl_d_leaves_saved(tmp_path: Path, arguments: tuple[str, ...], start: str) -> None:
    with Keeper(tmp_path, *arguments) as keeper:
        keeper.answer("living", start)
        keeper.prompted(start)
        keeper.press("\x04")
        assert keeper.leaves() == 0
        _well_left(keeper, tmp_path)
    assert "stage: living" in _saved(tmp_path)


def test_a_talk_ended_from_outside_leaves_the_terminal_as_it_was(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        assert keeper.ended_by(signal.SIGTERM)
    assert "stage: living" in _saved(tmp_path)


def test_ctrl_c_at_the_offer_to_go_on_starts_nothing(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        keeper.last_answer("stop")
    before = _saved(tmp_path)
    with Keeper(tmp_path) as keeper:
        keeper.sees("Go on with")
        keeper.press("\x03")
        assert keeper.leaves() == 130
    assert _saved(tmp_path) == before


def test_ctrl_c_while_the_demo_runs(tmp_path: Path) -> None:
    with Keeper(tmp_path, "demo") as keeper:
        keeper.sees("How far along is the tank?")
        keeper.press("\x03")
        assert keeper.leaves() == 130
        assert "Traceback" not in keeper.words


def test_ctrl_c_in_the_search_keeps_page_and_setup(tmp_path: Path) -> None:
    setup = tmp_path / "classroom.yaml"
    shutil.copy(demo_folder() / "painted_turtles_classroom.yaml", setup)
    before = setup.read_bytes()
    with Keeper(tmp_path, "audit", str(setup), rows=40) as keeper:
        keeper.sees("Working out the smallest set of changes")
        keeper.press("\x03")
        assert keeper.leaves() == 130
        words = keeper.words
        assert words.index("STOP.") < words.index("Today") < words.index("The vet")
        assert "You stopped the search here" in words
        assert "Working out" not in words
        assert "Traceback" not in words
    assert setup.read_bytes() == before
    assert [path.name for path in tmp_path.iterdir()] == ["classroom.yaml"]
