"""The file one talk keeps its answers in: its own, never another talk's."""

from __future__ import annotations

import datetime
from dataclasses import dataclass, field
from itertools import count
from pathlib import Path

from interview.setups.setup import Setup, SetupError, folder
from interview.setups.writing import write

__all__ = ["Kept", "new_file", "old_file"]


@dataclass
class Kept:
    """A setup file as this talk last left it.

    When somebody else has written it in the meantime, the talk goes on in a new file.
    """

    path: Path
    new: bool = False
    _mark: tuple[int, ...] = field(init=False)

    def __post_init__(self) -> None:
        self._mark = _mark_of(self.path)

    def save(self, setup: Setup) -> bool:
        """Write the setup; True when it had to move to a new file.

        Raises SetupError if the folder takes no file.
        """
        moved = _mark_of(self.path) != self._mark
        if moved:
            self.path = _reserve(self.path.parent)
        try:
            write(self.path, setup)
        except OSError as problem:
            raise _not_writable(self.path.parent, problem) from problem
        self._mark = _mark_of(self.path)
        return moved

    def drop_if_empty(self) -> bool:
        """Remove a file that was only reserved; True when it was."""
        empty = self.new and self.path.exists() and self.path.stat().st_size == 0
        if empty:
            self.path.unlink()
        return empty


def new_file(path: Path | None = None) -> Kept:
    """A file for a new tank, made at once so that no other talk takes its name.

    Raises SetupError if nothing can be saved there.
    """
    if path is None:
        return Kept(_reserve(folder()), new=True)
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        path.open("x", encoding="utf-8").close()
    except OSError as problem:
        raise _not_writable(path.parent, problem) from problem
    return Kept(path, new=True)


def old_file(path: Path) -> Kept:
    """A file to go on with; SetupError if it can't be saved again."""
    trial = path.with_name(f".{path.name}.trial")
    try:
        trial.open("w", encoding="utf-8").close()
        trial.unlink()
    except OSError as problem:
        raise _not_writable(path.parent, problem) from problem
    return Kept(path)


def _reserve(folder: Path) -> Path:
    day = datetime.date.today().isoformat()
    try:
        folder.mkdir(parents=True, exist_ok=True)
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


def _mark_of(path: Path) -> tuple[int, ...]:
    """What changes whenever the file is written."""
    try:
        stat = path.stat()
    except FileNotFoundError:
        return ()
    return stat.st_ino, stat.st_mtime_ns, stat.st_size


def _not_writable(folder: Path, problem: OSError) -> SetupError:
    return SetupError(
        f"Nothing can be saved in {folder} ({problem.strerror}). Set TANKSIDE_FOLDER to a folder "
        "you may write to, as TANKSIDE_FOLDER=/tmp/tanks."
    )
