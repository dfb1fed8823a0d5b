"""The traps of this subject, each with the test that keeps out of it.

A trap is a figure, formula or habit in circulation that is wrong, or right only elsewhere.
"""

from __future__ import annotations

import ast
import re
from pathlib import Path

import numpy as np
import pytest
from every import every
from scipy.integrate import trapezoid

from interview import assembly
from interview.care.facts import bibliography, doubts, limits
from interview.care.species import profile
from interview.core.light.radiation import uv_index_from
from interview.core.wiring import laws, quantities
from interview.reckon.sums import reckon
from interview.setups import SetupError

HERE = Path(__file__).parent

TRAPS: dict[str, tuple[str, str]] = {
    # heat
    "the two branches of the hot plate don't meet: a 6 % step at a Rayleigh number of 1e7": (
        "test_heat_laws",
        "test_the_six_percent_step_is_passed_without_a_jump",
    ),
    "a book keeps the laminar law past the step: test the law, not the switch": (
        "test_heat_laws",
        "test_square_plate_ladder_cengel_9_2",
    ),
    "Shah's relation takes the density of dry air": (
        "test_heat_laws",
        "test_shah_takes_the_density_of_the_dry_air",
    ),
    "buoyancy over water comes from vapour, not from warmth alone": (
        "test_heat_laws",
        "test_buoyancy_comes_from_vapour_even_without_warmth",
    ),
    "heat loss is not proportional to the temperature difference": (
        "test_heat",
        "test_loss_is_a_line_with_an_offset",
    ),
    "an unheated open tank sits below the room": (
        "test_heat",
        "test_unheated_tank_settles_below_the_room",
    ),
    "a lid makes a stuck heater worse": ("test_heat", "test_lid_raises_the_stuck_temperature"),
    "watts for each gallon": ("test_heat", "test_watts_per_gallon_agrees_in_the_middle_only"),
    "half the distance is not four times the warmth": (
        "test_light_laws",
        "test_linear_rule_overshoots_at_half_the_distance",
    ),
    # light
    "tubes don't follow the inverse square": (
        "test_light_laws",
        "test_tubes_do_not_follow_inverse_square",
    ),
    "the erythema formula of 1987 is not the standard": (
        "test_light_laws",
        "test_weight_is_the_standard_and_not_the_1987_form",
    ),
    "window glass passes a tail of UVA: credit no sheet when judging too much": (
        "test_ultraviolet",
        "test_sheets_take_the_uvb_out",
    ),
    "a reflector is in the class row already": (
        "test_ultraviolet",
        "test_reflector_gain_is_not_counted_twice",
    ),
    "no unmetered estimate proves a zone": (
        "test_ultraviolet",
        "test_no_unmetered_estimate_proves_zone_3",
    ),
    # water
    "2727.92 is a misprint": ("test_water", "test_the_misprint_2727_92_in_circulation_is_not_used"),
    "nine cells of a printed ammonia table are wrong": (
        "test_water",
        "test_misprinted_cells_of_fa16_are_off",
    ),
    "ammonia limits for fish are no turtle thresholds": (
        "test_water",
        "test_turtles_bear_far_more_than_the_fish_limit",
    ),
    "copies of the density formula have altered constants": (
        "test_water",
        "test_density_is_greatest_at_the_maximum_and_uses_the_unaltered_constant",
    ),
    "an old table of oxygen is coarse": ("test_water", "test_old_coarse_oxygen_table_is_not_used"),
    "25 to 30 % a week doesn't hold the nitrate": (
        "test_water",
        "test_the_weekly_quarter_habit_does_not_hold_forty",
    ),
    "grown animals keep no nitrogen": (
        "test_feeding",
        "test_grown_animals_give_back_more_but_never_more_than_they_eat",
    ),
    "advertised pore area is not for bacteria": (
        "test_filtration",
        "test_ceramic_rings_offer_a_small_part_of_what_foam_does",
    ),
    "the cabinet's height is no static head": (
        "test_filtration",
        "test_the_cabinet_height_is_no_static_head",
    ),
    "laminar flow has its own law": (
        "test_filtration",
        "test_laminar_flow_is_not_given_a_turbulent_fit",
    ),
    "sand is no sphere": ("test_filtration", "test_grains_sink_as_natural_sand_not_as_spheres"),
    # structure
    "nominal gallons are not the volume": (
        "test_enclosure",
        "test_trap_nominal_gallons_are_not_the_volume",
    ),
    "no dwelling is designed for 100 psf": (
        "test_floor",
        "test_trap_no_dwelling_is_designed_for_100_psf",
    ),
    "pressure under the footprint is no test of a floor": (
        "test_floor",
        "test_trap_footprint_pressure_is_no_test_of_a_floor",
    ),
    "an ordinary aquarium is never condemned by plate theory": (
        "test_structure",
        "test_trap_an_ordinary_aquarium_is_never_condemned",
    ),
    "the 80 % rule binds the circuit, not the tank": (
        "test_electricity",
        "test_trap_the_rule_binds_the_circuit_not_the_tank",
    ),
    # animals
    "space rules clash: steps fall below proportions just under 30 cm": (
        "test_animal",
        "test_clash_steps_fall_below_proportions_just_under_30_cm",
    ),
    "growth curves in plastron length end 8 % short as carapace": (
        "test_animal",
        "test_trap_plastron_read_as_carapace_would_end_eight_percent_short",
    ),
    "energy formulas differ 65-fold": (
        "test_feeding",
        "test_trap_energy_formulas_that_are_too_large_are_not_used",
    ),
    "the linear tilt of a raft ends before the turtle reaches the edge": (
        "test_light_laws",
        "test_raft_tips_and_the_linear_rule_does_not_know",
    ),
}


