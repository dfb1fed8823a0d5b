"""Lint, format and types, as a contributor would run them."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.mark.parametrize(
    "command",
    [["ruff", "check", "."], ["ruff", "format", "--check", "."], ["mypy"]],
    ids=" ".join,
)
def test_tidy(command: list[str]) -> None:
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr
