"""The demo setups still give the conversations and audits stored beside them.

After a change that is meant, store them anew with one command and read the difference:

    UPDATE_GOLDEN=1 pytest tests/test_demo.py && git diff transcripts_demo
"""

from __future__ import annotations

from pathlib import Path

import pytest
from golden import DEMOS, SETUPS, assert_stored, audit_page, conversation, talk_through

from interview import assembly, setups
from interview.chat.demo import DEMO

each_setup = pytest.mark.parametrize("path", SETUPS, ids=lambda path: path.stem)


@each_setup
def test_conversation(path: Path) -> None:
    assert_stored(path.with_suffix(".conversation.txt"), conversation(path))


@each_setup
def test_audit(path: Path) -> None:
    assert_stored(path.with_suffix(".audit.md"), audit_page(path))


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
    assert len(SETUPS) >= 5


def test_the_demo_is_among_them() -> None:
    assert DEMOS / DEMO in SETUPS
