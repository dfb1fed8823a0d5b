"""Pasting, completion and history in the line."""

from __future__ import annotations

import shutil
from pathlib import Path

from keeper import PASTE, Keeper

from interview.base.places import demo_folder


def test_a_pasted_second_line_never_answers_the_next_question(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.prompted()
        keeper.press(PASTE.format("living\neurope\n18 C\n"))
        keeper.press("\r")
        keeper.sees("That was 3 lines pasted at once")
        keeper.sees("How far along is the tank?")
        assert "Where do you live?" not in keeper.words
        keeper.answer("living")
        keeper.sees("Where do you live?")


def test_one_pasted_line_is_an_answer(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.prompted()
        keeper.press(PASTE.format("living\n"))
        keeper.press("\r")
        keeper.sees("Where do you live?")
        assert "pasted at once" not in keeper.words


def test_lines_that_come_in_one_piece_without_paste_marks(tmp_path: Path) -> None:
    """Terminals without bracketed paste send pasted lines as if each had been typed."""
    with Keeper(tmp_path) as keeper:
        keeper.prompted()
        keeper.press("living\reurope\r18 C\r")
        keeper.sees("That was 3 lines pasted at once")
        assert "Where do you live?" not in keeper.words
        assert next(tmp_path.glob("*.yaml")).read_bytes() == b""


def test_lines_typed_while_a_what_if_is_worked_out_are_named_as_left_out(tmp_path: Path) -> None:
    shutil.copy(demo_folder() / "musk_turtle.yaml", tmp_path / "musk.yaml")
    with Keeper(tmp_path, "talk", str(tmp_path / "musk.yaml")) as keeper:
        keeper.prompted()
        keeper.press("what if the lamp is 2 cm higher")
        keeper.wait(lambda: keeper.typing.endswith("higher"), "the what-if typed")
        keeper.enter_and_go_on_typing("maybe so\ror perhaps not\r")
        keeper.sees('2 lines came before I asked, and I used none: "maybe so"')
        keeper.prompted()


def test_tab_completes_choices_and_species(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        keeper.prompted()
        keeper.press("united k\t")
        keeper.wait(lambda: keeper.typing == "≈ United Kingdom", "the completed choice")
        keeper.enter()
        for line in ("18 C", "25 C"):
            keeper.answer(line)
        keeper.prompted()
        keeper.press("n\t")
        keeper.wait(lambda: keeper.typing == "≈ no", "the completed no")
        keeper.enter()
        keeper.sees("How many turtles")
        keeper.answer("1")
        keeper.press("common mus\t")
        keeper.wait(lambda: keeper.typing == "≈ common musk turtle", "the completed species")


def test_the_up_key_recalls_what_was_typed(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        keeper.press("\x1b[A")
        keeper.wait(lambda: keeper.typing == "≈ living", "the line typed before")


def _plain(folder: Path) -> Keeper:
    return Keeper(folder, "--plain")


def test_lines_pasted_in_plain_answer_neither_this_question_nor_the_next(tmp_path: Path) -> None:
    with _plain(tmp_path) as keeper:
        keeper.prompted("Answer:")
        keeper.press("living\reurope\r18 C\r26 C\rno\r")
        keeper.sees("5 lines came at once, and I used none")
        keeper.prompted("Answer:")
        assert "Where do you live?" not in keeper.words
        keeper.answer("living", "Answer:")
        keeper.sees("Where do you live?")
        keeper.press("\x04")
        assert keeper.leaves() == 0
    (saved,) = tmp_path.glob("*.yaml")
    assert "stage: living" in saved.read_text("utf-8")
    assert "region" not in saved.read_text("utf-8")


def test_a_line_typed_ahead_in_plain_answers_nothing(tmp_path: Path) -> None:
    """What waits before a question stands on the screen is no answer to it."""
    with _plain(tmp_path) as keeper:
        keeper.press("planning\r")
        keeper.sees("1 line came before I asked")
        keeper.prompted("Answer:")
        assert "Where do you live?" not in keeper.words


def test_a_story_told_before_the_first_question_is_heard_at_it(tmp_path: Path) -> None:
    with _plain(tmp_path) as keeper:
        keeper.press("I have two painted turtles in a 75 gallon tank.\r")
        keeper.sees("I take it that:")
        assert "before I asked" not in keeper.words


def test_a_story_pasted_in_plain_is_read_as_one(tmp_path: Path) -> None:
    with _plain(tmp_path) as keeper:
        keeper.prompted("Answer:")
        keeper.press("I have two painted turtles in a 75 gallon tank.\rThe water is 76 F.\r")
        keeper.sees("I take it that:")
        keeper.sees("Is that right?")


def test_an_empty_line_pasted_behind_an_answer_does_no_harm(tmp_path: Path) -> None:
    with _plain(tmp_path) as keeper:
        keeper.prompted("Answer:")
        keeper.press("living\r\r")
        keeper.sees("Where do you live?")
        assert "came at once" not in keeper.words
