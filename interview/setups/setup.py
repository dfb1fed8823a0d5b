"""What a saved setup holds, and where setups are kept."""

from __future__ import annotations

import os
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from interview.base.rows.lines import printable
from interview.graph.interview import Place

__all__ = ["FORMAT", "Setup", "SetupError", "folder", "short"]

FORMAT = "tankside/1"


class SetupError(ValueError):
    """A setup file that can't be used, as one sentence with the remedy."""


@dataclass
class Setup:
    """What a setup file holds: answers by place, as typed."""

    title: str = ""
    answers: dict[Place, str] = field(default_factory=dict)
    animals: int = 0
    doubtful: tuple[str, ...] = ()
    finer: bool = False


def folder() -> Path:
    """Where setups are kept: TANKSIDE_FOLDER, or `tankside` in the home folder.

    Raises SetupError where that is nobody's home.
    """
    named = os.environ.get("TANKSIDE_FOLDER")
    try:
        return Path(named).expanduser() if named else Path.home() / "tankside"
    except RuntimeError:
        raise SetupError(
            f"“{named or '~'}” is nobody's home folder. Set TANKSIDE_FOLDER to a folder you may "
            "write to, as TANKSIDE_FOLDER=/tmp/tanks."
        ) from None


def short(text: Any) -> str:
    """The beginning of what was typed, fit for a sentence."""
    return printable(text)[:40] if isinstance(text, str) else "no word"
