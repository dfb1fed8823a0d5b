"""`tankside reckon` and `tankside explain`, for every name, as typed at a shell."""

from __future__ import annotations

import json
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import numpy as np
import pytest
from every import every

from interview import assembly, setups
from interview.care.species import profile, species_ids
from interview.cli import main
from interview.core.errors import CannotWorkOut
from interview.core.sheet_lines import Input
from interview.core.wiring import laws, quantities
from interview.graph.interview import Given, Interview
from interview.reckon.explaining import explain
from interview.reckon.sums import reckon
from interview.reckon.values import Wanted, value_of
from interview.report.derivations import rendering as derivation
from interview.setups import SetupError

DEMOS = sorted((Path(__file__).parent.parent / "transcripts_demo").glob("*.yaml"))


class Said(NamedTuple):
    """What a command said and how it ended."""

    code: int
    out: str
    err: str


@pytest.fixture
def tankside(capsys: pytest.CaptureFixture[str]) -> Any:
    def run(*words: str) -> Said:
        code = main(words)
        said = capsys.readouterr()
        return Said(code, said.out, said.err)

    return run


def _strict(text: str) -> dict[str, Any]:
    """JSON as a strict reader takes it: no NaN and no Infinity."""

    def refuse(word: str) -> None:
        raise AssertionError(f"{word} is no JSON")

    tree: dict[str, Any] = json.loads(text, parse_constant=refuse)
    return tree


def _refused(said: Said) -> str:
    """The one sentence on standard error of a command that can't do what was asked."""
    assert (said.code, said.out) == (2, ""), said
    assert said.err.startswith("tankside: ")
    assert said.err.count("\n") == 1, "one line"
    return said.err.removeprefix("tankside: ").rstrip("\n")


def _check_text(text: str) -> None:
    assert max(map(len, text.splitlines())) <= 80
    assert "{" not in text
    assert "\x1b" not in text


def _check_json(tree: dict[str, Any], name: str) -> None:
    assert tree["quantity"] == name
    assert {"value", "unit", "from", "sources", "range", "steps"} <= set(tree)
    assert tree["sources"] == [key for key in tree["citations"] if tree["citations"][key]]
    assert bool(tree["sources"]) == ("formula" in tree["steps"]), "a computed number has a source"
    assert tree["from"]


# ---- single sums

