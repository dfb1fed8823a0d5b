"""How much of the core stands on values from outside: counted, source by source.

A row of tests/reference counts as an outside value if its source is a publication, a standard,
a law, a handbook or a general-purpose library. Sums by hand and trade habits are checked like
all the others, but are not counted.
"""

from __future__ import annotations

import ast
import re
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

HERE = Path(__file__).parent

# What the words of a row's `source` begin with → the source behind them.
SOURCES = {
    "Directive 2010/63/EU": "Directive 2010/63/EU",
    "BMEL 1997": "BMEL 1997",
    "NSW Department of Education": "NSW Department of Education",
    "Jolicoeur and Mosimann 1960": "Jolicoeur and Mosimann 1960",
    "Add-my-Pet": "Add-my-Pet, several single animals",
    "Ernst 1986": "Ernst 1986",
    "Wilbur 1975": "Wilbur 1975",
    "Masin et al. 2015": "Masin et al. 2015",
    "Harden, Midway and Gibbons 2021": "Harden et al. 2021",
    "respirometry of a painted turtle": "respirometry, read second-hand",
    "Timmons and Ebeling": "Timmons and Ebeling",
    "IAPWS": "IAPWS formulations, by the iapws library",
    "3.7742 kg in a US gallon": "IAPWS formulations, by the iapws library",
    "CIPM 2001": "Tanaka et al. 2001 (CIPM)",
    "ASHRAE Handbook": "ASHRAE Handbook 2017",
    "PsychroLib": "PsychroLib library",
    "CoolProp": "CoolProp library",
    "steam table in textbooks": "steam tables",
    "Incropera": "Incropera et al.",
    "ht ": "ht library",
    "Cengel": "Cengel & Ghajar",
    "Shah, SI table": "Shah 2002",
    "fluids 1.3.1": "fluids library",
    "astral": "astral library",
    "pvlib": "pvlib library",
    "gsw": "gsw library",
    "phreeqpython": "phreeqpython library",
    "scipy 1.17.1": "scipy library",
    "ICNIRP 2004": "ICNIRP 2004",
    "CIE 106/4:1993": "CIE 106/4",
    "CIE e-ILV": "CIE e-ILV",
    "Swedish Meteorological": "SMHI",
    "Keitz equation": "IOA 2007, Keitz equation",
    "0.7**(t/life) by hand, two decimals; 2190 h": "Nevarez 2009",
    "Duarte et al. 2009": "Duarte et al. 2009",
    "Commodity PMMA": "measured sheets, CIE 206 set",
    "Trussell 1972": "Trussell 1972",
    "UF/IFAS EDIS FA16": "UF/IFAS FA16 after Emerson 1975",
    "familiar rounded table after Benson": "Benson and Krause 1984",
    "EPA-822-R-13-001": "US EPA 2013",
    "Soulsby 1997": "Soulsby 1997",
    "Hagen-Poiseuille": "Hagen-Poiseuille law",
    "Stokes law": "Stokes law",
    "NEC 210.20(A)": "National Electrical Code",
    "IRC Table": "International Residential Code",
    "EN 1991-1-1": "EN 1991-1-1",
    "UK National Annex": "UK National Annex to EN 1991-1-1",
    "AS/NZS 1170.1": "AS/NZS 1170.1",
    "NDS 2018": "NDS 2018",
    "EN 1995-1-1": "EN 1995-1-1",
    "handbook formulas for simple beams": "handbook of beam formulas",
    "beam under triangular load": "handbook of beam formulas",
    "Lévy series with numpy 2.4.6, m = 1…399, and scikit-fem": "scikit-fem library",
    "laboratory usage": "laboratory usage of thiosulfate",
    "protein is 16 % nitrogen": "nitrogen share of protein, standard factor",
}

# Sums that anybody can do again by hand, trade habits, and second computations of our own kind.
NOT_COUNTED = re.compile(
    r"common practice, no source|10 US gal an inch|80 L for 5 cm|shell 1\.5 times|10 kcal a day|"
    r"statics on the span|Lévy series with numpy 2.4.6, water|arithmetic|plain arithmetic|"
    r".*by hand|independent computation|"
    r"independent reproduction|heat balance|2 K at most|molar masses|recalled|"
    r"0\.54 \*|0\.15 \*|Limit of |Midnight|Polar night|A reading as expected|Equal doubts|"
    r"Statics of a rigid raft|Plane geometry|Open area|0\.7\*\*|Bayes"
)

