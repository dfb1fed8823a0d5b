"""What is said on the error stream: whole words on a terminal, one line in a log."""

from __future__ import annotations

from pathlib import Path

import pytest
from keeper import Keeper

from interview import assembly, cli


def test_a_complaint_cuts_no_word_on_a_terminal(tmp_path: Path) -> None:
    with Keeper(
        tmp_path, "audit", str(tmp_path / "missing.yaml"), columns=40, margin=200
    ) as keeper:
        assert keeper.leaves() == 2
        assert str(tmp_path / "missing.yaml") in keeper.words
        lines = [line for line in keeper.lines if line and str(tmp_path) not in line]
        assert max(map(len, lines)) <= 40


def test_a_crash_is_one_line_in_a_log(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def crash() -> None:
        raise RuntimeError("a fault of ours")

    monkeypatch.setattr(assembly, "faults", crash)
    assert cli.main(["questions", "--check"]) == 3
    (line,) = capsys.readouterr().err.splitlines()
    log = Path(line.split("The details are in ")[1].rstrip("."))
    told = log.read_text(encoding="utf-8")
    assert "RuntimeError" in told and "test_complaints.py, line" in told, "type and place"
    log.unlink()
