"""Tank and water: a worked ladder, trade sizes, conservation, and what may be left out."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from interview.core.errors import Impossible, Missing, NotApplicable, OutOfRange
from interview.core.structure import enclosure
from interview.core.wiring import quantities

INCH = 0.0254
TANK: dict[str, Any] = {
    "tank_length": 1.20,
    "tank_width": 0.50,
    "tank_height": 0.50,
    "wall_thickness": 0.010,
    "water_line_below_rim": 0.12,
    "substrate_depth": 0.03,
    "substrate_porosity": 0.40,
    "decor_volume": 0.004,
    "platform_kind": "floating",
    "platform_height_above_water": 0.025,
    "platform_length": 0.30,
    "platform_width": 0.20,
    "carapace_length": np.array([0.12, 0.10]),
}
# By hand: 120 x 50 x 50 cm in 10 mm glass, water 12 cm under the rim, 3 cm of sand.
LADDER = {
    "pane_thickness": 0.010,
    "inside_length": 1.18,
    "inside_width": 0.48,
    "inside_height": 0.49,
    "brim_volume": 0.277536,
    "water_level": 0.37,
    "water_depth": 0.34,
    "substrate_volume": 0.016992,
    "grain_volume": 0.0101952,
    "water_volume": 0.209568 - 0.0101952 - 0.004,
    "swim_area": 0.5664,
    "foothold_height": 0.025,
    "escape_height": 0.095,
    "volume_per_shell_length": 0.1953728 / 0.22,
}


@pytest.mark.parametrize("name", LADDER)
def test_worked_tank(name: str) -> None:
    assert quantities().working(TANK).value(name) == pytest.approx(LADDER[name], rel=1e-9)


# Trade sizes and the pane usually sold (common practice, no source); L, H in inches, pane mm
TRADE = [
    (20, 12, 3), (24, 12, 5), (20, 18, 5), (24, 16, 5), (30, 12, 5), (36, 16, 6), (48, 16, 6),
    (36, 19, 6), (36, 24, 10), (48, 21, 10), (48, 24, 10), (72, 21, 10), (72, 28, 12), (72, 24, 10),
]  # fmt: skip
METRIC = [(0.6, 0.3, 5), (0.8, 0.4, 6), (1.2, 0.5, 10), (1.5, 0.5, 10), (1.0, 0.4, 6)]


@pytest.mark.parametrize(
    ("length", "height", "pane"),
    [(a * INCH, h * INCH, t) for a, h, t in TRADE] + METRIC,
)
def test_typical_pane_of_the_trade_sizes(length: float, height: float, pane: float) -> None:
    assert enclosure.typical_wall_thickness(length, height) == pytest.approx(pane / 1000)


def test_the_low_breeder_tank_is_the_one_exception() -> None:
    # 36 x 18 x 12 in is sold in 6 mm (common practice, no source); the rule says 5
    assert enclosure.typical_wall_thickness(36 * INCH, 12 * INCH) == pytest.approx(0.005)


def test_a_measured_pane_wins_over_the_typical_one() -> None:
    unmeasured = {k: v for k, v in TANK.items() if k != "wall_thickness"} | {"tank_height": 0.40}
    known = unmeasured | {"wall_thickness_factor": 1.0}
    assert quantities().working(known).value("pane_thickness") == pytest.approx(0.006)
    measured = known | {"wall_thickness": 0.008}
    assert quantities().working(measured).value("pane_thickness") == pytest.approx(0.008)


def test_without_size_or_pane_the_size_is_asked_for() -> None:
    with pytest.raises(Missing) as missing:
        enclosure.pane_thickness()
    assert missing.value.names == ("tank_height",)


def test_trap_nominal_gallons_are_not_the_volume() -> None:
    # common practice, no source: a "20 long" holds less than 20 US gal, though its box holds more
    box = 30 * INCH * 12 * INCH * 12 * INCH / 0.003785411784
    given_size = {"tank_length": 30 * INCH, "tank_width": 12 * INCH, "tank_height": 12 * INCH}
    brim = quantities().working(given_size | {"wall_thickness": 0.005}).value("brim_volume")
    assert box == pytest.approx(18.7, abs=0.05)
    assert brim / 0.003785411784 == pytest.approx(17.6, abs=0.05)


def test_bare_bottom_needs_no_substrate_answers() -> None:
    bare = {k: v for k, v in TANK.items() if k not in ("substrate_depth", "decor_volume")}
    working = quantities().working(bare)
    assert working.value("water_depth") == working.value("water_level")
    assert working.value("grain_volume") == 0
    assert working.value("water_volume") == pytest.approx(0.209568)


def test_a_line_under_the_bottom_gives_a_negative_depth() -> None:
    assert enclosure.water_depth(enclosure.water_level(0.4, 0.5), 0.05) == pytest.approx(-0.15)


@pytest.mark.parametrize("kind", ["floating", "fixed", "above_tank", "none", None])
def test_only_a_pile_takes_swimming_space(kind: str | None) -> None:
    assert enclosure.swim_area(1.18, 0.48, kind, 0.3, 0.2) == pytest.approx(0.5664)
    assert enclosure.swim_area(1.18, 0.48, "pile", 0.3, 0.2) == pytest.approx(0.5064)


def test_footholds() -> None:
    assert enclosure.foothold_height("none") == 0
    assert enclosure.foothold_height("fixed", 0.08) == pytest.approx(0.08)
    assert enclosure.foothold_height("fixed", -0.02) == 0  # a drowned shelf is no foothold
    with pytest.raises(Missing, match="platform_height_above_water"):
        enclosure.foothold_height("floating")
    with pytest.raises(NotApplicable, match="above the rim"):
        enclosure.foothold_height("above_tank", 0.3)


def test_a_size_in_the_wrong_unit_is_refused() -> None:
    working = quantities().working(TANK | {"tank_length": 120.0})
    with pytest.raises(OutOfRange, match="tank_length is 120 m"):
        working.value("inside_length")


def test_a_tank_with_less_than_no_water_has_no_volume() -> None:
    below_the_bottom = quantities().working(TANK | {"water_line_below_rim": 2.0})
    said = r"water_level comes out at -[\d.]+ m, and it can't be below 0"
    with pytest.raises(Impossible, match=said):
        below_the_bottom.value("water_volume")


def test_stray_draws_of_a_nearly_empty_tank_keep_a_film_of_water() -> None:
    lines = np.array([0.28, 0.30, 0.34])
    assert enclosure.water_level(0.31, lines) == pytest.approx([0.03, 0.01, 0.001])
    room = enclosure.submerged_room(0.6, 0.3, np.array([0.03, 0.01]), 0.6 * 0.3 * 0.02)
    assert room == pytest.approx([0.0018, 0.00018])
    assert enclosure.water_level(0.31, np.array([0.33, 0.34])) == pytest.approx([-0.02, -0.03])


def test_decor_leaves_water_or_is_refused() -> None:
    room = np.array([0.1, 0.1, 0.1])
    assert enclosure.water_volume(room, 0.02) == pytest.approx(0.08)
    with pytest.raises(OutOfRange, match=r"decor_volume is 0.1 m.* from 0 to 0.1 m"):
        enclosure.water_volume(room, 0.1)
    with pytest.raises(OutOfRange, match=r"decor_volume is 0\.3"):
        enclosure.water_volume(0.1, 0.3)
    # one stray draw keeps a tenth of the room
    strays = enclosure.water_volume(room, np.array([0.02, 0.095, 0.2]))
    assert strays == pytest.approx([0.08, 0.01, 0.01])


sizes = st.floats(0.3, 2.0)


@given(sizes, sizes, sizes, st.floats(0.0, 0.2), st.floats(0.0, 0.05), st.floats(0.2, 0.6))
def test_water_grains_and_air_fill_the_tank(
    length: float, width: float, height: float, line: float, bed: float, pores: float
) -> None:
    level = enclosure.water_level(height, line)
    grains = enclosure.grain_volume(enclosure.substrate_volume(length, width, bed), pores)
    water = enclosure.water_volume(enclosure.submerged_room(length, width, level, grains))
    air = length * width * line
    assert water + grains + air == pytest.approx(enclosure.brim_volume(length, width, height))


@given(st.floats(0.01, 0.2), st.floats(0.001, 0.1))
def test_lowering_the_line_costs_depth_and_gains_rim(line: float, lower: float) -> None:
    before, after = (quantities().working(TANK | {"water_line_below_rim": x})
                     for x in (line, line + lower))  # fmt: skip
    assert before.value("water_depth") - after.value("water_depth") == pytest.approx(lower)
    assert after.value("escape_height") - before.value("escape_height") == pytest.approx(lower)
    lost = before.value("water_volume") - after.value("water_volume")
    assert lost == pytest.approx(lower * after.value("swim_area"))


@pytest.mark.parametrize("name", LADDER)
def test_arrays_give_what_the_scalars_give(name: str) -> None:
    lines = np.array([0.0, 0.1, 0.2])
    draws = {"tank_height": np.array([0.4, 0.5, 0.6]), "water_line_below_rim": lines}
    together = quantities().working(TANK | draws).value(name)
    for i in range(3):
        single = {key: float(column[i]) for key, column in draws.items()}
        alone = quantities().working(TANK | single).value(name)
        assert np.broadcast_to(together, (3,))[i] == pytest.approx(alone)


def test_a_tank_can_be_filled_up_to_a_margin_under_its_rim() -> None:
    assert enclosure.fillable_depth(0.20, 0.50, 0.04, 0.06) == pytest.approx(0.40)
    assert enclosure.fillable_depth(0.20, 0.50, 0.04) == pytest.approx(0.46)
    assert enclosure.fillable_depth(0.48, 0.50, 0.04) == pytest.approx(0.48), "fuller already"


def test_depth_in_shell_lengths_of_the_smallest() -> None:
    assert enclosure.bathing_depth_share(0.2, 0.05) == pytest.approx(4.0)
