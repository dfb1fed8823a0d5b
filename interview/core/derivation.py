"""How a number came about: the tree of formulas from the answers up to it."""

from __future__ import annotations

import inspect
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from interview.core.animal.per_animal import noting
from interview.core.errors import CannotWorkOut
from interview.core.formula import Formula
from interview.core.sheet_lines import Citation
from interview.core.wiring import laws
from interview.core.working import Working

__all__ = ["Step", "derive", "derive_law"]

_ENDS = ("low", "high")


@dataclass(frozen=True)
class Step:
    """One number: where it comes from and what it needs.

    `formula` is None for a leaf (an answer or an assumption). `shown_before` marks a
    number that was worked out further up; its inputs aren't repeated. `usual` marks an
    input of a single sum that nobody gave, standing at the formula's own default.
    `taken` says what the words of an input were taken for, where they left that open.
    """

    name: str
    value: Any
    unit: str
    formula: Formula | None = None
    inputs: tuple[Step, ...] = ()
    shown_before: bool = False
    usual: bool = False
    taken: str = ""
    species_sources: tuple[Citation, ...] = ()
    """Where the facts of these species come from that the formula read."""
    band: tuple[Step, ...] = ()
    """The low and the high line of the result, where it has any."""

    @property
    def sources(self) -> tuple[Citation, ...]:
        """Where the formula is from, and its species facts; empty for a leaf."""
        general = self.formula.sources if self.formula else ()
        if not self.species_sources:
            return general
        return (*self.species_sources, *(cited for cited in general if not cited.by_species))

    @property
    def steps(self) -> Iterator[Step]:
        """Itself and every step below it, from the result down."""
        yield self
        for item in self.inputs:
            yield from item.steps

    @property
    def ranges(self) -> dict[str, tuple[str, float, float]]:
        """Unit and narrowest range of every input that has one, over the whole tree."""
        found: dict[str, tuple[str, float, float]] = {}
        for step in self.steps:
            used = {item.name for item in step.inputs}
            for item in step.formula.inputs if step.formula else ():
                if item.name in used and item.low > -np.inf:
                    _, low, high = found.get(item.name, ("", item.low, item.high))
                    found[item.name] = (item.unit, max(low, item.low), min(high, item.high))
        return found


def derive(working: Working, name: str) -> Step:
    """The derivation of a quantity; raises as `working.value` does when it has no value."""
    step = _derive(working, name, set())
    if name in working.known:
        return step
    ends = [f"{name}_{end}" for end in _ENDS]
    if not all(end in working.wiring.formulas and working.why_not(end) is None for end in ends):
        return step
    return _with_band(step, [_derive(working, end, set()) for end in ends])


def _with_band(step: Step, ends: list[Step]) -> Step:
    """The result with its low and high line, unless an input of its own leads it out of them."""
    low, high = (end.value for end in ends)
    inside = np.all(np.less_equal(low, step.value) & np.less_equal(step.value, high))
    return replace(step, band=tuple(ends)) if inside else step


def _derive(working: Working, name: str, seen: set[str]) -> Step:
    value = working.value(name)
    unit = working.unit_of(name)
    formula = working.wiring.formulas.get(name)
    if formula is None or name in working.known:
        return Step(name, value, unit)
    if name in seen:
        return Step(name, value, unit, formula, shown_before=True)
    seen.add(name)
    used = _used(working, formula)
    inputs = tuple(_derive(working, n, seen) for n in used)
    return Step(name, value, unit, formula, inputs, species_sources=_species_sources(formula, used))


def _species_sources(formula: Formula, given: Mapping[str, Any]) -> tuple[Citation, ...]:
    """Where the species facts come from that the formula reads for these inputs."""
    if given.get("species") is None:
        return ()
    with noting() as notes:
        formula(given)
    return tuple(dict.fromkeys(notes.values()))


def _used(working: Working, formula: Formula) -> dict[str, Any]:
    """The inputs that took part: no computed stand-in for something that was measured."""
    given = {item.name: working.get(item.name) for item in formula.inputs}
    given = {name: value for name, value in given.items() if value is not None}
    whole = formula(given)
    spare = [i.name for i in formula.inputs if i.optional and i.name in working.wiring.formulas]
    for name in spare:
        without = {other: value for other, value in given.items() if other != name}
        try:
            if np.array_equal(formula(without), whole):
                given = without
        except CannotWorkOut:
            continue
    return given


def derive_law(formula: Formula, given: Mapping[str, Any]) -> Step:
    """The derivation of a single sum: one step from what was given and the usual values."""
    step = _derive_law(formula, given)
    lines = [laws().get(f"{formula.name}_{end}") for end in _ENDS]
    ends: list[Step] = []
    for line in lines:
        own = {item.name for item in line.inputs} & set(given) if line else set()
        if line is None or any(not i.optional and i.name not in own for i in line.inputs):
            return step
        ends.append(_derive_law(line, {name: given[name] for name in given if name in own}))
    return _with_band(step, ends)


def _derive_law(formula: Formula, given: Mapping[str, Any]) -> Step:
    parameters = inspect.signature(formula.function).parameters
    leaves: list[Step] = []
    for item in formula.inputs:
        if item.name in given:
            leaves.append(Step(item.name, given[item.name], item.unit))
        elif (default := parameters[item.name].default) is not None:
            leaves.append(Step(item.name, default, item.unit, usual=True))
    read = _species_sources(formula, given)
    value = formula(given)
    return Step(formula.name, value, formula.unit, formula, tuple(leaves), species_sources=read)
