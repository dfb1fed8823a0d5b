"""The vocabulary: one entry for every name, and the lists that follow from the entries."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Literal

from interview.base.rows import FileError, read_folder
from interview.vocabulary.entries import Entry, InPicture

__all__ = [
    "in_picture",
    "in_table",
    "kept_from",
    "load",
    "read_with",
    "riding",
    "unwound",
    "vocabulary",
    "void_after",
]

_HERE = Path(__file__).parent
_CAPITALS = {"uv": "UV", "uvb": "UVB", "ph": "pH", "rcd": "RCD"}


def load(folder: Path) -> dict[str, Entry]:
    """Every entry of a folder's files by name; FileError with file and line says what is wrong."""
    entries: dict[str, Entry] = {}
    for _, file in read_folder(folder, dict[str, Entry]):
        for name, entry in file.items():
            if name in entries:
                raise FileError(entry.where, f"{name} stands in the vocabulary already")
            entries[name] = entry
    return entries


@cache
def vocabulary() -> Mapping[str, Entry]:
    """The project's own vocabulary."""
    return load(_HERE)


@cache
def in_table(table: Literal["whole", "moved"]) -> tuple[str, ...]:
    """The names that stand in a table of figures, in their order."""
    places = {name: e.figures for name, e in vocabulary().items() if e.figures}
    found = [(at.place, name) for name, at in places.items() if table in at.tables]
    return tuple(name for _, name in sorted(found))


@cache
def in_picture() -> Mapping[str, InPicture]:
    """The names that stand in the picture of the tank, each with its place."""
    return {name: e.picture for name, e in vocabulary().items() if e.picture}


@cache
def riding(carrier: Literal["platform"]) -> tuple[str, ...]:
    """The names that move along with something."""
    return tuple(name for name, entry in vocabulary().items() if entry.rides == carrier)


@cache
def kept_from() -> Mapping[str, tuple[str, ...]]:
    """For each reading, the calibrations that stay true when the tank is changed."""
    found: dict[str, tuple[str, ...]] = {}
    for name, entry in vocabulary().items():
        if entry.kept_from:
            found[entry.kept_from] = (*found.get(entry.kept_from, ()), name)
    return found


@cache
def read_with() -> Mapping[str, str]:
    """For what is noted down with a reading, that reading."""
    return {name: e.read_with for name, e in vocabulary().items() if e.read_with}


@cache
def void_after() -> Mapping[str, tuple[str, ...]]:
    """For each reading, the answers whose change makes another lamp, of which it says nothing."""
    return {name: e.void_after for name, e in vocabulary().items() if e.void_after}


def unwound(name: str) -> str:
    """A name in words: as its entry labels it, else its parts."""
    entry = vocabulary().get(name)
    if entry and entry.label:
        return entry.label
    return " ".join(_CAPITALS.get(word, word) for word in name.split("_"))
