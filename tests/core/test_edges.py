"""Edges that a run of mutants found unguarded: limits, exact messages, the lesser branches."""

from __future__ import annotations

import inspect
import re
from typing import Any

import numpy as np
import pytest
from every import every

from interview.care.facts import assumptions
from interview.care.species import profile
from interview.core.animal import body as animal
from interview.core.animal import growth_curves as growth
from interview.core.animal import per_animal
from interview.core.basking import warm_patch as basking
from interview.core.electricity import load as electricity
from interview.core.errors import Missing, NotApplicable, OutOfRange
from interview.core.heat import air, evaporation, heater
from interview.core.light import ultraviolet
from interview.core.structure import enclosure
from interview.core.structure import statics as structure
from interview.core.water import chemistry as water_sums
from interview.core.water import flow as filtration
from interview.core.water import properties as water
from interview.core.wiring import laws, quantities

SLIDER, MUSK = "trachemys_scripta_elegans", "sternotherus_odoratus"
ONE = {"species": (SLIDER,), "carapace_length": np.array([0.20])}
COIL = {"uvb_lamp_kind": "coil", "uvb_strength": "high"}
TUBE = {"uvb_lamp_kind": "tube_t5", "uvb_strength": "high", "uvb_lamp_length": 0.55}
LIT: dict[str, Any] = {
    **{"uv_index_platform_uncovered": 3.0, "uv_index_shell_uncovered": 4.0, "uvb_path": "glass"},
    **{"uvb_transmission": 0.8, "uv_calibration": 1.0},
}


def _worked_out(name: str, **known: Any) -> Any:
    values = {n: fact.value for n, fact in assumptions().items()} | known
    return quantities().working(values).value(name)


# ---- heat and evaporation


def test_still_air_over_a_small_cool_patch_conducts() -> None:
    """Below a Nusselt number of 1 there is conduction over the length scale, k dT / L."""
    flux = evaporation.surface_convection_flux(20.001, 20.0, 100.0, 0.01, 0.01)
    assert flux == pytest.approx(air.air_conductivity(20.0) * 0.001 / 0.0025, rel=1e-3)


def test_a_barely_warm_patch_stirs_the_air_like_a_hot_plate() -> None:
    """Half a kelvin over the room the face is warm side up: 0.54 against 0.27 (Cengel 9-22)."""
    warm, cool = (basking.patch_film_coefficient(20.0 + rise, 20.0) for rise in (0.5, -0.5))
    assert warm / cool == pytest.approx(2.0, rel=0.01)


def test_a_raft_tilts_in_proportion_to_a_sixth_of_its_width() -> None:
    """Statics by hand: 1 + 6 e/b while the bottom stays wet, then 2 / (3 (1/2 - e/b))."""
    level = basking.raft_sinkage(1.0, 0.1)
    edge = basking.raft_edge_sinkage(1.0, 0.1, np.array([0.15, 0.20]))
    assert edge / level == pytest.approx([1.9, 2 / 0.9], rel=1e-9)


# ---- water


@pytest.mark.parametrize(
    ("ph", "celsius", "acute", "chronic"),
    [
        *((7.0, 20, 16.76, 1.887), (7.0, 24, 12.03, 1.458), (7.0, 28, 8.64, 1.127)),
        *((7.5, 20, 9.24, 1.393), (7.5, 24, 6.63, 1.077), (7.5, 28, 4.76, 0.832)),
        *((8.0, 20, 3.90, 0.777), (8.0, 24, 2.80, 0.600), (8.0, 28, 2.01, 0.464)),
        *((8.5, 20, 1.49, 0.348), (8.5, 24, 1.07, 0.269), (8.5, 28, 0.77, 0.208)),
    ],
)
def test_criteria_over_acidity_and_warmth(
    ph: float, celsius: float, acute: float, chronic: float
) -> None:
    """The equations of EPA 2013 worked independently, printed to three or four digits."""
    assert water.ammonia_acute_criterion(ph, celsius) == pytest.approx(acute, abs=0.0051)
    assert water.ammonia_chronic_criterion(ph, celsius) == pytest.approx(chronic, abs=0.00051)


