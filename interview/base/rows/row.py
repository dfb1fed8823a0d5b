"""What a typed row is: a frozen record of a mapping in a data file, and where it stood."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import ClassVar

import msgspec

__all__ = ["NOWHERE", "Row", "Where", "WrongKey"]


class Where:
    """File and lines of a row; two rows that differ in nothing else are equal."""

    __slots__ = ("line", "lines", "path")

    def __init__(self, path: Path, line: int, lines: Mapping[str, int]) -> None:
        """Keep the file, the row's first line and the line of each of its keys."""
        self.path, self.line, self.lines = path, line, lines

    def line_of(self, key: str) -> int:
        """The line a key stands in; the row's own for a key that isn't there."""
        return self.lines.get(key, self.line)

    def at(self, key: str) -> Where:
        """The line of one key."""
        return Where(self.path, self.line_of(key), self.lines)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Where)

    def __hash__(self) -> int:
        return 0

    def __repr__(self) -> str:
        return f"{self.path.name}:{self.line}"


NOWHERE = Where(Path(), 0, {})


class WrongKey(ValueError):
    """Raised in a row's `__post_init__` for one key's value; the reader adds file and line."""

    def __init__(self, key: str, message: str) -> None:
        self.key = key
        super().__init__(message)


class Row(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A mapping of a data file: its keys are the fields, those without a default are needed.

    A subclass may check itself in `__post_init__` and raise `WrongKey` or ValueError. `EXAMPLE`
    is shown to whoever leaves something out. What a row is called in complaints is its first
    field, or its key in the mapping that holds it.
    """

    EXAMPLE: ClassVar[str] = ""

    # hidden from the files by names that no key can have
    where: Where = msgspec.field(default=NOWHERE, name=" where")
    key: str = msgspec.field(default="", name=" key")
    """What it stands under in the mapping that holds it."""
