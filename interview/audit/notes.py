"""Safety notes, chosen by what this tank has."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from interview.audit.tank import Tank
from interview.base.conditions import Condition, ConditionError
from interview.base.rows.lines import FileError, Lined, read
from interview.base.templates import names_in
from interview.care.facts import STATUSES, bibliography
from interview.vocabulary.phrases import fill

__all__ = ["Note", "Template", "all_notes", "choose", "read_notes"]

_NEEDED = ("note", "title", "say", "defers_to", "sources", "status")


@dataclass(frozen=True)
class Note:
    """One safety note in the keeper's units, with who to ask."""

    id: str
    title: str
    say: str
    sources: tuple[str, ...]
    status: str


@dataclass(frozen=True)
class Template:
    """A note before it is filled: when it applies, what it says."""

    id: str
    title: str
    say: str
    defers_to: str
    sources: tuple[str, ...]
    status: str
    relevant: Condition = field(default_factory=lambda: Condition.read([]))

    @property
    def names(self) -> frozenset[str]:
        """Every name the note speaks of."""
        return self.relevant.names | frozenset(names_in(self.say))


def read_notes(path: Path) -> tuple[Template, ...]:
    """Every note of a file; FileError names file and line of the first fault."""
    return tuple(_template(row, path) for row in read(path))


def _template(row: Any, path: Path) -> Template:
    if not isinstance(row, Lined):
        raise FileError(path.name, "each note is a mapping")
    for key in _NEEDED:
        if not row.get(key):
            raise FileError(row, f"a note has no {key}")
    if unknown := set(row) - {*_NEEDED, "relevant"}:
        raise FileError(row, f"{row['note']}: unknown key {', '.join(sorted(unknown))}")
    if row["status"] not in STATUSES:
        raise FileError(row, f"{row['note']}: status “{row['status']}” is not known")
    if unknown := set(row["sources"]) - set(bibliography()):
        raise FileError(row, f"{row['note']}: source {', '.join(sorted(unknown))} is not known")
    try:
        relevant = Condition.read(row.get("relevant", []))
    except ConditionError as problem:
        raise FileError(row, f"{row['note']}: {problem}") from problem
    return Template(
        id=row["note"],
        title=_line(row["title"]),
        say=_line(row["say"]),
        defers_to=_line(row["defers_to"]),
        sources=tuple(row["sources"]),
        status=row["status"],
        relevant=relevant,
    )


def _line(text: object) -> str:
    return " ".join(str(text).split())


@cache
def all_notes() -> tuple[Template, ...]:
    """The shipped notes in the order of the file."""
    return read_notes(Path(__file__).parent / "notes.yaml")


def choose(tank: Tank) -> tuple[Note, ...]:
    """The notes that apply to this tank, filled; sentences whose numbers are unknown left out."""
    chosen = []
    for template in all_notes():
        if template.relevant.holds(tank.lookup, tank.unit_of):
            said = _known_part(template.say, tank)
            if said:
                ask = f"{said} Ask: {template.defers_to}."
                chosen.append(
                    Note(template.id, template.title, ask, template.sources, template.status)
                )
    return tuple(chosen)


_SENTENCE = re.compile(r"(?<=\.) (?=[A-Z])")


def _known_part(say: str, tank: Tank) -> str:
    """The sentences that need no number, or one that is known."""
    told = (fill(s, tank.lookup, tank.unit_of, tank.system) for s in _SENTENCE.split(say))
    return " ".join(sentence for sentence in told if sentence)
