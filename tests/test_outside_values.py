"""How much of the core stands on values from outside: counted, source by source.

A row of tests/reference counts as an outside value if its source is a publication, a standard,
a law, a handbook or a general-purpose library. Sums by hand and trade habits are checked like
all the others, but are not counted; nor is what was computed from a publication's figures by
anything but such a library.
"""

from __future__ import annotations

import ast
import inspect
import re
from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from every import every

from interview.core.wiring import laws, quantities

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
    "Journal of Herpetology 20:325, 1986": "Journal of Herpetology 20:325",
    "Cole and Caraco 1998": "Cole and Caraco 1998",
    "laboratory usage": "laboratory usage of thiosulfate",
    "protein is 16 % nitrogen": "nitrogen share of protein, standard factor",
}

# Sums that anybody can do again by hand, trade habits, and second computations of our own kind.
NOT_COUNTED = re.compile(
    r"common practice, no source|10 US gal an inch|80 L for 5 cm|shell 1\.5 times|10 kcal a day|"
    r"statics on the span|Lévy series with numpy 2.4.6, water|arithmetic|plain arithmetic|"
    r".*by hand|independent computation|"
    r"independent reproduction|heat balance|2 K at most|molar masses|recalled|"
    r"ICNIRP 2004|"
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

# Names without an outside value in a row, that a test checks against a library, a published
# worked example or a second computation: where, and through which name the test reaches them.
WORKED: dict[str, tuple[str, str, str]] = {
    # laws
    "plate_nusselt_up_turbulent": (
        "test_heat_laws",
        "test_horizontal_plate_agrees_with_ht_away_from_the_step",
        "plate_nusselt_up",
    ),
    "vapour_pressure": (
        "test_heat_laws",
        "test_moist_air_agrees_with_psychrolib_and_coolprop",
        "",
    ),
    "evaporation_flux": ("test_heat_laws", "test_heat_and_vapour_keep_bowens_ratio", ""),
    "open_surface_flux": ("test_heat", "test_lid_passes_far_less_than_open_water", ""),
    "wall_flux": ("test_heat", "test_wall_flux_solves_the_balance", ""),
    "lid_flux": ("test_heat", "test_lid_flux_solves_the_balance", ""),
    "board_conductance": (
        "test_heat",
        "test_parts_of_the_open_loss_independent_computation",
        "floor_conductance",
    ),
    "cooling_time_to": (
        "test_heat",
        "test_cooling_time_to_agrees_with_solve_ivp_and_the_logarithm",
        "",
    ),
    "patch_film_coefficient": (
        "test_light_laws",
        "test_moved_lamp_table",
        "surface_temperature_at",
    ),
    "patch_temperature": ("test_light_laws", "test_moved_lamp_table", "surface_temperature_at"),
    "point_irradiance": ("test_light_laws", "test_small_disc_is_a_point", ""),
    "bend_loss": ("test_filtration", "test_bend_agrees_with_rennels_as_coded_in_fluids", ""),
    "intake_capture_radius": ("test_filtration", "test_capture_radius_of_natural_grains", ""),
    "pane_stress": ("test_structure", "test_bottom_pressure_and_stress_by_hand", ""),
    "pane_stress_filled": (
        "test_structure",
        "test_a_partly_filled_pane_carries_what_finite_elements_say",
        "",
    ),
    "pane_deflection": ("test_structure", "test_bottom_pressure_and_stress_by_hand", ""),
    "pane_thickness_needed": ("test_structure", "test_glass_ladder", "glass_thickness_needed"),
    # heat
    "heat_loss": ("test_heat", "test_heat_loss_against_a_second_model", ""),
    "wall_resistance": ("test_heat", "test_heat_loss_against_a_second_model", "heat_loss"),
    "open_top_share": ("test_heat", "test_evaporated_litres_a_day", "evaporation_rate"),
    "loss_coefficient": ("test_heat", "test_loss_coefficient_is_the_slope_in_the_water", ""),
    "floor_conductance": (
        "test_heat",
        "test_parts_of_the_open_loss_independent_computation",
        "",
    ),
    "evaporation_rate": ("test_heat", "test_evaporated_litres_a_day", ""),
    "unheated_water_temperature": (
        "test_heat",
        "test_unheated_tank_settles_below_the_room",
        "",
    ),
    "hot_room_water": (
        "test_hot_room",
        "test_without_pump_and_lamp_it_settles_like_an_unheated_tank",
        "",
    ),
    "cooling_time": ("test_heat", "test_tank_times_agree_with_solve_ivp", ""),
    "warm_up_time": ("test_heat", "test_tank_times_agree_with_solve_ivp", ""),
    "stuck_heater_time": ("test_heat", "test_tank_times_agree_with_solve_ivp", ""),
    "stuck_heater_temperature": (
        "test_heat",
        "test_stuck_heater_independent_computation",
        "",
    ),
    "stuck_heater_power_limit": (
        "test_heat",
        "test_stuck_heater_independent_computation",
        "",
    ),
    "heat_capacity": ("test_heat", "test_heat_capacity_and_dip", ""),
    "water_change_dip": ("test_heat", "test_heat_capacity_and_dip", ""),
    "mixed_temperature": ("test_heat", "test_heat_capacity_and_dip", "water_change_dip"),
    # basking and ultraviolet
    "platform_temperature": ("test_basking", "test_moved_lamp_keeps_its_heat", ""),
    "lamp_heat": ("test_basking", "test_moved_lamp_keeps_its_heat", ""),
    "shell_temperature": ("test_basking", "test_shell_above_a_slab_that_reads_35", ""),
    "uvb_lamp_output": ("test_ultraviolet", "test_unmetered_ladder", ""),
    "uv_index_shell_uncovered": ("test_ultraviolet", "test_unmetered_ladder", ""),
    "uv_index_shell": ("test_ultraviolet", "test_unmetered_ladder", ""),
    "uv_index_platform": ("test_ultraviolet", "test_unmetered_ladder", ""),
    "uv_index_platform_uncovered": (
        "test_ultraviolet",
        "test_unmetered_ladder",
        "uv_index_platform",
    ),
    "uv_index_at_reading": ("test_ultraviolet", "test_metered_ladder", ""),
    # filtration
    "hose_flow": (
        "test_filtration",
        "test_operating_point_agrees_with_brentq_on_fluids",
        "operating_flow",
    ),
    "cycling_time": ("test_filtration", "test_published_start_up_windows", "_cycling"),
    "cycling_time_low": ("test_filtration", "test_published_start_up_windows", "_cycling"),
    "cycling_time_high": ("test_filtration", "test_published_start_up_windows", "_cycling"),
    "media_area": (
        "test_filtration",
        "test_ceramic_rings_offer_a_small_part_of_what_foam_does",
        "",
    ),
    # structure
    "tank_mass": ("test_structure", "test_filled_mass_ladder", ""),
    "supported_mass": ("test_structure", "test_filled_mass_ladder", ""),
    "filled_mass": ("test_structure", "test_filled_mass_ladder", ""),
    "floor_pressure": ("test_structure", "test_filled_mass_ladder", ""),
    "glass_stress": ("test_structure", "test_glass_ladder", ""),
    "glass_thickness_needed": ("test_structure", "test_glass_ladder", ""),
    "joist_design_moment": ("test_floor", "test_worked_example_ladder", ""),
    "joist_design_shear": ("test_floor", "test_worked_example_ladder", ""),
    "joist_moment_share": ("test_floor", "test_worked_example_ladder", ""),
    "joist_shared_moment_share": ("test_floor", "test_boards_share_a_tank_out", ""),
    "joist_shear_share": ("test_floor", "test_worked_example_ladder", ""),
    "joist_upper_moment_share": ("test_floor", "test_worked_example_ladder", ""),
    "joist_upper_shear_share": ("test_floor", "test_worked_example_ladder", ""),
    # water
    "nitrate_after_changes": ("test_water", "test_closed_form_equals_stepping", ""),
    "nitrate_peak": ("test_water", "test_changes_tend_to_the_peak", ""),
}


@cache
def _rows() -> list[dict[str, Any]]:
    paths = sorted((HERE / "reference").glob("*.yaml"))
    return [row for path in paths for row in yaml.safe_load(path.read_text(encoding="utf-8"))]


def _source_of(text: str) -> str | None:
    """The source behind the words; None for what is not counted."""
    known = [name for start, name in SOURCES.items() if text.startswith(start)]
    return known[0] if known else None


def _counted_source(row: dict[str, Any]) -> str | None:
    """The source of a row that counts: of what was computed only what a library computed."""
    source = _source_of(row["source"])
    if row["status"] == "computed" and not (source or "").endswith(" library"):
        return None
    return source


def test_every_source_is_counted_or_known_not_to_be() -> None:
    texts = {row["source"] for row in _rows()}
    unknown = [text for text in texts if not _source_of(text) and not NOT_COUNTED.match(text)]
    assert unknown == [], (
        "put the first words of each into SOURCES of this file, with the name of the source, or "
        "into NOT_COUNTED where nobody outside said it"
    )


def test_what_was_computed_counts_only_if_a_library_did_it() -> None:
    law = {"source": "IRC Table R301.5", "status": "law"}
    assert _counted_source(law) == "International Residential Code"
    assert _counted_source({**law, "status": "computed"}) is None
    assert _counted_source({"source": "scipy 1.17.1", "status": "computed"}) == "scipy library"
    minutes = [row for row in _rows() if row["of"] == "uv_exposure_limit"]
    assert len(minutes) >= 32 and not any(map(_counted_source, minutes))


def test_at_least_250_outside_values_from_25_independent_sources() -> None:
    counted = Counter(source for row in _rows() if (source := _counted_source(row)))
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
    grids = ("parametrize", "every(", "given", "linspace", "arange", "geomspace", "range(")
    assert any(word in ast.unparse(found[0]) for word in grids), "a grid, not one point"


# ---- what has no outside check


@cache
def _with_outside_value() -> frozenset[str]:
    return frozenset(row["of"] for row in _rows() if _source_of(row["source"]))


@cache
def _listed() -> list[str]:
    """The names in the tables of NOT_CHECKED.md: the first cell of every row."""
    text = (HERE / "NOT_CHECKED.md").read_text(encoding="utf-8").partition("## Mutants")[0]
    return re.findall(r"^\| `(\w+)` \|", text, re.MULTILINE)


def test_every_name_has_an_outside_check_or_is_listed() -> None:
    names = {*laws(), *quantities().formulas}
    checked = _with_outside_value() | set(WORKED)
    assert sorted(names - checked - set(_listed())) == [], "add to tests/NOT_CHECKED.md"


def test_nothing_is_listed_without_need() -> None:
    names = {*laws(), *quantities().formulas}
    checked = _with_outside_value() | set(WORKED)
    assert sorted(set(_listed()) & checked) == []
    assert sorted(set(_listed()) - names) == []
    assert len(_listed()) == len(set(_listed()))


def test_every_listed_name_says_why() -> None:
    text = (HERE / "NOT_CHECKED.md").read_text(encoding="utf-8").partition("## Mutants")[0]
    rows = re.findall(r"^\| `(\w+)` \| (.*) \|$", text, re.MULTILINE)
    assert len(rows) == len(_listed())
    short = [name for name, why in rows if len(why) < 15]
    assert short == [], (
        "say in tests/NOT_CHECKED.md what stands in its place, in 15 characters at least"
    )


@every("name", WORKED)
def test_a_worked_test_reaches_its_name(name: str) -> None:
    file, test, through = WORKED[name]
    assert name not in _with_outside_value(), "a row has an outside value: no need of this"
    tree = ast.parse((HERE / "core" / f"{file}.py").read_text(encoding="utf-8"))
    found = next(n for n in ast.walk(tree) if isinstance(n, ast.FunctionDef) and n.name == test)
    text = ast.unparse(found)
    if not through:
        assert re.search(rf"\b{name}\b", text)
        return
    assert re.search(rf"\b{through}\b", text)
    helper = [n for n in tree.body if isinstance(n, ast.FunctionDef) and n.name == through]
    if helper:
        assert name in ast.unparse(helper[0])
        return
    formulas = {**quantities().formulas, **laws()}
    sources = [inspect.getsource(inspect.getmodule(formulas[n].function)) for n in (name, through)]
    assert name in sources[1] or through in sources[0], "the one works with the other"
