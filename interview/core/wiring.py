"""Reads the core's signatures and works out what can be computed from what is known.

A quantity is the function that bears its name; its parameters name what it needs.
The docstring is the data sheet: the summary line ends in the result's unit, or in
`[unit, from low]` where less can't be; every parameter has a line `name [unit]: meaning`
or `name [unit, low to high]: meaning` (the range in which the formula holds), and
`Source:` lines cite the bibliography, `Species source:` lines where the facts of most
species come from.
Nothing else connects the physics to the interview.
"""

from __future__ import annotations

import importlib
import inspect
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np

from interview.core.errors import BeyondFormula, CannotWorkOut, Impossible, Missing, OutOfRange
from interview.core.numeric import is_number

__all__ = [
    "EACH_ANIMAL",
    "Citation",
    "Formula",
    "Input",
    "Wiring",
    "WiringError",
    "Working",
    "laws",
    "quantities",
    "read_formula",
]

SUBJECTS = (
    "structure.enclosure",
    "animal.animals",
    "animal.care_needs",
    "animal.growth",
    "heat.tank_heat",
    "heat.heater",
    "basking.basking",
    "basking.platform",
    "light.uvb_lamp",
    "light.ultraviolet",
    "water.chemistry",
    "water.filtration",
    "animal.feeding",
    "structure.weight",
    "structure.floor",
    "electricity.load",
    "crosschecks",
)
LAWS = (
    "animal.body",
    "heat.air",
    "heat.plates",
    "heat.evaporation",
    "heat.losses",
    "basking.warm_patch",
    "light.radiation",
    "water.properties",
    "water.flow",
    "structure.statics",
    "electricity.energy",
)

_NEVER_BELOW_NOTHING = ("kg", "m**2", "m**3", "m**3/s", "kg/m**3", "mg/L", "1/s")
"""Units of what is there or not. Lengths may be offsets, and vapour may condense."""

_SUMMARY_UNIT = re.compile(r"\[([^\],]+)(?:, from ([-+.\deE]+))?\]\.?\s*$")

EACH_ANIMAL = frozenset({"species", "sex", "carapace_length", "mass", "age"})
"""Answers that hold a row: one for each animal."""

_INPUT = re.compile(r"^\s*(\w+) \[([^\],]+)(?:, ([-+.\deE]+) to ([-+.\deE]+))?\]:\s*(.+)$")
_FORMULA = re.compile(r"^Formula: (.+?)(?:\n\s*\n|\Z)", re.MULTILINE | re.DOTALL)
_SOURCE = re.compile(r"^\s*(Species source|Source): (\w+)(?:, (.*?))? \[(\w+)\]\.?\s*$")


class WiringError(Exception):
    """The core contradicts itself: an unknown name, a cycle, a unit clash, a poor data sheet."""


@dataclass(frozen=True)
class Citation:
    """Where a formula comes from: bibliography key, place in it, status.

    `by_species` marks what stands for the facts of any species: a derivation that knows the
    species cites the source of its own.
    """

    key: str
    place: str
    status: str
    by_species: bool = False


@dataclass(frozen=True)
class Input:
    """One parameter of a formula, as its data sheet describes it."""

    name: str
    unit: str
    meaning: str
    optional: bool = False
    low: float = -np.inf
    high: float = np.inf

    def check(self, value: Any) -> None:
        """Raise OutOfRange if any element lies outside the range in which the formula holds."""
        endless = self.low == -np.inf and self.high == np.inf
        if endless or not is_number(value):
            return
        numbers = np.atleast_1d(value)
        bad = (numbers < self.low) | (numbers > self.high)
        if bad.any():
            raise OutOfRange(self.name, float(numbers[bad].flat[0]), self.low, self.high, self.unit)


