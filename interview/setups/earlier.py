"""Earlier versions of a setup, beside it: `history` after rechecks, `previous` before a talk."""

from __future__ import annotations

import datetime
import os
import re
from pathlib import Path

from interview.base.files.writing import write_whole
from interview.graph.questions import Questionnaire
from interview.setups.loading import read
from interview.setups.setup import Setup, SetupError
from interview.setups.writing import write

__all__ = [
    "clock_was_wrong", "keep_past", "keep_previous", "last_whole", "past_files", "previous_file",
    "written_at",
]  # fmt: skip

_STAMP = "%Y-%m-%d-%H%M%S-%f"
_STAMPED = r"-(?:(?P<number>\d{4,})\.)?(?P<stamp>\d{4}-\d\d-\d\d-\d{6}-\d{6})"
_FIRST = datetime.datetime(2025, 1, 1)
"""No setup was written before: the program didn't exist."""
_DAY = datetime.timedelta(days=1)


def written_at(path: Path) -> datetime.datetime:
    """When the setup was last written, by the clock of that day."""
    return datetime.datetime.fromtimestamp(path.stat().st_mtime)


def clock_was_wrong(written: datetime.datetime, now: datetime.datetime) -> bool:
    """Whether a date can't be: after today, or before there were setups."""
    return not _FIRST <= written <= now + _DAY


def keep_past(path: Path, setup: Setup, written: datetime.datetime) -> None:
    """Put the setup as it was into its history, numbered, under the time it was last written."""
    numbers = [number for number, _, _ in _numbered(path)]
    name = f"{path.stem}-{max(numbers, default=0) + 1:04d}.{written.strftime(_STAMP)}.yaml"
    write(path.parent / "history" / name, setup)


def past_files(path: Path) -> list[tuple[datetime.datetime, Path]]:
    """The history in the order of writing, whatever the clock said: each date and file."""
    return [(written, file) for _, written, file in _numbered(path)]


def _numbered(path: Path) -> list[tuple[int, datetime.datetime, Path]]:
    """Number, date and file; files of the time before numbers come first, by their dates."""
    found = []
    for file in (path.parent / "history").glob("*.yaml"):
        told = re.fullmatch(re.escape(path.stem) + _STAMPED, file.stem)
        if told is None:
            continue
        try:
            written = datetime.datetime.strptime(told["stamp"], _STAMP)
        except ValueError:
            continue
        found.append((int(told["number"] or 0), written, file))
    return sorted(found)


def last_whole(path: Path, questionnaire: Questionnaire) -> Setup | None:
    """The latest earlier state in which no answer was in doubt; None if none was kept."""
    for _, file in reversed(past_files(path)):
        try:
            setup = read(file, questionnaire)
        except SetupError:
            continue
        if not setup.doubtful:
            return setup
    return None


def previous_file(path: Path) -> Path:
    """Where the version before the last talk is kept."""
    return path.parent / "previous" / path.name


def keep_previous(path: Path, text: str, found: os.stat_result) -> None:
    """Put the text a setup was found with aside, dated as it was found. Raises OSError."""
    kept = previous_file(path)
    kept.parent.mkdir(exist_ok=True)
    write_whole(kept, text)
    os.utime(kept, ns=(found.st_atime_ns, found.st_mtime_ns))
