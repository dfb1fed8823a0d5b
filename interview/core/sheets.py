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
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from interview.core.formula import Formula
from interview.core.sheet_lines import Citation, Input
from interview.vocabulary.entries import Entry, range_in
from interview.vocabulary.vocabulary import vocabulary

__all__ = ["WiringError", "read_formula"]

_NEVER_BELOW_NOTHING = ("kg", "m**2", "m**3", "m**3/s", "kg/m**3", "mg/L", "1/s")
"""Units of what is there or not. Lengths may be offsets, and vapour may condense."""

_SUMMARY_UNIT = re.compile(r"\[([^\],]+)(?:, from ([-+.\deE]+))?\]\.?\s*$")
_ARGS = re.compile(r"^Args:\n((?:    .*\n?)+)", re.MULTILINE)
_INPUT = re.compile(r"    (\w+)(?: \[([^\]]+)\])?(?:: *(.+))?")
_FORMULA = re.compile(r"^Formula: (.+?)(?:\n\s*\n|\Z)", re.MULTILINE | re.DOTALL)
_SOURCE = re.compile(r"^\s*(Species source|Source): (\w+)(?:, (.*?))? \[(\w+)\]\.?\s*$")


class WiringError(Exception):
    """The core contradicts itself: an unknown name, a cycle, a unit clash, a poor data sheet."""


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
