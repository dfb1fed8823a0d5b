"""Numbers that stand for a judgement or a doubt: assumptions, limits, doubts of measuring."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from math import isfinite
from pathlib import Path
from typing import ClassVar, cast

from msgspec import field
from msgspec.structs import replace

from interview.base.rows import FileError, WrongKey, did_you_mean, read, read_folder
from interview.base.units import CORE_UNITS
from interview.care.sources import STATUSES, Sourced, bibliography

__all__ = [
    "STATUSES",
    "Doubt",
    "Fact",
    "Instrument",
    "assumptions",
    "bibliography",
    "doubts",
    "limit",
    "limits",
    "read_doubts",
    "read_facts",
]

_HERE = Path(__file__).parent
_UNITS = {*CORE_UNITS.values(), "m**3/m", "kg/m**2", "kg/m**2/s", "W/m**2/K", "W/m**3", "m/s"}


class Width(Sourced, frozen=True, kw_only=True):
    """How far a number may be off.

    `spread` is one sigma, `factor` one sigma of a log-normal, `relative` one sigma as a
    share of the value.
    """

    spread: float = 0.0
    factor: float = 1.0
    relative: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a doubt that is negative or endless."""
        super().__post_init__()
        for name, least in (("factor", 1.0), ("spread", 0.0), ("relative", 0.0)):
            _refuse_endless(name, getattr(self, name))
            if getattr(self, name) < least:
                raise WrongKey(name, "a doubt can't be negative (a factor is at least 1)")


class Fact(Width, frozen=True, kw_only=True):
    """A number with its doubt, unit, status and source; its `name` is the key it stands under.

    `low` and `high` bound what can be.
    """

    EXAMPLE: ClassVar[str] = (
        "{value: 0.3, unit: m, status: practice, source: common_practice, meaning: what it is}"
    )

    unit: str
    meaning: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    note: str = ""
    settled_by: str = ""

    @property
    def name(self) -> str:
        """The name of the quantity or limit it is a fact of."""
        return self.key

    def __post_init__(self) -> None:
        """Refuse what no number of a unit can be."""
        super().__post_init__()
        if self.unit not in _UNITS:
            near = did_you_mean(self.unit, _UNITS) or f"; there are {', '.join(sorted(_UNITS))}"
            raise WrongKey("unit", f"the unit “{self.unit}” is none of the core's{near}")
        for name in ("value", "low", "high"):
            _refuse_endless(name, getattr(self, name))
        inside = [v for v in (self.low, self.value, self.high) if v is not None]
        if inside != sorted(inside):
            raise WrongKey("low", "low, value and high are not in order")


class Instrument(Width, frozen=True, kw_only=True):
    """How far a reading by one instrument may be off, in the unit of its answer."""

    EXAMPLE: ClassVar[str] = (
        "{called: a probe, spread: 0.5, status: practice, source: common_practice, "
        "meaning: what it is}"
    )

    called: str
    meaning: str


class Doubt(Fact, frozen=True, kw_only=True):
    """How far a measured answer may be off, and how far by instruments that keepers name."""

    called: str = ""
    """What it is measured with, where that is worth naming."""
    instruments: dict[str, Instrument] = field(default_factory=dict)

    def by(self, instrument: str) -> Fact:
        """The doubt of a reading taken with an instrument; the usual one for any other."""
        tool = self.instruments.get(instrument)
        if tool is None:
            return self
        width = {"spread": tool.spread, "factor": tool.factor, "relative": tool.relative}
        told = {"status": tool.status, "source": tool.source, "meaning": tool.meaning}
        return replace(self, **width, **told)


def _refuse_endless(key: str, number: float | None) -> None:
    """WrongKey for a number that doesn't end."""
    if number is not None and not isfinite(number):
        raise WrongKey(key, f"“{number}” is no number that ends, as 0.25 is")


def read_facts(folder: Path) -> dict[str, Fact]:
    """All facts of a folder's files; FileError with file and line of the bad ones."""
    found: dict[str, Fact] = {}
    for _, facts in read_folder(folder, dict[str, Fact]):
        for name, fact in facts.items():
            if name in found:
                raise FileError(fact.where, f"{name} is given in another file already")
            if fact.value is None:
                raise FileError(fact.where, f"{name} has no value; a whole one is {Fact.EXAMPLE}")
            found[name] = fact
    return found


@cache
def assumptions() -> Mapping[str, Fact]:
    """What the core assumes, by the parameter's name."""
    return read_facts(_HERE / "assumptions")


@cache
def limits() -> Mapping[str, Fact]:
    """What the checks compare with, by name."""
    return read_facts(_HERE / "limits")


def limit(name: str) -> float:
    """The number of a limit in its unit; each has one, or its file is not read."""
    return cast("float", limits()[name].value)


def read_doubts(path: Path) -> dict[str, Doubt]:
    """All doubts of a file; FileError with file and line of the bad ones."""
    return read(path, dict[str, Doubt])


@cache
def doubts() -> Mapping[str, Doubt]:
    """One sigma of a measured answer, by question id."""
    return read_doubts(_HERE / "doubts.yaml")
