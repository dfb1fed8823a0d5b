"""Files written whole or not at all; what a killed write left behind is swept away."""

from __future__ import annotations

import contextlib
import os
import re
import stat
import tempfile
import time
from pathlib import Path

__all__ = ["sweep", "write_whole"]

_PRIVATE = 0o600
_ENDING = ".tankside-part"
_PART = re.compile(rf"\..+\.\w{{8}}(?:{re.escape(_ENDING)})?", re.DOTALL)
_MOST = 40
"""Letters of a file's name that its half-written copy repeats; names have a limit."""
_OLD = 3600.0
"""Seconds after which nobody writes on at a half-written file."""


def write_whole(path: Path, text: str) -> None:
    """Write a file at once: a crash or a full disk leaves the old one as it was.

    Through a link the file behind it is written. An old file keeps its mode; a new one can be
    read by its owner alone. Raises OSError.
    """
    target = Path(os.path.realpath(path))
    handle, part = tempfile.mkstemp(
        dir=target.parent, prefix=f".{target.name[:_MOST]}.", suffix=_ENDING
    )
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline="") as file:
            file.write(text)
            file.flush()
            _take_after(target, file.fileno())
            os.fsync(file.fileno())
        Path(part).replace(target)
    except BaseException:
        Path(part).unlink(missing_ok=True)
        raise


def _take_after(target: Path, handle: int) -> None:
    """Give a file that is written the mode and the owner of the one it replaces."""
    if os.name != "posix":
        return
    try:
        old = target.stat()
    except OSError:
        os.fchmod(handle, _PRIVATE)
        return
    with contextlib.suppress(OSError):  # a file of somebody else becomes ours
        os.fchown(handle, old.st_uid, old.st_gid)
    os.fchmod(handle, stat.S_IMODE(old.st_mode))


def sweep(folder: Path, opening: str) -> None:
    """Remove what killed writes left in a folder, if it is ours and old.

    Args:
        folder: where to look; one that can't be read is left alone
        opening: how our files begin; a half-written one may be empty
    """
    with contextlib.suppress(OSError):
        for part in folder.iterdir():
            if _PART.fullmatch(part.name):
                _drop_if_left(part, opening)


def _drop_if_left(part: Path, opening: str) -> None:
    with contextlib.suppress(OSError):
        found = part.lstat()
        if not stat.S_ISREG(found.st_mode) or time.time() - found.st_mtime < _OLD:
            return
        if part.name.endswith(_ENDING) or _begins(part, opening.encode()):
            part.unlink()


def _begins(part: Path, opening: bytes) -> bool:
    """Whether a file begins as ours do, as far as it was written."""
    with part.open("rb") as file:
        return opening.startswith(file.read(len(opening)))
