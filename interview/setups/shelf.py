"""The saved setups as a list to choose from, and what can be done with one."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from interview.base.files.reading import FileRefused, read_small, shown
from interview.base.files.writing import write_whole
from interview.base.rows.lines import printable
from interview.graph.questions import Questionnaire
from interview.setups.earlier import past_files, previous_file
from interview.setups.loading import LONGEST_TITLE, read, refuse
from interview.setups.saved_files import Saved, saved_in
from interview.setups.setup import SetupError, folder
from interview.setups.writing import write

__all__ = ["Shelved", "delete", "meant", "put_back", "retitle", "shelf"]


@dataclass(frozen=True)
class Shelved:
    """One saved setup as it stands in the list."""

    saved: Saved
    title: str
    state: str
    previous: bool
    """Whether the version before the last talk is kept."""


def shelf(questionnaire: Questionnaire) -> list[Shelved]:
    """What is saved in the folder, the newest first; SetupError where there is no such folder."""
    return [_shelved(saved, questionnaire) for saved in saved_in(folder())]


def _shelved(saved: Saved, questionnaire: Questionnaire) -> Shelved:
    path = saved.path
    title, state = path.stem, "can't be read"
    try:
        if path.stat().st_size:
            setup = read(path, questionnaire)
            title, number = setup.title or title, len(setup.answers)
            state = "1 answer" if number == 1 else f"{number} answers"
        else:
            state = "no answer yet"
    except (OSError, SetupError):
        pass
    return Shelved(saved, printable(title), state, previous_file(path).is_file())


def meant(said: str, rows: Sequence[Shelved]) -> Path:
    """The setup meant by its number in the list, its file, or words of its title.

    Raises SetupError when none or several are meant.
    """
    if said.isascii() and said.isdecimal() and 1 <= int(said) <= len(rows):
        return rows[int(said) - 1].saved.path
    for path in (Path(said), folder() / said, folder() / f"{said}.yaml"):
        if said and _is_file(path):
            return path
    words = said.casefold().split()
    found = [row for row in rows if words and all(w in row.title.casefold() for w in words)]
    if len(found) == 1:
        return found[0].saved.path
    if found:
        names = ", ".join(row.saved.path.name for row in found)
        raise SetupError(f"“{printable(said)}” may be any of {names}. Type one of these names.")
    raise SetupError(
        f"No saved setup goes by “{shown(Path(said))}”. “tankside setups” lists them, each with "
        "its number."
    )


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except (OSError, ValueError):
        return False


def retitle(path: Path, title: str, questionnaire: Questionnaire) -> str:
    """Give a setup another title; returns the old one. Raises SetupError."""
    title = printable(" ".join(title.split()))
    if not title or len(title) > LONGEST_TITLE:
        raise SetupError(f"A title has 1 to {LONGEST_TITLE} letters, as “Study window”.")
    setup = read(path, questionnaire)
    try:
        write(path, replace(setup, title=title))
    except OSError as problem:
        raise _failed(path, problem) from problem
    return printable(setup.title or path.stem)


def put_back(path: Path) -> None:
    """Change places with the version before the last talk. Raises SetupError."""
    kept = previous_file(path)
    try:
        earlier, now = read_small(kept), read_small(path)
    except FileRefused:
        refuse(path)
        raise SetupError(f"No version before this one is kept of {path.name}.") from None
    dates = {file: file.stat() for file in (path, kept)}
    try:
        write_whole(kept, now)
        write_whole(path, earlier)
        for file, other in ((path, kept), (kept, path)):
            os.utime(file, ns=(dates[other].st_atime_ns, dates[other].st_mtime_ns))
    except OSError as problem:
        raise _failed(path, problem) from problem


def delete(path: Path) -> None:
    """Remove a setup with all its earlier versions; pages stay. Raises SetupError."""
    try:
        for file in (*(file for _, file in past_files(path)), previous_file(path)):
            with contextlib.suppress(FileNotFoundError):
                file.unlink()
        path.unlink()
    except OSError as problem:
        raise _failed(path, problem) from problem


def _failed(path: Path, problem: OSError) -> SetupError:
    return SetupError(f"{shown(path)} can't be changed: {problem.strerror}.")
