"""What a talk offers to start with, and how the offer is answered."""

from __future__ import annotations

import os
import shutil
import time
from pathlib import Path

import pytest
from fakes import FakeFace

from interview.base.places import demo_folder
from interview.chat.start_with import Start, start_with

UNFINISHED = "format: tankside/1\ntitle: Half told\nanswers:\n  stage: living\n"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("TANKSIDE_FOLDER", str(tmp_path))
    return tmp_path


def _asked(*lines: str) -> tuple[Start, FakeFace]:
    face = FakeFace(lines)
    face.live = True
    return start_with(face), face


def test_nothing_saved_offers_nothing() -> None:
    start, face = _asked()
    assert start == Start() and not face.asked


@pytest.mark.parametrize("said", ["no", "new", "next", "another tank"])
def test_another_tank_is_no_answer_to_the_last(folder: Path, said: str) -> None:
    (folder / "half.yaml").write_text(UNFINISHED, "utf-8")
    start, face = _asked(said)
    assert face.asked[0].label == "Go on with “Half told”?"
    assert start == Start()


def test_enter_goes_on_with_what_was_left(folder: Path) -> None:
    (folder / "half.yaml").write_text(UNFINISHED, "utf-8")
    assert _asked("")[0] == Start(folder / "half.yaml")


@pytest.mark.parametrize(("said", "again"), [("recheck", True), ("", False), ("next", False)])
def test_a_finished_tank_is_looked_at_again_only_if_wanted(
    folder: Path, said: str, again: bool
) -> None:
    path = Path(shutil.copy(demo_folder() / "musk_turtle.yaml", folder / "musk.yaml"))
    start, face = _asked(said)
    assert face.asked[0].label.startswith("Look again at ")
    assert start == (Start(path, recheck=True) if again else Start())


def test_a_question_mark_starts_no_new_tank(folder: Path) -> None:
    path = Path(shutil.copy(demo_folder() / "musk_turtle.yaml", folder / "musk.yaml"))
    start, face = _asked("?", "recheck")
    assert start == Start(path, recheck=True)
    assert "Type recheck, or Enter for a new tank, or stop." in face.everything


@pytest.mark.parametrize(("then", "recheck"), [("recheck", True), ("", False)])
def test_a_sentence_at_the_offer_is_kept_and_asked_about(
    folder: Path, then: str, recheck: bool
) -> None:
    path = Path(shutil.copy(demo_folder() / "musk_turtle.yaml", folder / "musk.yaml"))
    sentence = "the lamp hangs much higher than it did"
    start, face = _asked(sentence, then)
    assert start == Start(path if recheck else None, sentence, recheck)
    assert face.said[0][1].startswith("I keep what you said. Is it about this tank?")


@pytest.mark.parametrize(
    ("line", "rows"),
    [
        (
            "I lowered the water 4 cm and the lamp is new",
            [("Water below rim", "15 cm"), ("the lamp is new", "")],
        ),
        ("the turtle grew 2 cm", [("Shell length", "11.5 cm")]),
        ("the musk turtle put on 2 cm", [("Shell length", "11.5 cm")]),
    ],
)
@pytest.mark.parametrize("then", [["yes"], ["no", "", ""]])
def test_changes_told_at_the_offer_are_of_the_saved_tank_if_the_keeper_says_so(
    folder: Path, line: str, rows: list[tuple[str, str]], then: list[str]
) -> None:
    path = Path(shutil.copy(demo_folder() / "musk_turtle.yaml", folder / "musk.yaml"))
    start, face = _asked(line, *then)
    assert face.listings == [("Of “Study window, musk turtle” I heard:", rows)]
    assert face.asked[1].label == "About “Study window, musk turtle”: take these changes?"
    agreed = then == ["yes"]
    assert start == Start(path if agreed else None, line, recheck=agreed, agreed=agreed)


