"""The basking spot and its platform: calibration, predictions, traps, refusals."""

from __future__ import annotations

import time
from pathlib import Path

import numpy as np
import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from interview.care.facts import limits
from interview.care.species import profile
from interview.core.basking import basking, cover_heat, platform
from interview.core.basking import warm_patch as laws
from interview.core.errors import Missing, NotApplicable, OutOfRange
from interview.core.sheets import read_formula
from interview.core.wiring import Wiring
from interview.core.working import Working

MODULES = (basking, cover_heat, platform)
WIRING = Wiring({n: read_formula(getattr(m, n)) for m in MODULES for n in m.__all__})
CARE = Path(basking.__file__).parents[2] / "care" / "assumptions"
ASSUMED = {
    n: row["value"]
    for name in ("light.yaml", "heat.yaml")
    for n, row in yaml.safe_load((CARE / name).read_text("utf-8")).items()
}
TANK = {
    "heat_lamp_kind": "halogen",
    "basking_temperature": 35.0,
    "heat_lamp_height": 0.30,
    "basking_room_temperature": 24.0,
    "room_temperature_low": 19.0,
    "room_temperature_high": 29.0,
    "shell_height": 0.08,
}


def tank(**changes: object) -> Working:
    known = {**ASSUMED, **TANK, **changes}
    return WIRING.working({n: v for n, v in known.items() if v is not None})


# Temperatures --------------------------------------------------------------------------------


@pytest.mark.parametrize("beam", [None, "bare", "flood", "spot"])
@pytest.mark.parametrize("kind", ["halogen", "incandescent", "mercury_vapour", "ceramic"])
def test_unmoved_tank_gives_back_its_reading(beam: str | None, kind: str) -> None:
    reading = np.linspace(24.5, 70, 40)
    got = tank(heat_lamp_beam=beam, heat_lamp_kind=kind, basking_temperature=reading)
    assert got.value("platform_temperature") == pytest.approx(reading, abs=1e-6)


@given(st.floats(26, 60), st.floats(0.1, 0.8), st.floats(0.01, 0.09), st.floats(0, 0.3))
def test_taller_shell_is_hotter_and_between(reading, height, shell, offset) -> None:
    known = {"basking_temperature": reading, "heat_lamp_height": height, "source_offset": offset}
    low, mid = (
        float(tank(**known, shell_height=h).value("shell_temperature")) for h in (0.0, shell)
    )
    assert low == pytest.approx(reading, abs=1e-6)
    assert mid > low


@pytest.mark.parametrize(("shell_height", "low", "high"), [(0.05, 38, 39.2), (0.10, 42, 46.2)])
def test_shell_above_a_slab_that_reads_35(shell_height: float, low: float, high: float) -> None:
    # The balance by scipy brentq: 5 cm above, 38 to 39 °C; 10 cm above, 42 to 46 °C.
    for offset in (0.0, 0.05, 0.10):
        got = tank(shell_height=shell_height, source_offset=offset).value("shell_temperature")
        assert low - 0.15 <= float(got) <= high


def test_shell_equals_the_single_sum() -> None:
    got = tank(heat_lamp_beam="flood").value("shell_temperature")
    assert float(got) == pytest.approx(
        float(laws.surface_temperature_at(35.0, 0.30, 0.22, 24.0, 0.08)), abs=1e-9
    )


def test_moved_lamp_keeps_its_heat() -> None:
    before = tank(source_offset=0.05)
    moved = tank(source_offset=0.05, heat_lamp_height=0.40, heat_lamp_height_when_measured=0.30)
    assert moved.value("lamp_heat") == pytest.approx(before.value("lamp_heat"))
    # 31.1 °C at 40 cm with 5 cm offset (the balance by scipy brentq, one decimal).
    assert float(moved.value("platform_temperature")) == pytest.approx(31.1, abs=0.1)
    assert moved.value("shell_temperature") < before.value("shell_temperature")


def test_pinned_heat_serves_without_a_reading() -> None:
    heat = tank().value("lamp_heat")
    pinned = tank(lamp_heat=heat, basking_temperature=None, heat_lamp_height=0.25)
    moved = tank(heat_lamp_height=0.25, heat_lamp_height_when_measured=0.30)
    for name in ("platform_temperature", "shell_temperature_hot_day"):
        assert pinned.value(name) == pytest.approx(moved.value(name))