# Library → a test that puts it beside our own formula over a grid of inputs.
LIBRARIES = {
    "ht": ("core/test_heat_laws.py", "test_vertical_plate_agrees_with_ht"),
    "fluids": ("core/test_filtration.py", "test_head_agrees_with_fluids"),
    "psychrolib": (
        "core/test_heat_laws.py",
        "test_moist_air_agrees_with_psychrolib_and_coolprop",
    ),
    "CoolProp": ("core/test_heat_laws.py", "test_transport_properties_agree_with_coolprop"),
    "iapws": (
        "core/test_heat_laws.py",
        "test_saturation_and_latent_heat_agree_with_the_steam_tables",
    ),
    "astral": ("core/test_light_laws.py", "test_day_length_against_astral"),
    "pvlib": ("core/test_light_laws.py", "test_day_length_against_pvlib"),
    "phreeqpython": ("core/test_water.py", "test_free_ammonia_agrees_with_a_speciation_code"),
    "PyCO2SYS": ("core/test_water.py", "test_free_ammonia_agrees_with_clegg_and_whitfield"),
    "gsw": ("core/test_water.py", "test_oxygen_agrees_with_the_oceanographers_library"),
    "scipy": ("core/test_light_laws.py", "test_tube_equals_quadrature"),
}


@cache
def _rows() -> list[dict[str, Any]]:
    paths = sorted((HERE / "reference").glob("*.yaml"))
    return [row for path in paths for row in yaml.safe_load(path.read_text(encoding="utf-8"))]


def _source_of(text: str) -> str | None:
    """The source behind the words; None for what is not counted."""
    known = [name for start, name in SOURCES.items() if text.startswith(start)]
    if known:
        return known[0]
    assert NOT_COUNTED.match(text), f"“{text}” is neither a known source nor known not to be one"
    return None


def test_at_least_250_outside_values_from_25_independent_sources() -> None:
    counted = Counter(_source_of(row["source"]) for row in _rows())
    del counted[None]
    assert counted.total() >= 250, counted
    assert len(counted) >= 25, counted
    # Not by one source alone: without the two richest there are still enough.
    assert counted.total() - sum(n for _, n in counted.most_common(2)) >= 250


def test_every_source_named_here_is_used() -> None:
    texts = [row["source"] for row in _rows()]
    assert [s for s in SOURCES if not any(text.startswith(s) for text in texts)] == []


def test_no_value_is_given_twice() -> None:
    """The same inputs twice are two opinions of two sources, not one counted twice."""
    seen = Counter(
        (row["of"], str(row["given"]), str(row["expected"]), row["source"]) for row in _rows()
    )
    assert [key for key, count in seen.items() if count > 1] == []


def test_every_tolerance_is_narrow_or_explained() -> None:
    """A tolerance above a tenth needs a note, or a habit as its source."""
    loose = [
        (row["of"], row["source"])
        for row in _rows()
        if row.get("relative", 0) > 0.1 and "note" not in row and "no source" not in row["source"]
    ]
    assert loose == []


def test_at_least_eight_libraries() -> None:
    assert len(LIBRARIES) >= 8


@pytest.mark.parametrize("library", LIBRARIES)
def test_a_library_is_imported_where_its_grid_is(library: str) -> None:
    file, test = LIBRARIES[library]
    tree = ast.parse((HERE / file).read_text(encoding="utf-8"))
    imported = {
        alias.name.split(".")[0]
        for node in ast.walk(tree)
        if isinstance(node, ast.Import)
        for alias in node.names
    } | {
        node.module.split(".")[0]
        for node in ast.walk(tree)
        if isinstance(node, ast.ImportFrom) and node.module
    }
    assert library in imported
    found = [n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef) and n.name == test]
    assert len(found) == 1
    grids = ("parametrize", "given", "linspace", "arange", "geomspace", "range(")
    assert any(word in ast.unparse(found[0]) for word in grids), "a grid, not one point"
