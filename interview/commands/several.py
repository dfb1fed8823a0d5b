"""Work over many files: in as many processes as there are cores, its results in order."""

from __future__ import annotations

import argparse
import multiprocessing
import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TypeVar

__all__ = ["cores", "in_order", "is_folder", "named", "setups_in"]

T = TypeVar("T")
_BEFORE_ANEW = 16
"""Files that one process takes before another takes its place, so that no memory grows."""
_ENDINGS = (".yaml", ".yml")


def named(text: str) -> Path:
    """A file or folder as typed on the command line; refuses "", which a path takes for “here”."""
    if not text.strip():
        raise argparse.ArgumentTypeError("No file is named")
    return Path(text)


def is_folder(path: Path) -> bool:
    """Whether it is one, as far as the system can tell."""
    try:
        return path.is_dir()
    except OSError:  # such as a name that is too long
        return False


def setups_in(paths: Sequence[Path]) -> Iterator[Path]:
    """The files, and for each folder the setup files in it, by name; hidden ones are left out.

    A folder without any stands for itself, so that it is named as what can't be used.
    """
    for path in paths:
        yield from _inside(path) or [path]


def _inside(folder: Path) -> list[Path]:
    try:
        return sorted(
            p for p in folder.iterdir() if p.suffix in _ENDINGS and not p.name.startswith(".")
        )
    except OSError:
        return []


def cores() -> int:
    """Processor cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def in_order(work: Callable[[Path], T], paths: Sequence[Path], processes: int) -> Iterator[T]:
    """What `work` makes of each path, in the order of the paths, each as soon as it is there.

    Args:
        work: a function of a module, or a partial of one; what it returns is sent between processes
        paths: the files
        processes: how many work at a time; with 1 there is none but this one
    """
    if processes < 2 or len(paths) < 2:
        yield from map(work, paths)
        return
    # A forked process has at once what is loaded already; elsewhere forking isn't safe.
    way = multiprocessing.get_context("fork" if sys.platform == "linux" else "spawn")
    number = min(processes, len(paths))
    with way.Pool(number, _leave_to_parent, maxtasksperchild=_BEFORE_ANEW) as pool:
        yield from pool.imap(work, paths)


def _leave_to_parent() -> None:
    """Ctrl-C ends the parent, which ends its processes."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
