"""Units: exact factors from the standards, pint as a second opinion, and what is shown.

Exact factors: NIST Special Publication 811 (2008), appendix B.8 and B.9 (inch, foot,
yard, pound, ounce, US gallon, degrees Fahrenheit, psi, kWh), printed to six or seven
figures there or exact in bold; the imperial gallon is 4.54609 L by the UK Units of
Measurement Regulations 1995, schedule.
"""

from __future__ import annotations

import math
import subprocess
import sys

import numpy as np
import pint
import pytest
from every import every

from interview.base.show import to_show
from interview.base.units import CORE_UNITS, convert, registry, system_for
from interview.words.amounts.amount import written
from interview.words.amounts.dimensions import dimensions as known_dimensions
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.spellings import regional, spellings

DIMENSIONS = known_dimensions()

EXACT = [
    ("inch", "m", 2.54e-2),
    ("foot", "m", 3.048e-1),
    ("yard", "m", 9.144e-1),
    ("foot**2", "m**2", 9.290304e-2),
    ("inch**2", "m**2", 6.4516e-4),
    ("gallon", "m**3", 3.785411784e-3),
    ("imperial_gallon", "m**3", 4.54609e-3),
    ("pound", "kg", 4.5359237e-1),
    ("delta_degF", "K", 5 / 9),
    ("hour", "s", 3600.0),
    ("day", "s", 86400.0),
    ("kWh", "J", 3.6e6),
    ("bar", "Pa", 1e5),
    ("%", "1", 0.01),
]
PRINTED = [
    ("ounce", "kg", 2.834952e-2),
    ("fluid_ounce", "m**3", 2.957353e-5),
    ("pint", "m**3", 4.731765e-4),
    ("quart", "m**3", 9.463529e-4),
    ("imperial_fluid_ounce", "m**3", 2.841306e-5),
    ("foot**3", "m**3", 2.831685e-2),
    ("stone", "kg", 6.350293),
    ("psi", "Pa", 6.894757e3),
    ("psf", "Pa", 4.788026e1),
    ("inHg", "Pa", 3.386389e3),
    ("mmHg", "Pa", 1.333224e2),
    ("deg", "radian", 1.745329e-2),
    ("gallon/minute", "m**3/s", 6.309020e-5),
]


@pytest.mark.parametrize(("unit", "core", "factor"), EXACT)
def test_exact_factor(unit: str, core: str, factor: float) -> None:
    assert convert(1, unit, core) == factor


@pytest.mark.parametrize(("unit", "core", "factor"), PRINTED)
def test_printed_factor(unit: str, core: str, factor: float) -> None:
    # Seven figures are printed: half a unit of the last is at most 5e-7 of the value.
    assert convert(1, unit, core) == pytest.approx(factor, rel=5e-7)


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"), [(32, 0), (212, 100), (-40, -40), (98.6, 37), (-459.67, -273.15)]
)
def test_fixed_points_of_the_scales(fahrenheit: float, celsius: float) -> None:
    # NIST SP 811, section 4.2.1.1 and B.9: t/°C = (t/°F - 32)/1.8; T/K = t/°C + 273.15.
    assert convert(fahrenheit, "degF", "degC") == pytest.approx(celsius, abs=1e-12)
    assert convert(celsius, "degC", "degF") == pytest.approx(fahrenheit, abs=1e-12)
    assert convert(celsius, "degC", "K") == pytest.approx(celsius + 273.15, abs=1e-12)


def test_a_conversion_is_the_nearest_double() -> None:
    assert convert(33.5, "cm", "m") == 0.335
    assert convert(18.5, "inch", "m") == 0.4699
    assert convert(np.float64(33.5), "cm", "m") == 0.335


def test_what_is_not_finite_stays_so() -> None:
    assert convert(math.inf, "day", "s") == math.inf
    assert math.isnan(convert(math.nan, "cm", "m"))


@pytest.fixture(scope="module")
def plain() -> pint.UnitRegistry[float]:
    """A plain pint registry in floats, as a second opinion."""
    return pint.UnitRegistry()


@every("dimension", list(CORE_UNITS))
def test_pint_agrees_on_every_unit_keepers_write(
    dimension: str, plain: pint.UnitRegistry[float]
) -> None:
    ours = {"1": "", "%": "percent", "deg": "degree", "psf": "lbf/ft**2", "W/degF": "W/delta_degF"}
    core = CORE_UNITS[dimension]
    for unit in {regional(unit, "europe") for unit in spellings(dimension).values()} - {"degree"}:
        theirs = plain.Quantity(7.0, ours.get(unit, unit)).to(ours.get(core, core)).magnitude
        assert convert(7.0, unit, core) == pytest.approx(theirs, rel=1e-12), unit


@every("dimension", list(CORE_UNITS))
@every("region", ["europe", "united_kingdom"])
def test_every_written_unit_reads_back(dimension: str, region: str) -> None:
    core = CORE_UNITS[dimension]
    for named in {*spellings(dimension).values(), core} - {"?degree"}:
        unit = regional(named, region)
        if (dimension, unit) in (("price", "%"), ("share", "1")):
            continue  # cents, shown in whole money; and a share, shown in percent
        text = written(5, unit)
        reading = read_quantity(text, dimension, region=region)
        assert reading.best == pytest.approx(convert(5, unit, core), rel=1e-12), text
        assert reading.understood == "", text


