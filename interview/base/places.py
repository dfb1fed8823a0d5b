"""Where the shipped folders are: beside the package in a checkout, inside it in a wheel."""

from __future__ import annotations

from pathlib import Path

__all__ = ["demo_folder", "file_said", "questions_folder"]

_PACKAGE = Path(__file__).parent.parent


def _shipped(name: str) -> Path:
    inside = _PACKAGE / "shipped" / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def questions_folder() -> Path:
    """The folder of the interview's topic files."""
    return _shipped("questions")


def demo_folder() -> Path:
    """The folder of the demo setups and their audits."""
    return _shipped("transcripts_demo")


def file_said(path: Path) -> str:
    """What a fault calls a file: of those that ship the path too, as names stand there twice."""
    ships = path.is_relative_to(_PACKAGE.parent)
    return path.relative_to(_PACKAGE.parent).as_posix() if ships else path.name
