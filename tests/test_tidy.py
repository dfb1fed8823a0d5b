"""Lint, format, types and the layers of the house, as a contributor would run them."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
IMPORTS = ["-c", "from importlinter.cli import lint_imports_command as run; run()", "--no-cache"]
NOT_CODE = shutil.ignore_patterns("__pycache__", "*.yaml", "*.npz", "*.npy")


def _python(*arguments: str, cwd: Path = ROOT) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, *arguments], cwd=cwd, capture_output=True, text=True, check=False
    )


@pytest.mark.parametrize(
    "command",
    [
        pytest.param(["-m", "ruff", "check", "."], id="ruff check"),
        pytest.param(["-m", "ruff", "format", "--check", "."], id="ruff format"),
        pytest.param(["-m", "mypy"], id="mypy"),
        pytest.param(IMPORTS, id="imports"),
    ],
)
def test_tidy(command: list[str]) -> None:
    done = _python(*command)
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize(
    ("module", "line", "told"),
    [
        ("base/upwards.py", "from interview.chat.faces import face", "interview.base is not"),
        ("core/upwards.py", "import interview.words.text", "interview.core is not"),
        ("graph/upwards.py", "from interview.core import wiring", "interview.graph is not"),
        ("audit/upwards.py", "import interview.audit.around", "No cycles"),
        ("attic.py", "import interview.base", "attic"),
    ],
)
def test_an_import_from_above_is_found_inside_a_function_too(
    module: str, line: str, told: str, tmp_path: Path
) -> None:
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    package = tmp_path / "interview"
    shutil.copytree(ROOT / "interview", package, ignore=NOT_CODE)
    (package / module).write_text(f"def reach() -> None:\n    {line}\n", encoding="utf-8")
    around = "def back() -> None:\n    import interview.audit.upwards\n"
    (package / "audit" / "around.py").write_text(around, encoding="utf-8")
    done = _python(*IMPORTS, cwd=tmp_path)
    assert done.returncode == 1
    assert told in done.stdout, done.stdout
