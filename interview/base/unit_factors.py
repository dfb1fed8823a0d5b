"""Exact factors of the units the program names, so that no session has to load pint for them.

The file is made from pint's registry and compared with it by a test; what it does not hold is
pint's to convert.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path

__all__ = ["FACTORS", "factors", "line_between"]

FACTORS = Path(__file__).with_name("unit_factors.tsv")
"""A line for each unit: its name, its base unit, slope and offset towards that."""


@cache
def factors() -> dict[str, tuple[str, str, str]]:
    """Base unit, slope and offset of each unit, as written."""
    lines = FACTORS.read_text(encoding="utf-8").splitlines()
    return {unit: (base, slope, offset) for unit, base, slope, offset in map(_parts, lines)}


@cache
def line_between(from_unit: str, to_unit: str) -> tuple[Fraction, Fraction] | None:
    """Offset and slope from one unit to another; None where the file doesn't tell."""
    known = factors()
    if from_unit not in known or to_unit not in known:
        return None
    (base, slope, offset), (other, by, off) = known[from_unit], known[to_unit]
    reading = offset != "0" or off != "0"
    if base != other or (reading and "delta_" in from_unit + to_unit):
        return None
    size = Fraction(by)
    return (Fraction(offset) - Fraction(off)) / size, Fraction(slope) / size


def _parts(line: str) -> list[str]:
    return line.split("\t")