def test_stronger_lamp_absorbs_in_proportion() -> None:
    stronger = tank(heat_lamp_power=75.0, heat_lamp_power_when_measured=50.0)
    flux = laws.patch_heat_loss(stronger.value("platform_temperature"), 24.0)
    assert float(flux) == pytest.approx(1.5 * float(laws.patch_heat_loss(35.0, 24.0)), rel=1e-9)
    same = tank(heat_lamp_power=50.0)
    assert float(same.value("platform_temperature")) == pytest.approx(35.0, abs=1e-6)


def test_days_follow_the_room() -> None:
    of = tank()
    cold, mean, hot = (
        float(of.value(f"shell_temperature{day}")) for day in ("_cold_day", "", "_hot_day")
    )
    # The film and the glow grow with temperature: the spot follows the room a little less
    # than degree by degree.
    assert 4.0 < mean - cold < 5.0
    assert 4.0 < hot - mean < 5.0
    assert of.value("platform_temperature_cold_day") < of.value("platform_temperature") - 4.0


def test_room_defaults_to_the_middle_of_its_range() -> None:
    middle = tank(basking_room_temperature=None)
    assert float(middle.value("room_temperature_while_measuring")) == 24.0
    assert tank(basking_room_temperature=26.0).value("room_temperature_while_measuring") == 26.0


def test_doubt_of_the_moved_spot() -> None:
    # Reading 1.5 K, distances 5 mm, room 1.5 K, offset 5 ± 4 cm: 38.4 ± 2.1 °C at 25 cm and
    # 43.7 ± 3.3 at 20 cm (Monte Carlo of 800 to 3000 draws, numpy).
    rng = np.random.default_rng(5)
    for new, mean, sigma in ((0.25, 38.4, 2.1), (0.20, 43.7, 3.3), (0.40, 31.1, 1.2)):
        spot = tank(
            basking_temperature=rng.normal(35, 1.5, 4000),
            heat_lamp_height_when_measured=rng.normal(0.30, 0.005, 4000),
            heat_lamp_height=rng.normal(new, 0.005, 4000),
            basking_room_temperature=rng.normal(24, 1.5, 4000),
            source_offset=np.maximum(rng.normal(0.05, 0.04, 4000), 0),
        ).value("platform_temperature")
        assert np.median(spot) == pytest.approx(mean, abs=0.4)
        assert np.std(spot) == pytest.approx(sigma, abs=0.4)


def test_keepers_low_nineties_are_hotter_at_the_shell() -> None:
    # Common practice, no source: a surface in the low 90s F by infrared thermometer means
    # about 95 F or more at the top of a 4 to 6 in shell (4 to 6 cm high). The balance agrees
    # for lamps up to some 30 cm off; under a higher one the shell gains less.
    surface = (np.array([91.0, 92.0, 93.0]) - 32) / 1.8
    for shell_height in (0.04, 0.06):
        for height in (0.20, 0.25, 0.30):
            spot = tank(
                basking_temperature=surface,
                heat_lamp_height=height,
                shell_height=shell_height,
                source_offset=0.05,
            ).value("shell_temperature")
            assert (spot * 1.8 + 32 > 94.5).all()  # "about 95"
    far = tank(basking_temperature=surface, heat_lamp_height=0.60, shell_height=0.04)
    assert (far.value("shell_temperature") * 1.8 + 32 < 96.0).all()


def test_lower_water_cools_a_floating_spot() -> None:
    # Common practice, no source: let out water, and the raft sinks away from the lamp.
    let_out = 0.03
    lowered = tank(heat_lamp_height=0.30 + let_out, heat_lamp_height_when_measured=0.30)
    change = lowered.value("shell_temperature") - tank().value("shell_temperature")
    assert -4.0 < float(change) < -1.5


def test_reading_below_the_room_means_no_heat() -> None:
    cold = tank(basking_temperature=22.0)
    assert float(cold.value("lamp_heat")) == 0.0
    assert float(cold.value("shell_temperature")) == pytest.approx(24.0)


def test_without_a_lamp() -> None:
    dark = tank(heat_lamp_kind="none", heat_lamp_height=None)
    assert dark.value("platform_temperature") == 35.0
    names = ("lamp_heat", "shell_temperature", "shell_temperature_hot_day", "lamp_power_share")
    for name in names:
        problem = tank(heat_lamp_kind="none", heat_lamp_power=50.0, lamp_holder_rating=100.0)
        with pytest.raises(NotApplicable, match="there is no heat lamp"):
            problem.value(name)
    with pytest.raises(NotApplicable, match="there is no heat lamp"):
        tank(heat_lamp_kind="none", basking_temperature=None).value("platform_temperature")


