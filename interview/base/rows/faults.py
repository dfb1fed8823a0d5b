"""Everything that is wrong with a file, told with file, line, what was found and a remedy.

Looks only at a file that could not be read, so it may take its time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Any, Literal, get_args, get_origin

import msgspec

from interview.base.places import file_said
from interview.base.rows.hints import (
    alternatives,
    field_kinds,
    item_kind,
    key_and_value_kinds,
)
from interview.base.rows.lines import Lined, printable
from interview.base.rows.near import did_you_mean
from interview.base.rows.row import Row, WrongKey

__all__ = ["Faults"]

_PLAIN = {
    str: "no text; put it in quotation marks",
    bool: "neither yes nor no",
    int: "no whole number; write it as 3",
    float: "no number; write it as 0.25 or 1.5e+6",
}


class Faults:
    """Finds the faults of one file."""

    def __init__(self, path: Path, converted: Callable[[Any, Any], Any]) -> None:
        """Keep the file's name and what turns a value into a type or complains."""
        self._path, self._converted = path, converted

    def of(
        self, said: Any, kind: Any, line: int = 1, called: tuple[str, ...] = ()
    ) -> tuple[str, ...]:
        """The faults of a value that should be of a kind, as sentences; () when it is.

        Args:
            said: what the file holds
            kind: the type it should have
            line: where it stands
            called: names of the rows and keys that lead to it
        """
        if self._problem(said, kind) is None:
            return ()
        arm = _arm_for(said, alternatives(kind))
        inside = tuple(self._inside(said, arm, line, called))
        if inside:
            return inside
        problem = self._problem(said, arm)
        line = said.line if isinstance(said, Lined) else line
        if isinstance(problem, WrongKey):
            line = said.line_of(problem.key) if isinstance(said, Lined) else line
            called = (*called, problem.key)
        return (self._sentence(line, called, _wrong(said, arm, problem)),)

    def _problem(self, said: Any, kind: Any) -> Exception | None:
        try:
            self._converted(said, kind)
        except msgspec.ValidationError as problem:
            cause = problem.__cause__
            return cause if isinstance(cause, ValueError | TypeError) else problem
        return None

    def _inside(self, said: Any, kind: Any, line: int, called: tuple[str, ...]) -> Iterator[str]:
        """The faults of a value's parts."""
        if isinstance(kind, type) and issubclass(kind, Row) and isinstance(said, Lined):
            yield from self._of_row(said, kind, called)
        elif isinstance(said, Lined) and (kinds := key_and_value_kinds(kind)):
            for key, value in said.items():
                here = said.line_of(key)
                yield from self.of(key, kinds[0], here, called)
                yield from self.of(value, kinds[1], here, (*called, str(key)))
        elif isinstance(said, list) and (item := item_kind(kind)):
            for number, one in enumerate(said, start=1):
                yield from self.of(one, item, line, _called_in_list(one, item, called, number))

    def _of_row(self, said: Lined, kind: type[Row], called: tuple[str, ...]) -> Iterator[str]:
        kinds = field_kinds(kind)
        for key in said:
            if key not in kinds:
                near = did_you_mean(str(key), kinds) or f"; there are {', '.join(kinds)}"
                wrong = f"unknown key “{printable(key)}”{near}"
                yield self._sentence(said.line_of(key), called, wrong)
        optional = {one.name for one in msgspec.structs.fields(kind) if not one.required}
        for name in kinds:
            if name not in optional and name not in said:
                remedy = (
                    f"; a whole one is {kind.EXAMPLE}" if kind.EXAMPLE else f"; add “{name}: …”"
                )
                yield self._sentence(said.line, called, f"has no {name}{remedy}", " ")
        for name, field in kinds.items():
            if name in said:
                yield from self.of(said[name], field, said.line_of(name), (*called, name))

    def _sentence(self, line: int, called: Iterable[str], wrong: str, joined: str = ": ") -> str:
        who = printable(", ".join(called)) or ("the file" if joined == " " else "")
        return f"{file_said(self._path)}, line {line}: {f'{who}{joined}' if who else ''}{wrong}"


def _called_in_list(said: Any, kind: Any, called: tuple[str, ...], number: int) -> tuple[str, ...]:
    """A row of a list goes by its first field if that is a name, else by its place."""
    rows = [arm for arm in alternatives(kind) if isinstance(arm, type) and issubclass(arm, Row)]
    if not rows or not isinstance(said, Lined):
        return called
    first, first_kind = next(iter(field_kinds(rows[0]).items()))
    if str in alternatives(first_kind) and isinstance(said.get(first), str):
        return (*called[:-1], said[first])
    return (*called, f"number {number}")


def _arm_for(said: Any, arms: tuple[Any, ...]) -> Any:
    """Of several types a value may have the one that it comes nearest to."""
    for arm in arms:
        is_row = isinstance(arm, type) and issubclass(arm, Row)
        if isinstance(said, dict) and (is_row or key_and_value_kinds(arm)):
            return arm
        if isinstance(said, list) and item_kind(arm):
            return arm
    plain = [arm for arm in arms if arm in _PLAIN]
    return plain[0] if plain and len(arms) > 1 else arms[0]


def _wrong(said: Any, kind: Any, problem: Exception | None) -> str:
    """What was found, what is wanted, and an example."""
    found = _shown(said)
    if get_origin(kind) is Literal:
        words = [str(word) for word in get_args(kind)]
        if isinstance(said, bool):
            return f"{found} must stand in quotation marks"
        if len(words) == 1:
            return f"{found} must be “{words[0]}”"
        return f"{found} is none of {', '.join(words)}{did_you_mean(str(said), words)}"
    if kind in _PLAIN:
        return f"{found} is {_PLAIN[kind]}"
    if isinstance(kind, type) and issubclass(kind, Row) and not isinstance(said, dict):
        example = kind.EXAMPLE or "{" + ": …, ".join(field_kinds(kind)) + ": …}"
        return f"{found} must be a mapping, as {example}"
    if key_and_value_kinds(kind) and not isinstance(said, dict):
        return f"{found} must be a mapping, as {{name: …}}"
    if item_kind(kind) and not isinstance(said, list):
        shown = "{…}" if isinstance(said, dict) else found.strip("“”")
        return f"{found} must be a list, as [{shown}]"
    return str(problem).partition(" - at `")[0]


def _shown(said: Any) -> str:
    if said is None:
        return "nothing"
    if isinstance(said, dict):
        return "a mapping"
    if isinstance(said, list):
        return "a list"
    text = {True: "yes", False: "no"}.get(said, said) if isinstance(said, bool) else said
    return f"“{printable(text)}”"
