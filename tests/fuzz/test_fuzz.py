"""A little of everything that `python tests/fuzz` tries at length, and whatever it has found."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import example, given, settings
from killed import KILLED, Killing, killed
from made.spans import Case
from mutated import MUTATED, mutated
from often import often
from talked import TALKED, held, held_on, talked
from tally import Tally
from thrown import TANKS, thrown
from typed import MEANT, TYPED, meant, typed

from interview.graph.interview import Place

FOUND = yaml.safe_load((Path(__file__).parent / "found.yaml").read_text("utf-8"))


@settings(max_examples=often(150))
@given(TYPED)
def test_any_string_is_kept_as_taken_or_refused_kindly(one: tuple[str, str, str]) -> None:
    assert typed(one) in ("taken", "refused")


@settings(max_examples=often(60))
@given(MEANT)
def test_no_string_of_known_meaning_is_misread(one: tuple[Case, str]) -> None:
    assert meant(one) in ("right", "said back", "asked")


@settings(max_examples=often(20))
@given(MUTATED)
def test_any_file_is_read_or_refused(text: bytes) -> None:
    assert mutated(text) in ("taken", "refused")


@settings(max_examples=often(6))
@given(TALKED)
def test_any_talk_saves_what_it_takes(seed: int) -> None:
    assert talked(seed) in ("left", "to the end")


@settings(max_examples=often(2))
@given(TANKS)
@example((7, False))
@example((0, True))
@example((12, True))
@example((16, True))
@example((26, True))
@example((90, True))
@example((115, True))
def test_any_tank_has_an_audit(tank: tuple[int, bool]) -> None:
    assert thrown(tank) in ("A", "B", "C", "D", "E", "STOP", "no grade")


KILLINGS = (
    Killing("KILL", 3, 0.002, "pipe"),
    Killing("TERM", 0, 0.01, "plain"),
    Killing("HUP", 4, 0.004, "drawn"),
)


@pytest.mark.parametrize("how", KILLINGS, ids=lambda how: how.signal)
def test_what_is_acknowledged_outlives_the_talk(how: Killing) -> None:
    assert killed(how).startswith(how.signal)


@settings(max_examples=max(1, often(2) - 2))
@given(KILLED)
def test_so_does_it_at_any_moment(how: Killing) -> None:
    assert killed(how).startswith(how.signal)


@pytest.mark.parametrize("row", FOUND["typed"], ids=lambda row: row["at"])
def test_strings_that_were_kept_otherwise(row: dict[str, str]) -> None:
    assert typed((row["at"], row["region"], row["text"])) == row.get("ends", "taken")


@pytest.mark.parametrize("lines", FOUND["talked"], ids=lambda lines: lines[-1])
def test_talks_that_were_kept_otherwise(lines: list[str]) -> None:
    interview = held(lines)
    assert len(interview.answers) >= len(lines) - 1


def test_a_doubtful_answer_that_is_skipped_leaves_the_file() -> None:
    """It stood in the file until the next answer was taken."""
    interview = held(FOUND["talked"][0])
    interview.doubtful.add(place := Place("room_temperature_low"))
    assert place in interview.answers
    held_on(interview, ["skip"])
    assert place not in interview.answers


def test_a_fault_is_counted_and_told() -> None:
    """The table can show one: otherwise noughts in it say nothing."""
    tally = Tally("made up")

    def trial(number: Any) -> str:
        return {0: "fine"}[number]

    for number in (0, 0, 1):
        tally.add(trial, number)
    assert tally.row == "| made up | 3 | 2 fine | 0 | 1 | 0 | 0 |"
    assert "KeyError" in tally.told[0]


def test_the_long_run_starts_by_its_one_command() -> None:
    command = [sys.executable, str(Path(__file__).parent), "--help"]
    ran = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert "--tanks" in ran.stdout