@pytest.mark.parametrize(
    ("line", "kept"),
    [
        (
            "my other tank has two painted turtles, 9 and 12 cm",
            "my tank has two painted turtles, 9 and 12 cm",
        ),
        ("This is another setup: a 100 W heater, a map", "This is my setup: a 100 W heater, a map"),
        ("a map turtle in 200 litres with a 300 W heater", None),
        ("what if I lower the water 4 cm", ""),
        ("what happens if the lamp hangs 5 cm higher?", ""),
    ],
)
def test_another_tank_and_a_question_change_nothing_of_the_saved_one(
    folder: Path, line: str, kept: str | None
) -> None:
    shutil.copy(demo_folder() / "musk_turtle.yaml", folder / "musk.yaml")
    start, face = _asked(line, "new")
    assert not face.listings and start == Start(said=line if kept is None else kept)


@pytest.mark.parametrize(("then", "goes_on"), [("yes", True), ("no", False)])
def test_a_sentence_at_a_tank_half_told_is_kept_too(folder: Path, then: str, goes_on: bool) -> None:
    (folder / "half.yaml").write_text(UNFINISHED, "utf-8")
    said = ("we just got two baby turtles", "from a friend of my sister")
    assert _asked(*said, then)[0] == Start(
        folder / "half.yaml" if goes_on else None, ". ".join(said)
    )


def test_a_question_at_the_offer_is_no_telling(folder: Path) -> None:
    (folder / "half.yaml").write_text(UNFINISHED, "utf-8")
    assert _asked("what is this for?", "not this one")[0] == Start()


def test_a_word_that_is_no_answer_at_the_offer_is_not_taken(folder: Path) -> None:
    (folder / "half.yaml").write_text(UNFINISHED, "utf-8")
    start, face = _asked("turtle", "yes")
    assert start == Start(folder / "half.yaml") and face.said[0][0] == "refusal"


def _three(folder: Path) -> list[Path]:
    """Two tanks that were left and a finished one, the newest first."""
    paths = []
    for age, title in enumerate(("Half told", "The big tank", "Study window")):
        path = folder / f"{title.split()[-1]}.yaml"
        shutil.copy(demo_folder() / "musk_turtle.yaml", path)
        if age < 2:
            path.write_text(UNFINISHED.replace("Half told", title), "utf-8")
        os.utime(path, (time.time() - 100 * age,) * 2)
        paths.append(path)
    return paths


@pytest.mark.parametrize("line", ["2", "the big tank", "The big tank"])
def test_any_of_the_latest_tanks_is_taken_up_by_its_number_or_name(folder: Path, line: str) -> None:
    paths = _three(folder)
    start, face = _asked("list", line)
    assert start == Start(paths[1])
    assert [name for name, _ in face.listings[0][1]] == [
        "1. Half told", "2. The big tank", "3. Study window, musk turtle",
    ]  # fmt: skip
    assert "“list” shows the others" in face.asked[0].hint


def test_a_finished_one_of_them_is_looked_at_again(folder: Path) -> None:
    paths = _three(folder)
    assert _asked("3")[0] == Start(paths[2], recheck=True)


@pytest.mark.parametrize(
    ("line", "goes_on", "said"),
    [
        ("yes its the painted", True, "its the painted"),
        ("yes please", True, ""),
        ("no, its for a new one", False, "its for a new one"),
    ],
)
def test_a_yes_or_no_with_more_behind_it_is_one(
    folder: Path, line: str, goes_on: bool, said: str
) -> None:
    (folder / "half.yaml").write_text(UNFINISHED, "utf-8")
    start, face = _asked(line)
    assert start == Start(folder / "half.yaml" if goes_on else None, said=said)
    assert len(face.asked) == 1


def test_who_tells_what_there_is_none_of_has_not_said_no(folder: Path) -> None:
    (folder / "half.yaml").write_text(UNFINISHED, "utf-8")
    start, _ = _asked("no heater in it, the water is cold", "yes")
    assert start == Start(folder / "half.yaml", said="no heater in it, the water is cold")


@pytest.mark.parametrize(
    "line", ["ok so we have a slider in 100 litres", "yes but this is for another tank"]
)
def test_what_may_be_of_another_tank_is_asked_about(folder: Path, line: str) -> None:
    path = Path(shutil.copy(demo_folder() / "musk_turtle.yaml", folder / "musk.yaml"))
    start, face = _asked(line, "")
    assert start == Start(said=line) and len(face.asked) == 2
    assert _asked("yes, it has a new lamp now")[0] == Start(path, "it has a new lamp now", True)