@pytest.mark.parametrize(
    ("absent", "names"),
    [
        (["basking_temperature"], ("basking_temperature",)),
        (["heat_lamp_height"], ("heat_lamp_height",)),
        (["basking_temperature", "heat_lamp_height"], ("basking_temperature", "heat_lamp_height")),
        (
            ["basking_room_temperature", "room_temperature_low"],
            ("room_temperature_low", "room_temperature_high"),
        ),
    ],
)
def test_says_what_is_missing(absent: list[str], names: tuple[str, ...]) -> None:
    with pytest.raises(Missing) as problem:
        tank(**dict.fromkeys(absent)).value("platform_temperature")
    assert problem.value.names == names


def test_room_missing_names_every_way_to_know_it() -> None:
    absent = dict.fromkeys(("basking_room_temperature", "room_temperature_high"))
    with pytest.raises(Missing) as problem:
        tank(**absent).value("shell_temperature")
    expected = {"basking_room_temperature", "room_temperature_low", "room_temperature_high"}
    assert set(problem.value.names) == expected


def test_shell_within_the_lamp_is_refused() -> None:
    with pytest.raises(OutOfRange, match=r"lamp_height is 0\.07 m"):
        tank(heat_lamp_height=0.07).value("shell_temperature")
    # A few draws inside the lamp are simply far too hot.
    some = tank(heat_lamp_height=np.array([0.30, 0.085, 0.075])).value("shell_temperature")
    assert some[0] < 60 < some[1] and some[2] > 60


def test_rise_and_holder() -> None:
    of = tank(water_temperature=25.0, heat_lamp_power=75.0, lamp_holder_rating=60.0)
    assert float(of.value("basking_rise")) == pytest.approx(10.0, abs=1e-6)
    assert float(of.value("lamp_power_share")) == pytest.approx(1.25)
    planned = tank(target_water_temperature=26.0)
    assert float(planned.value("basking_rise")) == pytest.approx(9.0, abs=1e-6)
    with pytest.raises(Missing, match="water_temperature"):
        tank().value("basking_rise")


def test_draws_equal_scalars_and_cost_less_than_a_hundred() -> None:
    readings = np.linspace(30, 45, 2048)
    start = time.process_time()
    together = tank(basking_temperature=readings).value("shell_temperature")
    spent = time.process_time() - start
    start = time.process_time()
    for i in (0, 700, 2047):
        alone = tank(basking_temperature=readings[i]).value("shell_temperature")
        assert together[i] == pytest.approx(float(alone), abs=1e-9)
    assert spent < 100 * (time.process_time() - start) / 3


# Platform ------------------------------------------------------------------------------------


RAFT = {
    "platform_kind": "floating",
    "platform_length": 0.40,
    "platform_width": 0.25,
    "animal_mass": 1.165,
    "platform_height_above_water": 0.06,
}


def test_raft_ladder() -> None:
    # By hand: 1165 g on 40 × 25 cm sinks 1.2 cm, the edge 4.7 cm; foam 2.4 L.
    of = tank(**RAFT)
    assert float(of.value("platform_area")) == pytest.approx(0.10)
    assert float(of.value("platform_sinkage")) == pytest.approx(0.012, abs=5e-4)
    assert float(of.value("platform_edge_sinkage")) == pytest.approx(0.047, abs=5e-4)
    assert float(of.value("platform_freeboard")) == pytest.approx(0.06 - 0.0467, abs=1e-4)
    assert float(of.value("foam_volume_required")) == pytest.approx(2.4e-3, abs=5e-5)


@pytest.mark.parametrize("kind", ["fixed", "above_tank", "pile", "none"])
def test_only_rafts_sink(kind: str) -> None:
    names = ("platform_sinkage", "platform_edge_sinkage", "foam_volume_required")
    for name in (*names, "platform_freeboard"):
        with pytest.raises(NotApplicable, match="does not float"):
            tank(**{**RAFT, "platform_kind": kind}).value(name)


def test_area_with_and_without_a_platform() -> None:
    assert float(tank(**{**RAFT, "platform_kind": "above_tank"}).value("platform_area")) == 0.10
    assert tank(platform_kind="none").value("platform_area") == 0.0
    with pytest.raises(Missing, match="platform_length, platform_width"):
        tank(platform_kind="fixed").value("platform_area")


def test_area_needed_counts_every_animal_of_every_draw() -> None:
    draws = np.array([[0.20, 0.10], [0.22, 0.10], [0.20, 0.12]])
    needed = tank(carapace_length=draws).value("platform_area_needed")
    assert needed == pytest.approx([0.075, 1.5 * (0.0484 + 0.01), 1.5 * (0.04 + 0.0144)])
    assert float(tank(carapace_length=0.2).value("platform_area_needed")) == pytest.approx(0.06)


