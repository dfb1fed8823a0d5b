"""The demo: shown at once when asked, and left without a fault when its keeper stops."""

from __future__ import annotations

import io
import sys

import pytest

from interview import assembly, cli
from interview.chat.talks.guided import Left, Talk
from interview.commands import demo


@pytest.mark.parametrize(("interrupted", "code"), [(True, 130), (False, 0)])
def test_a_demo_that_is_left_ends_without_a_fault(
    monkeypatch: pytest.MonkeyPatch, interrupted: bool, code: int
) -> None:
    def leave(_: Talk) -> None:
        raise Left(interrupted=interrupted)

    monkeypatch.setattr(Talk, "run", leave)
    monkeypatch.setattr(sys, "stdout", io.StringIO())
    monkeypatch.setattr(assembly, "audit_of", None)
    assert demo.replay(plain=True, fast=True) == code


def test_the_fast_demo_is_in_its_help(capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["demo", "--help"]) == 0
    said = " ".join(capsys.readouterr().out.split())
    assert "With --fast it is shown at once." in said