SUMS: tuple[tuple[str, str, dict[str, str], float, float, str], ...] = (
    # name, unit, inputs as typed, expected in core units, relative tolerance, where it is from
    ("water_density", "kg/m**3", {"water_temperature": "77 F"}, 997.047, 2e-6, "CIPM 2001"),
    (
        "saturation_pressure",
        "Pa",
        {"air_temperature": "25"},
        3169.7,
        3e-4,
        "ASHRAE 2017, chapter 1, table 3",
    ),
    (
        "oxygen_saturation",
        "mg/L",
        {"water_temperature": "10 °C", "air_pressure": "101.3 kPa"},
        11.288,
        5e-4,
        "Benson and Krause 1984",
    ),
    (
        "evaporation_flux",
        "kg/m**2/s",
        {
            "water_temperature": "25 °C",
            "air_temperature": "19 °C",
            "room_humidity": "50 %",
            "surface_length": "90 cm",
            "surface_width": "45 cm",
        },
        0.188 / 3600,
        0.01,
        "computed with PsychroLib properties, 0.188 kg/m²/h",
    ),
    (
        "evaporation_flux_shah",
        "kg/m**2/s",
        {"water_temperature": "28", "air_temperature": "28 degC", "room_humidity": "50"},
        0.1360 / 3600,
        3e-3,
        "Shah's SI table",
    ),
    (
        "plate_nusselt_vertical",
        "1",
        {"rayleigh": "1.8147e9", "prandtl": "0.69"},
        147.16,
        1e-3,
        "ht documentation, after Incropera et al. example 9.2",
    ),
    (
        "plate_nusselt_up",
        "1",
        {"rayleigh": "1e6", "prandtl": "0.71"},
        0.54 * 1e6**0.25,
        1e-7,
        "Cengel & Ghajar eq. 9-22 by hand",
    ),
    ("plate_nusselt_down", "1", {"rayleigh": "1e7"}, 0.27 * 1e7**0.25, 1e-7, "the same, eq. 9-24"),
    (
        "heat_up_time",
        "s",
        {
            "heat_capacity": "630 kJ/K",
            "heat_power": "300 W",
            "loss_coefficient": "10 W/K",
            "room_temperature": "20 °C",
            "start_temperature": "20 °C",
            "end_temperature": "25 °C",
        },
        63000 * np.log(30 / 25),
        1e-6,
        "exponential approach by hand",
    ),
    (
        "mixed_temperature",
        "degC",
        {
            "water_temperature": "25 °C",
            "tap_temperature": "15 °C",
            "water_change_share": "a quarter",
        },
        22.5,
        1e-9,
        "mixing by hand",
    ),
    (
        "surface_temperature_at",
        "degC",
        {
            "basking_temperature": "35 °C",
            "heat_lamp_height": "30 cm",
            "new_height": "25 cm",
            "room_temperature_high": "24 °C",
            "source_offset": "5 cm",
        },
        38.4,
        3e-3,
        "computed with CoolProp air and scipy brentq",
    ),
    (
        "ammonia_free_share",
        "1",
        {"ph": "8", "water_temperature": "25 degC"},
        0.053662,
        1e-5,
        "Emerson et al. 1975",
    ),
    (
        "nitrate_after_changes",
        "mg/L",
        {
            "nitrate_rise": "2 mg/L a day",
            "water_change_interval": "every 10 days",
            "water_change_share": "50 %",
            "tap_nitrate": "10 mg/L",
            "nitrate": "10 ppm",
            "changes": "2",
        },
        40.0,
        1e-9,
        "stepping by hand: 30 before the first change, 20 after it",
    ),
    (
        "nitrate_peak",
        "mg/L",
        {
            "nitrate_rise": "2 mg/L a day",
            "water_change_interval": "10 days",
            "water_change_share": "a third",
            "tap_nitrate": "10 mg/L",
        },
        70.0,
        1e-6,
        "10 + 20 / (1/3) by hand",
    ),
    (
        "hose_head_loss",
        "m",
        {
            "flow": "500 L/h",
            "hose_diameter": "12 mm",
            "hose_length": "3 m",
            "minor_loss": "3.478",
            "water_temperature": "25",
        },
        0.794,
        2.5e-3,
        "fluids 1.3.1",
    ),
    (
        "friction_factor",
        "1",
        {"reynolds": "1000", "relative_roughness": "0"},
        0.064,
        1e-9,
        "Hagen-Poiseuille, 64/Re",
    ),
    (
        "settling_velocity",
        "m/s",
        {"grain_size": "0.1 mm", "grain_density": "2650 kg/m3", "water_temperature": "25 °C"},
        0.00913,
        0.1,
        "Soulsby 1997",
    ),
    (
        "thiosulfate_dose",
        "kg",
        {"water_volume": "100 L", "chlorine": "1 mg/L"},
        0.7e-3,
        1e-3,
        "molar masses 248.18 and 70.906 g/mol, 7.0 mg for each mg",
    ),
    (
        "ammonia_from_feed",
        "kg",
        {"feed_mass": "10 g", "feed_protein": "40 %"},
        0.368e-3,
        1e-3,
        "Timmons and Ebeling",
    ),
    ("erythemal_weight", "1", {"wavelength": "298 nm"}, 1.0, 1e-9, "CIE 106/4:1993"),
    ("uv_index_from", "1", {"erythemal_irradiance": "0.2 W/m2"}, 8.0, 1e-9, "SMHI, UV units"),
    (
        "tube_irradiance",
        "W/m**2",
        {
            "lamp_power": "1 W",
            "lamp_length": "1 mm",
            "height": "1 m",
            "offset": "0 cm",
            "along": "0 cm",
        },
        1 / np.pi**2,
        1e-5,
        "limit of a short tube, P/(π² h²)",
    ),
    (
        "disc_irradiance",
        "W/m**2",
        {"lamp_power": "1 W", "disc_radius": "7 cm", "height": "30 cm", "offset": "0"},
        3.35416108,
        2e-7,
        "scipy dblquad over the disc",
    ),
    (
        "mesh_transmission",
        "1",
        {"mesh_wire": "1 mm", "mesh_pitch": "1 cm", "tilt": "30 degrees"},
        0.796,
        8e-4,
        "plane geometry of wire cloth",
    ),
    (
        "day_length_at",
        "s",
        {"latitude": "35 degrees", "day_of_year": "172"},
        14.506 * 3600,
        3e-3,
        "astral 3.2",
    ),
    (
        "uv_exposure_limit",
        "s",
        {"uv_index": "2", "spectrum": "any"},
        600.0,
        1e-9,
        "ICNIRP 2004: 20 min over the index",
    ),
    (
        "uv_calibration",
        "1",
        {
            "uv_index_predicted": "4",
            "uvb_reading": "2.5",
            "prior_log_sigma": "0.61",
            "reading_error": "0.25",
        },
        0.669,
        1e-3,
        "Bayes' rule for log-normals by hand",
    ),
    (
        "mass_from_length",
        "kg",
        {"species": "red-eared slider", "carapace_length": "29 cm"},
        3.2,
        0.01,
        "Add-my-Pet",
    ),
    (
        "projected_length",
        "m",
        {
            "species": "musk turtle",
            "sex": "not known",
            "carapace_length": "23.07 mm",
            "after": "1 year",
            "captive_growth_factor": "1",
        },
        0.03296,
        0.06,
        "Ernst 1986, give or take 2 mm",
    ),
    (
        "required_swim_area",
        "m**2",
        {"carapace_length": "12 cm", "animal_count": "2"},
        0.41,
        1e-9,
        "Directive 2010/63/EU, 3500 + 600 cm²",
    ),
    (
        "feed_need_for",
        "kg/s",
        {"species": "slider", "carapace_length": "10 cm", "growth": "adult"},
        1.07e-3 / 86400,
        5e-3,
        "10 kcal a day at 1 kg and 3.2 kcal a gram, printed 1.07 g a day",
    ),
    (
        "foam_volume_needed",
        "m**3",
        {"mass": "1165 g"},
        2.4e-3,
        0.01,
        "Archimedes by hand, printed 2.4 L",
    ),
    (
        "glass_mass",
        "kg",
        {
            "tank_length": "48 in",
            "tank_width": "18 in",
            "tank_height": "20 in",
            "wall_thickness": "1 cm",
        },
        2500 * (1.2192 * 0.4572 * 0.508 - (1.2192 - 0.02) * (0.4572 - 0.02) * (0.508 - 0.01)),
        1e-6,
        "box less its inside by hand, glass 2500 kg/m³",
    ),
    (
        "plate_stress_coefficient",
        "1",
        {"length_to_height": "0.5", "top_edge": "free"},
        0.0838,
        8e-4,
        "scikit-fem 12.0.2",
    ),
    (
        "pane_thickness_needed",
        "m",
        {
            "tank_length": "20 in",
            "tank_height": "12 in",
            "top_edge": "supported",
            "allowable_stress": "5.05 MPa",
        },
        0.0039,
        0.015,
        "Lévy series with numpy, printed 3.9 mm",
    ),
    (
        "joist_moment",
        "N*m",
        {"load": "800 N", "load_length": "4 m", "load_centre": "2 m", "joist_span": "4 m"},
        400.0,
        1e-9,
        "handbook: uniform load P S/8",
    ),
    (
        "cooling_time_to",
        "s",
        {
            "heat_capacity": "834309",
            "loss_coefficient": "16 W/K",
            "start_temperature": "25 °C",
            "room_temperature": "18 °C",
            "end_temperature": "22 °C",
        },
        29160.0,
        7e-3,
        "computed independently, printed 8.1 h",
    ),
    (
        "energy_used",
        "J",
        {"power": "100 W", "duty": "50 %", "hours_per_day": "12 hours", "days": "30 days"},
        18 * 3.6e6,
        1e-9,
        "18 kWh by hand",
    ),
)

