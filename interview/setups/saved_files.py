"""What is saved in a folder, the newest first."""

from __future__ import annotations

import stat
from dataclasses import dataclass
from pathlib import Path

__all__ = ["Saved", "saved_in"]


@dataclass(frozen=True)
class Saved:
    """A file that may be a setup, and when it was last written (seconds of the epoch)."""

    path: Path
    written: float


def saved_in(folder: Path) -> list[Saved]:
    """The regular files of a folder that are named as setups, the newest first.

    What can't be looked at (a link to nothing, a folder nobody may search) is left out.
    """
    found = []
    for path in folder.glob("*.yaml"):
        try:
            seen = path.stat()
        except OSError:
            continue
        if stat.S_ISREG(seen.st_mode):
            found.append((seen.st_mtime_ns, path))
    return [Saved(path, when / 1e9) for when, path in sorted(found, reverse=True)]