@pytest.mark.parametrize(
    ("gap", "lengths", "share"),
    [
        (0.12, [0.10], 1.2),  # wider than the shell is long: passes
        (0.12, [0.10, 0.20], 0.6),  # the large one jams though the small one passes
        (0.02, [0.10, 0.20], 0.2),  # neither gets in: the small one is nearer to it
        (0.0, [0.10, 0.20], 0.0),
        (0.05, [0.10, 0.40], 0.5),  # the small one jams though the large one stays out
    ],
)
def test_gap_is_judged_for_the_animal_at_risk(gap, lengths, share) -> None:
    of = tank(platform_kind="fixed", platform_wall_gap=gap, carapace_length=np.array(lengths))
    assert float(of.value("platform_gap_share")) == pytest.approx(share)


def test_gap_over_draws_and_where_there_is_none() -> None:
    gaps = np.array([0.12, 0.02])
    of = tank(
        platform_kind="floating", platform_wall_gap=gaps, carapace_length=np.array([0.10, 0.20])
    )
    assert of.value("platform_gap_share") == pytest.approx([0.6, 0.2])
    for kind, words in (("none", "no platform"), ("above_tank", "above the tank")):
        with pytest.raises(NotApplicable, match=words):
            tank(platform_kind=kind, platform_wall_gap=0.1, carapace_length=0.1).value(
                "platform_gap_share"
            )


def test_the_cold_day_limit_is_the_bare_surface_under_a_shell_that_just_basks() -> None:
    # Crawford and others 1983: sliders as a rule don't bask below an operative 28 degC.
    room, height, offset = np.meshgrid([16, 18, 20], [0.2, 0.3, 0.4], [0.0, 0.05, 0.08, 0.2])
    shell = laws.patch_heat_loss(28.0, room)
    bare = laws.patch_temperature(shell * ((height - 0.05 + offset) / (height + offset)) ** 2, room)
    assert np.mean(bare) == pytest.approx(limits()["cold_day_good_low"].value, abs=0.25)
    assert (np.min(bare), np.max(bare)) == pytest.approx((23.3, 26.9), abs=0.05)


def test_what_a_gap_lets_in_and_holds_follows_the_shell() -> None:
    """Without a kind: flattest and widest of 48 painted turtles (Jolicoeur and Mosimann 1960)."""
    assert platform.gap_share_jam_low(None) == pytest.approx(0.333)
    assert platform.gap_share_jam_high(None) == pytest.approx(0.835)
    kinds = ("sternotherus_odoratus", "chrysemys_picta")
    ratios = [profile(kind).facts for kind in kinds]
    flattest = min(facts["shell_height_ratio"].low for facts in ratios)
    widest = max(facts["shell_width_ratio"].high for facts in ratios)
    assert platform.gap_share_jam_low(kinds) == pytest.approx(flattest)
    assert platform.gap_share_jam_high(kinds) == pytest.approx(widest)
    assert platform.gap_share_enter(0.40) == pytest.approx(0.36)
    assert list(platform.gap_share_enter(np.array([0.3, 0.5]))) == pytest.approx([0.27, 0.45])


# A sheet between lamp and animal ---------------------------------------------------------------


def test_a_sheet_taken_away_lets_more_heat_through_and_an_unmoved_one_changes_nothing() -> None:
    """By hand: a pane absorbs a fifth (our choice) and reflects 4 % at each face (Fresnel)."""
    through = tank(cover_basking="glass")
    assert through.value("platform_temperature") == pytest.approx(35.0, abs=1e-6)
    assert float(through.value("cover_heat_share")) == pytest.approx(1 - 0.20 - 0.08)
    away = tank(cover_basking="mesh", cover_heat_share_when_measured=0.72)
    flux = laws.patch_heat_loss(35.0, 24.0) / 0.72
    expected = laws.patch_temperature(flux, 24.0)
    assert away.value("platform_temperature") == pytest.approx(float(expected), abs=1e-6)
    assert 37.0 < float(expected) < 41.0
    for name in ("shell_temperature", "shell_temperature_hot_day", "shell_temperature_cold_day"):
        assert away.value(name) > through.value(name) + 2.0


def test_a_lamp_under_the_sheet_and_one_without_light_are_told_apart() -> None:
    under = tank(cover_basking="glass", escape_height=0.35)
    assert under.value("cover_heat_share") == 1.0
    dark = tank(cover_basking="plastic", heat_lamp_kind="ceramic", escape_height=0.20)
    assert dark.value("cover_heat_share") < 0.5
    assert tank(cover_basking="mesh").value("cover_heat_share") == 1.0
