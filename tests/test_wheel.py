"""The wheel holds everything, and runs from another folder without the checkout."""

from __future__ import annotations

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


def _pip(*arguments: str | Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", "pip", "-q", "--disable-pip-version-check", *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    _pip("wheel", "--no-deps", "--no-build-isolation", "-w", folder, ROOT)
    (built,) = folder.glob("*.whl")
    return built


def test_every_module_and_data_file_is_inside(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        inside = set(archive.namelist())
    package = {
        path.relative_to(ROOT).as_posix()
        for pattern in ("*.py", "*.yaml", "*.npz")
        for path in (ROOT / "interview").rglob(pattern)
    }
    shipped = {
        f"interview/shipped/{path.relative_to(ROOT).as_posix()}"
        for folder in ("questions", "transcripts_demo")
        for path in (ROOT / folder).iterdir()
    }
    assert len(shipped) > 15
    assert (package | shipped) - inside == set()


def test_it_runs_from_another_folder(wheel: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    _pip("install", "--no-deps", "--no-index", "--target", site, wheel)
    done = subprocess.run(
        [sys.executable, site / "bin" / "tankside", "demo", "--fast", "--plain"],
        cwd=tmp_path,
        env={"PYTHONPATH": str(site), "LC_ALL": "C.UTF-8"},
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert done.stderr == ""
    assert done.returncode == 0
    assert "The vet" in done.stdout
    where = subprocess.run(
        [sys.executable, "-c", "import interview.base.places as p; print(p.questions_folder())"],
        cwd=tmp_path,
        env={"PYTHONPATH": str(site)},
        capture_output=True,
        text=True,
        check=True,
    )
    assert where.stdout.strip() == str(site / "interview" / "shipped" / "questions")