# Inputs as the names of single sums are fixed; the optional ones may be left out.
SIGNATURES = {
    "water_density": "water_temperature",
    "saturation_pressure": "air_temperature",
    "oxygen_saturation": "water_temperature, air_pressure?",
    "evaporation_flux": "water_temperature, air_temperature, room_humidity, surface_length, "
    "surface_width",
    "evaporation_flux_shah": "water_temperature, air_temperature, room_humidity",
    "plate_nusselt_vertical": "rayleigh, prandtl",
    "plate_nusselt_up": "rayleigh, prandtl",
    "plate_nusselt_down": "rayleigh",
    "heat_up_time": "heat_capacity, heat_power, loss_coefficient, room_temperature, "
    "start_temperature, end_temperature",
    "mixed_temperature": "water_temperature, tap_temperature, water_change_share",
    "surface_temperature_at": "basking_temperature, heat_lamp_height, new_height, "
    "room_temperature_high, source_offset",
    "ammonia_free_share": "ph, water_temperature",
    "nitrate_after_changes": "nitrate_rise, water_change_interval, water_change_share, "
    "tap_nitrate, nitrate, changes",
    "nitrate_peak": "nitrate_rise, water_change_interval, water_change_share, tap_nitrate",
    "hose_head_loss": "flow, hose_diameter, hose_length, minor_loss, water_temperature",
    "friction_factor": "reynolds, relative_roughness",
    "settling_velocity": "grain_size, grain_density, water_temperature",
    "thiosulfate_dose": "water_volume, chlorine",
    "ammonia_from_feed": "feed_mass, feed_protein",
    "erythemal_weight": "wavelength",
    "uv_index_from": "erythemal_irradiance",
    "tube_irradiance": "lamp_power, lamp_length, height, offset, along",
    "disc_irradiance": "lamp_power, disc_radius, height, offset",
    "mesh_transmission": "mesh_wire, mesh_pitch, tilt",
    "day_length_at": "latitude, day_of_year",
    "uv_exposure_limit": "uv_index, spectrum",
    "uv_calibration": "uv_index_predicted, uvb_reading, prior_log_sigma, reading_error",
    "mass_from_length": "species, carapace_length",
    "projected_length": "species, sex, carapace_length, after",
    "required_swim_area": "carapace_length, animal_count",
    "feed_need_for": "species, carapace_length, growth",
    "foam_volume_needed": "mass",
    "glass_mass": "tank_length, tank_width, tank_height, wall_thickness",
    "plate_stress_coefficient": "length_to_height, top_edge",
    "pane_thickness_needed": "tank_length, tank_height, top_edge, allowable_stress",
    "joist_moment": "load, load_length, load_centre, joist_span",
    "cooling_time_to": "heat_capacity, loss_coefficient, start_temperature, room_temperature, "
    "end_temperature",
    "energy_used": "power, duty, hours_per_day, days",
}


def test_every_single_sum_is_tried() -> None:
    assert {row[0] for row in SUMS} == set(SIGNATURES)


@every("name", SIGNATURES)
def test_a_single_sum_takes_the_names_that_are_fixed(name: str) -> None:
    fixed = [part.rstrip("?") for part in SIGNATURES[name].split(", ")]
    inputs = laws()[name].inputs
    assert [item.name for item in inputs][: len(fixed)] == fixed
    assert all(item.optional for item in inputs[len(fixed) :]), "more inputs must be optional"
    for part in SIGNATURES[name].split(", "):
        if part.endswith("?"):
            assert next(i for i in inputs if i.name == part[:-1]).optional


@pytest.mark.parametrize(
    ("name", "unit", "given", "expected", "tolerance", "source"), SUMS, ids=[row[0] for row in SUMS]
)
def test_single_sum_as_typed(
    tankside: Any,
    name: str,
    unit: str,
    given: dict[str, str],
    expected: float,
    tolerance: float,
    source: str,
) -> None:
    typed = [f"{key}={value}" for key, value in given.items()]
    tree = _strict(tankside("reckon", name, *typed, "--json").out)
    _check_json(tree, name)
    assert tree["value"] == pytest.approx(expected, rel=tolerance), source
    assert tree["unit"] == unit
    assert set(given) <= set(tree["from"])
    said = tankside("reckon", name, *typed)
    assert said.code == 0
    _check_text(said.out)
    assert said.out.startswith(f"{name} = ")
    assert [f"  - {key} = " in said.out for key in given] == [True] * len(given)
    for citation in laws()[name].sources:
        assert citation.key in said.out or citation.by_species


def test_the_example_of_free_ammonia_to_the_letter(tankside: Any) -> None:
    said = tankside("reckon", "ammonia_free_share", "ph=8", "water_temperature=25 degC", "--json")
    tree = _strict(said.out)
    assert said.code == 0
    assert tree["quantity"] == "ammonia_free_share"
    assert round(tree["value"], 4) == 0.0537
    assert tree["unit"] == "1"
    assert tree["from"] == {"ph": 8.0, "water_temperature": 25.0}
    assert tree["sources"] == ["emerson_1975"]
    assert tree["range"] == {"ph": [3.0, 12.0], "water_temperature": [0.0, 50.0]}


def test_the_page_puts_the_result_first_then_how_from_what_and_how_far(tankside: Any) -> None:
    said = tankside("reckon", "ammonia_free_share", "ph=8", "water_temperature=77 F")
    assert said.out == (
        "ammonia_free_share = 5.4%\n"
        "  in core units 0.053662\n"
        "\n"
        "How\n"
        "  Share of total ammonia nitrogen that is free, un-ionised ammonia\n"
        "  = 1 / (1 + 10^(dissociation − ph)), where dissociation = 0.09018 + 2729.92 /\n"
        "    (water_temperature + 273.15)\n"
        "  emerson_1975, equilibrium constant of ammonia in fresh water [published]\n"
        "\n"
        "From\n"
        "  - ph = 8\n"
        "  - water_temperature = 77 °F\n"
        "\n"
        "Holds for\n"
        "  ph                 3 to 12\n"
        "  water_temperature  32 to 122 °F\n"
        "\n"
        "Sources\n"
        "  emerson_1975: K. Emerson, R. C. Russo, R. E. Lund, R. V. Thurston, Aqueous\n"
        "    ammonia equilibrium calculations: effect of pH and temperature, Journal of\n"
        "    the Fisheries Research Board of Canada 32:2379-2383, 1975 (volume and pages\n"
        "    recalled).\n"
    )


