"""What README shows is what the program prints."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from interview.cli import main

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEMO = "transcripts_demo/musk_turtle"


def _block(first: str) -> list[str]:
    """The lines of the fenced block that begins with a line."""
    blocks = re.findall(r"```\w+\n(.*?)```", README, re.DOTALL)
    (found,) = [block for block in blocks if block.startswith(first)]
    return [line for line in str(found).splitlines() if line.strip()]


def _assert_unbroken(lines: list[str], printed: str) -> None:
    """The lines stand in what is printed, with nothing between them but empty ones."""
    told = [line.rstrip() for line in printed.splitlines() if line.strip()]
    starts = [n for n, line in enumerate(told) if line == lines[0]]
    assert any(told[n : n + len(lines)] == lines for n in starts), lines


def _printed(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert main(list(arguments)) in (0, 1)
    return capsys.readouterr().out


@pytest.fixture(autouse=True)
def at_the_top(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)


def test_the_piece_of_an_audit() -> None:
    page = (ROOT / f"{DEMO}.page.txt").read_text(encoding="utf-8")
    assert _block("≈≈≈ Study window") == [line for line in page.splitlines() if line]


def test_the_pieces_of_a_day_and_of_a_mishap() -> None:
    whole = (ROOT / "transcripts_demo/river_cooter_adult.time.txt").read_text(encoding="utf-8")
    _assert_unbroken(_block("≈≈≈ A day in"), whole)
    _assert_unbroken(_block("  The power fails for a day in winter\n"), whole)


def test_the_sentence_on_a_mishap(capsys: pytest.CaptureFixture[str]) -> None:
    main(["audit", "transcripts_demo/river_cooter_adult.yaml", "--mishaps", "--plain"])
    _assert_unbroken(_block("  The power fails for a day in winter: "), capsys.readouterr().out)


def test_the_piece_of_a_point_explained(capsys: pytest.CaptureFixture[str]) -> None:
    setup = "transcripts_demo/river_cooter_adult.yaml"
    asked = f'tankside explain {setup} water --at "coldest day 6 am"'
    assert f"`{asked}` prints" in README
    main(["explain", setup, "water", "--at", "coldest day 6 am", "--plain"])
    shown = _block("water_temperature on the coldest day at 6:00")
    assert shown == capsys.readouterr().out.strip().splitlines()[: len(shown)]


def test_the_piece_of_a_talk() -> None:
    """The stored conversation has the same words; its marks and its margin are the plain face's."""
    told = (ROOT / f"{DEMO}.conversation.txt").read_text(encoding="utf-8")
    words = " ".join(told.split())
    heading, gauge, *lines = _block("≈≈≈ Tank ≈≈≈")
    assert f"Topic: {heading.strip('≈ ')}" in words
    number, about = re.findall(r"\d+", gauge)
    marks = {"≈≈ ": "So: ", "≈ ": "Answer: "}
    said = " ".join(lines)
    for drawn, plain in marks.items():
        said = said.replace(drawn, plain)
    assert f"Tank, question {number} of about {about} {' '.join(said.split())}" in words


def test_the_piece_of_an_explanation(capsys: pytest.CaptureFixture[str]) -> None:
    printed = _printed(capsys, "explain", f"{DEMO}.yaml", "water_depth")
    _assert_unbroken(_block("water_depth ="), printed)


def test_the_what_if(capsys: pytest.CaptureFixture[str]) -> None:
    (supposed,) = re.findall(r"--suppose (\S+)\n", README)
    printed = _printed(capsys, "audit", f"{DEMO}.yaml", "--plain", "--suppose", supposed)
    _assert_unbroken(_block("Before and after"), printed)
    (nitrate,) = re.findall(r"`(Nitrate peak: .*?)`", README)
    assert nitrate in printed


def test_the_piece_of_a_recheck() -> None:
    told = (ROOT / f"{DEMO}.recheck.txt").read_text(encoding="utf-8")
    _assert_unbroken(_block("Answer: 25 cm"), told)


def test_no_promise_is_left_open() -> None:
    assert "<!--" not in README
