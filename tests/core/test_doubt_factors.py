"""Factors of doubt act in the right direction, and what is left out stands at its best value."""

from __future__ import annotations

import inspect
from functools import cache
from typing import Any

import numpy as np
import pytest
from every import every

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.care.facts import assumptions
from interview.core.errors import Missing, NotApplicable
from interview.core.wiring import quantities
from interview.core.working import Working

QUANTITIES = quantities().formulas
UP, DOWN = 1, -1

WAYS: dict[str, dict[str, int]] = {
    "evaporation_factor": {
        **dict.fromkeys(("evaporation_rate", "heat_loss", "mean_heat_loss"), UP),
        **dict.fromkeys(("loss_coefficient", "stuck_heater_power_limit", "warm_up_time"), UP),
        "stuck_heater_time": UP,
        **dict.fromkeys(("cooling_time", "unheated_water_temperature"), DOWN),
        **dict.fromkeys(("stuck_heater_temperature", "hot_room_water"), DOWN),
        "mean_heater_power": UP,
    },
    "pump_heat_share": {"pump_heat_to_water": UP},
    "lamp_heat_to_water": {"lamp_heat_while_lit": UP},
    "floor_loss_factor": {"floor_conductance": UP},
    "mesh_top_factor": {"open_top_share": UP},
    "wall_thickness_factor": {"typical_wall_thickness": UP},
    "tank_mass_factor": {"tank_mass": UP},
    "leg_uneven_share": {"stand_leg_load": UP},
    "body_mass_factor": {"body_mass": UP},
    "shell_height_factor": {"shell_height": UP},
    "shell_width_factor": {"shell_width": UP},
    "captive_growth_factor": {"each_growth_factor": UP},
    "feed_need_factor": {"feed_need": UP},
    "shell_absorption": dict.fromkeys(
        ("shell_temperature", "shell_temperature_hot_day", "shell_temperature_cold_day"), UP
    ),
    "uvb_class_factor_tube": {"uv_index_new": UP},
    "uvb_unit_factor": {"uv_index_new": UP},
    "uvb_life_factor": {"uvb_lamp_output": UP, "uvb_lamp_time_left": UP},
    "uvb_geometry_factor": dict.fromkeys(
        ("uv_index_platform", "uv_index_shell", "uv_index_ceiling"), UP
    ),
    "filter_flow_share": {"actual_flow": UP},
    "shut_off_head_factor": {"shut_off_head": UP},
    "media_area_factor": {"media_area": UP},
    "nitrifier_pace": dict.fromkeys(
        ("cycling_time", "cycling_time_low", "cycling_time_high"), DOWN
    ),
}
"""Which way each factor moves what takes it: more evaporation, more heat lost, and so on."""


@cache
def _tanks() -> tuple[Working, ...]:
    """Invented tanks at their best values; of two, because no tank has everything."""
    found = []
    for name in ("musk_turtle", "river_cooter_adult"):
        interview = assembly.new_interview()
        setups.fill(interview, setups.read(demo_folder() / f"{name}.yaml", interview.questionnaire))
        found.append(assembly.audit_of(interview, name).tank.best)
    return tuple(found)


def _known(tank: Working, name: str) -> dict[str, Any]:
    inputs = (item.name for item in QUANTITIES[name].inputs)
    return {n: tank.get(n) for n in inputs if tank.get(n) is not None}


@every(
    ("factor", "name", "way"),
    [(factor, name, way) for factor, ways in WAYS.items() for name, way in ways.items()],
)
def test_a_factor_moves_what_takes_it_the_right_way(factor: str, name: str, way: int) -> None:
    moved = []
    for tank in _tanks():
        known = _known(tank, name)
        more = {**known, factor: np.asarray(known[factor]) * 1.05}
        moved.append(float(np.sum(QUANTITIES[name](more)) - np.sum(QUANTITIES[name](known))))
    assert any(way * change > 0 for change in moved), moved
    assert all(way * change >= 0 or not np.isfinite(change) for change in moved), moved


