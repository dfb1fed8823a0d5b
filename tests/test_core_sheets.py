"""The core's data sheets: units in brackets against the fixed names, sources against the shelf."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from every import every

from interview import assembly
from interview.audit.checks.loader import all_checks
from interview.care.facts import STATUSES, assumptions, bibliography, doubts, limits
from interview.core.errors import OutOfRange
from interview.core.formula import Formula
from interview.core.wiring import laws, quantities
from interview.graph.questions import Question

CARE = Path(__file__).parent.parent / "interview" / "care"
CHECKS = Path(__file__).parent.parent / "interview" / "audit"

# Unit of every fixed name: people's files and scripts depend on these.
UNITS: dict[str, str] = {
    name: unit
    for unit, names in {
        "choice": """
            stage region species sex tank_material tank_origin tank_rim substrate stand floor
            floor_position heater_mount heater_body filter_kind media filter_seeded
            water_treatment platform_kind heat_lamp_kind heat_lamp_beam lamp_holder lamp_control
            uvb_lamp_kind uvb_strength uvb_path cover_basking cover_water decor_hazards
            live_plants""",
        "yes/no": """
            vulnerable_person stand_level heater_guard heater_cutout intake_guard lamp_timer
            night_light uvb_reflector rcd drip_loops strip_raised wood_soaked kitchen_used""",
        "degC": """
            room_temperature_low room_temperature_high water_temperature tap_temperature
            basking_temperature target_water_temperature stuck_heater_temperature
            platform_temperature shell_temperature shell_temperature_hot_day
            shell_temperature_cold_day""",
        "K": "water_change_dip basking_rise",
        "%": "room_humidity",
        "m": """
            carapace_length wall_thickness water_line_below_rim substrate_depth grain_size
            joist_span joist_spacing heater_length heater_height hose_diameter hose_length
            intake_height platform_height_above_water platform_wall_gap heat_lamp_height
            lamp_plastic_gap uvb_lamp_length uvb_lamp_height mesh_wire mesh_pitch
            uvb_reading_height tank_length tank_width tank_height inside_length inside_width
            inside_height water_depth largest_carapace_length total_carapace_length shell_height
            shell_width required_depth escape_height heater_cover platform_sinkage
            platform_edge_sinkage""",
        "m**2": "swim_area required_swim_area platform_area_needed media_area media_area_needed",
        "m**3": "decor_volume media_volume platform_foam_volume brim_volume water_volume",
        "m**3/m": "volume_per_shell_length",
        "m**3/s": "filter_rated_flow filter_measured_flow actual_flow",
        "kg": """
            mass stand_mass feed_mass animal_mass largest_animal_mass tank_mass water_mass
            substrate_mass filled_mass""",
        "kg/s": "evaporation_rate feed_rate feed_need ammonia_load",
        "s": """
            age filter_age water_change_interval day_length uvb_lamp_age outgrow_time
            warm_up_time stuck_heater_time cooling_time cycling_time""",
        "1/s": "turnover",
        "W": """
            heater_power heat_lamp_power lamp_holder_rating circuit_other_load pump_power
            light_power heat_loss connected_load""",
        "V": "mains_voltage",
        "A": "circuit_rating circuit_current",
        "J": "energy_per_month",
        "Pa": "floor_live_load floor_pressure glass_stress",
        "deg": "ramp_slope",
        "mg/L": "ammonia nitrite nitrate tap_nitrate ammonia_free nitrate_peak",
        "mg/L/s": "nitrate_rise",
        "1": """
            electricity_price heater_count filter_count water_change_share ph feeds_per_week
            feed_protein lamp_fixings uvb_reading mesh_light_share joist_moment_share
            joist_shear_share heater_margin lamp_power_share uvb_transmission uv_index_platform
            uv_index_shell uvb_lamp_output photokeratitis_margin ammonia_free_share
            water_change_share_needed circuit_share cost_per_month""",
    }.items()
    for name in names.split()
}

# Results of the single sums, and inputs that only they take.
SUM_UNITS: dict[str, str] = {
    name: unit
    for unit, names in {
        "kg/m**3": "water_density",
        "Pa": "saturation_pressure",
        "mg/L": "oxygen_saturation nitrate_after_changes nitrate_peak",
        "kg/m**2/s": "evaporation_flux evaporation_flux_shah",
        "1": """
            plate_nusselt_vertical plate_nusselt_up plate_nusselt_down ammonia_free_share
            friction_factor erythemal_weight uv_index_from mesh_transmission uv_calibration
            plate_stress_coefficient""",
        "s": "heat_up_time day_length_at uv_exposure_limit cooling_time_to",
        "degC": "mixed_temperature surface_temperature_at",
        "m": "hose_head_loss projected_length pane_thickness_needed",
        "m/s": "settling_velocity",
        "kg": "thiosulfate_dose ammonia_from_feed mass_from_length glass_mass",
        "W/m**2": "tube_irradiance disc_irradiance",
        "m**2": "required_swim_area",
        "kg/s": "feed_need_for",
        "m**3": "foam_volume_needed",
        "N*m": "joist_moment",
        "J": "energy_used",
    }.items()
    for name in names.split()
}
INPUT_UNITS = {
    **{"air_temperature": "degC", "room_humidity": "%", "air_pressure": "Pa", "wavelength": "m"},
    **{"tilt": "deg", "latitude": "deg", "chlorine": "mg/L", "grain_density": "kg/m**3"},
    **{"lamp_power": "W", "heat_power": "W", "heat_capacity": "J/K", "loss_coefficient": "W/K"},
    **{"allowable_stress": "Pa", "load": "N", "load_length": "m", "load_centre": "m"},
    **{"flow": "m**3/s", "changes": "1", "after": "s", "spectrum": "choice", "growth": "choice"},
    **{"top_edge": "choice", "duty": "1", "hours_per_day": "h", "new_height": "m"},
    **{"source_offset": "m", "surface_length": "m", "surface_width": "m", "disc_radius": "m"},
    **{"height": "m", "offset": "m", "along": "m", "power": "W", "days": "day"},
}

# Units a bracket may hold.
KNOWN = {
    *("m", "m**2", "m**3", "kg", "s", "h", "day", "K", "degC", "W", "V", "A", "J", "Pa", "N"),
    *("1", "%", "deg", "choice", "yes/no", "W/K", "J/K", "J/kg", "W/m**2", "W/m**2/K", "W/m/K"),
    *("m**2*K/W", "mg/L", "mg/L/s", "kg/s", "kg/m**2", "kg/m**3", "kg/m**2/s", "m**3/s", "m**3/m"),
    *("W/m**3", "m/s", "m**2/s", "1/s", "N/m", "N*m"),
}

FORMULAS = [*laws().values(), *quantities().formulas.values()]


def _sheet(formula: Formula) -> str:
    return f"{formula.function.__module__.rpartition('.')[2]}.{formula.name}"


@every("formula", FORMULAS, ids=_sheet)
def test_brackets_hold_units_of_the_fixed_names(formula: Formula) -> None:
    text = " ".join((formula.function.__doc__ or "").split("\n\n")[0].split())
    assert text.endswith((f"[{formula.unit}].", f"[{formula.unit}, from 0]."))
    assert formula.unit in KNOWN
    fixed = UNITS | SUM_UNITS | INPUT_UNITS
    assert formula.unit == fixed.get(formula.name, formula.unit)
    for item in formula.inputs:
        assert item.unit in KNOWN
        assert item.unit == fixed.get(item.name, item.unit), item.name


@every("formula", FORMULAS, ids=_sheet)
def test_every_number_of_a_single_sum_or_from_the_keeper_has_a_range(formula: Formula) -> None:
    """What another quantity works out is held by the ranges of that one's own inputs."""
    worked_out = set() if laws().get(formula.name) is formula else set(quantities().formulas)
    endless = [
        item.name
        for item in formula.inputs
        if item.unit not in ("choice", "yes/no")
        and item.name not in worked_out
        and not (math.isfinite(item.low) and math.isfinite(item.high))
    ]
    assert endless == []