@pytest.mark.parametrize("celsius", [5.0, 25.0, 40.0])
def test_oxygen_high_in_the_mountains_follows_the_dry_air(celsius: float) -> None:
    from CoolProp.CoolProp import PropsSI

    vapour = PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water")
    dry = (55000.0 - vapour) / (101325.0 - vapour)
    got = water.oxygen_saturation(celsius, 55000.0) / water.oxygen_saturation(celsius)
    assert got == pytest.approx(dry, rel=1.2e-3)


def test_oxygen_at_half_an_atmosphere_by_hand() -> None:
    """v 0.031262 atm, θ 6.5872e-4, p 0.542808 atm: (p - v)(1 - pθ) / ((1 - v)(1 - θ))."""
    got = water.oxygen_saturation(25.0, 55000.0) / water.oxygen_saturation(25.0)
    assert got == pytest.approx(0.5282130, abs=2e-7)


# ---- animals


def test_foam_by_the_densities() -> None:
    # Archimedes by hand: 2 m / (997 - 30), 2.07 L for each kg
    assert animal.foam_volume_needed(1.0) == pytest.approx(2.0 / 967.0, rel=1e-12)


def test_a_lone_species_or_sex_holds_for_all() -> None:
    both = per_animal.facts_by_sex
    one = [
        both(SLIDER, sex, lambda p, s: p.adult_carapace_length(s).low) for sex in ("female", "male")
    ]
    assert (
        list(both(SLIDER, ("female", "male"), lambda p, s: p.adult_carapace_length(s).low)) == one
    )
    other = [both(s, "male", lambda p, x: p.adult_carapace_length(x).low) for s in (MUSK, SLIDER)]
    assert list(both((MUSK, SLIDER), "male", lambda p, x: p.adult_carapace_length(x).low)) == other
    with pytest.raises(ValueError, match="zip"):
        both((MUSK, SLIDER), ("male",), lambda p, x: 1.0)


def test_the_stages_of_a_life_by_default() -> None:
    """A hatchling up to twice 3.5 cm, an adult female slider from 20 cm."""
    lengths = np.array([0.0699, 0.07, 0.0701, 0.1999, 0.2000])
    assert list(growth.growth_stage(SLIDER, "female", lengths)) == [0.0, 0.0, 1.0, 1.0, 2.0]


def test_time_to_a_length_that_is_reached_or_passed() -> None:
    assert growth.growth_time_to(0.15, 0.15, 0.20, 1e-8) == 0.0
    assert growth.growth_time_to(0.15 + 5e-10, 0.15, 0.20, 1e-8) == np.inf
    assert growth.growth_time_to(0.16, 0.15, 0.20, 1e-8) == 0.0
    assert growth.growth_time_to(0.15, 0.20, 0.20, 1e-8) == np.inf
    assert growth.growth_time_to(0.10, 0.15, 0.20, 1e-8) == pytest.approx(np.log(2.0) / 1e-8)


def test_an_animal_of_no_age_has_no_pace() -> None:
    assert np.isnan(growth.growth_factor_from_age(SLIDER, "female", 0.10, 0.0))
    assert growth.growth_factor_from_age(SLIDER, "female", 0.10, 1e8) > 0


# ---- refusals, word for word


def test_a_patch_over_the_support_is_refused_with_its_place() -> None:
    with pytest.raises(OutOfRange) as caught:
        structure.joist_moment(1000.0, np.array([0.1, 1.0]), np.array([1.0, 0.4]), 4.0)
    assert str(caught.value) == (
        "load_centre is 0.4 m, but the formula holds only from 0.5 to 3.5 m"
    )
    structure.joist_moment(1000.0, 1.0, np.array([0.5, 3.5]), 4.0)


def test_a_pane_beyond_the_table_is_refused_with_its_ratio() -> None:
    with pytest.raises(OutOfRange) as caught:
        structure.pane_stress(np.array([1.0, 6.0]), 0.5, 0.01, "free")
    assert str(caught.value) == (
        "length_to_height is 12, but the formula holds only from 0.1 to 10"
    )


def test_an_unknown_species_is_named() -> None:
    with pytest.raises(NotApplicable, match=re.escape("unicorn")):
        per_animal.facts("unicorn", lambda p: 1.0)