@every("trap", TRAPS)
def test_a_trap_is_kept_out_of(trap: str) -> None:
    file, name = TRAPS[trap]
    tree = ast.parse((HERE / f"{file}.py").read_text(encoding="utf-8"))
    found = [n for n in tree.body if isinstance(n, ast.FunctionDef) and n.name == name]
    assert len(found) == 1
    checks = [
        n
        for n in ast.walk(found[0])
        if isinstance(n, ast.Assert) or (isinstance(n, ast.Attribute) and n.attr == "raises")
    ]
    assert checks, "a test that asserts nothing keeps out of nothing"


def test_microwatts_are_no_uv_index() -> None:
    """One index is 0.025 W/m² by the erythemal weight, whatever a UVB meter's µW/cm² say."""
    assert uv_index_from(0.025) == pytest.approx(1.0)
    with pytest.raises(SetupError, match="an irradiance, but a plain number is needed"):
        reckon(
            "uv_calibration",
            [
                *("uv_index_predicted=3", "uvb_reading=50 uW/cm2"),
                *("prior_log_sigma=0.6", "reading_error=0.15"),
            ],
        )


def test_kits_count_ions_or_nitrogen() -> None:
    """A kit that reads nitrogen says less than one that reads the ion: the questions say which."""
    asked = assembly.questionnaire().by_id
    for name, factor in (("nitrate", 62.0049 / 14.0067), ("nitrite", 46.0055 / 14.0067)):
        told = re.search(r"multiply by (\d\.\d)", asked[name].hint)
        assert told is not None
        assert float(told[1]) == pytest.approx(factor, abs=0.05)
    ammonia = re.findall(r"(?:multiply by |NH4, by )(\d\.\d+)", asked["ammonia"].hint)
    molar = (14.0067 / 17.0305, 14.0067 / 18.0385)  # N in NH3 and in NH4
    assert [float(told) for told in ammonia] == pytest.approx(molar, abs=0.005)


def test_a_spot_read_from_above_looks_too_cool() -> None:
    """The gun's spot widens with distance: over a 6 cm wide hot spot the mean falls.

    Computed here with numpy for a bell-shaped spot 15 K over the room: a 12:1 gun reads 0.1 K
    low from 10 cm and 3.1 K low from 60 cm. So the doubt of a reading is wider than the
    instrument's own ± 2 °C, and the question asks to hold the gun close.
    """

    def low_by(distance: float) -> float:
        radius = np.linspace(0.0, distance / 12 / 2, 2001)
        bell = 15.0 * np.exp(-np.log(2.0) * (radius / 0.03) ** 2)
        mean = trapezoid(bell * radius, radius) / trapezoid(radius, radius)
        return float(15.0 - mean)

    assert low_by(0.10) == pytest.approx(0.1, abs=0.05)
    assert low_by(0.60) == pytest.approx(3.1, abs=0.1)
    assert doubts()["basking_temperature"].spread > 2.0 / np.sqrt(3.0)
    hint = assembly.questionnaire().by_id["basking_temperature"].hint
    assert re.search(r"\d+ ?(?:–|to|-) ?\d+ ?cm|\d+ ?cm|inches|close", hint)


def test_standards_for_other_things_are_not_cited() -> None:
    """Silage, toughened panes, window loads: none of them is a standard for aquariums."""
    shelf = " ".join(bibliography().values())
    for standard in ("DIN 11622", "EN 12150", "E1300"):
        assert standard not in shelf


def test_no_stair_load_is_taken_for_a_floor() -> None:
    """300 lbf on a small square is written for stair treads, not for every floor."""
    named = {name: fact.value for name, fact in limits().items() if fact.value}
    stair = 300 * 4.4482216152605
    assert {n: v for n, v in named.items() if abs(v / stair - 1) < 0.02} == {}


def test_a_slider_has_two_water_bands_that_clash() -> None:
    """A guideline for laboratories keeps sliders below 25 °C, keepers keep them at 24 to 27."""
    facts = profile("trachemys_scripta_elegans").facts
    keepers, laboratory = (facts[f"water_temperature_{name}"] for name in ("adult", "laboratory"))
    assert (keepers.low, keepers.high) == (24, 27)
    assert (laboratory.low, laboratory.high) == (20, 25)
    assert keepers.status == "practice"
    assert laboratory.status == "law"
    animal = ["species=slider", "carapace_length=20 cm", "sex=female"]
    assert reckon("water_band_low", animal).value == keepers.low
    assert reckon("water_band_high", animal).value == keepers.high


def test_no_formula_carries_a_known_wrong_constant() -> None:
    """Constants in circulation that are misprints, searched in the source itself."""
    files = {
        f.function.__code__.co_filename for f in [*laws().values(), *quantities().formulas.values()]
    }
    code = "\n".join(
        line
        for path in sorted(files)
        for line in ast.unparse(_without_docstrings(path)).splitlines()
    )
    for wrong in ("2727.92", "0.015 * (139", "(139"):
        assert wrong not in code


def _without_docstrings(path: str) -> ast.Module:
    tree = ast.parse(Path(path).read_text(encoding="utf-8"))
    for node in ast.walk(tree):
        if isinstance(node, ast.Module | ast.FunctionDef | ast.ClassDef) and ast.get_docstring(
            node
        ):
            node.body[0] = ast.Pass()
    return tree
