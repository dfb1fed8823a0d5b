"""Answers that can't be right, or hardly: what doesn't fit, the likely slip, what rests on them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal, TypeAlias

from interview.base.conditions import Condition
from interview.base.places import file_said
from interview.base.rows import FileError, Row, WrongKey, read
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


class Template(Row, frozen=True, kw_only=True):
    """An inconsistency before it is met; keepers and the file call it a misfit."""

    misfit: str
    about: tuple[str, ...]
    fit: Literal["impossible", "unlikely"]
    when: Condition
    say: str
    slip: str
    rests: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse bounds that have no name, and so no source."""
        if any(not bound for _, bound in self.when.compared):
            raise WrongKey("when", "it compares with a bare number; give it a name in care/limits")

    @property
    def names(self) -> frozenset[str]:
        """Every name it speaks of."""
        return self.when.names | frozenset(names_in(self.say)) | frozenset(self.about)


def read_inconsistencies(path: Path) -> tuple[Template, ...]:
    """Every one of a file; FileError names file and line of what is wrong."""
    return read(path, tuple[Template, ...])


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
            rests = template.rests or template.about
            rest = (template.about, rests, template.fit, said, template.slip, bounds)
            found.append(Inconsistency(template.misfit, *rest))
    return tuple(found)


def faults(templates: Iterable[Template], units: Mapping[str, str]) -> Iterator[str]:
    """Names nobody knows, and bounds in another unit than what they bound.

    Args:
        templates: the misfits
        units: unit of every answer and quantity
    """
    known = {**units, **{name: fact.unit for name, fact in limits().items()}}
    for template in templates:
        yield from (str(FileError(_at(template, k), text)) for k, text in _wrong(template, known))


def _at(template: Template, key: str) -> str:
    return f"{file_said(template.where.path)}, line {template.where.line_of(key)}"


def _wrong(template: Template, known: Mapping[str, str]) -> Iterator[tuple[str, str]]:
    name = template.misfit
    for unknown in sorted((template.names | set(template.rests)) - set(known)):
        yield "misfit", f"{name} speaks of {unknown}, unknown"
    for measured, bound in template.when.compared:
        if known.get(bound) != known.get(measured):
            held = f"{name} holds {measured} [{known.get(measured)}] against {bound}"
            yield "when", f"{held} in [{known.get(bound)}]"
