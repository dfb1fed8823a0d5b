"""Reads a core function's signature and docstring: the data sheet of one formula.

The summary line ends in the result's unit, or in `[unit, from low]` where less can't be.
Unit, range and meaning of a parameter are those of its name in the vocabulary; a line
`name [low to high]: meaning` under `Args:` writes what differs here, as the range in which
this formula holds. `Source:` lines cite the bibliography, `Species source:` lines where the
facts of most species come from.
"""

from __future__ import annotations

import ast
import inspect
import re
import sys
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from interview.core.errors import CannotWorkOut, Impossible, OutOfRange
from interview.core.numeric import is_number
from interview.vocabulary.entries import Entry, range_in
from interview.vocabulary.vocabulary import vocabulary

__all__ = ["Citation", "Formula", "Input", "WiringError", "read_formula"]

_NEVER_BELOW_NOTHING = ("kg", "m**2", "m**3", "m**3/s", "kg/m**3", "mg/L", "1/s")
"""Units of what is there or not. Lengths may be offsets, and vapour may condense."""

_SUMMARY_UNIT = re.compile(r"\[([^\],]+)(?:, from ([-+.\deE]+))?\]\.?\s*$")
_ARGS = re.compile(r"^Args:\n((?:    .*\n?)+)", re.MULTILINE)
_INPUT = re.compile(r"    (\w+)(?: \[([^\]]+)\])?(?:: *(.+))?")
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
    """One parameter of a formula, as its data sheet and the vocabulary describe it."""

    name: str
    unit: str
    meaning: str
    optional: bool = False
    low: float = -np.inf
    high: float = np.inf

    def outside(self, value: Any) -> Any:
        """Which elements lie outside the range in which the formula holds; None where none."""
        endless = self.low == -np.inf and self.high == np.inf
        if endless or not is_number(value):
            return None
        bad = (np.atleast_1d(value) < self.low) | (np.atleast_1d(value) > self.high)
        return bad if bad.any() else None

    def check(self, value: Any) -> None:
        """Raise OutOfRange if any element lies outside the range in which the formula holds."""
        bad = self.outside(value)
        if bad is not None:
            first = float(np.atleast_1d(value)[bad].flat[0])
            raise OutOfRange(self.name, first, self.low, self.high, self.unit)

    def held(self, draws: Any) -> Any:
        """Draws with the few beyond the range at its end; OutOfRange where it is not few.

        The middle draw stands for the best value: where that lies outside, nothing holds.
        """
        bad = self.outside(draws)
        if bad is None:
            return draws
        if np.ndim(draws) == 0 or (2 * bad.sum(axis=0) > len(bad)).any():
            self.check(draws)
        return np.clip(draws, self.low, self.high)


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

    def __call__(self, given: Mapping[str, Any], *, draws: bool = False) -> Any:
        """Check each given input against its range, compute, and refuse a result that can't be.

        Args:
            given: the inputs by name; one that is not known is left out
            draws: whether arrays are draws of doubt, of which a few may leave a formula's range:
                in this formula alone they count as at its end
        """
        taken = dict(given)
        for item in self.inputs:
            value = given.get(item.name)
            if value is None:
                continue
            if draws:
                taken[item.name] = item.held(value)
            else:
                item.check(value)
        try:
            result = self.function(**taken)
        except ZeroDivisionError as problem:
            nothing = [name for name, value in given.items() if is_number(value) and not value]
            raise CannotWorkOut(
                f"there is no {self.name} where {' or '.join(nothing)} is 0"
            ) from problem
        if is_number(result) and np.all(np.less(result, self.low)):
            raise Impossible(self.name, float(np.min(result)), self.low, self.unit)
        return result


def _docstring(function: Callable[..., Any]) -> str:
    """The docstring; from the source where Python was told to drop it (`python -OO`)."""
    text = inspect.getdoc(function) or ""
    if text or sys.flags.optimize < 2:
        return text
    return _sheets_in(inspect.getsourcefile(function) or "").get(function.__name__, "")


