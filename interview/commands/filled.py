"""A setup file as an interview, for the commands that take one."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from interview.graph.interview import Interview

__all__ = ["filled"]


def filled(path: Path) -> tuple[Interview, str]:
    """The interview a setup file holds, and its title; SetupError names the file."""
    from interview import assembly, setups

    setups.refuse(path)
    interview = assembly.new_interview()
    setup = setups.read(path, interview.questionnaire)
    try:
        setups.fill(interview, setup)
    except setups.SetupError as problem:
        raise setups.SetupError(f"{path.name}, {problem}") from problem
    return interview, setup.title or path.stem