@pytest.mark.parametrize(
    ("name", "given", "beyond"),
    [
        # a change every 7 s, nitrate of 200 g/L, a hose of a kilometre and a pool's chlorine
        ("nitrate_peak", {"nitrate_rise": 1e-5, "water_change_interval": 7.0,
                          "water_change_share": 0.3, "tap_nitrate": 10.0},
         "water_change_interval is 7 s, but the formula holds only from 3600 to 1e+08 s"),
        ("nitrate_after_changes", {"nitrate_rise": 1e-5, "water_change_interval": 604800.0,
                                   "water_change_share": 0.3, "tap_nitrate": 10.0,
                                   "nitrate": 2e5, "changes": 3.0},
         "nitrate is 200000 mg/L, but the formula holds only from 0 to 10000 mg/L"),
        ("nitrate_peak", {"nitrate_rise": 5.0, "water_change_interval": 604800.0,
                          "water_change_share": 0.3, "tap_nitrate": 10.0},
         "nitrate_rise is 5 mg/L/s, but the formula holds only from -0.01 to 1 mg/L/s"),
        ("hose_head_loss", {"flow": 1000.0, "hose_diameter": 0.016, "hose_length": 3.0,
                            "minor_loss": 2.0, "water_temperature": 25.0},
         "flow is 1000 m**3/s, but the formula holds only from 0 to 1 m**3/s"),
        ("hose_head_loss", {"flow": 3e-4, "hose_diameter": 0.016, "hose_length": 1000.0,
                            "minor_loss": 2.0, "water_temperature": 25.0},
         "hose_length is 1000 m, but the formula holds only from 0 to 50 m"),
        ("thiosulfate_dose", {"water_volume": 100.0, "chlorine": 1000.0},
         "chlorine is 1000 mg/L, but the formula holds only from 0 to 100 mg/L"),
    ],
)  # fmt: skip
def test_what_no_tank_has_is_refused(name: str, given: dict[str, float], beyond: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        laws()[name](given)
    assert str(caught.value) == beyond


# Answers beyond which a formula does not hold; the audit says so where it matters.
NARROWER = {
    "grain_size": {"intake_capture_height"},
    "wall_thickness": {"glass_deflection_share", "glass_stress_at_line", "glass_stress_unscreened"},
    "water_temperature": {"hose_flow", "intake_capture_height", "water_mass"},
}


def test_formulas_that_hold_over_less_than_keepers_may_answer_are_few() -> None:
    found: dict[str, set[str]] = {}
    for name, formula in quantities().formulas.items():
        for item in formula.inputs:
            question = assembly.questionnaire().by_id.get(item.name)
            if question and _takes_more(question, item.name, (item.low, item.high)):
                found.setdefault(item.name, set()).add(name)
    assert found == NARROWER


def _takes_more(question: Question, name: str, ends: tuple[float, float]) -> bool:
    """Whether an answer just past either end of a range is taken."""
    for end, outwards in zip(ends, (-1.0, 1.0), strict=True):
        past = {name: end + outwards * 1e-6 * max(abs(end), 1e-6)}
        held = [m.condition.holds(past.get, quantities().units.get) for m in question.constraint]
        if math.isfinite(end) and False not in held:
            return True
    return False


def test_one_name_has_one_unit_in_laws_and_quantities_alike() -> None:
    seen: dict[str, set[str]] = {}
    for formula in FORMULAS:
        for name, unit in [
            (formula.name, formula.unit),
            *((i.name, i.unit) for i in formula.inputs),
        ]:
            seen.setdefault(name, set()).add(unit)
    assert {name: units for name, units in seen.items() if len(units) > 1} == {}


@every("name", sorted(UNITS))
def test_every_fixed_name_is_asked_or_worked_out_in_its_unit(name: str) -> None:
    asked = assembly.questionnaire()
    question = asked.giver.get(name)
    known = quantities().units.get(name) or (question.unit if question else None)
    assert known == UNITS[name]
    if question:
        assert question.unit == UNITS[name]


def test_questions_and_the_core_agree_on_units() -> None:
    asked, units = assembly.questionnaire(), quantities().units
    assert {
        name: (question.unit, units[name])
        for name, question in asked.giver.items()
        if name in units and question.unit != units[name]
    } == {}


def test_assumptions_and_doubts_have_the_unit_of_their_name() -> None:
    units = {item.name: item.unit for formula in FORMULAS for item in formula.inputs}
    unused = set(assumptions()) - set(units)
    assert unused == set(), "an assumption that no formula takes"
    assert {n: f.unit for n, f in assumptions().items() if f.unit != units[n]} == {}
    asked = assembly.questionnaire().by_id
    spread = {n: f.unit for n, f in doubts().items() if f.spread}
    assert {n: unit for n, unit in spread.items() if unit != asked[n].unit} == {}


def test_limits_are_in_units_of_the_core() -> None:
    assert {name: fact.unit for name, fact in limits().items() if fact.unit not in KNOWN} == {}


# ---- sources


@every("formula", FORMULAS, ids=_sheet)
def test_sources_of_a_data_sheet_are_on_the_shelf(formula: Formula) -> None:
    for citation in formula.sources:
        assert citation.key in bibliography()
        assert citation.status in STATUSES
        assert citation.place or citation.status == "practice", "a source has a place in it"


def _sources_in(node: Any) -> Iterator[str]:
    """Every bibliography key that a data file cites, under whatever key it does."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key in ("source", "sources", "cites", "source_list"):
                listed = value if isinstance(value, list) else [value]
                yield from (word for item in listed for word in re.findall(r"\w+", str(item)))
            yield from _sources_in(value)
    elif isinstance(node, list):
        for item in node:
            yield from _sources_in(item)


@cache
def _cited_in_data() -> set[str]:
    files = [p for p in CARE.rglob("*.yaml") if p.name != "bibliography.yaml"]
    files += list(CHECKS.rglob("*.yaml"))
    cited: set[str] = set()
    for path in files:
        cited |= set(_sources_in(yaml.safe_load(path.read_text(encoding="utf-8"))))
    return cited


def test_no_entry_of_the_bibliography_is_unused() -> None:
    cited = {citation.key for formula in FORMULAS for citation in formula.sources}
    cited |= {source for check in all_checks() for source in check.sources}
    cited |= {fact.source for fact in [*assumptions().values(), *limits().values()]}
    cited |= {fact.source for fact in doubts().values()} | _cited_in_data()
    assert sorted(set(bibliography()) - cited) == []


def test_no_citation_is_empty_or_names_a_brand_less_source_twice() -> None:
    texts = list(bibliography().values())
    assert all(len(text) > 15 for text in texts)
    assert len(set(texts)) == len(texts)
