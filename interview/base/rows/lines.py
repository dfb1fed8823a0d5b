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


class _Builder:
    """Turns the events of one file into values, mappings into Lined ones.

    It asks for no nodes: to make them takes as long as all the rest.
    """

    def __init__(self, path: Path, loader: Any, text_of: Callable[[str], str]) -> None:
        import yaml

        self._path, self._loader, self._text_of, self._yaml = path, loader, text_of, yaml
        self._scalar, self._scalar_node = yaml.ScalarEvent, yaml.ScalarNode
        self._special = loader.yaml_implicit_resolvers
        """First letters of what may be no text: a number, yes, a date."""
        self._anchored: dict[str, Any] = {}

    def only(self) -> Any:
        """The value of the one document there is; None where there is none."""
        yaml, loader = self._yaml, self._loader
        loader.get_event()
        if loader.check_event(yaml.StreamEndEvent):
            return None
        loader.get_event()
        found = self._of(loader.get_event())
        loader.get_event()
        if not loader.check_event(yaml.StreamEndEvent):
            raise self._unreadable(loader.peek_event(), "but found another document")
        return found

    def _of(self, event: Any) -> Any:
        """The value that an event is, or begins."""
        anchor = event.anchor
        if anchor is None:
            return self._new(event)
        if isinstance(event, self._yaml.AliasEvent):
            if anchor not in self._anchored:
                raise self._unreadable(event, "found undefined alias")
            if self._anchored[anchor] is self:
                raise RecursionError  # it stands inside of itself
            return self._anchored[anchor]
        if anchor in self._anchored:
            raise self._unreadable(event, "second occurrence")
        self._anchored[anchor] = self
        self._anchored[anchor] = found = self._new(event)
        return found

    def _new(self, event: Any) -> Any:
        if isinstance(event, self._scalar):
            value = event.value
            is_text = value[:1] not in self._special or not event.implicit[0]
            return self._text_of(value) if is_text and event.tag is None else self._no_text(event)
        known = event.tag in (None, "!", _MAPPING, _LIST)
        if not known and self._loader.yaml_constructors:  # as typed, a tag means nothing
            raise self._unreadable(event, f"nothing is known of the tag {event.tag}")
        if isinstance(event, self._yaml.MappingStartEvent):
            return self._mapping(event)
        get, end, of = self._loader.get_event, self._yaml.SequenceEndEvent, self._of
        made = []
        while not isinstance(item := get(), end):
            made.append(of(item))
        return made

    def _no_text(self, event: Any) -> Any:
        """What looks like a number, a date, yes or no; or has a tag, and may still be text."""
        tag = event.tag
        if tag in (None, "!"):
            tag = self._loader.resolve(self._scalar_node, event.value, event.implicit)
        if tag == _TEXT:
            return self._text_of(event.value)
        node = self._scalar_node(tag, event.value, event.start_mark, event.end_mark)
        return self._loader.construct_object(node, deep=True)

    def _mapping(self, event: Any) -> Lined:
        made = Lined()
        made.path, made.line = self._path, event.start_mark.line + 1
        get, end, of, lines = (
            self._loader.get_event,
            self._yaml.MappingEndEvent,
            self._of,
            made.lines,
        )
        while not isinstance(key_event := get(), end):
            line, key = key_event.start_mark.line + 1, of(key_event)
            if isinstance(key, dict | list):
                raise self._fault(line, "a name must stand before the colon")
            if key in made:
                raise self._fault(line, f"“{printable(key)}” stands here a second time")
            lines[key] = line
            made[key] = of(get())
        return made

    def _unreadable(self, event: Any, problem: str) -> Exception:
        made: Exception = self._yaml.composer.ComposerError(None, None, problem, event.start_mark)
        return made

    def _fault(self, line: int, wrong: str) -> FileError:
        return FileError(f"{file_said(self._path)}, line {line}", wrong)


def _parsed(text: str, path: Path, schema: str, text_of: Callable[[str], str]) -> Any:
    import yaml  # heavy: not before a file is read

    try:
        loader: Any = getattr(yaml, f"C{schema}Loader", getattr(yaml, f"{schema}Loader"))(text)
        return _Builder(path, loader, text_of).only()
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
    return words_in(text, path) if verbatim else _parsed(text, path, "Safe", _on_one_line)


def words_in(text: str, path: Path) -> Any:
    """YAML with every scalar as the characters that were typed (`no` stays "no").

    Args:
        text: the YAML
        path: the file it was read from, for complaints
    """
    return _parsed(text, path, "Base", str)