_CHANGES = ("nitrate_rise=3 mg/L a day", "tap_nitrate=45")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (
            ("uv_exposure_limit", "uv_index=0", "spectrum=sun"),
            "no limit: there is no UV at the face",
        ),
        (
            ("water_change_share_needed", *_CHANGES, "water_change_interval=7 days"),
            "impossible: the tap water itself is at the nitrate limit or over it",
        ),
        (
            ("water_change_interval_needed", *_CHANGES, "water_change_share=30%"),
            "impossible: the tap water is at the nitrate limit or over it, or nothing is changed",
        ),
        (
            (
                *("water_change_share_needed", "nitrate_rise=30 mg/L a day", "tap_nitrate=5"),
                "water_change_interval=7 days",
            ),
            "impossible: that is 6 times all the water, and no single change can do it; "
            "change more often or feed less",
        ),
    ],
)
def test_what_is_no_number_says_what_it_means(
    tankside: Any, words: tuple[str, ...], said: str
) -> None:
    headline = tankside("reckon", *words).out.partition("\n\n")[0].partition("\n  in core units")[0]
    assert " ".join(headline.split()) == f"{words[0]} = {said}"
    assert _strict(tankside("reckon", *words, "--json").out)["means"] == said


# ---- what a keeper may type


@pytest.mark.parametrize(
    ("typed", "core"),
    [
        ("water_temperature=91F", 32.7777778),
        ("water_temperature= 25 degC ", 25.0),
        ("water_temperature=2.5e1", 25.0),
        ("water_temperature=-0.0", 0.0),
        ("water_temperature=about 25 °C", 25.0),
    ],
)
def test_one_temperature_in_many_hands(typed: str, core: float) -> None:
    step = reckon("water_density", [typed])
    assert step.inputs[0].value == pytest.approx(core)


_TUBE = ("tube_irradiance", "lamp_power=10", "lamp_length=60 cm", "height=20 cm")


@pytest.mark.parametrize(
    ("words", "name", "core"),
    [
        ((*_TUBE, "along=-10 cm"), "along", -0.1),
        ((*_TUBE, "along=-0.1"), "along", -0.1),
        ((*_TUBE, "offset=\N{MINUS SIGN}4 in"), "offset", -0.1016),
        (("heater_margin", "heat_loss=-20 W", "installed_heater_power=50 W"), "heat_loss", -20),
        *(
            (("day_length_at", f"latitude={typed}", "day_of_year=1"), "latitude", core)
            for typed, core in (
                *(("-35 degrees", -35), ("35° S", -35), ("35 S", -35), ("35S", -35)),
                *(("35 degrees south", -35), ("35 degrees", 35)),
                *(("35° N", 35), ("35 north", 35), ("35", 35), ("-35", -35)),
            )
        ),
    ],
)
def test_less_than_nothing_with_its_unit(words: tuple[str, ...], name: str, core: float) -> None:
    step = reckon(words[0], words[1:])
    assert {leaf.name: leaf.value for leaf in step.inputs}[name] == pytest.approx(core)


def test_every_input_that_goes_below_nothing_takes_a_minus_with_its_unit(tankside: Any) -> None:
    """Where the data sheet does; elsewhere nothing advises to leave the minus out."""
    wiring, taken = quantities(), 0
    formulas = [*laws().values(), *wiring.formulas.values()]
    for item in {(i.name, i.unit, i.low) for f in formulas for i in f.inputs}:
        name, unit, low = item
        typed = {"m": "-3 cm", "W": "-3 W", "W/m**2": "-3 W/m2", "degC": "-3 °C", "deg": "-3 deg"}
        user = next(f for f in formulas if (name, unit) in {(i.name, i.unit) for i in f.inputs})
        if unit not in typed:
            continue
        said = tankside("reckon", user.name, f"{name}={typed[unit]}").err
        assert typed[unit].removeprefix("-") not in said.partition("Type")[2], said
        if -np.inf < low <= -3 or (-np.inf < low < 0 and unit == "m"):
            assert "can't be below zero" not in said
            assert "no less than nothing" not in said
            taken += 1
    assert taken > 10


@pytest.mark.parametrize(
    ("quantity", "typed", "name", "core"),
    [
        ("glass_mass", "tank_length=18 1/2 in", "tank_length", 0.4699),
        ("glass_mass", "tank_length=33,5 cm", "tank_length", 0.335),
        ("glass_mass", "tank_length=0.5", "tank_length", 0.5),
    ],
)
def test_lengths_as_typed(quantity: str, typed: str, name: str, core: float) -> None:
    sides = ["tank_width=30 cm", "tank_height=30 cm", "wall_thickness=5 mm"]
    step = reckon(quantity, [typed, *sides])
    assert {leaf.name: leaf.value for leaf in step.inputs}[name] == pytest.approx(core)


def test_a_size_or_its_sides() -> None:
    whole = reckon("brim_volume", ["tank_size=36 x 18 x 16 in", "wall_thickness=6 mm"])
    sides = ["tank_length=36 in", "tank_width=18 in", "tank_height=16 in", "wall_thickness=6 mm"]
    assert whole.value == pytest.approx(0.1609, abs=6e-5)  # litres by hand, printed 160.9
    assert whole.value == pytest.approx(reckon("brim_volume", sides).value)


@pytest.mark.parametrize(
    ("width", "said"), [("18 in", "70.9 gal"), ("45.72 cm", "268 L"), ("0.4572", "268 L")]
)
def test_the_result_is_said_in_the_units_typed(tankside: Any, width: str, said: str) -> None:
    """48 × 18 × 21 in of half-inch panes: 47 × 17 × 20.5 in inside, 231 cubic inches a gallon."""
    others = ("tank_length=1.2192", "tank_height=0.5334", "wall_thickness=0.0127")
    printed = tankside("reckon", "brim_volume", *others, f"tank_width={width}").out
    assert printed.startswith(f"brim_volume = {said}\n")


def test_a_region_is_answered_in_its_units(tankside: Any) -> None:
    for region, load in (("USA", "40 psf"), ("europe", "2 kPa"), ("united_kingdom", "1.5 kPa")):
        said = tankside("reckon", "floor_live_load", f"region={region}").out
        assert said.startswith(f"floor_live_load = {load}\n")


def test_ranges_of_time_begin_where_they_end(tankside: Any) -> None:
    words = ("reckon", "uvb_lamp_time_left", "uvb_lamp_kind=tube_t5", "uvb_lamp_age=2000 hours")
    said = tankside(*words, "day_length=12 hours").out
    assert "  uvb_lamp_age  up to 32 years lit\n  day_length    up to 24 h\n" in said


