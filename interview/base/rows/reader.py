"""Reads a YAML file into typed rows, or says everything that is wrong with it."""

from __future__ import annotations

import contextlib
import threading
from pathlib import Path
from typing import Any, TypeVar

import msgspec
from msgspec.structs import force_setattr as set_field

from interview.base.rows.faults import Faults
from interview.base.rows.lines import FileError, read_lined
from interview.base.rows.row import Row, Where

__all__ = ["read", "read_folder"]

T = TypeVar("T")
_HOLDING_ROWS = (dict, list)
_LEARNING = threading.Lock()
"""Held while msgspec learns the fields of a class.

Two threads that ask for a class at the same time, as the talk and what warms it up do, may
otherwise meet it half learnt, which is a segmentation fault (msgspec 0.22, CPython 3.11).
"""


def read(path: Path, kind: type[T], *, verbatim: bool = False) -> T:
    """The file as `kind`: a Row, or a tuple or dict of rows.

    Args:
        path: a YAML file; every run of white space in a text counts as one space
        kind: what it holds, as `dict[str, Fact]`
        verbatim: whether a text stays as typed: `no` is a word, and a number where one is wanted

    Raises:
        FileError: with every fault of the file in `faults`, the first one as its message
    """
    written = read_lined(path, verbatim=verbatim)
    _learn(kind)

    def converted(said: Any, wanted: Any) -> Any:
        return msgspec.convert(said, wanted, strict=not verbatim, dec_hook=_custom)

    try:
        found: T = converted(written, kind)
    except msgspec.ValidationError as problem:
        if isinstance(problem.__cause__, FileError):  # of a file that this one needs
            raise problem.__cause__ from None
        raise FileError.of(Faults(path, converted).of(written, kind)) from problem
    _place(found, written)
    return found


def _learn(kind: type[Any]) -> None:
    """Let msgspec learn what a kind of rows holds, one thread at a time; nothing is read by it."""
    with _LEARNING, contextlib.suppress(msgspec.ValidationError):
        msgspec.convert(object(), kind)


def read_folder(folder: Path, kind: type[T]) -> list[tuple[Path, T]]:
    """Each *.yaml of a folder in name order, as `kind`; FileError with the faults of all."""
    found: list[tuple[Path, T]] = []
    faults: list[str] = []
    for path in sorted(folder.glob("*.yaml")):
        try:
            found.append((path, read(path, kind)))
        except FileError as problem:
            faults += problem.faults
    if faults:
        raise FileError.of(tuple(faults))
    return found


def _custom(kind: type[Any], said: Any) -> Any:
    """What msgspec has no type for: a class with `read` is asked to read it itself."""
    if not hasattr(kind, "read"):
        raise ValueError(f"no file can hold {kind.__name__}")
    return kind.read(said)


def _place(found: Any, written: Any) -> None:
    """Tell every row where it stood."""
    if isinstance(found, tuple | list):
        for one, part in zip(found, written, strict=True):
            if isinstance(part, _HOLDING_ROWS):
                _place(one, part)
    elif isinstance(found, Row):
        set_field(found, "where", Where(written.path, written.line, written.lines))
        for key, part in written.items():
            if isinstance(part, _HOLDING_ROWS):
                _place(getattr(found, key), part)
    elif isinstance(found, dict):
        for key, part in written.items():
            if isinstance(part, _HOLDING_ROWS):
                row = found[key]
                _place(row, part)
                if isinstance(row, Row):
                    set_field(row, "key", str(key))
