"""What stands on every list, read from data: usual settings, and which answers go together."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from functools import cache
from pathlib import Path
from typing import Annotated, Any, TypeAlias

from interview.base.places import file_said
from interview.base.rows import FileError, Names, Row, Said, read, unknown_names
from interview.vocabulary.vocabulary import vocabulary

__all__ = ["Usual", "faults", "usual"]

_PATH = Path(__file__).with_suffix(".yaml")
_Name: TypeAlias = Annotated[str, Names("quantity")]


class Usual(Row, frozen=True):
    """The file."""

    settings: dict[_Name, Said]
    over_sand: dict[_Name, Said]
    """In place of the usual, for animals that dig in fine sand."""
    rounded: tuple[_Name, ...]
    """Lengths rounded to what a keeper can set in their own units."""
    together: tuple[tuple[_Name, ...], ...]
    """Answers that make one thing; every other stands alone."""
    goes_with: tuple[tuple[_Name, ...], ...]
    """Of one thing: where the keeper has decided one otherwise, the list leaves the rest."""
    no_wish: tuple[_Name, ...]
    instruments: dict[_Name, dict[str, str]]
    """For each answer what it is read with, and the specification of that."""

    def values(self, *, sand: bool) -> dict[str, Any]:
        """Every setting in core units."""
        said = self.settings | (self.over_sand if sand else {})
        return {name: value.to(vocabulary()[name].unit) for name, value in said.items()}


@cache
def usual() -> Usual:
    """The usual settings."""
    return read(_PATH, Usual)


def faults(
    names: Collection[str], words: Mapping[str, Collection[str]], path: Path = _PATH
) -> list[str]:
    """Everything that is wrong with the file, as sentences.

    Args:
        names: every answer and quantity
        words: what may be answered where the answer is a word, or yes or no
        path: the file
    """
    try:
        file = read(path, Usual)
    except FileError as problem:
        return list(problem.faults)
    found = list(unknown_names(file, {"quantity": names}))
    for key in ("settings", "over_sand"):
        for name, said in getattr(file, key).items():
            if name in names and (wrong := _wrong(name, said, words.get(name))):
                place = f"{file_said(path)}, line {file.where.line_of(key)}"
                found.append(str(FileError(place, f"{key}, {name}: {wrong}")))
    return found


def _wrong(name: str, said: Said, words: Collection[str] | None) -> str:
    """Why a value is no answer; "" where it is one."""
    entry = vocabulary()[name]
    try:
        value = said.to(entry.unit)
    except ValueError as problem:
        return str(problem)
    if isinstance(value, float):
        low, high = entry.span
        inside = low <= value <= high
        return "" if inside else f"{value:g} {entry.unit} is outside its range, {entry.range}"
    spoken = {True: "yes", False: "no"}.get(value, value) if isinstance(value, bool) else value
    if words and isinstance(spoken, str) and spoken not in words:
        return f"“{spoken}” is no answer to it; there are {', '.join(words)}"
    return ""