def test_stages_of_life_are_typed_and_shown_by_name(tankside: Any) -> None:
    words = ("reckon", "water_band_low", "species=slider", "life_stage=adult")
    said = tankside(*words).out
    assert "- life_stage = adult\n" in said
    assert "life_stage  hatchling to adult\n" in said
    for name, number in (("hatchling", 0), ("Adult", 2)):
        one, other = (
            reckon("water_band_low", ["species=slider", f"life_stage={typed}"]).value
            for typed in (name, number)
        )
        assert one == other


def test_several_animals_are_parted_by_commas() -> None:
    typed = ["species=musk turtle, slider", "sex=female, male", "carapace_length=10 cm, 12 cm"]
    one, other = (
        reckon("mass_from_length", [f"species={s}", f"carapace_length={c}"]).value
        for s, c in (("musk turtle", "10 cm"), ("slider", "12 cm"))
    )
    both = reckon("mass_from_length", [typed[0], typed[2]]).value
    assert both == pytest.approx([*one, *other])
    assert reckon("animal_mass", [typed[0], typed[2]]).value == pytest.approx(sum([*one, *other]))


def test_animals_must_be_counted_alike(tankside: Any) -> None:
    said = tankside(
        "reckon", "animal_mass", "species=slider, slider", "carapace_length=9 cm, 9 cm, 9 cm"
    )
    assert _refused(said) == (
        "Give each animal one value of everything: species has 2 and carapace_length has 3."
    )


# A name that is a law and a quantity: by its own inputs, or from upstream.


@pytest.mark.parametrize(
    ("name", "direct", "upstream", "expected"),
    [
        (
            "required_swim_area",
            ["carapace_length=12 cm", "animal_count=2"],
            ["carapace_length=10 cm, 12 cm"],
            0.41,
        ),
        ("required_depth", ["carapace_length=12 cm"], ["carapace_length=10 cm, 12 cm"], 0.20),
        (
            "required_swim_area",
            ["carapace_length=12 cm", "animal_count=1"],
            ["largest_carapace_length=12 cm", "animal_count=1"],
            0.35,
        ),
        (
            "nitrate_peak",
            ["nitrate_rise=2 mg/L a day", "water_change_interval=10 days"],
            [
                *("feed_mass=1 g", "feeds_per_week=7", "feed_protein=50 %"),
                *("grown_feed_share=0", "water_volume=101.8147 L"),
                "water_change_interval=10 days",
            ],
            50.0,
        ),
    ],
)
def test_both_routes_of_a_shared_name(
    name: str, direct: list[str], upstream: list[str], expected: float
) -> None:
    shared = {"nitrate_peak": ["water_change_share=50 %", "tap_nitrate=10 mg/L"]}.get(name, [])
    assert name in laws()
    assert name in quantities().formulas
    assert reckon(name, [*direct, *shared]).value == pytest.approx(expected, rel=2e-3)
    assert reckon(name, [*upstream, *shared]).value == pytest.approx(expected, rel=2e-3)


def test_calibration_by_both_routes() -> None:
    single = reckon(
        "uv_calibration",
        ["uv_index_predicted=4", "uvb_reading=2.5", "prior_log_sigma=0.6", "reading_error=0.15"],
    )
    tank = reckon(
        "uv_calibration",
        [
            "uv_index_at_reading=4",
            "uvb_reading=2.5",
            "uvb_lamp_kind=tube_t5",
            "heat_lamp_kind=none",
        ],
    )
    # An unmetered tube is doubted by 1.84, that is 0.61: nearly the single sum's 0.6.
    assert tank.value == pytest.approx(single.value, rel=0.01)


@pytest.mark.parametrize(
    ("load", "newton", "said"),
    [
        ("386 kg", 386 * 9.80665, 'load = 3785 N, "386 kg" weigh 3785 N'),
        ("851 lb", 851 * 0.45359237 * 9.80665, 'load = 851 lbf, "851 lb" weigh 3785 N'),
        ("386 lbf", 386 * 0.45359237 * 9.80665, "load = 386 lbf"),
        ("3.8 kN", 3800, "load = 3800 N"),
    ],
)
def test_a_load_may_be_typed_as_a_mass(tankside: Any, load: str, newton: float, said: str) -> None:
    words = ("joist_moment", f"load={load}", "load_length=1", "load_centre=1", "joist_span=4")
    tree = _strict(tankside("reckon", *words, "--json").out)
    assert tree["from"]["load"] == pytest.approx(newton, rel=1e-7)
    assert f"- {said}\n" in tankside("reckon", *words).out
    assert ("weigh" in tree["steps"]["inputs"][0]["how"]) == ("weigh" in said)


@pytest.mark.parametrize("typed", ["75 mW/m2", "75 mW/m²", "7.5 uW/cm2", "0.075 W/m2", "0.075"])
def test_uv_irradiance_in_the_units_of_its_meters(typed: str) -> None:
    """A UV index of 1 is 25 mW/m² by definition."""
    assert reckon("uv_index_from", [f"erythemal_irradiance={typed}"]).value == pytest.approx(3.0)


def _inputs() -> list[tuple[str, Input]]:
    formulas = [*laws().values(), *quantities().formulas.values()]
    return [(f.name, i) for f in formulas for i in f.inputs if i.unit not in ("choice", "yes/no")]


def test_the_example_of_every_refusal_is_accepted(tankside: Any) -> None:
    """Typed for what can't be read, over all inputs of all sums, and within their ranges."""
    tried = 0
    for name, item in _inputs():
        said = _refused(tankside("reckon", name, f"{item.name}=purple"))
        if "does not depend on" in said:  # a law that shares its name with a quantity
            continue
        form = said.rpartition("Type ")[2].rstrip(".")
        if form in ("the number alone", "a whole number: 1, 2, 3 and so on"):
            continue
        shown = form.removeprefix("it like this: ").removeprefix("for example ").strip('"')
        wanted = Wanted(item.name, item.unit, item.low, item.high)
        for example in shown.split(" or "):
            item.check(value_of(wanted, example)[0])
            tried += 1
    assert tried > 500


# ---- the band of a sum that has one


def _with_low_and_high(names: Iterable[str]) -> set[str]:
    known = set(names)
    return {name for name in known if {f"{name}_low", f"{name}_high"} <= known}