def test_water_stands_still_in_a_hose_without_flow() -> None:
    assert filtration.hose_head_loss(0.0, 0.016, 3.0, 2.0, 25.0) == 0.0


def test_the_animals_without_a_curve_are_named_even_in_one_draw_of_many() -> None:
    map_turtle = "graptemys_pseudogeographica"
    lengths = np.array([[0.05, 0.05], [0.30, 0.05]])  # only in the first draw is it undecided
    with pytest.raises(NotApplicable) as caught:
        growth.outgrowing_time((map_turtle, SLIDER), ("unknown", "female"), lengths, 0.15, 2.0)
    name = profile(map_turtle).name
    assert str(caught.value) == f"no growth curve is known for the {name}"


# ---- doubts: what the audit draws has to move the number as it says

# Factors that scale a quantity: twice the factor, twice the number (or half, where it divides).
SCALED: tuple[tuple[str, str, float, dict[str, Any]], ...] = (
    (
        "typical_wall_thickness",
        "wall_thickness_factor",
        1,
        {"tank_length": 1.0, "tank_height": 0.4},
    ),
    ("shell_height", "shell_height_factor", 1, {**ONE, "sex": ("female",)}),
    ("shell_width", "shell_width_factor", 1, {**ONE, "sex": ("female",)}),
    (
        "feed_need",
        "feed_need_factor",
        1,
        {"body_mass": np.array([0.3]), "growth_done": np.array([1.0])},
    ),
    ("uv_index_new", "uvb_unit_factor", 1, {**COIL}),
    ("uv_index_new", "uvb_class_factor_coil", 1, {**COIL}),
    ("uv_index_new", "uvb_class_factor_flood", 1, {**COIL, "uvb_lamp_kind": "metal_halide"}),
    ("uv_index_new", "uvb_class_factor_tube", 1, {**TUBE}),
    ("uv_index_new", "uvb_class_factor_flood", 0, {**COIL}),
    ("uv_index_new", "uvb_class_factor_coil", 0, {**TUBE}),
    ("uv_index_platform", "uvb_geometry_factor", 1, {**LIT}),
    ("uv_index_shell", "uvb_geometry_factor", 1, {**LIT}),
    ("uv_index_ceiling", "uvb_geometry_factor", 1, {**LIT}),
    ("uv_index_ceiling", "uv_calibration", 1, {**LIT}),
    ("uv_index_shell", "uv_calibration", 1, {**LIT}),
)


@pytest.mark.parametrize(("name", "factor", "power", "known"), SCALED)
def test_a_doubt_scales_its_number(
    name: str, factor: str, power: float, known: dict[str, Any]
) -> None:
    once, twice = (_worked_out(name, **{**known, factor: value}) for value in (1.0, 2.0))
    assert float(np.max(twice)) == pytest.approx(2.0**power * float(np.max(once)))
    assert float(np.max(once)) > 0


def test_a_darker_shell_is_hotter() -> None:
    spot = {
        **{"basking_temperature": 35.0, "heat_lamp_height": 0.3, "heat_lamp_kind": "halogen"},
        **{"basking_room_temperature": 24.0, "shell_height": 0.05},
    }
    pale, dark = (_worked_out("shell_temperature", **spot, shell_absorption=a) for a in (0.8, 1.2))
    assert dark > pale + 3


@every("formula", [*laws().values(), *quantities().formulas.values()],
                         ids=lambda formula: formula.name)  # fmt: skip
def test_defaults_are_what_the_audit_assumes(formula: Any) -> None:
    """A default in a signature that is also an assumption has its value.

    The exception is a tank's mass: without a word on trim and silicone it is the bare glass.
    """
    for name, parameter in inspect.signature(formula.function).parameters.items():
        fact = assumptions().get(name)
        if name == "tank_mass_factor":
            assert parameter.default == 1.0
        elif fact and parameter.default not in (inspect.Parameter.empty, None):
            assert parameter.default == fact.value, name


# ---- both sides of what is chosen by a word


