"""Works out from the signatures of the core what can be computed from what is known.

A quantity is the function that bears its name; its parameters name what it needs. Nothing
else connects the physics to the interview.

Every module of a subject's folder is read. It declares what its public functions are:
`QUANTITIES = __all__` for what a tank has, `LAWS = __all__` for single sums with inputs of
their own; a module that declares neither only helps. `DEAR` names those that solve or step
through something: what they came to for draws is remembered while one tank is changed again and
again.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cache, cached_property, lru_cache
from types import ModuleType
from typing import Any

import numpy as np

from interview.care.sources import STATUSES, unknown_source
from interview.core.formula import Formula
from interview.core.sheets import WiringError, read_formula
from interview.core.working import Working
from interview.vocabulary.entries import Entry
from interview.vocabulary.vocabulary import vocabulary

__all__ = ["Wiring", "faults_of_citations", "formulas_in", "laws", "quantities"]

_SUBJECTS = "interview.core"


@cache
def quantities() -> Wiring:
    """The wiring of every quantity of a tank."""
    entries = vocabulary()
    return Wiring(formulas_in(_SUBJECTS, "QUANTITIES", entries), entries)


@cache
def laws() -> Mapping[str, Formula]:
    """The building blocks: single sums with inputs of their own, used by the quantities."""
    return formulas_in(_SUBJECTS, "LAWS", vocabulary())


def formulas_in(package: str, declared: str, entries: Mapping[str, Entry]) -> dict[str, Formula]:
    """Every function that the modules of a package declare as `declared`, by name."""
    formulas: dict[str, Formula] = {}
    for module in _modules(package):
        names, dear = getattr(module, declared, ()), getattr(module, "DEAR", ())
        if names and not {*dear} <= {*names}:
            strange = ", ".join(sorted({*dear} - {*names}))
            raise WiringError(f"DEAR of {module.__name__} names no {declared}: {strange}")
        for name in names:
            item = getattr(module, name)
            if not inspect.isfunction(item):
                continue
            if name in formulas and formulas[name].function is not item:
                raise WiringError(f"{name} is defined twice, also in {_place_of(item)}")
            try:
                formulas[name] = replace(read_formula(item, entries), dear=name in dear)
            except WiringError as problem:
                raise WiringError(f"{_place_of(item)}: {problem}") from problem
    return formulas


def _place_of(function: Callable[..., Any]) -> str:
    """File and line of a function, as faults of data files tell theirs."""
    file = f"{function.__module__.replace('.', '/')}.py"
    return f"{file}, line {function.__code__.co_firstlineno}"


def _modules(package: str) -> Iterator[ModuleType]:
    """Every module of a package and of the folders in it, in the order of their names."""
    folders = importlib.import_module(package).__path__
    for found in pkgutil.walk_packages(folders, f"{package}."):
        if not found.ispkg:
            yield importlib.import_module(found.name)


def faults_of_citations(formulas: Iterable[Formula]) -> Iterator[str]:
    """Sources nobody could look up, and statuses that are none, with file and line."""
    for formula in formulas:
        for cited in formula.sources:
            wrong = unknown_source([cited.key])
            if not wrong and cited.status not in STATUSES:
                wrong = f"[{cited.status}] is no status; there are {', '.join(STATUSES)}"
            if wrong:
                yield f"{_place_of(formula.function)}: {formula.name}, Source: {wrong}"


@lru_cache(300)
def _moved_by(wiring: Wiring, names: frozenset[str]) -> frozenset[str]:
    return frozenset().union(*(wiring.downstream.get(name, ()) for name in names))


class Wiring:
    """All quantities and how they hang together."""

    def __init__(
        self, formulas: Mapping[str, Formula], entries: Mapping[str, Entry] | None = None
    ) -> None:
        """Check the whole for missing names, unit clashes and cycles; WiringError if any.

        Args:
            formulas: every quantity's formula by name
            entries: the vocabulary, the project's own if None
        """
        entries = vocabulary() if entries is None else entries
        self.formulas = dict(formulas)
        self.entries = entries
        self.units: dict[str, str] = {name: f.unit for name, f in self.formulas.items()}
        for name, unit in self.units.items():
            if name not in entries:
                raise WiringError(f"{name} stands in no file of the vocabulary")
            if unit != entries[name].unit:
                raise WiringError(
                    f"{name} comes out in [{unit}], the vocabulary has [{entries[name].unit}]"
                )
        for formula in self.formulas.values():
            self.units |= {item.name: item.unit for item in formula.inputs}
        self.each_animal = frozenset(name for name, entry in entries.items() if entry.each_animal)
        self.leaves = frozenset(self.units) - frozenset(self.formulas)
        self._upstream: dict[str, frozenset[str]] = {}
        for name in self.formulas:
            self.upstream(name)

    def upstream(self, name: str, _trail: tuple[str, ...] = ()) -> frozenset[str]:
        """Every name the quantity depends on, however far; empty for a leaf."""
        if name in _trail:
            raise WiringError("cycle: " + " → ".join((*_trail[_trail.index(name) :], name)))
        if name not in self._upstream:
            found: set[str] = set()
            for item in self.formulas[name].inputs if name in self.formulas else ():
                found |= {item.name} | self.upstream(item.name, (*_trail, name))
            self._upstream[name] = frozenset(found)
        return self._upstream[name]

    @cached_property
    def downstream(self) -> Mapping[str, frozenset[str]]:
        """For every name the quantities that depend on it, however far."""
        found: dict[str, set[str]] = {}
        for quantity in self.formulas:
            for name in self.upstream(quantity):
                found.setdefault(name, set()).add(quantity)
        return {name: frozenset(quantities) for name, quantities in found.items()}

    def moved_by(self, names: frozenset[str]) -> frozenset[str]:
        """All quantities that depend on any of these names; a search asks for the same again."""
        return _moved_by(self, names)

    @cached_property
    def differing(self) -> frozenset[str]:
        """The names that rest on an answer each animal has of its own."""
        each = self.each_animal
        return each.union(name for name in self.formulas if each & self.upstream(name))

    def range_of(self, name: str) -> tuple[float, float]:
        """The physical range of a name, whatever narrower range a formula holds in."""
        entry = self.entries.get(name)
        return entry.span if entry else (-np.inf, np.inf)

    def working(self, known: Mapping[str, Any], *, draws: bool = False) -> Working:
        """The quantities of one tank, from what is known of it; `draws` marks draws of doubt."""
        return Working(self, known, draws=draws)