@dataclass(frozen=True)
class Formula:
    """A core function with its data sheet."""

    name: str
    unit: str
    meaning: str
    inputs: tuple[Input, ...]
    sources: tuple[Citation, ...]
    function: Callable[..., Any]
    low: float = -np.inf
    """What no result may be below; single draws of a cloud may."""
    written: str = ""
    """What the `Formula:` line of the data sheet says is solved."""

    def __call__(self, given: Mapping[str, Any]) -> Any:
        """Check each given input against its range, compute, and refuse a result that can't be."""
        for item in self.inputs:
            if given.get(item.name) is not None:
                item.check(given[item.name])
        try:
            result = self.function(**given)
        except ZeroDivisionError as problem:
            nothing = [name for name, value in given.items() if is_number(value) and not value]
            raise CannotWorkOut(
                f"there is no {self.name} where {' or '.join(nothing)} is 0"
            ) from problem
        if is_number(result) and np.all(np.less(result, self.low)):
            raise Impossible(self.name, float(np.min(result)), self.low, self.unit)
        return result


def read_formula(function: Callable[..., Any]) -> Formula:
    """Build a Formula from a function's signature and docstring; WiringError if they disagree."""
    name = getattr(function, "__name__", repr(function))
    text = inspect.getdoc(function) or ""
    summary = " ".join(text.split("\n\n", 1)[0].split())
    unit = _SUMMARY_UNIT.search(summary)
    if not unit:
        raise WiringError(f"{name}: the docstring's first sentence must end in its unit, as [m]")
    sheet: dict[str, Any] = {}
    sources: list[Citation] = []
    for line in text.splitlines():
        if found := _INPUT.match(line):
            sheet[found[1]] = found
        elif found := _SOURCE.match(line):
            by_species = found[1] == "Species source"
            sources.append(Citation(found[2], found[3] or "", found[4], by_species))
    if not sources:
        raise WiringError(f"{name}: no Source line")
    inputs: list[Input] = []
    for parameter in inspect.signature(function).parameters.values():
        line = sheet.pop(parameter.name, None)
        if line is None:
            raise WiringError(f"{name}: parameter {parameter.name} has no line in the docstring")
        inputs.append(
            Input(
                parameter.name,
                line[2].strip(),
                line[5].strip(),
                parameter.default is not inspect.Parameter.empty,
                float(line[3]) if line[3] else -np.inf,
                float(line[4]) if line[4] else np.inf,
            )
        )
    if sheet:
        raise WiringError(f"{name}: the docstring describes {', '.join(sheet)}, not a parameter")
    meaning = summary[: unit.start()].strip()
    label = unit[1].strip()
    low = float(unit[2]) if unit[2] else 0.0 if label in _NEVER_BELOW_NOTHING else -np.inf
    written = _FORMULA.search(text)
    said = " ".join(written[1].split()) if written else ""
    return Formula(name, label, meaning, tuple(inputs), tuple(sources), function, low, said)


def _read_modules(package: str, names: Iterable[str]) -> dict[str, Formula]:
    formulas: dict[str, Formula] = {}
    for subject in names:
        module = importlib.import_module(f"{package}.{subject}")
        for name in module.__all__:
            item = getattr(module, name)
            if not inspect.isfunction(item):
                continue
            if name in formulas and formulas[name].function is not item:
                raise WiringError(f"{name} is defined twice")
            formulas[name] = read_formula(item)
    return formulas


@cache
def quantities() -> Wiring:
    """The wiring of every quantity of a tank."""
    return Wiring(_read_modules("interview.core", SUBJECTS))


@cache
def laws() -> Mapping[str, Formula]:
    """The building blocks: single sums with inputs of their own, used by the quantities."""
    return _read_modules("interview.core", LAWS)