def test_every_sum_with_a_low_and_a_high_line_shows_them(tankside: Any) -> None:
    assert _with_low_and_high(laws()) == {"projected_length", "outgrowing_time"}
    assert _with_low_and_high(quantities().formulas) == {"cycling_time", "outgrow_time"}
    for name, tank in (("outgrow_time", "map_turtle_hatchling"), ("cycling_time", "musk_turtle")):
        path = next(p for p in DEMOS if p.stem == tank)
        tree = _strict(tankside("explain", str(path), name, "--json").out)
        for end in ("low", "high"):
            other = _strict(tankside("explain", str(path), f"{name}_{end}", "--json").out)
            assert tree[end] == other["value"]
            assert {s.partition(",")[0] for s in other["steps"]["sources"]} <= set(tree["sources"])
        assert tree["low"] < tree["value"] < tree["high"]
    said = tankside("explain", str(path), "cycling_time").out
    assert said.startswith("cycling_time = 5.2 weeks (3.9 to 7.3 weeks)\n")
    assert "  cycling_time_low = 3.9 weeks\n    Time to a working filter that one" in said
    assert "modelling_choice, spread of pace and seed [assumption]" in said


def test_a_single_sum_shows_its_band_for_each_animal(tankside: Any) -> None:
    typed = ("species=musk turtle, slider", "sex=female, male", "carapace_length=8 cm, 9 cm")
    words = ("projected_length", *typed, "after=2 years")
    head = "projected_length = 8.9 cm (8.5 to 11.1 cm), 16 cm (13.3 to 19.7 cm)\n"
    assert tankside("reckon", *words).out.startswith(head)
    tree = _strict(tankside("reckon", *words, "--json").out)
    assert np.less_equal(tree["low"], tree["value"]).all()
    assert np.less_equal(tree["value"], tree["high"]).all()
    assert "modelling_choice" in tree["sources"]


def test_no_band_that_leaves_out_the_result(tankside: Any) -> None:
    """A growth rate of one's own may lead out of the usual band; an end may be unknown."""
    typed = ["species=musk turtle", "sex=female", "carapace_length=8 cm", "after=2 years"]
    assert reckon("projected_length", typed).band
    assert not reckon("projected_length", [*typed, "captive_growth_factor=0.5"]).band
    path = next(p for p in DEMOS if p.stem == "painted_turtles_classroom")
    said = tankside("explain", str(path), "outgrow_time").out
    assert said.startswith("outgrow_time = already outgrown\n")


# ---- whose facts a sum rests on


def _cited(said: Said) -> list[str]:
    sources: list[str] = _strict(said.out)["steps"]["sources"]
    return sources


@pytest.mark.parametrize("kind", species_ids())
def test_a_sum_cites_its_own_species(kind: str) -> None:
    """The mass law's own source and status, and nobody else's."""
    law, animal = profile(kind).mass_law, profile(kind).name
    step = reckon("mass_from_length", [f"species={kind}", "carapace_length=9 cm"])
    own = {(fact.source, f"{animal}, mass law", fact.status) for fact in (law.a, law.b)}
    assert {(c.key, c.place, c.status) for c in step.sources} == own
    for sex in ("male", "female"):
        fact = profile(kind).shell_ratio("height", sex)
        typed = [f"species={kind}", f"sex={sex}", "carapace_length=9 cm"]
        assert {(c.key, c.status) for c in reckon("shell_height_from_length", typed).sources} == {
            (fact.source, fact.status)
        }


@every("kind", species_ids())
@every("sex", ["male", "female"])
def test_a_projection_cites_the_curve_it_follows(kind: str, sex: str) -> None:
    curve = profile(kind).growth_curve(sex)
    typed = [f"species={kind}", f"sex={sex}", "carapace_length=5 cm", "after=1 year"]
    if curve is None:
        with pytest.raises(SetupError, match="no growth curve is known"):
            reckon("projected_length", typed)
        return
    keys = {c.key for c in reckon("projected_length", typed).sources}
    turned = {curve.turned_by.source} if curve.turned_by else set()
    assert keys == {curve.source, "modelling_choice"} | turned


def test_two_species_are_both_cited(tankside: Any) -> None:
    words = ("projected_length", "species=musk turtle, slider", "sex=female, female")
    said = tankside("reckon", *words, "carapace_length=8 cm, 9 cm", "after=2 years", "--json")
    assert _cited(said) == [
        "ernst_1986, common musk turtle, growth curve [computed]",
        "frazer_1990, red-eared slider, growth curve [computed]",
        "webb_1961, red-eared slider, plastron to carapace [published]",
        "modelling_choice, captive animals grow at twice the wild rate [assumption]",
    ]


def test_a_tank_cites_its_own_species(tankside: Any) -> None:
    path = next(p for p in DEMOS if p.stem == "painted_turtles_classroom")
    cited = " ".join(_cited(tankside("explain", str(path), "outgrow_time", "--json")))
    assert "wilbur_1975, painted turtle, growth curve [computed]" in cited
    assert "frazer_1990" not in tankside("explain", str(path), "outgrow_time").out
    zone = tankside("explain", str(path), "uv_zone_low", "--json")
    assert _cited(zone)[0] == "analogy, painted turtle, default UV zone [assumption]"


def test_what_no_species_is_known_for_cites_what_most_rest_on() -> None:
    step = reckon("gap_share_jam_low", ["species=softshell"])
    assert all("spiny softshell" in cited.place for cited in step.sources)
    general = quantities().formulas["gap_share_jam_low"].sources
    assert [c.key for c in general if c.by_species] == ["jolicoeur_mosimann_1960", "recalled"]


def test_food_rests_on_the_resting_energy_and_the_mass_law() -> None:
    typed = ["species=painted turtle", "carapace_length=9 cm", "growth=juvenile"]
    keys = [c.key for c in reckon("feed_need_for", typed).sources]
    energy = ["modelling_choice", "common_practice", "recalled"]
    assert keys == ["jolicoeur_mosimann_1960", *energy]
    step = reckon("feed_for_mass", ["mass=200 g", "growth=juvenile"])
    assert [c.key for c in step.sources] == energy