@pytest.mark.parametrize(
    ("beam", "offset"), [("bare", 0.0), ("flood", 0.08), ("spot", 0.20), (None, 0.05)]
)
def test_the_beam_chooses_its_offset(beam: str | None, offset: float) -> None:
    # half beam angles of about 30 and 10 to 15 degrees from a face of 9 cm
    chosen = {} if beam is None else {"heat_lamp_beam": beam}
    assert _worked_out("source_offset", **chosen) == offset


@pytest.mark.parametrize(
    ("region", "volts", "amperes"),
    [
        ("north_america", 120.0, 15.0),
        ("europe", 230.0, 16.0),
        ("united_kingdom", 230.0, 13.0),
        ("australia", 230.0, 10.0),
    ],
)
def test_the_sockets_of_a_region(region: str, volts: float, amperes: float) -> None:
    assert _worked_out("supply_voltage", region=region) == volts
    assert _worked_out("supply_rating", region=region) == amperes
    assert _worked_out("supply_voltage", region=region, mains_voltage=240.0) == 240.0
    assert _worked_out("supply_rating", region=region, circuit_rating=20.0) == 20.0


def test_no_region_no_socket() -> None:
    for region in ({}, {"region": "elsewhere"}):
        for name, asked in (
            ("supply_voltage", "mains_voltage"),
            ("supply_rating", "circuit_rating"),
        ):
            with pytest.raises(Missing) as caught:
                _worked_out(name, **region)
            assert caught.value.names == (asked,)


@pytest.mark.parametrize(
    ("name", "known", "reason"),
    [
        ("lamp_power_share", {"heat_lamp_kind": "none", "heat_lamp_power": 50.0,
                              "lamp_holder_rating": 60.0}, "there is no heat lamp"),
        ("platform_gap_share", {"platform_kind": "above_tank", "platform_wall_gap": 0.1, **ONE},
         "the platform stands above the tank"),
        ("platform_gap_share", {"platform_kind": "none", "platform_wall_gap": 0.1, **ONE},
         "there is no platform"),
        ("platform_sinkage", {"platform_kind": "pile", "animal_mass": 1.0, "platform_area": 0.1},
         "the platform does not float"),
        ("uvb_lamp_output", {"uvb_lamp_kind": "none"}, "there is no UVB lamp"),
        ("stand_leg_load", {"filled_mass": 100.0, "stand": "shelf"},
         "the tank doesn't stand on legs"),
        ("hose_flow", {"filter_kind": "sponge", "filter_rated_flow": 1e-4, "hose_diameter": 0.016,
                       "hose_length": 3.0, "water_temperature": 25.0},
         "only a canister filter pumps through a closed loop of hose"),
        ("glass_stress", {"tank_origin": "aquarium", "tank_length": 1.0, "tank_width": 0.4,
                          "tank_height": 0.4, "wall_thickness": 0.006, "tank_rim": "trimmed",
                          "tank_material": "glass"},
         "an ordinary mass-made aquarium is its maker's business: trim and corners stiffen it"),
    ],
)  # fmt: skip
def test_why_a_number_has_no_meaning(name: str, known: dict[str, Any], reason: str) -> None:
    values = {n: fact.value for n, fact in assumptions().items()} | known
    found = quantities().working(values).why_not(name)
    assert isinstance(found, NotApplicable)
    assert found.reason == reason


def test_an_unknown_lamp_says_which_are_known() -> None:
    with pytest.raises(NotApplicable) as caught:
        _worked_out("uvb_lamp_output", uvb_lamp_kind="sun", uvb_lamp_age=0.0)
    assert str(caught.value).startswith("no UVB lamp is called sun; known: tube_t5, ")


# ---- limits and plain sums


def test_platform_areas_by_the_shell() -> None:
    # 1.2 L² lying and 1.5 L² stretched out (common practice, no source)
    lengths = np.array([0.10, 0.20])
    assert _worked_out("platform_area_least", carapace_length=lengths) == pytest.approx(0.06)
    assert _worked_out("platform_area_needed", carapace_length=lengths) == pytest.approx(0.075)


def test_food_given_over_food_needed() -> None:
    assert _worked_out("feed_share", feed_rate=3e-8, feed_need=2e-8) == pytest.approx(1.5)


