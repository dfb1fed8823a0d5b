"""The unit factors that ship, against pint's registry, and that no session has to load pint.

With UPDATE_GOLDEN=1 the file is made anew from pint.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pint
import pytest
from every import every

from interview.base import units
from interview.base.ladders import KINDS, LADDERS
from interview.base.unit_factors import FACTORS, factors, line_between
from interview.core.wiring import laws, quantities
from interview.words.amounts.spellings import regional, spellings

ROOT = Path(__file__).parent.parent.parent
_IN_DATA = (
    "L/h",
    "litres",
    "ft",
    "seconds",
    "minutes",
    "hours",
    "days",
    "weeks",
    "months",
    "years",
)
"""Names that only data files use."""


def _named() -> Iterator[str]:
    """Every unit that the program has a name for."""
    yield from (*units.CORE_UNITS.values(), *units._PINT_NAMES, *LADDERS, *_IN_DATA)
    for dimension in units.CORE_UNITS:
        for unit in spellings(dimension).values():
            yield from (regional(unit, r) for r in ("europe", "united_kingdom", "north_america"))
    for ladder in (*LADDERS.values(), *(ladder for _, ladder in KINDS.values())):
        yield from (rung.unit for rung in (*ladder.metric, *ladder.us))
    for formula in (*laws().values(), *quantities().formulas.values()):
        yield from (formula.unit, *(item.unit for item in formula.inputs))


NAMES = sorted({*_named()} - {"choice", "yes/no", "?degree", "imperial_degree"})


def _by_pint(unit: str) -> tuple[str, str, str]:
    """Base unit, slope and offset in exact fractions."""
    quantity, name = units.registry().Quantity, units._PINT_NAMES.get(unit, unit)
    zero, one = (quantity(Fraction(n), name).to_base_units() for n in (0, 1))
    base = "*".join(sorted(f"{part}^{power}" for part, power in one.unit_items())) or "1"
    offset = Fraction(zero.magnitude)
    return base, str(Fraction(one.magnitude) - offset), str(offset)


def test_the_file_is_what_pint_says() -> None:
    if os.environ.get("UPDATE_GOLDEN") == "1":
        rows = ("\t".join((name, *_by_pint(name))) for name in NAMES)
        FACTORS.write_text("\n".join(rows) + "\n", encoding="utf-8")
        factors.cache_clear()
        line_between.cache_clear()
    assert factors() == {name: _by_pint(name) for name in NAMES}


@every("unit", NAMES)
def test_a_conversion_is_pints_own(unit: str) -> None:
    for other in NAMES:
        if line_between(unit, other) is not None:
            source, target = (units._PINT_NAMES.get(name, name) for name in (unit, other))
            theirs = units.registry().Quantity(Fraction(7, 3), source).to(target).magnitude
            assert units.convert(Fraction(7, 3), unit, other) == float(theirs), other


def test_a_reading_is_no_difference() -> None:
    """As in pint, which says so."""
    for units_of_it in (("degC", "delta_degC"), ("delta_degF", "degF")):
        assert line_between(*units_of_it) is None
        with pytest.raises(pint.DimensionalityError):
            units.convert(1, *units_of_it)
    assert line_between("K", "degC") is not None and line_between("K", "delta_degC") is not None


def test_what_the_file_does_not_hold_is_left_to_pint() -> None:
    assert line_between("furlong", "m") is None
    assert units.convert(1, "furlong", "m") == pytest.approx(201.168, rel=1e-5)
    assert line_between("kg", "m") is None
    with pytest.raises(pint.DimensionalityError):
        units.convert(1, "kg", "m")


@pytest.mark.parametrize(
    "command",
    [
        ("audit", "transcripts_demo/musk_turtle.yaml", "--plain"),
        ("audit", "transcripts_demo/painted_turtles_classroom.yaml", "--plain"),
        ("reckon", "water_volume", "inside_length=90 cm", "inside_width=45 cm", "water_depth=1 ft"),
        ("questions", "--check"),
    ],
    ids=lambda command: command[0],
)
def test_no_session_loads_pint_or_scipy(command: tuple[str, ...]) -> None:
    """Nor does a page load the talk, or a single sum what judges and tells of a tank."""
    heavy = {"pint", "scipy"}
    if command[0] == "audit":
        heavy |= {"interview.chat.talks", "interview.chat.hearing"}
    if command[0] == "reckon":
        heavy |= {"interview.audit", "interview.advice", "interview.report.page"}
    code = (
        "import sys; from interview.cli import main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: pass\n"
        f"print(sorted({heavy} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *command],
        capture_output=True, text=True, check=True, timeout=120, cwd=ROOT,
    )  # fmt: skip
    assert done.stdout.splitlines()[-1] == "[]"
