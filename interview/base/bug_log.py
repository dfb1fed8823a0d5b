"""The log of a bug: where it happened and with which versions, never what the keeper typed."""

from __future__ import annotations

import os
import platform
import sys
from collections.abc import Iterator
from contextlib import contextmanager

__all__ = ["at_answer", "write_log"]

_AT = "at the answer "
_PACKAGES = (
    "icalendar", "msgspec", "numpy", "pint", "prompt-toolkit", "pyyaml", "rapidfuzz", "rich",
)  # fmt: skip
_WITH_WORDS = "TANKSIDE_LOG_WORDS"
"""Set to yes, messages stand in the log too; they may repeat what was typed."""


@contextmanager
def at_answer(name: str) -> Iterator[None]:
    """Note on whatever fails inside which answer it came up at."""
    try:
        yield
    except Exception as problem:
        problem.add_note(f"{_AT}{name}")
        raise


def write_log(problem: BaseException) -> str:
    """Write the log of a bug and return its path; "" where none can be written."""
    import tempfile

    try:
        with tempfile.NamedTemporaryFile(
            "w", prefix="tankside-", suffix=".log", delete=False, encoding="utf-8"
        ) as log:
            log.writelines(f"{line}\n" for line in _lines(problem))
        return log.name
    except OSError:
        return ""


def _lines(problem: BaseException) -> Iterator[str]:
    from interview import __version__

    yield f"tankside {__version__}"
    yield f"Python {platform.python_version()} on {platform.system()} {platform.release()}"
    yield ", ".join(f"{name} {_version(name)}" for name in _PACKAGES)
    yield f"command: {_command()}"
    yield ""
    yield from _told(problem)
    if not _with_words():
        yield ""
        yield f"Messages are left out, as they may repeat answers; {_WITH_WORDS}=yes keeps them."


def _told(problem: BaseException) -> Iterator[str]:
    """Type, place and answer of an exception, after those of its cause."""
    import traceback

    earlier = problem.__cause__ or (None if problem.__suppress_context__ else problem.__context__)
    if earlier is not None:
        yield from _told(earlier)
        yield "then"
    yield type(problem).__qualname__ + (f": {problem}" if _with_words() else "")
    for note in getattr(problem, "__notes__", ()):
        if note.startswith(_AT):
            yield f"  {note}"
    for frame in traceback.extract_tb(problem.__traceback__):
        yield f"  {frame.filename}, line {frame.lineno}, in {frame.name}"


def _with_words() -> bool:
    return os.environ.get(_WITH_WORDS, "").casefold() in ("yes", "1", "true")


def _command() -> str:
    """The command and its options; names of files and values are the keeper's own."""
    said = [word for word in sys.argv[1:2] if word.isalpha() and word.isascii()]
    return " ".join([*said, *(word.partition("=")[0] for word in sys.argv[2:] if word[:2] == "--")])


def _version(name: str) -> str:
    from importlib import metadata

    try:
        return metadata.version(name)
    except metadata.PackageNotFoundError:
        return "missing"
