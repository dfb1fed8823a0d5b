"""Files that people name: only regular ones are read, small and in UTF-8, without waiting."""

from __future__ import annotations

import os
import stat
from pathlib import Path

__all__ = ["MOST_BYTES", "FileRefused", "read_small", "refuse_unreadable", "shown"]

MOST_BYTES = 1_000_000
_LONGEST = 250
_CUT = 60
_KINDS = (
    (stat.S_ISDIR, "a folder"),
    (stat.S_ISFIFO, "a pipe"),
    (stat.S_ISCHR, "a device"),
    (stat.S_ISBLK, "a device"),
    (stat.S_ISSOCK, "a socket"),
)


class FileRefused(ValueError):
    """A file that can't be read, as one sentence."""


def read_small(path: Path) -> str:
    """The text of a file.

    Nothing is waited for: a pipe, a device or a folder is refused before it is opened.

    Raises FileRefused for what is no regular file of at most MOST_BYTES in UTF-8.
    """
    refuse_unreadable(path)
    flags = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
    try:
        with os.fdopen(os.open(path, flags), "rb") as file:
            content = file.read(MOST_BYTES + 1)
    except OSError as problem:
        raise FileRefused(f"{shown(path)} can't be read: {problem.strerror}.") from problem
    if len(content) > MOST_BYTES:
        raise FileRefused(_too_large(path))
    try:
        return content.decode("utf-8")
    except UnicodeDecodeError as problem:
        other = " but UTF-16" if content[:2] in (b"\xff\xfe", b"\xfe\xff") else ""
        raise FileRefused(
            f"{shown(path)}: the file is not UTF-8 text{other}. Save it as UTF-8."
        ) from problem


def refuse_unreadable(path: Path) -> None:
    """FileRefused for what read_small would refuse by its kind and size; reads nothing."""
    if str(path) == ".":
        raise FileRefused("No file is named. Type its name, as tank.yaml.")
    try:
        found = path.stat()
    except FileNotFoundError:
        raise FileRefused(_missing(path)) from None
    except OSError as problem:
        raise FileRefused(f"{shown(path)} can't be read: {problem.strerror}.") from problem
    except ValueError as problem:  # a null character in the name
        raise FileRefused(f"“{shown(path)}” can't be the name of a file.") from problem
    _refuse_kind(path, found)


def _refuse_kind(path: Path, found: os.stat_result) -> None:
    for is_kind, kind in _KINDS:
        if is_kind(found.st_mode):
            raise FileRefused(f"{shown(path)} can't be read: it is {kind}, no file.")
    if found.st_size > MOST_BYTES:
        raise FileRefused(_too_large(path))


def _missing(path: Path) -> str:
    if path.is_symlink():
        return f"{shown(path)} is a link to a file that is not there."
    return f"There is no file {shown(path)}. Check the name, or start one with “tankside”."


def _too_large(path: Path) -> str:
    return f"{shown(path)} is larger than {MOST_BYTES // 1_000_000} MB, and no setup is that large."


def shown(path: Path) -> str:
    """A path fit for a sentence."""
    text = "".join(letter if letter.isprintable() else "?" for letter in str(path))
    return text if len(text) <= _LONGEST else f"{text[:_CUT]}…"