@cache
def _sheets_in(source: str) -> dict[str, str]:
    """The docstring of each function of a module."""
    tree = ast.parse(Path(source).read_text(encoding="utf-8"))
    functions = (node for node in tree.body if isinstance(node, ast.FunctionDef))
    return {function.name: ast.get_docstring(function) or "" for function in functions}


def read_formula(
    function: Callable[..., Any], entries: Mapping[str, Entry] | None = None
) -> Formula:
    """Build a Formula from signature, docstring and vocabulary; WiringError if they disagree.

    Args:
        function: the core function
        entries: the vocabulary, the project's own if None
    """
    name = getattr(function, "__name__", repr(function))
    text = _docstring(function)
    summary = " ".join(text.split("\n\n", 1)[0].split())
    unit = _SUMMARY_UNIT.search(summary)
    if not unit:
        raise WiringError(f"{name}: the docstring's first sentence must end in its unit, as [m]")
    sources = tuple(_sources(text))
    if not sources:
        raise WiringError(f"{name}: no Source line")
    entries = vocabulary() if entries is None else entries
    inputs = tuple(_inputs(name, function, text, entries))
    label = unit[1].strip()
    low = float(unit[2]) if unit[2] else 0.0 if label in _NEVER_BELOW_NOTHING else -np.inf
    written = _FORMULA.search(text)
    said = " ".join(written[1].split()) if written else ""
    meaning = summary[: unit.start()].strip()
    return Formula(name, label, meaning, inputs, sources, function, low, said)


def _sources(text: str) -> Iterator[Citation]:
    for line in text.splitlines():
        if found := _SOURCE.match(line):
            yield Citation(found[2], found[3] or "", found[4], found[1] == "Species source")


def _inputs(
    name: str, function: Callable[..., Any], text: str, entries: Mapping[str, Entry]
) -> Iterator[Input]:
    """Every parameter: what the vocabulary says, and what the sheet says otherwise."""
    sheet = _sheet(name, text)
    for parameter in inspect.signature(function).parameters.values():
        item = sheet.pop(parameter.name, ("", "", ""))
        optional = parameter.default is not inspect.Parameter.empty
        yield _input(name, parameter.name, optional, item, entries.get(parameter.name))
    if sheet:
        raise WiringError(f"{name}: the docstring describes {', '.join(sheet)}, not a parameter")


def _sheet(name: str, text: str) -> dict[str, tuple[str, str, str]]:
    """Unit, range and meaning as written under `Args:`, each "" where it is not."""
    sheet: dict[str, tuple[str, str, str]] = {}
    args = _ARGS.search(text)
    last = ""
    for line in args[1].splitlines() if args else ():
        if line.startswith("        ") and last:
            unit, span, meaning = sheet[last]
            sheet[last] = unit, span, f"{meaning} {line.strip()}"
            continue
        found = _INPUT.fullmatch(line)
        if not found:
            raise WiringError(f"{name}: “{line.strip()}” is not “name [low to high]: meaning”")
        last, bracket = found[1], found[2] or ""
        unit, _, span = (
            bracket.rpartition(", ") if range_in(bracket.rpartition(", ")[2]) else (bracket, "", "")
        )
        sheet[last] = unit.strip(), span, (found[3] or "").strip()
    return sheet


def _input(
    name: str, parameter: str, optional: bool, item: tuple[str, str, str], entry: Entry | None
) -> Input:
    unit, span, meaning = item
    if entry is None:
        raise WiringError(f"{name}: {parameter} stands in no file of the vocabulary")
    if unit and unit != entry.unit:
        raise WiringError(
            f"{name} takes {parameter} in [{unit}], the vocabulary has [{entry.unit}]"
        )
    least, most = entry.span
    low, high = range_in(span) or entry.span
    if low < least or high > most:
        raise WiringError(
            f"{name} takes {parameter} from {low:g} to {high:g}, "
            f"and the vocabulary has it only from {least:g} to {most:g}"
        )
    return Input(parameter, entry.unit, meaning or entry.meaning, optional, low, high)