# ---- refusals


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        (
            ["ammonia_free_shore", "ph=8"],
            "No quantity is called “ammonia_free_shore”. Did you mean “ammonia_free_share”?",
        ),
        (["xyzzy"], "No quantity is called “xyzzy”."),
        (
            ["turnover_"],
            "No quantity is called “turnover_”. Did you mean “turnover”?",
        ),
        (
            ["ammonia_free_share", "pH=8", "water_temperature=25"],
            "ammonia_free_share does not depend on anything called “pH”. Did you mean “ph”?",
        ),
        (
            ["water_density", "temperature=25"],
            "water_density has no input “temperature”; it takes water_temperature. "
            "Did you mean “water_temperature”?",
        ),
        (
            ["brim_volume", "ph=8"],
            "brim_volume does not depend on anything called “ph”.",
        ),
        (
            ["ammonia_free_share", "ph=8"],
            "ammonia_free_share also needs water_temperature (temperature of the water).",
        ),
        (
            ["joist_moment", "load=1"],
            "joist_moment also needs load_length (over which it is spread along the joist), "
            "load_centre (from the left support) and joist_span (between supports).",
        ),
        (
            ["brim_volume", "tank_width=30 cm", "tank_height=30 cm", "wall_thickness=5 mm"],
            "brim_volume also needs tank_length (“Tank size outside”).",
        ),
        (
            ["ammonia_free_share", "ph=80", "water_temperature=25"],
            "ammonia_free_share: ph is 80, but the formula holds only from 3 to 12.",
        ),
        (
            ["water_density", "water_temperature=212 F"],
            "water_density: water_temperature is 100 degC, but the formula holds only from "
            "0 to 40 degC.",
        ),
        (
            ["brim_volume", "tank_length=-1", "tank_width=1", "tank_height=1"],
            "tank_length is -1 m; it takes 0.1 to 6 m.",
        ),
        (
            ["glass_mass", "tank_length=-1 m"],
            'tank_length: I understood "-1 m", but a length can\'t be below zero here. '
            'Type for example "45 cm".',
        ),
        (["water_density", "25"], '"25" is not name=value; type for example ph=8.'),
        (
            ["water_density", "water_temperature="],
            '"water_temperature=" is not name=value; type for example ph=8.',
        ),
        (["ammonia_free_share", "ph=7", "ph=8"], "ph is given twice; give it once."),
        (
            ["water_density", "water_temperature=1e999"],
            "water_temperature: that number is too large to reckon with.",
        ),
        (
            ["water_density", "water_temperature=not sure"],
            'water_temperature: a single sum needs a value, not "not sure".',
        ),
        (
            ["plate_stress_coefficient", "length_to_height=2", "top_edge=clamped"],
            "plate_stress_coefficient: top_edge is supported or free, not clamped.",
        ),
        (
            ["required_swim_area", "carapace_length=0.1", "animal_count=1.5"],
            "animal_count is 1.5, and a whole number is needed here.",
        ),
        (
            ["installed_heater_power", "heater_power=100", "heater_count=2.5"],
            "heater_count is 2.5, and a whole number is needed here.",
        ),
        (
            [
                *("nitrate_after_changes", "nitrate_rise=1e-5", "water_change_interval=7 days"),
                *("water_change_share=0.3", "tap_nitrate=10", "nitrate=5", "changes=2.5"),
            ],
            "changes is 2.5, and a whole number is needed here.",
        ),
        (
            [
                *("nitrate_peak", "nitrate_rise=1e-5", "water_change_interval=7"),
                *("water_change_share=0.3", "tap_nitrate=10"),
            ],
            "nitrate_peak: water_change_interval is 7 s, but the formula holds only from 3600 to "
            "1e+08 s.",
        ),
        (
            ["mesh_transmission", "mesh_wire=2 mm", "mesh_pitch=2 mm"],
            "mesh_transmission: mesh_wire is not thinner than mesh_pitch, which leaves no opening.",
        ),
        (
            [
                *("glass_stress", "tank_size=300 x 50 x 50 cm", "wall_thickness=10 mm"),
                *("tank_origin=home_built", "tank_rim=rimless"),
            ],
            "glass_stress: a rimless pane 2.5 or more times as long as it is high is outside this "
            "screening, rely on the manufacturer.",
        ),
        (
            ["joist_moment", "load=9 cm", "load_length=1", "load_centre=1", "joist_span=4"],
            'load: I understood "9 cm", which is a length, but a force is needed here. '
            'Type for example "3800 N".',
        ),
        (
            ["joist_moment_share", "joist_design_moment=9 lb"],
            'joist_design_moment: "9 lb" is not in N*m. Type the number alone.',
        ),
        (
            ["uv_index_from", "erythemal_irradiance=75 mW"],
            'erythemal_irradiance: I understood "75", but not "mW" as a unit of irradiance. '
            'Type for example "75 mW/m2".',
        ),
    ],
)
def test_refusals_in_one_sentence(tankside: Any, words: list[str], sentence: str) -> None:
    assert _refused(tankside("reckon", *words)) == sentence


def test_no_number_is_no_number(tankside: Any) -> None:
    said = _refused(tankside("reckon", "water_density", "water_temperature=nan"))
    assert said.startswith('water_temperature: I can\'t read "nan" as a temperature.')


def test_a_wrong_dimension_is_refused(tankside: Any) -> None:
    said = tankside("reckon", "water_density", "water_temperature=25 cm")
    assert "water_temperature" in _refused(said)


def test_an_unknown_species_is_refused(tankside: Any) -> None:
    said = tankside("reckon", "mass_from_length", "species=unicorn", "carapace_length=9 cm")
    assert "species" in _refused(said)


@every("name", sorted({*laws(), *quantities().formulas}))
def test_out_of_range_names_quantity_value_range_and_unit(name: str) -> None:
    """Every range of every data sheet, one step beyond either end."""
    formula = laws().get(name) or quantities().formulas[name]
    for item in formula.inputs:
        for end in {item.low, item.high} - {-np.inf, np.inf}:
            beyond = end + (1 if end == item.high else -1) * max(1e-3, abs(end))
            with pytest.raises(CannotWorkOut) as caught:
                item.check(beyond)
            said = "" if item.unit == "1" else f" {item.unit}"
            assert str(caught.value) == (
                f"{item.name} is {beyond:g}{said}, but the formula holds only "
                f"from {item.low:g} to {item.high:g}{said}"
            )


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        (
            "tank_length",
            "tank_length is an answer (“Tank size outside”), which the keeper measures or tells; "
            "nothing computes it. Type it as an input: tankside reckon inside_length "
            "tank_length=… pane_thickness=…",
        ),
        (
            "joist_span",
            "joist_span is an answer (“Joist span”), which the keeper measures or tells; nothing "
            "computes it. Type it as an input: tankside reckon floor_joist_span joist_span=…",
        ),
        (
            "nitrite",
            "nitrite is an answer (“Nitrite”), which the keeper measures or tells; nothing "
            "computes it, and no sum takes it.",
        ),
        ("tap_chlorine", "tap_chlorine is an assumption; nothing computes it. Type it as an input"),
        ("load_centre", "load_centre is an input of other sums; nothing computes it. Type it as"),
    ],
)
def test_an_input_is_said_to_be_one(tankside: Any, name: str, sentence: str) -> None:
    assert _refused(tankside("reckon", name)).startswith(sentence)


