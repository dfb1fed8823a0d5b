"""Many setups: in as many processes as there are cores, what is said of them in order."""

from __future__ import annotations

import argparse
import functools
import os
import signal
import sys
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from interview.commands.auditing import judged
from interview.commands.failures import BUG, DONE, STOP, UNUSABLE, complain, said_of_bug

if TYPE_CHECKING:
    from interview.report.overview import Summary

__all__ = [
    "at_a_glance",
    "cores",
    "each_in_order",
    "in_order",
    "is_folder",
    "named",
    "one_as_json",
    "setups_in",
]

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
    import multiprocessing

    # A forked process has at once what is loaded already; elsewhere forking isn't safe.
    way = multiprocessing.get_context("fork" if sys.platform == "linux" else "spawn")
    number = min(processes, len(paths))
    with way.Pool(number, _leave_to_parent, maxtasksperchild=_BEFORE_ANEW) as pool:
        yield from pool.imap(work, paths)


def _leave_to_parent() -> None:
    """Ctrl-C ends the parent, which ends its processes."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


class Written(NamedTuple):
    """What became of one file of several: its text for stdout, and why there is no page if so."""

    text: str
    code: int
    problem: str = ""
    summary: Summary | None = None


def at_a_glance(paths: Sequence[Path], arguments: argparse.Namespace) -> int:
    """A line for each setup, the worst first; as many are audited at a time as there are cores."""
    from interview.report.overview import overview_blocks

    found = [_told(one) for one in in_order(_summed, paths, cores())]
    summaries = [one.summary for one in found if one.summary]
    if summaries:
        blocks = overview_blocks(summaries, len(found) - len(summaries))
        judged.page_face(arguments).blocks(blocks)
    return max((one.code for one in found), default=DONE)


def _told(written: Written) -> Written:
    if written.problem:
        complain(f"tankside: {written.problem}")
    return written


def _summed(path: Path) -> Written:
    """One setup as a line of the table; it needs no plans."""
    import datetime

    from interview.report.overview import summary_of

    def work() -> Written:
        audit, _ = judged.judged_file(path, ())
        summary = summary_of(audit, str(path), datetime.date.today())
        return Written("", STOP if audit.grades.stop else DONE, summary=summary)

    return _caught(work, path)


def each_in_order(paths: Sequence[Path], arguments: argparse.Namespace) -> int:
    """Audit several files, as many at a time as there are cores.

    Each page is written, and let go, as soon as it is there; where all stand in one document its
    end is written however the work ends.
    """
    before, between, after = judged.dress_of(arguments).around
    work = functools.partial(_written, arguments=arguments, form=judged.format_of(arguments))
    worst, begun = DONE, False
    try:
        for written in map(_told, in_order(work, paths, cores())):
            worst = max(worst, written.code)
            if written.text:
                said, begun = (between if begun else before) + written.text, True
                sys.stdout.write(said)
                sys.stdout.flush()
    finally:
        if begun:
            sys.stdout.write(after)
    return worst


def one_as_json(path: Path, arguments: argparse.Namespace) -> int:
    """The list with its one audit, or with what is wrong with the file."""
    written = _told(_written(path, arguments=arguments, form="json", alone=True))
    around = judged.dress_of(arguments).around
    sys.stdout.write(around[0] + written.text + around[2] if written.problem else written.text)
    return written.code


def _written(
    path: Path, *, arguments: argparse.Namespace, form: str, alone: bool = False
) -> Written:
    """The page of one file as text; a file that can't be used, or a bug, stops no other."""
    from interview.report.formats.register import format_called

    dress = format_called(form)

    def work() -> Written:
        audited = judged.audit_file(path, arguments.suppose)
        page = judged.page_for(audited, arguments, file=str(path))
        text = dress.alone(page) if alone else dress.dress(page)
        return Written(text, STOP if audited.audit.grades.stop else DONE)

    written = _caught(work, path)
    if written.problem:
        return written._replace(text=dress.missing(str(path), written.problem))
    return written


def _caught(work: Callable[[], Written], path: Path) -> Written:
    """What the work gives; else why there is nothing."""
    from interview.setups import SetupError

    try:
        return work()
    except SetupError as problem:
        return Written("", UNUSABLE, str(problem))
    except Exception as problem:
        return Written("", BUG, said_of_bug(problem, path.name).removeprefix("tankside: "))
