"""Numbers that stand for a judgement or a doubt: assumptions, limits, doubts of measuring.

Every one carries its unit, status and source; the bibliography resolves the source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cache
from math import isfinite
from pathlib import Path

from interview.base.rows.lines import FileError, Lined, read, read_folder
from interview.base.units import CORE_UNITS

__all__ = [
    "STATUSES",
    "Fact",
    "assumptions",
    "bibliography",
    "doubts",
    "limits",
    "read_doubts",
    "read_facts",
]

STATUSES = {
    "published": "published",
    "law": "law or official guideline",
    "standard": "a standard",
    "computed": "computed",
    "practice": "common practice, unsourced",
    "memory": "recalled, unconfirmed",
    "assumption": "our own assumption",
}

_HERE = Path(__file__).parent
_NUMBERS = ("value", "spread", "factor", "relative", "low", "high")
_KEYS = {*("unit", "status", "source", "meaning", "note", "settled_by"), *_NUMBERS}
_UNITS = {*CORE_UNITS.values(), "m**3/m", "kg/m**2", "kg/m**2/s", "W/m**2/K", "W/m**3"}


@dataclass(frozen=True)
class Fact:
    """A number with its doubt, status and source.

    `spread` is one sigma, `factor` one sigma of a log-normal, `relative` one sigma as a
    share of the value; `low` and `high` bound what can be.
    """

    name: str
    unit: str
    status: str
    source: str
    meaning: str
    value: float | None = None
    spread: float = 0.0
    factor: float = 1.0
    relative: float = 0.0
    low: float | None = None
    high: float | None = None
    note: str = ""
    settled_by: str = ""
    where: Lined = field(default_factory=Lined, compare=False, repr=False)


def _fact(name: str, row: object, path: Path, *, needs_value: bool) -> Fact:
    if not isinstance(row, Lined):
        raise FileError(path.name, f"{name} must be a mapping with value, unit, status and source")
    if unknown := set(row) - _KEYS:
        raise FileError(row, f"{name}: unknown key {', '.join(sorted(unknown))}")
    for key in ("unit", "status", "source", "meaning", *(["value"] if needs_value else [])):
        if row.get(key) in (None, ""):
            raise FileError(row, f"{name} has no {key}")
    if row["status"] not in STATUSES:
        known = ", ".join(STATUSES)
        raise FileError(row, f"{name}: status “{row['status']}” is none of {known}")
    if row["source"] not in bibliography():
        raise FileError(row, f"{name}: source “{row['source']}” is not in the bibliography")
    if str(row["unit"]) not in _UNITS:
        raise FileError(row, f"{name}: unit “{row['unit']}” is none of {', '.join(sorted(_UNITS))}")
    for key in _NUMBERS:
        if key in row and not _is_number(row[key]):
            raise FileError(row, f"{name}: {key} “{row[key]}” is no number")
    fact = Fact(name=name, where=row, **{**row, "unit": str(row["unit"])})
    inside = [v for v in (fact.low, fact.value, fact.high) if v is not None]
    if inside != sorted(inside):
        raise FileError(row, f"{name}: low, value and high are not in order")
    if fact.factor < 1 or fact.spread < 0 or fact.relative < 0:
        raise FileError(row, f"{name}: a doubt can't be negative (a factor is at least 1)")
    return fact


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and isfinite(value)


def read_facts(folder: Path, *, needs_value: bool = True) -> dict[str, Fact]:
    """All facts of a folder's files; FileError with file and line on the first bad one."""
    found: dict[str, Fact] = {}
    for path, rows in read_folder(folder):
        for name, row in (rows or {}).items():
            if name in found:
                raise FileError(row, f"{name} is given in another file already")
            found[name] = _fact(name, row, path, needs_value=needs_value)
    return found


@cache
def bibliography() -> Mapping[str, str]:
    """Source key → full citation."""
    return {key: str(text) for key, text in read(_HERE / "bibliography.yaml").items()}


@cache
def assumptions() -> Mapping[str, Fact]:
    """What the core assumes, by the parameter's name."""
    return read_facts(_HERE / "assumptions")


@cache
def limits() -> Mapping[str, Fact]:
    """What the checks compare with, by name."""
    return read_facts(_HERE / "limits")


def read_doubts(path: Path) -> dict[str, Fact]:
    """All doubts of a file; FileError with file and line on the first bad one."""
    return {name: _fact(name, row, path, needs_value=False) for name, row in read(path).items()}


@cache
def doubts() -> Mapping[str, Fact]:
    """One sigma of a measured answer, by question id."""
    return read_doubts(_HERE / "doubts.yaml")