def test_every_question_is_an_answer_or_a_number(tankside: Any) -> None:
    """And the sum that its sentence names takes it."""
    for question in assembly.questionnaire():
        for name in {question.id, *question.parts} - set(quantities().formulas):
            said = _refused(tankside("reckon", name))
            assert f"{name} is an answer" in said
            _, found, command = said.partition("tankside ")
            if found:
                assert " has no input" not in tankside(*command.split()).err
                assert "does not depend on" not in tankside(*command.split()).err


# ---- every quantity, from the answers of the invented tanks


@cache
def _tank(path: Path) -> Interview:
    interview = assembly.new_interview()
    setups.fill(interview, setups.read(path, interview.questionnaire))
    return interview


def _retyped(given: Given) -> str:
    """A given as somebody would type it: in the keeper's words where there are any."""
    if isinstance(given.value, bool):
        return "yes" if given.value else "no"
    values = given.value if isinstance(given.value, tuple) else (given.value,)
    words = [str(v) if isinstance(v, str) else f"{v.best:.17g}" for v in values if v is not None]
    return ", ".join(words)


@every("name", sorted(quantities().formulas))
def test_every_quantity_is_reckoned_from_typed_answers(name: str) -> None:
    """`reckon` from a tank's answers gives what `explain` finds in its setup."""
    for path in DEMOS[:2]:
        interview = _tank(path)
        upstream = quantities().upstream(name)
        given = [g for n, g in interview.given().items() if n in upstream and g.value is not None]
        typed = [f"{item.name}={_retyped(item)}" for item in given]
        try:
            expected = explain(interview, name)[0].value
        except SetupError:
            with pytest.raises(SetupError):
                reckon(name, typed)
            continue
        got = reckon(name, typed).value
        np.testing.assert_allclose(np.asarray(got, float), np.asarray(expected, float), rtol=1e-12)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_number_of_a_tank_is_explained(path: Path) -> None:
    interview, explained = _tank(path), 0
    for name, formula in quantities().formulas.items():
        try:
            step, origin_of = explain(interview, name)
        except SetupError as problem:
            assert str(problem).startswith(name)
            assert str(problem).endswith(".")
            continue
        explained += 1
        _check_text("\n".join(derivation.as_lines(step, origin_of, interview.system)))
        tree = _strict(derivation.as_json(step, origin_of))
        _check_json(tree, name)
        assert tree["unit"] == formula.unit
    assert explained > 100


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_explain_at_the_shell(tankside: Any, path: Path) -> None:
    said = tankside("explain", str(path), "water_volume")
    assert said.code == 0
    assert said.out.startswith("water_volume = ")
    _check_text(said.out)
    tree = _strict(tankside("explain", str(path), "water_volume", "--json").out)
    _check_json(tree, "water_volume")
    assert tree["value"] == pytest.approx(explain(_tank(path), "water_volume")[0].value)


def test_a_derivation_names_the_keepers_words(tankside: Any) -> None:
    path = next(p for p in DEMOS if p.stem == "musk_turtle")
    said = tankside("explain", str(path), "shell_temperature").out
    assert "- basking_temperature = 31 °C, measured: “31 °C”" in said
    assert "physics, steady surface balance" in said
    assert "- source_offset = 5 cm (as above)" in said
    nitrate = tankside("explain", str(path), "nitrate_peak").out
    assert "- water_line_below_rim = 11 cm, estimated: “about 11 cm”" in nitrate
    assert "- decor_volume = 2 L, assumed: not asked" in nitrate
    assert "- substrate_porosity = 0.4, assumed: pores of a bed" in nitrate


def test_an_answer_is_explained_by_its_words(tankside: Any) -> None:
    path = next(p for p in DEMOS if p.stem == "musk_turtle")
    assert tankside("explain", str(path), "ph").out == "ph = 7.6\n\nFrom\n  measured: “7.6”\n"


@pytest.mark.parametrize(
    ("name", "sentence"),
    [
        ("shell_temperatur", "Did you mean “shell_temperature”"),
        ("heater_cover", "heater_cover has no value for this tank: there is no heater."),
        ("ammonia_free", "ammonia_free can't be worked out yet: it needs ammonia (“Ammonia”)"),
    ],
)
def test_what_cannot_be_explained_says_why(tankside: Any, name: str, sentence: str) -> None:
    path = next(p for p in DEMOS if p.stem == "painted_turtles_classroom")
    assert sentence in _refused(tankside("explain", str(path), name))


def test_a_side_is_read_out_of_a_size(tankside: Any) -> None:
    size = "tank_size=100 x 40 x 45 cm"
    for side, said in (("length", "1 m"), ("width", "40 cm"), ("height", "45 cm")):
        assert tankside("reckon", f"tank_{side}", size).out.startswith(f"tank_{side} = {said}\n")
    inside = tankside("reckon", "inside_length", size, "wall_thickness=6 mm")
    assert inside.out.startswith("inside_length = 98.8 cm\n")


def test_less_than_nothing_is_refused(tankside: Any) -> None:
    said = tankside("reckon", "turnover", "actual_flow=0.0001", "water_volume=-0.1")
    assert said.code == 2 and "it takes" in said.err


@pytest.mark.parametrize(
    "typed",
    [
        "evaporation_rate water_temperature=25 room_temperature_low=19 room_temperature_high=19"
        " room_humidity=50 inside_length=0.9 inside_width=0.45 cover_water=none",
        "water_change_dip water_temperature=25 tap_temperature=12 water_change_share=0.3"
        " water_volume=0.1 tank_material=glass tank_mass=20",
    ],
)
def test_who_measured_the_water_is_not_asked_for_the_animals(typed: str) -> None:
    """The target, which rests on the species, only stands in for a measured temperature."""
    name, *pairs = typed.split()
    step = reckon(name, pairs)
    used = {item.name for item in step.steps}
    assert "water_temperature" in used and not used & {"species", "target_water_temperature"}