class Wiring:
    """All quantities and how they hang together."""

    def __init__(self, formulas: Mapping[str, Formula]) -> None:
        """Check the whole for unit clashes and cycles; WiringError if there are any."""
        self.formulas = dict(formulas)
        self.units: dict[str, str] = {name: f.unit for name, f in self.formulas.items()}
        self._ranges: dict[str, tuple[float, float]] = {}
        for formula in self.formulas.values():
            for item in formula.inputs:
                known = self.units.setdefault(item.name, item.unit)
                if known != item.unit:
                    raise WiringError(
                        f"{formula.name} takes {item.name} in [{item.unit}], elsewhere [{known}]"
                    )
                low, high = self.range_of(item.name)
                self._ranges[item.name] = (max(low, item.low), min(high, item.high))
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

    def range_of(self, name: str) -> tuple[float, float]:
        """The range of an input in which every formula that takes it holds."""
        return self._ranges.get(name, (-np.inf, np.inf))

    def working(self, known: Mapping[str, Any]) -> Working:
        """The quantities of one tank, from what is known of it."""
        return Working(self, known)


class Working:
    """One tank's quantities, worked out on demand and kept.

    A name that is known outright is never recomputed, so a caller can pin any
    quantity (a measured one, a calibration taken before a change).
    """

    def __init__(self, wiring: Wiring, known: Mapping[str, Any]) -> None:
        self.wiring = wiring
        self.known = {name: value for name, value in known.items() if value is not None}
        self._done: dict[str, Any] = {}
        self._whole: Working | None = None
        self._alone: dict[int, Working] = {}

    def of_animal(self, row: int) -> Working:
        """The same tank as far as it concerns one animal, counted from 0; kept."""
        if row not in self._alone:
            known = {n: _one(v, row) if n in EACH_ANIMAL else v for n, v in self.known.items()}
            alone = Working(self.wiring, known)
            alone._whole = self
            self._alone[row] = alone
        return self._alone[row]

    def value(self, name: str) -> Any:
        """The quantity, or raises Missing, NotApplicable or OutOfRange saying why not."""
        if name in self.known:
            return self.known[name]
        if self._whole is not None and not EACH_ANIMAL & self.wiring.upstream(name):
            return self._whole.value(name)
        if name not in self._done:
            try:
                self._done[name] = self._compute(name)
            except CannotWorkOut as problem:
                self._done[name] = problem
        found = self._done[name]
        if isinstance(found, CannotWorkOut):
            raise found
        return found

    def get(self, name: str) -> Any:
        """The quantity, or None when it can't be worked out."""
        try:
            return self.value(name)
        except CannotWorkOut:
            return None

    def with_known(self, known: Mapping[str, Any]) -> Working:
        """The same tank with other things known; what does not depend on them is kept.

        A calibration pinned at the value it has counts as unchanged.
        """
        other = Working(self.wiring, known)
        changed = {
            name
            for name in {*self.known, *other.known}
            if self.known.get(name, self._done.get(name)) is not other.known.get(name)
        }
        for name, value in self._done.items():
            if name not in other.known and not changed & self.wiring.upstream(name):
                other._done[name] = value
        return other

    def unit_of(self, name: str) -> str:
        """The name's core unit; "1" for a name the core does not know."""
        return self.wiring.units.get(name, "1")

    def why_not(self, name: str) -> CannotWorkOut | None:
        """The reason a quantity has no value, or None if it has one."""
        try:
            self.value(name)
        except CannotWorkOut as problem:
            return problem
        return None

    def _compute(self, name: str) -> Any:
        formula = self.wiring.formulas.get(name)
        if formula is None:
            raise Missing(name)
        given: dict[str, Any] = {}
        missing: list[Missing] = []
        for item in formula.inputs:
            try:
                given[item.name] = self.value(item.name)
            except CannotWorkOut as problem:
                if item.optional and not isinstance(problem, BeyondFormula):
                    continue
                if not isinstance(problem, Missing):
                    raise
                missing.append(problem)
        if missing:
            raise Missing.union(missing)
        return formula(given)


def _one(values: Any, row: int) -> Any:
    """One animal's part of a row of words, or of numbers with the animals on the last axis."""
    return values[row : row + 1] if isinstance(values, tuple) else values[..., row : row + 1]
