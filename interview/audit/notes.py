"""Safety notes, chosen by what this tank has."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from interview.audit.tank import Tank
from interview.base.conditions import Condition
from interview.base.rows import Row, WrongKey, read
from interview.base.templates import names_in
from interview.care.sources import Status, unknown_source
from interview.vocabulary.phrases import fill_known

__all__ = ["Note", "Template", "all_notes", "choose", "read_notes"]


@dataclass(frozen=True)
class Note:
    """One safety note in the keeper's units, with who to ask."""

    id: str
    title: str
    say: str
    sources: tuple[str, ...]
    status: str


class Template(Row, frozen=True, kw_only=True):
    """A note before it is filled: when it applies, what it says, whom to ask."""

    note: str
    title: str
    say: str
    defers_to: str
    sources: tuple[str, ...]
    status: Status
    relevant: Condition = Condition.read([])

    def __post_init__(self) -> None:
        """Refuse sources that nobody could look up."""
        if wrong := unknown_source(self.sources):
            raise WrongKey("sources", wrong)

    @property
    def names(self) -> frozenset[str]:
        """Every name the note speaks of."""
        return self.relevant.names | frozenset(names_in(self.say))


def read_notes(path: Path) -> tuple[Template, ...]:
    """Every note of a file; FileError names file and line of what is wrong."""
    return read(path, tuple[Template, ...])


@cache
def all_notes() -> tuple[Template, ...]:
    """The shipped notes in the order of the file."""
    return read_notes(Path(__file__).parent / "notes.yaml")


def choose(tank: Tank) -> tuple[Note, ...]:
    """The notes that apply to this tank, filled; sentences whose numbers are unknown left out."""
    chosen = []
    for template in all_notes():
        if template.relevant.holds(tank.lookup, tank.unit_of):
            said = fill_known(template.say, tank.lookup, tank.unit_of, tank.system)
            if said:
                ask = f"{said} Ask: {template.defers_to}."
                chosen.append(
                    Note(template.note, template.title, ask, template.sources, template.status)
                )
    return tuple(chosen)