def test_a_heater_without_a_loss_has_an_endless_margin() -> None:
    margin = _worked_out(
        "heater_margin", installed_heater_power=50.0, heat_loss=np.array([0.0, 25.0])
    )
    assert list(margin) == [np.inf, 2.0]


def test_time_left_of_a_lamp() -> None:
    """4500 h of a T5 tube at 12 h a day; 9000 h lit leave nothing; never lit, it lasts for ever."""
    lamp = {"uvb_lamp_kind": "tube_t5", "day_length": 43200.0}
    left = _worked_out(
        "uvb_lamp_time_left", **lamp, uvb_lamp_age=np.array([0.0, 3600e3, 4500 * 3600, 1e8])
    )
    assert left / 3600 == pytest.approx([9000, 7000, 0, 0])
    dark = _worked_out("uvb_lamp_time_left", **{**lamp, "day_length": 0.0}, uvb_lamp_age=0.0)
    assert dark == np.inf


def test_nitrate_without_topping_up_or_with_pure_water() -> None:
    bare = water_sums.nitrate_rise(1e-9, 0.1)
    assert bare == pytest.approx(1e-9 * 62.0049 / 14.0067 / 0.1 * 1e3, rel=1e-4)
    assert water_sums.nitrate_rise(1e-9, 0.1, 1e-5) == bare
    full = water_sums.water_change_share_needed(1e-5, 604800.0, np.array([40.0, 39.0]), 40.0)
    assert full[0] == np.inf
    assert full[1] == pytest.approx(1e-5 * 604800.0)


def test_a_mean_room_is_the_middle() -> None:
    tank = {
        **{"inside_length": 0.9, "inside_width": 0.45, "water_level": 0.37, "water_depth": 0.37},
        **{"wall_thickness": 0.008, "tank_material": "glass", "cover_water": "none"},
        **{"room_humidity": 50.0, "target_water_temperature": 25.0},
    }
    at = {
        rooms: float(_worked_out("mean_heat_loss", **tank, room_temperature_low=rooms[0],
                                 room_temperature_high=rooms[1]))
        for rooms in ((19.0, 23.0), (21.0, 21.0))
    }  # fmt: skip
    assert at[19.0, 23.0] == at[21.0, 21.0] > 50
    coldest = _worked_out("heat_loss", **tank, room_temperature_low=21.0)
    assert at[21.0, 21.0] == pytest.approx(float(coldest))


def test_a_tube_heater_lies_as_thick_as_it_is() -> None:
    lying = {"water_depth": 0.30, "heater_power": 100.0, "heater_mount": "horizontal"}
    cover = heater.heater_cover(**lying, heater_height=0.05)
    assert cover == pytest.approx(0.30 - 0.05 - 0.03)


@pytest.mark.parametrize(
    ("height", "pane"), [(0.225, 0.003), (0.2251, 0.005), (1.20, 0.012), (1.2001, 0.015)]
)
def test_borders_of_the_usual_panes(height: float, pane: float) -> None:
    assert enclosure.typical_wall_thickness(1.0, height) == pytest.approx(pane)


def test_a_heating_bulb_adds_its_uvb_in_some_draws_only() -> None:
    """Where only some draws have UVB from the heat lamp, its height is still needed."""
    lamp = {
        **{"uvb_lamp_kind": "none", "uv_index_new": 0.0, "shell_height": 0.05},
        **{"heat_lamp_uv_index": np.array([0.0, 2.0])},
    }
    with pytest.raises(Missing) as caught:
        _worked_out("uv_index_shell_uncovered", **lamp)
    assert caught.value.names == ("heat_lamp_height",)
    with pytest.raises(Missing) as cover:
        ultraviolet.uv_index_platform(np.array([0.0, 2.0]), 1.0)
    assert cover.value.names == ("uvb_path",)
    assert list(ultraviolet.uv_index_platform(np.array([0.0, 0.0]), 1.0)) == [0.0, 0.0]
    given = _worked_out("uv_index_shell_uncovered", **lamp, heat_lamp_height=0.3)
    assert given[0] == 0.0 < given[1]