DEFAULTS = [
    (formula, parameter)
    for formula in QUANTITIES.values()
    for parameter in inspect.signature(formula.function).parameters.values()
    if parameter.default not in (inspect.Parameter.empty, None)
]
NONE_OF_IT = {
    *("substrate_depth", "decor_volume", "platform_length", "platform_width", "tap_nitrate"),
    *("tank_mass", "substrate_mass", "evaporation_rate", "filter_age"),
    *("platform_height_above_water", "stray_heat", "lamp_heat_while_lit", "room_daily_swing"),
    "day_length",
}


@pytest.mark.parametrize(
    ("formula", "parameter"), DEFAULTS, ids=[f"{f.name}-{p.name}" for f, p in DEFAULTS]
)
def test_what_is_left_out_stands_at_its_best_value(formula: Any, parameter: Any) -> None:
    """A factor is 1, a choice one that can be answered, the rest none, one or a mild 25 °C."""
    name, default = parameter.name, parameter.default
    if isinstance(default, str):
        question = assembly.questionnaire().by_id[name]
        assert default in {option.name for option in assembly.lists().options_of(question)}
    elif name in NONE_OF_IT:
        assert default == 0.0
    elif name == "water_temperature":
        assert default == 25.0
    elif name in ("heater_count", "filter_count", "tank_mass_factor", "nitrate_calibration"):
        assert default == 1.0
    else:
        assert default == assumptions()[name].value


@pytest.mark.parametrize(
    "name", ["heat_loss", "mean_heat_loss", "loss_coefficient", "warm_up_time", "cooling_time"]
)
def test_a_lid_and_an_open_top_differ(name: str) -> None:
    """Under glass less heat goes than from open water: cooling takes longer, warming less long."""
    tank = _tanks()[0]
    known = {n: v for n, v in tank.known.items() if n != "open_top_share"}
    by_cover = [
        float(tank.wiring.working({**known, "cover_water": cover}).value(name))
        for cover in ("none", "mesh", "glass")
    ]
    falling = sorted(by_cover, reverse=name != "cooling_time")
    assert by_cover == falling and len(set(by_cover)) == 3


def test_media_area_is_volume_times_area_times_factor() -> None:
    given = {"filter_kind": "canister", "media": "foam_fine", "filled_media_volume": 0.004}
    typical, doubted = (
        QUANTITIES["media_area"]({**given, "media_area_factor": factor}) for factor in (1.0, 0.5)
    )
    assert doubted == pytest.approx(0.5 * typical, rel=1e-12)


@pytest.mark.parametrize("day", ["hot", "cold"])
def test_a_darker_shell_is_a_stronger_lamp(day: str) -> None:
    room = {"hot": "room_temperature_high", "cold": "room_temperature_low"}[day]
    given = {"heat_lamp_height": 0.25, "shell_height": 0.05, "source_offset": 0.05, room: 20.0}
    sum_of = QUANTITIES[f"shell_temperature_{day}_day"]
    darker = sum_of({**given, "lamp_heat": 5.0, "shell_absorption": 1.5})
    assert darker == pytest.approx(sum_of({**given, "lamp_heat": 7.5}), rel=1e-12)


def test_a_stand_weighs_by_its_footprint() -> None:
    given = {"supported_mass": 100.0, "tank_length": 2.0, "tank_width": 0.5}
    mass = QUANTITIES["filled_mass"]({**given, "stand_mass_per_area": 40.0, "stand": "furniture"})
    assert mass == pytest.approx(100.0 + 40.0 * 1.0)


def test_a_planned_lamp_is_new() -> None:
    lamp = {"uvb_lamp_kind": "tube_t5"}
    assert QUANTITIES["uvb_lamp_output"]({**lamp, "stage": "planning"}) == 1.0
    used = QUANTITIES["uvb_lamp_output"]({**lamp, "uvb_lamp_age": 3.6e7})
    assert used < 1.0


