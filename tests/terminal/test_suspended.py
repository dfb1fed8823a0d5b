"""Ctrl-Z stops the talk as any program in a terminal; `fg` goes on at the same question."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

import pexpect
import pytest

pytestmark = pytest.mark.skipif(not shutil.which("bash"), reason="needs a shell with jobs")


@pytest.mark.parametrize("options", ["", "--plain"])
def test_ctrl_z_stops_and_fg_goes_on(tmp_path: Path, options: str) -> None:
    around = {**os.environ, "TERM": "xterm", "LC_ALL": "C.UTF-8", "TANKSIDE_FOLDER": str(tmp_path)}
    shell = pexpect.spawn(
        "bash", ["--norc", "--noprofile", "-i"], env=around, dimensions=(40, 100), timeout=60
    )
    try:
        shell.sendline(f"PS1='READY: '; {sys.executable} -m interview {options}")
        _answered(shell, "How far along", "living")
        shell.expect("Where do you live")
        shell.expect("elsewhere")
        shell.send("\x1a")
        shell.expect("Stopped")
        shell.expect("READY: ")
        shell.sendline("fg")
        shell.expect("interview")
        _answered(shell, "", "europe")
        shell.expect("How cold")
        shell.send("\x04")
        shell.expect("Saved in")
        shell.expect("READY: ")
    finally:
        shell.close(force=True)
    (saved,) = tmp_path.glob("*.yaml")
    assert "region: europe" in saved.read_text("utf-8")


def _answered(shell: pexpect.spawn, question: str, answer: str) -> None:
    if question:
        shell.expect(question)
    shell.send(answer + "\r")
