"""Readings that can't be right, or hardly: what doesn't fit, and the likely slip."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from interview.care.facts import STATUSES
from interview.conditions import Condition, ConditionError
from interview.phrases import fill, names_in
from interview.yaml_files import FileError, Lined, read

__all__ = ["Misfit", "Template", "all_misfits", "misfits"]

_KEYS = ("misfit", "about", "when", "say", "slip", "status")


@dataclass(frozen=True)
class Misfit:
    """One reading that does not fit: the answers to look at again, the sentence to say."""

    id: str
    about: tuple[str, ...]
    say: str


@dataclass(frozen=True)
class Template:
    """A misfit before it is met."""

    id: str
    about: tuple[str, ...]
    when: Condition
    say: str
    slip: str

    @property
    def names(self) -> frozenset[str]:
        """Every name it speaks of."""
        return self.when.names | frozenset(names_in(self.say)) | frozenset(self.about)


def _template(row: Any, path: Path) -> Template:
    if not isinstance(row, Lined) or set(row) != set(_KEYS):
        raise FileError(row if isinstance(row, Lined) else path.name, f"needs {', '.join(_KEYS)}")
    if row["status"] not in STATUSES:
        raise FileError(row, f"{row['misfit']}: status “{row['status']}” is not known")
    try:
        when = Condition.read(row["when"])
    except ConditionError as problem:
        raise FileError(row, f"{row['misfit']}: {problem}") from problem
    return Template(row["misfit"], tuple(row["about"]), when, row["say"], row["slip"])


@cache
def all_misfits() -> tuple[Template, ...]:
    """The shipped ones, in the order of the file."""
    path = Path(__file__).parent / "misfits.yaml"
    return tuple(_template(row, path) for row in read(path))


def misfits(
    lookup: Callable[[str], Any], unit_of: Callable[[str], str], system: str
) -> tuple[Misfit, ...]:
    """What does not fit in a tank, said in the keeper's units."""
    found = []
    for template in all_misfits():
        if template.when.holds(lookup, unit_of):
            said = fill(template.say, lookup, unit_of, system)
            if said:
                found.append(Misfit(template.id, template.about, f"{said} {template.slip}"))
    return tuple(found)
