"""Reads YAML so that every complaint can name file and line."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from interview.base.rows.row import Where

__all__ = ["FileError", "Lined", "printable", "read", "read_folder", "read_lined", "read_words"]

_Safe: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_Base: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)


class FileError(ValueError):
    """A data file that can't be used; the message starts with file and line.

    `faults` holds every fault that was found, the message the first of them.
    """

    def __init__(self, where: Lined | Where | Path | str, message: str) -> None:
        place = str(where)
        if isinstance(where, Lined | Where):
            place = f"{where.path.name}, line {where.line}"
        super().__init__(f"{place}: {message}")
        self.faults: tuple[str, ...] = (str(self),)

    @classmethod
    def of(cls, faults: tuple[str, ...]) -> FileError:
        """All faults of a file, each a sentence that starts with file and line."""
        place, _, message = faults[0].partition(": ")
        made = cls(place, message)
        made.faults = faults
        return made


class Lined(dict[str, Any]):
    """A mapping that remembers where it stood."""

    path: Path = Path()
    line: int = 0

    def __init__(self) -> None:
        """Empty; the reader fills it."""
        super().__init__()
        self.lines: dict[str, int] = {}

    def line_of(self, key: str) -> int:
        """The line a key stands in."""
        return self.lines.get(key, self.line)


def _loader_for(base: Any, path: Path, *, one_line: bool = False) -> Any:
    class Loader(base):  # type: ignore[misc]
        pass

    def mapping(loader: Any, node: yaml.MappingNode) -> Iterator[Lined]:
        made = Lined()
        made.path, made.line = path, node.start_mark.line + 1
        yield made
        for key_node, value_node in node.value:
            line = key_node.start_mark.line + 1
            if not isinstance(key_node, yaml.ScalarNode):
                raise FileError(f"{path.name}, line {line}", "a name must stand before the colon")
            key = loader.construct_object(key_node, deep=True)
            if key in made:
                raise FileError(
                    f"{path.name}, line {line}", f"“{printable(key)}” stands here a second time"
                )
            made.lines[key] = line
            made[key] = loader.construct_object(value_node, deep=True)

    def text(loader: Any, node: yaml.ScalarNode) -> str:
        return " ".join(loader.construct_scalar(node).split())

    Loader.add_constructor("tag:yaml.org,2002:map", mapping)
    if one_line:
        Loader.add_constructor("tag:yaml.org,2002:str", text)
    return Loader


def _read(path: Path, base: Any, *, one_line: bool = False) -> Any:
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as problem:
        raise FileError(path.name, "the file is not UTF-8 text") from problem
    try:
        return yaml.load(text, Loader=_loader_for(base, path, one_line=one_line))
    except yaml.MarkedYAMLError as problem:
        mark = problem.problem_mark or problem.context_mark
        place = f"{path.name}, line {mark.line + 1}" if mark else path.name
        raise FileError(place, f"not readable as YAML ({problem.problem})") from problem
    except RecursionError:
        raise FileError(path.name, "not readable as YAML (nested too deeply)") from None
    except yaml.YAMLError as problem:
        said = str(problem).splitlines()[0]
        raise FileError(path.name, f"not readable as YAML ({said})") from problem


def printable(text: object) -> str:
    """Text from a file or a keyboard without what a terminal would take for a command."""
    return "".join(letter for letter in str(text) if letter.isprintable())


def read(path: Path) -> Any:
    """The file as YAML types; mappings are Lined. FileError if it can't be read."""
    return _read(path, _Safe)


def read_lined(path: Path) -> Any:
    """As `read`, with every run of white space in a text as one space."""
    return _read(path, _Safe, one_line=True)


def read_words(path: Path) -> Any:
    """The file with every scalar as the characters that were typed (`no` stays "no")."""
    return _read(path, _Base)


def read_folder(folder: Path) -> Iterator[tuple[Path, Any]]:
    """Each *.yaml of a folder in name order."""
    for path in sorted(folder.glob("*.yaml")):
        yield path, read(path)
