"""Names in data files that must exist elsewhere: one mark on a field, one place that checks."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from interview.base.places import file_said
from interview.base.rows.hints import (
    alternatives,
    field_kinds,
    item_kind,
    key_and_value_kinds,
    marks,
)
from interview.base.rows.lines import FileError
from interview.base.rows.near import did_you_mean
from interview.base.rows.row import Row
from interview.base.templates import names_in

__all__ = ["Names", "unknown_names"]


@dataclass(frozen=True)
class Names:
    """Marks a text that names something: `Annotated[str, Names("source")]`.

    Stands for the names in braces where `inside` is true. What has `names` of its own, as a
    condition, names quantities without a mark.
    """

    kind: str
    inside: bool = False


def unknown_names(rows: Row | Iterable[Row], known: Mapping[str, Collection[str]]) -> Iterator[str]:
    """Each name in the rows that doesn't exist, as a sentence with file, line and a remedy.

    Args:
        rows: rows as they were read
        known: the names of each kind; a kind that isn't here is not looked at
    """
    for row in [rows] if isinstance(rows, Row) else rows:
        for line, called, kind, name in _named(row, type(row), 0, ()):
            if kind in known and name not in known[kind]:
                near = did_you_mean(name, known[kind])
                place = f"{file_said(row.where.path)}, line {line or row.where.line}"
                who = ", ".join(called)
                wrong = f"{who}: no {kind} is called “{name}”{near}"
                yield str(FileError(place, wrong))


_Named = tuple[int, tuple[str, ...], str, str]
"""Line, what it is called, kind of name, name."""


def _named(value: Any, kind: Any, line: int, called: tuple[str, ...]) -> Iterator[_Named]:
    """Every name in a value of a kind."""
    for mark in marks(kind):
        if isinstance(mark, Names) and isinstance(value, str):
            said = names_in(value) if mark.inside else (value,)
            yield from ((line, called, mark.kind, name) for name in said)
    if isinstance(value, Row):
        yield from _named_in_row(value, called)
    elif isinstance(value, tuple | list):
        for arm in alternatives(kind):
            for one in value if item_kind(arm) else ():
                yield from _named(one, item_kind(arm), line, called)
    elif isinstance(value, dict):
        for arm in alternatives(kind):
            if kinds := key_and_value_kinds(arm):
                for key, one in value.items():
                    yield from _named(key, kinds[0], line, called)
                    yield from _named(one, kinds[1], line, (*called, str(key)))
    elif names := getattr(value, "names", ()):
        yield from ((line, called, "quantity", name) for name in sorted(names))


def _named_in_row(row: Row, called: tuple[str, ...]) -> Iterator[_Named]:
    kinds = field_kinds(type(row))
    first = row.key or getattr(row, next(iter(kinds)))
    called = called or ((first,) if isinstance(first, str) else ())
    for name, kind in kinds.items():
        yield from _named(getattr(row, name), kind, row.where.line_of(name), (*called, name))
