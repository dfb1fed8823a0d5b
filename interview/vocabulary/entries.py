"""The vocabulary: one entry for every name, with unit, physical range and meaning."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import ClassVar

import msgspec

from interview.base.rows import FileError, Row, WrongKey, read_folder

__all__ = ["Entry", "load", "range_in", "vocabulary"]

_HERE = Path(__file__).parent
_RANGE = re.compile(r"([-+.\deE]+) to ([-+.\deE]+)")


def range_in(text: str) -> tuple[float, float] | None:
    """The ends of “0.02 to 0.2”; None for other words."""
    found = _RANGE.fullmatch(text.strip())
    return (float(found[1]), float(found[2])) if found else None


class Entry(Row, frozen=True):
    """What is known of one name, whoever asks, computes or shows it."""

    example: ClassVar[str] = "{unit: m, range: 0.02 to 3, meaning: lamp face to platform surface}"

    unit: str
    """The core's unit."""
    range: str = ""
    """The physical range, as “0.02 to 3”: no tank has less or more; "" where nothing is told."""
    meaning: str = ""
    """As a data sheet says it; empty where the function of that name says it."""
    each_animal: bool = False
    """Whether it holds a value for each animal."""
    name: str = msgspec.field(default="", name=" name")

    def __post_init__(self) -> None:
        """Refuse a range that is none."""
        ends = range_in(self.range)
        if self.range and (ends is None or ends[0] > ends[1]):
            raise WrongKey("range", f"“{self.range}” is no range; write it as 0.02 to 3")

    @property
    def span(self) -> tuple[float, float]:
        """Both ends of the physical range, infinite where nothing is told."""
        return range_in(self.range) or (-math.inf, math.inf)


def load(folder: Path) -> dict[str, Entry]:
    """Every entry of a folder's files by name; FileError with file and line says what is wrong."""
    entries: dict[str, Entry] = {}
    for _, file in read_folder(folder, dict[str, Entry]):
        for name, entry in file.items():
            if name in entries:
                raise FileError(entry.where, f"{name} stands in the vocabulary already")
            entries[name] = msgspec.structs.replace(entry, name=name)
    return entries


@cache
def vocabulary() -> Mapping[str, Entry]:
    """The project's own vocabulary."""
    return load(_HERE)
