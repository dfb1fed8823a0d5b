"""Ultraviolet lamps by kind and class, each number with its unit, status and source."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from typing import ClassVar, Literal

import msgspec

from interview.base.rows import FileError, Row, WrongKey, read
from interview.care.sources import Sourced

__all__ = ["Figure", "LampClass", "LampKind", "Lamps", "lamps", "read_lamps"]


class Figure(Sourced, frozen=True, kw_only=True):
    """One number of the lamp table; above zero."""

    value: float
    unit: str
    note: str = ""

    def __post_init__(self) -> None:
        """Refuse what no lamp can have."""
        super().__post_init__()
        if not 0 < self.value < math.inf:
            raise WrongKey("value", f"{self.value:g} is not above zero")


class Metres(Figure, frozen=True, kw_only=True):
    """A length [m]."""

    EXAMPLE: ClassVar[str] = "{value: 0.3, unit: m, status: memory, source: recalled}"

    unit: Literal["m"]


class Seconds(Figure, frozen=True, kw_only=True):
    """A time lit [s]."""

    EXAMPLE: ClassVar[str] = "{value: 7.2e+6, unit: s, status: memory, source: recalled}"

    unit: Literal["s"]


class Share(Figure, frozen=True, kw_only=True):
    """A factor or a UV index [1]."""

    EXAMPLE: ClassVar[str] = '{value: 1.6, unit: "1", status: memory, source: recalled}'

    unit: Literal["1"]


class LampKind(Row, frozen=True, kw_only=True):
    """What all lamps of a kind share; tubes have a reflector gain, the others an offset."""

    lamp_life: Seconds
    class_factor: Share
    reflector_gain: Share | None = None
    source_offset: Metres | None = None

    def __post_init__(self) -> None:
        """Refuse what is neither a tube nor a point, or both."""
        if (self.reflector_gain is None) == (self.source_offset is None):
            raise ValueError("needs reflector_gain (a tube) or source_offset, not both")


class LampClass(Row, frozen=True, kw_only=True):
    """UV index of one class at the anchor distance; lengths for tubes only."""

    kind: str
    uv_index: Share
    strength: Literal["low", "high"] | None = None
    tube_length: Metres | None = None
    arc_length: Metres | None = None


class Lamps(Row, frozen=True, kw_only=True):
    """The whole table; the classes by rising arc length."""

    anchor_distance: Metres
    doubts: dict[str, Share]
    kinds: dict[str, LampKind]
    classes: tuple[LampClass, ...]
    spectra: dict[str, Share]

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


def read_lamps(path: Path) -> Lamps:
    """Read a lamp table; FileError with file and line of the bad rows."""
    table = read(path, Lamps)
    for row in table.classes:
        if row.kind not in table.kinds:
            raise FileError(row.where, f"kind “{row.kind}” is not among the kinds")
        is_tube = table.kinds[row.kind].reflector_gain is not None
        if {is_tube} != {row.tube_length is not None, row.arc_length is not None}:
            raise FileError(row.where, "tubes, and only tubes, have tube_length and arc_length")
    rising = sorted(table.classes, key=lambda row: row.arc_length.value if row.arc_length else 0.0)
    return msgspec.structs.replace(table, classes=tuple(rising))


@cache
def lamps() -> Lamps:
    """Return the lamp table that ships with the program."""
    return read_lamps(Path(__file__).with_name("lamps.yaml"))
