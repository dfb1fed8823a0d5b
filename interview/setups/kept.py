"""The file one talk keeps its answers in: its own, never another talk's."""

from __future__ import annotations

import contextlib
import datetime
import os
import re
import tempfile
import time
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from interview.base.files.reading import shown
from interview.base.files.writing import sweep
from interview.base.rows.lines import words_in
from interview.setups.earlier import keep_previous
from interview.setups.saved_files import saved_in
from interview.setups.setup import FORMAT, Setup, SetupError, folder
from interview.setups.writing import text_of, write

__all__ = ["Kept", "is_started", "new_file", "old_file"]

_RESERVED = re.compile(r"tank-\d{4}-\d\d-\d\d(?:-\d+)?\.yaml")
_ABANDONED = 86_400.0
"""Seconds after which an empty file belongs to no talk that is still held."""


@dataclass
class Kept:
    """A setup file as this talk last left it.

    When somebody else has written it in the meantime, the talk goes on in a new file. The
    version that a talk found is put aside before the first change.
    """

    path: Path
    new: bool = False
    _mark: tuple[int, ...] = field(init=False)
    _found: tuple[str, os.stat_result] | None = field(init=False)
    """What the talk found, and when it was written, until it is put aside."""

    def __post_init__(self) -> None:
        self._mark = _mark_of(self.path)
        self._found = None if self.new else (self.path.read_text("utf-8"), self.path.stat())

    def save(self, setup: Setup) -> bool:
        """Write the setup; True when it had to move to a new file.

        Raises SetupError if the folder takes no file; the old file is whole then.
        """
        moved = _mark_of(self.path) != self._mark
        if moved:
            self.path, self._found = _reserve(self.path.parent), None
        try:
            if self._found and not _same(self._found[0], text_of(setup)):
                keep_previous(self.path, *self._found)
                self._found = None
            write(self.path, setup)
        except OSError as problem:
            raise _not_writable(self.path.parent, problem) from problem
        finally:
            self._mark = _mark_of(self.path)
        return moved

    def drop_if_empty(self) -> bool:
        """Remove a file that was only reserved; True when it was."""
        empty = self.new and self.path.exists() and self.path.stat().st_size == 0
        if empty:
            self.path.unlink()
        return empty


def _same(one: str, other: str) -> bool:
    """Whether two setups say the same, however they are written."""
    return bool(words_in(one, Path()) == words_in(other, Path()))


def is_started(path: Path) -> bool:
    """Whether a file holds anything to go on with; one reserved by a killed talk doesn't.

    Raises SetupError for a name no file can have and a folder that can't be looked into.
    """
    try:
        return path.stat().st_size > 0 or not path.is_file()
    except FileNotFoundError:
        return False
    except (OSError, ValueError) as problem:
        raise SetupError(f"{shown(path)} can't be a setup: {_said(problem)}.") from problem


def new_file(path: Path | None = None) -> Kept:
    """A file for a new tank, made at once so that no other talk takes its name.

    Raises SetupError if nothing can be saved there.
    """
    if path is None:
        return Kept(_reserve(folder()), new=True)
    if path.name == "":
        raise SetupError("No file is named. Type its name, as tank.yaml.")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.open("a", encoding="utf-8").close()
    except OSError as problem:
        raise _not_writable(path.parent, problem) from problem
    return Kept(path, new=True)


def old_file(path: Path) -> Kept:
    """A file to go on with; SetupError if it can't be saved again."""
    target = Path(os.path.realpath(path)).parent
    sweep(target, f"format: {FORMAT}")
    try:
        tempfile.TemporaryFile(dir=target).close()
        return Kept(path)
    except OSError as problem:
        raise _not_writable(target, problem) from problem


def _reserve(folder: Path) -> Path:
    day = datetime.date.today().isoformat()
    try:
        folder.mkdir(parents=True, exist_ok=True)
        sweep(folder, f"format: {FORMAT}")
        _drop_abandoned(folder)
        for number in count(1):
            path = folder / (f"tank-{day}.yaml" if number == 1 else f"tank-{day}-{number}.yaml")
            try:
                path.open("x", encoding="utf-8").close()
            except FileExistsError:
                continue
            return path
    except OSError as problem:
        raise _not_writable(folder, problem) from problem
    raise AssertionError("counting ended")


def _drop_abandoned(folder: Path) -> None:
    """Remove files that talks reserved and never wrote, of yesterday and before."""
    for saved in saved_in(folder):
        with contextlib.suppress(OSError):
            old = time.time() - saved.written > _ABANDONED
            if old and _RESERVED.fullmatch(saved.path.name) and not saved.path.stat().st_size:
                saved.path.unlink()


def _mark_of(path: Path) -> tuple[int, ...]:
    """What changes whenever the file is written."""
    try:
        stat = path.stat()
    except OSError:
        return ()
    return stat.st_ino, stat.st_mtime_ns, stat.st_size


def _not_writable(folder: Path, problem: OSError) -> SetupError:
    return SetupError(
        f"Nothing can be saved in {shown(folder)} ({_said(problem)}). Set TANKSIDE_FOLDER to a "
        "folder you may write to, as TANKSIDE_FOLDER=/tmp/tanks."
    )


def _said(problem: OSError | ValueError) -> str:
    return (isinstance(problem, OSError) and problem.strerror) or "no such name is possible"
