"""Answers that can't be right, or hardly: what doesn't fit, the likely slip, what rests on them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal, TypeAlias

from interview.base.conditions import Condition, ConditionError
from interview.base.rows.lines import FileError, Lined, read
from interview.base.templates import names_in
from interview.care.facts import Fact, limits
from interview.vocabulary.phrases import fill

__all__ = [
    "Fit",
    "Inconsistency",
    "Template",
    "all_inconsistencies",
    "faults",
    "inconsistencies",
    "read_inconsistencies",
]

Fit: TypeAlias = Literal["", "unlikely", "impossible"]
"""How badly an answer fits the others; empty where it does."""
_NEEDED = ("misfit", "about", "fit", "when", "say", "slip")
_FITS: Mapping[str, Fit] = {"impossible": "impossible", "unlikely": "unlikely"}


@dataclass(frozen=True)
class Inconsistency:
    """One answer that does not fit, before it grades anything.

    `about` names the answers to look at again, `rests` those on which no good finding may
    rest until somebody has; `fact` says what does not fit, `slip` the likely mistake.
    """

    id: str
    about: tuple[str, ...]
    rests: tuple[str, ...]
    fit: Fit
    fact: str
    slip: str
    limits: tuple[Fact, ...] = ()

    @property
    def quantity(self) -> str:
        """The answer that is the likeliest slip."""
        return self.about[0]

    @property
    def say(self) -> str:
        """What does not fit, and the likely slip."""
        return f"{self.fact} {self.slip}"


@dataclass(frozen=True)
class Template:
    """A misfit before it is met."""

    id: str
    about: tuple[str, ...]
    rests: tuple[str, ...]
    fit: Fit
    when: Condition
    say: str
    slip: str
    where: Lined

    @property
    def names(self) -> frozenset[str]:
        """Every name it speaks of."""
        return self.when.names | frozenset(names_in(self.say)) | frozenset(self.about)


def read_inconsistencies(path: Path) -> tuple[Template, ...]:
    """Every misfit of a file; FileError names file and line of the first fault."""
    return tuple(_template(row, path) for row in read(path))


def _template(row: Any, path: Path) -> Template:
    if not isinstance(row, Lined) or not row.get("misfit"):
        raise FileError(row if isinstance(row, Lined) else path.name, "needs `misfit:` with its id")
    name = row["misfit"]
    if lacking := [key for key in _NEEDED if not row.get(key)]:
        raise FileError(row, f"{name} has no {lacking[0]}")
    if unknown := set(row) - {*_NEEDED, "rests"}:
        raise FileError(row, f"{name}: unknown key {', '.join(sorted(unknown))}")
    if row["fit"] not in _FITS:
        raise FileError(row, f"{name}: fit “{row['fit']}” is neither impossible nor unlikely")
    try:
        when = Condition.read(row["when"])
    except ConditionError as problem:
        raise FileError(row, f"{name}: {problem}") from problem
    if any(not bound for _, bound in when.compared):
        raise FileError(row, f"{name} compares with a bare number; give it a name in care/limits")
    about, rests = tuple(row["about"]), tuple(row.get("rests", row["about"]))
    return Template(name, about, rests, _FITS[row["fit"]], when, row["say"], row["slip"], row)


@cache
def all_inconsistencies() -> tuple[Template, ...]:
    """The shipped ones, in the order of the file."""
    return read_inconsistencies(Path(__file__).parent / "misfits.yaml")


def inconsistencies(
    lookup: Callable[[str], Any], unit_of: Callable[[str], str], system: str
) -> tuple[Inconsistency, ...]:
    """What does not fit in a tank, said in the keeper's units.

    Args:
        lookup: gives an answer or a quantity; None if unknown
        unit_of: its core unit
        system: metric, us or uk
    """
    facts = limits()

    def look(name: str) -> Any:
        return facts[name].value if name in facts else lookup(name)

    def unit(name: str) -> str:
        return facts[name].unit if name in facts else unit_of(name)

    found = []
    for template in all_inconsistencies():
        if template.when.holds(look, unit) and (said := fill(template.say, look, unit, system)):
            bounds = tuple(facts[b] for _, b in template.when.compared if b in facts)
            rest = (template.about, template.rests, template.fit)
            found.append(Inconsistency(template.id, *rest, said, template.slip, bounds))
    return tuple(found)


def faults(templates: Iterable[Template], units: Mapping[str, str]) -> Iterator[str]:
    """Names nobody knows, and bounds in another unit than what they bound.

    Args:
        templates: the misfits
        units: unit of every answer and quantity
    """
    known = {**units, **{name: fact.unit for name, fact in limits().items()}}
    for template in templates:
        for name in sorted((template.names | set(template.rests)) - set(known)):
            yield str(FileError(template.where, f"{template.id} speaks of {name}, unknown"))
        for name, bound in template.when.compared:
            if known.get(bound) != known.get(name):
                text = f"{template.id} holds {name} [{known.get(name)}] against {bound}"
                yield str(FileError(template.where, f"{text} in [{known.get(bound)}]"))
