"""Ultraviolet lamps by kind and class, each number with its unit, status and source."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from interview.base.rows.lines import FileError, Lined, read
from interview.care.facts import STATUSES

__all__ = ["Figure", "LampClass", "LampKind", "Lamps", "lamps", "read_lamps"]

_FIGURE_KEYS = {"value", "unit", "status", "source", "note"}


@dataclass(frozen=True)
class Figure:
    """One number of the lamp table."""

    value: float
    unit: str
    status: str
    source: str
    note: str = ""


@dataclass(frozen=True)
class LampKind:
    """What all lamps of a kind share; tubes have a reflector gain, the others an offset."""

    name: str
    lamp_life: Figure
    class_factor: Figure
    reflector_gain: Figure | None = None
    source_offset: Figure | None = None


@dataclass(frozen=True)
class LampClass:
    """UV index of one class at the anchor distance; lengths for tubes only."""

    kind: str
    uv_index: Figure
    strength: str | None = None
    tube_length: Figure | None = None
    arc_length: Figure | None = None


@dataclass(frozen=True)
class Lamps:
    """The whole table."""

    anchor_distance: Figure
    doubts: Mapping[str, Figure]
    kinds: Mapping[str, LampKind]
    classes: tuple[LampClass, ...]
    spectra: Mapping[str, Figure]

    def of(self, kind: str, strength: str | None) -> tuple[LampClass, ...]:
        """List the classes of a kind and strength by rising arc length."""
        return tuple(row for row in self.classes if (row.kind, row.strength) == (kind, strength))

    def is_graded(self, kind: str) -> bool:
        """Whether the kind is sold in strengths."""
        return any(row.kind == kind and row.strength for row in self.classes)

    def log_sigma(self, kind: str) -> float:
        """One sigma of the log of an unmetered estimate: all doubts in quadrature."""
        factors = [self.kinds[kind].class_factor, *self.doubts.values()]
        return math.hypot(*(math.log(factor.value) for factor in factors))


def _mapping(row: object, where: str, path: Path) -> Lined:
    if not isinstance(row, Lined):
        raise FileError(path.name, f"{where} must be a mapping")
    return row


def _keys(row: object, where: str, allowed: set[str], needed: set[str], path: Path) -> Lined:
    found = _mapping(row, where, path)
    if unknown := set(found) - allowed:
        raise FileError(found, f"{where}: unknown key {', '.join(sorted(unknown))}")
    if missing := needed - set(found):
        raise FileError(found, f"{where} has no {', '.join(sorted(missing))}")
    return found


def _figure(row: Any, where: str, unit: str, path: Path) -> Figure:
    row = _keys(row, where, _FIGURE_KEYS, _FIGURE_KEYS - {"note"}, path)
    if isinstance(row["value"], bool) or not isinstance(row["value"], int | float):
        raise FileError(row, f"{where}: “{row['value']}” is not a number")
    if not row["value"] > 0:
        raise FileError(row, f"{where}: {row['value']} is not above zero")
    if row["status"] not in STATUSES:
        raise FileError(row, f"{where}: status “{row['status']}” is none of {', '.join(STATUSES)}")
    if row["unit"] != unit:
        raise FileError(row, f"{where}: unit “{row['unit']}”, wanted “{unit}”")
    return Figure(**{**row, "value": float(row["value"])})


_KIND_UNITS = {"lamp_life": "s", "class_factor": "1", "reflector_gain": "1", "source_offset": "m"}
_CLASS_UNITS = {"uv_index": "1", "tube_length": "m", "arc_length": "m"}


def _kind(name: str, row: Any, path: Path) -> LampKind:
    where = f"lamp kind {name}"
    row = _keys(row, where, set(_KIND_UNITS), {"lamp_life", "class_factor"}, path)
    if ("reflector_gain" in row) == ("source_offset" in row):
        raise FileError(row, f"{where} needs reflector_gain (a tube) or source_offset, not both")
    figures = {key: _figure(row[key], f"{where}, {key}", _KIND_UNITS[key], path) for key in row}
    return LampKind(name, **figures)


def _class(number: int, row: Any, kinds: Mapping[str, LampKind], path: Path) -> LampClass:
    where = f"lamp class {number}"
    row = _keys(row, where, {"kind", "strength", *_CLASS_UNITS}, {"kind", "uv_index"}, path)
    if row["kind"] not in kinds:
        raise FileError(row, f"{where}: kind “{row['kind']}” is not among the kinds")
    is_tube = kinds[row["kind"]].reflector_gain is not None
    if is_tube != ({"tube_length", "arc_length"} <= set(row)):
        raise FileError(row, f"{where}: tubes, and only tubes, have tube_length and arc_length")
    figures = {
        key: _figure(row[key], f"{where}, {key}", unit, path)
        for key, unit in _CLASS_UNITS.items()
        if key in row
    }
    return LampClass(kind=row["kind"], strength=row.get("strength"), **figures)


def _ones(rows: Any, what: str, path: Path) -> dict[str, Figure]:
    named = _mapping(rows, what, path).items()
    return {name: _figure(row, f"{what} {name}", "1", path) for name, row in named}


def read_lamps(path: Path) -> Lamps:
    """Read a lamp table; FileError with file and line on the first bad row."""
    parts = {"anchor_distance", "doubts", "kinds", "classes", "spectra"}
    rows = _keys(read(path), "the lamp table", parts, parts, path)
    named = _mapping(rows["kinds"], "kinds", path).items()
    kinds = {name: _kind(name, row, path) for name, row in named}
    classes = [_class(n, row, kinds, path) for n, row in enumerate(rows["classes"], start=1)]
    classes.sort(key=lambda row: row.arc_length.value if row.arc_length else 0.0)
    return Lamps(
        anchor_distance=_figure(rows["anchor_distance"], "anchor_distance", "m", path),
        doubts=_ones(rows["doubts"], "doubt", path),
        kinds=kinds,
        classes=tuple(classes),
        spectra=_ones(rows["spectra"], "spectrum", path),
    )


@cache
def lamps() -> Lamps:
    """Return the lamp table that ships with the program."""
    return read_lamps(Path(__file__).with_name("lamps.yaml"))