def test_every_dimension_has_its_core_unit() -> None:
    assert set(DIMENSIONS) == set(CORE_UNITS)


def test_systems() -> None:
    assert [system_for(r) for r in ("north_america", "united_kingdom", "europe", "elsewhere")] == [
        "us",
        "uk",
        "metric",
        "metric",
    ]


SHOWN = [
    (0.47, "m", "47 cm", "18.5 in"),
    (0.008, "m", "8 mm", "0.31 in"),
    (0.0006, "m", "0.6 mm", "0.6 mm"),
    (0.9144, "m", "91.4 cm", "36 in"),
    (1.2192, "m", "1.22 m", "48 in"),
    (4.0, "m", "4 m", "13.1 ft"),
    (0.0, "m", "0 cm", "0 in"),
    (-0.03, "m", "-3 cm", "-1.18 in"),
    (0.121, "m**3", "121 L", "32 gal"),
    (0.0002, "m**3", "200 mL", "0.053 gal"),
    (33.0, "degC", "33 °C", "91.4 °F"),
    (32.94, "degC", "32.9 °C", "91.3 °F"),
    (5.0, "K", "5 °C", "9 °F"),
    (0.16, "m**2", "1600 cm²", "1.72 sq ft"),
    (0.05, "m**2", "500 cm²", "77.5 sq in"),
    (2.0, "m**2", "2 m²", "21.5 sq ft"),
    (1200 / 3.6e6, "m**3/s", "1200 L/h", "317 gph"),
    (220.0, "kg", "220 kg", "485 lb"),
    (0.5, "kg", "500 g", "1.1 lb"),
    (0.005, "kg", "5 g", "5 g"),
    (1e-5, "kg", "10 mg", "10 mg"),
    (5170.0, "Pa", "5.17 kPa", "108 psf"),
    (7e6, "Pa", "7 MPa", "1015 psi"),
    (2.3 / 3600, "1/s", "2.3 times an hour", "2.3 times an hour"),
    (0.0173, "mg/L", "0.017 mg/L", "0.017 mg/L"),
    (40.0, "mg/L", "40 mg/L", "40 mg/L"),
    (2 / 86400, "mg/L/s", "2 mg/L a day", "2 mg/L a day"),
    (1.5e-3 / 86400, "kg/s", "1.5 g a day", "1.5 g a day"),
    (0.05e-3 / 86400, "kg/s", "50 mg a day", "50 mg a day"),
    (8.25, "W/K", "8.2 W/°C", "4.6 W/°F"),
    (100.0, "W", "100 W", "100 W"),
    (230.0, "V", "230 V", "230 V"),
    (2.25, "A", "2.2 A", "2.2 A"),
    (3.6e7, "J", "10 kWh", "10 kWh"),
    (30.0, "deg", "30°", "30°"),
    (55.0, "%", "55%", "55%"),
    (3.5, "1", "3.5", "3.5"),
    (0.2, "m**3/m", "2 L for each cm", "1.34 gal for each in"),
    (998.2, "kg/m**3", "998 kg/m**3", "998 kg/m**3"),
    (45.0, "s", "45 s", "45 s"),
    (1800.0, "s", "30 min", "30 min"),
    (9 * 3600.0, "s", "9 h", "9 h"),
    (9.5 * 3600, "s", "9.5 h", "9.5 h"),
    (12 * 86400.0, "s", "12 days", "12 days"),
    (35 * 86400.0, "s", "5 weeks", "5 weeks"),
    (200 * 86400.0, "s", "6.6 months", "6.6 months"),
    (31557600.0, "s", "1 year", "1 year"),
    (1.4 * 31557600, "s", "1.4 years", "1.4 years"),
    (math.inf, "s", "never", "never"),
    (math.inf, "1", "no limit", "no limit"),
    (math.nan, "m", "not known", "not known"),
]


@every(("value", "unit", "metric", "us"), SHOWN)
def test_shown(value: float, unit: str, metric: str, us: str) -> None:
    assert to_show(value, unit, "metric") == metric
    assert to_show(value, unit, "uk") == metric
    assert to_show(value, unit, "us") == us
    assert to_show(np.float64(value), unit, "us") == us


def test_shown_by_kind_or_digits() -> None:
    assert to_show(0.3, "1", "metric", "share") == "30%"
    assert to_show(3.5, "1", "metric", "per_week") == "3.5 times a week"
    assert to_show(0.285, "1", "metric", "price", 3) == "0.285"
    assert to_show(2.0, "1", "metric", "count") == "2"
    assert to_show(0.33512, "m", "metric", digits=5) == "33.512 cm"
    assert to_show(2 / 86400, "kg/s", "metric", "water") == "2 L a day"
    # 2 L is 2 / 3.785411784 US gal.
    assert to_show(2 / 86400, "kg/s", "us", "water") == "0.53 gal a day"
    assert to_show(0.3, "1", "us", "share") == "30%"


def test_one_registry() -> None:
    assert registry() is registry()


@pytest.mark.parametrize(
    "module",
    [
        "interview.base.units",
        "interview.words",
        "interview.words.amounts.quantity",
        "interview.words.forms.size",
        "interview.words.choices.choice",
        "interview.words.amounts.format",
    ],
)
def test_nothing_heavy_is_imported_by(module: str) -> None:
    heavy = "[m for m in ('pint', 'numpy', 'scipy', 'yaml', 'rich') if m in sys.modules]"
    code = f"import sys, {module}; print({heavy})"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "[]"
