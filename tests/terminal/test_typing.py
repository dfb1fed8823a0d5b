"""Pasting, completion and history in the line."""

from __future__ import annotations

from pathlib import Path

from keeper import PASTE, Keeper


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
        assert "pasted" not in keeper.words


def test_lines_that_come_in_one_piece_without_paste_marks(tmp_path: Path) -> None:
    """Terminals without bracketed paste send pasted lines as if each had been typed."""
    with Keeper(tmp_path) as keeper:
        keeper.prompted()
        keeper.press("living\reurope\r18 C\r")
        keeper.sees("That was 3 lines pasted at once")
        assert "Where do you live?" not in keeper.words
        assert next(tmp_path.glob("*.yaml")).read_bytes() == b""


def test_tab_completes_choices_and_species(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        keeper.prompted()
        keeper.press("united k\t")
        keeper.wait(lambda: keeper.typing == "≈ United Kingdom", "the completed choice")
        keeper.press("\r")
        for line in ("18 C", "25 C"):
            keeper.answer(line)
        keeper.prompted()
        keeper.press("n\t")
        keeper.wait(lambda: keeper.typing == "≈ no", "the completed no")
        keeper.press("\r")
        keeper.sees("How many turtles")
        keeper.answer("1")
        keeper.press("common mus\t")
        keeper.wait(lambda: keeper.typing == "≈ common musk turtle", "the completed species")


def test_the_up_key_recalls_what_was_typed(tmp_path: Path) -> None:
    with Keeper(tmp_path) as keeper:
        keeper.answer("living")
        keeper.press("\x1b[A")
        keeper.wait(lambda: keeper.typing == "≈ living", "the line typed before")