def test_a_reading_where_nothing_is_expected_changes_nothing() -> None:
    factor = _worked_out(
        "uv_calibration", uvb_reading=3.0, uv_index_at_reading=np.array([0.0, 3.0]),
        uvb_lamp_kind="tube_t5", heat_lamp_kind="none",
    )  # fmt: skip
    assert list(factor) == pytest.approx([1.0, 1.0])


# ---- what is kept when a tank changes


def test_only_what_a_change_touches_is_worked_out_again() -> None:
    tank = {
        **{"tank_length": 1.0, "tank_width": 0.4, "tank_height": 0.4, "wall_thickness": 0.006},
        "water_line_below_rim": 0.1,
    }
    first = quantities().working(tank)
    width, level = first.value("inside_width"), first.value("water_level")
    lower = first.with_known({**tank, "water_line_below_rim": 0.15})
    assert lower._done.get("inside_width") is width
    assert "water_level" not in lower._done
    assert lower.value("water_level") == pytest.approx(level - 0.05)
    pinned = first.with_known({**tank, "inside_width": 0.3})
    assert pinned.value("inside_width") == 0.3
    assert "inside_width" not in pinned._done
    assert pinned.value("brim_volume") == pytest.approx(0.988 * 0.3 * 0.394)
    same = first.with_known({**tank, "inside_width": width})
    assert same._done.get("water_level") is level


# ---- what is left unsaid


def test_a_floor_position_left_out_is_unknown() -> None:
    floor = {
        **{"filled_mass": 386.0, "tank_length": 1.219, "tank_width": 0.457, "region": "europe"},
        **{"floor": "joists_across", "joist_span": 4.0, "joist_spacing": 0.4},
    }
    for name in ("joist_moment_share", "joist_shear_share"):
        said = _worked_out(name, **floor, floor_position="unknown")
        assert _worked_out(name, **floor) == said
        assert _worked_out(name, **floor, floor_position="wall") <= said
    wall, middle = (
        _worked_out("joist_shear_share", **floor, floor_position=p) for p in ("wall", "middle")
    )
    assert max(wall, middle) == _worked_out("joist_shear_share", **floor)


def test_one_mercury_lamp_needs_two_jobs_to_be_one() -> None:
    assert electricity.lighting_load("mercury_vapour", "mercury_vapour") == 0.0
    with pytest.raises(Missing, match="light_power"):
        electricity.lighting_load("mercury_vapour")
    with pytest.raises(Missing, match="light_power"):
        electricity.lighting_load("tube_t5", "mercury_vapour")
    assert electricity.lighting_load("none") == 0.0


@pytest.mark.parametrize(("material", "specific"), [("glass", 840.0), ("acrylic", 1470.0)])
def test_heat_kept_by_tank_and_stones(material: str, specific: float) -> None:
    # handbook specific heats: soda-lime glass 840, acrylic 1470, quartz 800 J/kg/K
    water_only = {"water_volume": 0.1, "target_water_temperature": 25.0, "tank_material": material}
    bare = _worked_out("heat_capacity", **water_only, tank_mass=0.0)
    full = _worked_out("heat_capacity", **water_only, tank_mass=20.0, substrate_mass=30.0)
    assert full - bare == pytest.approx(20.0 * specific + 30.0 * 800.0)
    assert bare == pytest.approx(0.1 * 997.047 * 4181.3, rel=1e-5)


def test_a_bare_bulb_shines_as_strongly_as_itself() -> None:
    # four fifths radiated all round and four fifths of that absorbed: 0.64 P / 4π
    bare = 0.64 * 75.0 / (4 * np.pi)
    lamp = {"heat_lamp_power_when_measured": 75.0}
    assert _worked_out("beam_gain", **lamp, lamp_heat=bare) == pytest.approx(1.0)
    assert _worked_out("beam_gain", **lamp, lamp_heat=8 * bare) == pytest.approx(8.0)


def test_the_most_grown_animal_decides_its_share() -> None:
    both = {"species": (SLIDER, MUSK), "sex": ("female", "male")}
    ends = [profile(s).adult_carapace_length(x).high for s, x in zip(*both.values(), strict=True)]
    lengths = np.array([0.5 * ends[0], 1.2 * ends[1]])
    share = _worked_out("grown_length_share", **both, carapace_length=lengths)
    assert share == pytest.approx(1.2)
