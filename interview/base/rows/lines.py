"""Reads YAML so that every complaint can name file and line."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from interview.base.places import file_said
from interview.base.rows.row import Where

__all__ = ["FileError", "Lined", "printable", "read_lined", "words_in"]


class FileError(ValueError):
    """A data file that can't be used; the message starts with file and line.

    `faults` holds every fault that was found, the message the first of them.
    """

    def __init__(self, where: Lined | Where | Path | str, message: str) -> None:
        place = str(where)
        if isinstance(where, Lined | Where):
            place = f"{file_said(where.path)}, line {where.line}"
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


_TEXT, _MAPPING, _LIST = (f"tag:yaml.org,2002:{kind}" for kind in ("str", "map", "seq"))
_OF_KIND = {"scalar": _TEXT, "mapping": _MAPPING, "sequence": _LIST}
"""The tag of a kind of node that says no more than the kind."""


class _Builder:
    """Turns the nodes of one file into values, mappings into Lined ones.

    Their kind decides, not their tag, which a file may give as it likes: a list tagged as text.
    """

    def __init__(
        self, path: Path, loader: Any, text_of: Callable[[str], str], *, tags: bool
    ) -> None:
        self._path, self._loader, self._text_of, self._tags = path, loader, text_of, tags
        self._built: dict[int, Any] = {}

    def of(self, node: Any) -> Any:
        """The value of a node; what is referred to often is built once."""
        if node.tag == _TEXT and node.id == "scalar":
            return self._text_of(node.value)
        if id(node) not in self._built:
            self._built[id(node)] = self._new(node)
        return self._built[id(node)]

    def _new(self, node: Any) -> Any:
        if self._tags and node.tag != _OF_KIND[node.id]:
            return self._tagged(node)
        if node.id == "mapping":
            return self._mapping(node)
        if node.id == "sequence":
            return [self.of(item) for item in node.value]
        return self._text_of(node.value)

    def _tagged(self, node: Any) -> Any:
        """A number, a date, a yes; or what a file says is one."""
        try:
            return self._loader.construct_object(node, deep=True)
        except (ValueError, LookupError, AttributeError):  # PyYAML's own, for 2026-13-45
            kind = node.tag.rpartition(":")[2]
            line = node.start_mark.line + 1
            raise self._fault(line, f"“{printable(node.value)}” is no {kind}") from None

    def _mapping(self, node: Any) -> Lined:
        made = Lined()
        made.path, made.line = self._path, node.start_mark.line + 1
        for key_node, value_node in node.value:
            line = key_node.start_mark.line + 1
            if key_node.id != "scalar":
                raise self._fault(line, "a name must stand before the colon")
            key = self.of(key_node)
            if key in made:
                raise self._fault(line, f"“{printable(key)}” stands here a second time")
            made.lines[key] = line
            made[key] = self.of(value_node)
        return made

    def _fault(self, line: int, wrong: str) -> FileError:
        return FileError(f"{file_said(self._path)}, line {line}", wrong)


def _parsed(text: str, path: Path, text_of: Callable[[str], str], *, tags: bool) -> Any:
    """The values of a file; a scalar is a number, a date or a yes only where `tags` count."""
    import yaml  # heavy: not before a file is read

    schema = "Safe" if tags else "Base"
    try:
        loader: Any = getattr(yaml, f"C{schema}Loader", getattr(yaml, f"{schema}Loader"))(text)
        node = loader.get_single_node()
        return None if node is None else _Builder(path, loader, text_of, tags=tags).of(node)
    except yaml.MarkedYAMLError as problem:
        mark = problem.problem_mark or problem.context_mark
        place = f"{file_said(path)}, line {mark.line + 1}" if mark else file_said(path)
        raise FileError(place, f"not readable as YAML ({problem.problem})") from problem
    except RecursionError:
        raise FileError(file_said(path), "not readable as YAML (nested too deeply)") from None
    except yaml.YAMLError as problem:
        said = str(problem).splitlines()[0]
        raise FileError(file_said(path), f"not readable as YAML ({said})") from problem


def _on_one_line(text: str) -> str:
    return " ".join(text.split())


def printable(text: object) -> str:
    """Text from a file or a keyboard without what a terminal would take for a command."""
    return "".join(letter for letter in str(text) if letter.isprintable())


def read_lined(path: Path, *, verbatim: bool = False) -> Any:
    """The file as YAML types, every run of white space in a text as one space.

    Mappings are Lined. FileError if it can't be read.

    Args:
        path: the file
        verbatim: whether every scalar stays the characters that were typed, as in `words_in`
    """
    try:
        text = path.read_text(encoding="utf-8")
    except UnicodeDecodeError as problem:
        raise FileError(file_said(path), "the file is not UTF-8 text") from problem
    return words_in(text, path) if verbatim else _parsed(text, path, _on_one_line, tags=True)


def words_in(text: str, path: Path) -> Any:
    """YAML with every scalar as the characters that were typed (`no` stays "no").

    Args:
        text: the YAML
        path: the file it was read from, for complaints
    """
    return _parsed(text, path, str, tags=False)