@pytest.mark.parametrize(
    ("name", "given", "lacking"),
    [
        (
            "media_area",
            {"filter_kind": "canister", "media_area_factor": 1.0, "media": "gravel"},
            ("media_volume",),
        ),
        (
            "media_area",
            {"filter_kind": "canister", "media_area_factor": 1.0, "filled_media_volume": 0.01},
            ("media",),
        ),
        (
            "platform_area",
            {"platform_kind": "floating", "platform_length": 0.3},
            ("platform_length", "platform_width"),
        ),
        ("uvb_lamp_output", {"uvb_lamp_kind": "tube_t5"}, ("uvb_lamp_age",)),
        (
            "uv_calibration",
            {"uvb_reading": 3.0, "uvb_lamp_kind": "tube_t5", "uv_meter_error": 0.1},
            ("uvb_reading_height",),
        ),
        (
            "heater_cover",
            {"water_depth": 0.3, "heater_height": 0.05, "heater_length": 0.2},
            ("heater_mount",),
        ),
    ],
)
def test_what_is_missing_is_named(
    name: str, given: dict[str, Any], lacking: tuple[str, ...]
) -> None:
    with pytest.raises(Missing) as missing:
        QUANTITIES[name](given)
    assert tuple(missing.value.names) == lacking


@pytest.mark.parametrize(
    "name", ["cycling_time", "cycling_time_low", "cycling_time_high", "seed_film"]
)
def test_without_a_filter_nothing_cycles(name: str) -> None:
    known = {**_known(_tanks()[0], name), "filter_kind": "none"}
    with pytest.raises(NotApplicable, match=r"^there is no filter$"):
        QUANTITIES[name](known)


def test_a_lid_counts_beyond_the_share_it_leaves_open() -> None:
    """With the same open share, glass over the water still holds heat back."""
    tank = _tanks()[0]
    for name in ("heat_loss", "mean_heat_loss", "loss_coefficient"):
        known = {**_known(tank, name), "open_top_share": 0.1}
        lid, none = (
            QUANTITIES[name]({**known, "cover_water": cover}) for cover in ("glass", "none")
        )
        assert lid != pytest.approx(none, rel=1e-3), name


def test_warmer_water_is_three_degrees_cooler_sooner() -> None:
    """The power cut starts at what was measured, not at what is wanted."""
    tank = _tanks()[0]
    known = _known(tank, "cooling_time")
    warm, cool = (
        QUANTITIES["cooling_time"]({**known, "water_temperature": celsius})
        for celsius in (28.0, 24.0)
    )
    assert warm < cool


def test_a_second_bulb_adds_its_uv_times_its_factors() -> None:
    lamps = {"uvb_lamp_kind": "tube_t5", "heat_lamp_kind": "mercury_vapour"}
    add = QUANTITIES["heat_lamp_uv_index"]
    plain = add(lamps)
    assert plain > 0
    doubted = add({**lamps, "uvb_class_factor_flood": 2.0, "uvb_unit_factor": 1.5})
    assert doubted == pytest.approx(3.0 * plain)


def test_reach_and_headroom_by_hand() -> None:
    assert QUANTITIES["escape_height_needed"]({"largest_carapace_length": 0.2}) == pytest.approx(
        0.3
    )
    headroom = {"shell_height": 0.08, "headroom_margin": 0.03}
    assert QUANTITIES["headroom_needed"](headroom) == pytest.approx(0.11)


def test_bands_are_of_each_draw_by_itself() -> None:
    """Two draws of two musk turtles: two hatchlings, then two adults."""
    stages = np.array([[0.0, 0.0], [2.0, 2.0]])
    for name in ("water_band_low", "water_band_high"):
        species = ("sternotherus_odoratus", "sternotherus_odoratus")
        both = QUANTITIES[name]({"species": species, "life_stage": stages})
        each = [QUANTITIES[name]({"species": species, "life_stage": row}) for row in stages]
        assert both.tolist() == [float(one) for one in each]


def test_a_nearer_bulb_adds_more_uv() -> None:
    """Whether it is the UVB lamp or the heat lamp, a mercury-vapour bulb is one bulb."""
    bare = {"uvb_lamp_kind": "none", "uv_index_new": 0.0, "heat_lamp_uv_index": 3.0}
    near, far = (
        QUANTITIES["uv_index_platform_uncovered"]({**bare, "heat_lamp_height": height})
        for height in (0.25, 0.5)
    )
    assert near > far > 0


def test_unknown_joists_are_the_usual_ones() -> None:
    assert QUANTITIES["floor_joist_spacing"]({"typical_joist_spacing": 0.41}) == 0.41
    known = {"typical_joist_spacing": 0.41, "joist_spacing": 0.6}
    assert QUANTITIES["floor_joist_spacing"](known) == 0.6
