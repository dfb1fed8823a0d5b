"""What the output takes: text at all, told before minutes of work go into it, or a screen's."""

from __future__ import annotations

import errno
import os
import stat
import sys

__all__ = ["has_screen", "refuse_full"]


def has_screen() -> bool:
    """Whether standard output is a terminal that can do more than print lines."""
    term = os.environ.get("TERM", "dumb" if os.name == "posix" else "console")
    return sys.stdout.isatty() and term not in ("dumb", "")


def refuse_full() -> None:
    """Raise the OSError that writing would raise at the end: a full disk, or a full device.

    Nothing is written to a file or a pipe. A device that is no terminal gets an empty line, which
    is how it tells; so begins a plain page, and every other format takes one.
    """
    try:
        output = sys.stdout.fileno()
    except (OSError, ValueError):
        return  # no file of the system's stands behind it
    mode = os.fstat(output).st_mode
    if stat.S_ISREG(mode) and hasattr(os, "fstatvfs") and os.fstatvfs(output).f_bfree == 0:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
    if stat.S_ISCHR(mode) and not os.isatty(output):
        os.write(output, b"\n")
