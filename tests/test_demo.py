"""The demo setups still give the conversations and audits stored beside them.

After a change that is meant, store them anew with one command and read the difference:

    UPDATE_GOLDEN=1 pytest tests/test_demo.py && git diff transcripts_demo
"""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest
from golden import (
    DAY,
    DEMOS,
    SETUPS,
    assert_stored,
    audit_page,
    conversation,
    counter_conversation,
    first_page_text,
    in_lines,
    recheck_conversation,
    recheck_over_time,
    talk_through,
    through_time,
)

from interview import assembly, setups
from interview.commands.demo import DEMO

PLANNED = DEMOS / "reeves_turtle_planned.yaml"
advice_of = assembly.advice_of

each_setup = pytest.mark.parametrize("path", SETUPS, ids=lambda path: path.stem)


@each_setup
def test_conversation(path: Path) -> None:
    assert_stored(path.with_suffix(".conversation.txt"), conversation(path))


def test_the_same_tank_at_the_counter() -> None:
    assert_stored(DEMOS / "reeves_turtle_planned.counter.txt", counter_conversation(PLANNED))


def test_the_recheck_after_the_lamp_was_moved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    lines = ("I raised the lamp", "heat lamp height", "25 cm", "", "29.5 °C", "", "yes")
    monkeypatch.setattr(assembly, "advice_of", lambda audit: advice_of(audit, DAY))
    monkeypatch.chdir(tmp_path)
    shown = recheck_conversation(DEMOS / DEMO, lines)
    assert_stored(DEMOS / "musk_turtle.recheck.txt", shown)


def test_rechecks_over_a_year(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After five months and after a year: what aged is asked again, and how things went is told."""
    settled = DEMOS / "mud_turtle_settled.yaml"
    sittings = [
        (datetime.date(2026, 8, 1), ("nitrate 20 mg/L", "", "", "", "", "", "", "no")),
        (datetime.date(2027, 3, 1), ("new uvb lamp", "", "", "", "", "", "no")),
    ]
    monkeypatch.chdir(tmp_path)
    shown = recheck_over_time(settled, sittings, monkeypatch)
    assert_stored(settled.with_suffix(".recheck.txt"), shown)


@each_setup
def test_first_page(path: Path) -> None:
    assert_stored(path.with_suffix(".page.txt"), first_page_text(path))


@each_setup
def test_all_that_was_found_and_advised_in_a_line_each(path: Path) -> None:
    assert_stored(path.with_suffix(".audit.txt"), in_lines(path))


def test_the_whole_page_of_the_demo() -> None:
    path = DEMOS / DEMO
    assert_stored(path.with_suffix(".audit.md"), audit_page(path))


@each_setup
def test_day_year_and_mishaps(path: Path) -> None:
    assert_stored(path.with_suffix(".time.txt"), through_time(path))


@each_setup
def test_what_was_talked_through_reads_back_as_the_same_tank(path: Path, tmp_path: Path) -> None:
    talked, _, _ = talk_through(path)
    saved = tmp_path / "saved.yaml"
    setups.write(saved, setups.of_interview(talked, "Saved"))
    again = assembly.new_interview()
    setups.fill(again, setups.read(saved, again.questionnaire))
    assert again.given() == talked.given()
    assert again.system == talked.system


def test_every_stored_text_belongs_to_a_setup() -> None:
    stored = {p.name.split(".")[0] for p in DEMOS.iterdir()}
    assert stored == {path.stem for path in SETUPS}
    assert len(SETUPS) >= 6


def test_the_demo_is_among_them() -> None:
    assert DEMOS / DEMO in SETUPS
