"""What moves what: the changed tank against plain geometry, and against a fresh audit."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from advice_tanks import (
    DEMOS,
    TANKS,
    answers_in,
    audit_of,
    interview_with,
    same_value,
    tank_of,
    typed,
)
from hypothesis import given, settings
from hypothesis import strategies as st
from often import often

from interview import assembly
from interview.advice.levers.levers import all_levers, options_of
from interview.advice.plans.plans import plans
from interview.advice.what_if.coupling import coupled, outdated, pinned
from interview.advice.what_if.suppose import (
    changed,
    changed_working,
    moved_answers,
    to_take_again,
)
from interview.audit.audit import Audit
from interview.audit.tank import Tank
from interview.core.wiring import quantities

MUSK = DEMOS / "musk_turtle.yaml"
COOTER = DEMOS / "river_cooter_adult.yaml"
HATCHLING = DEMOS / "map_turtle_hatchling.yaml"


@pytest.fixture(scope="module")
def audits() -> dict[Path, Audit]:
    return {path: audit_of(path) for path in (MUSK, COOTER, HATCHLING)}


@pytest.fixture(scope="module")
def musk(audits: dict[Path, Audit]) -> Tank:
    return audits[MUSK].tank


# ---- geometry


def test_a_floating_platform_rides_the_water_line(musk: Tank) -> None:
    """3 cm lower water: every length that hangs on it moves by 3 cm, all at once."""
    lower = changed(musk, {"water_line_below_rim": 0.14}).best
    before, drop = musk.best, 0.03

    def moves(name: str) -> float:
        return float(lower.value(name) - before.value(name))

    assert moves("heat_lamp_height") == pytest.approx(drop, abs=1e-12)
    assert moves("uvb_lamp_height") == pytest.approx(drop, abs=1e-12)
    assert moves("water_depth") == pytest.approx(-drop, abs=1e-12)
    assert moves("heater_cover") == pytest.approx(-drop, abs=1e-12)
    assert moves("escape_height") == pytest.approx(drop, abs=1e-12)
    assert moves("platform_height_above_water") == 0
    area = before.value("inside_length") * before.value("inside_width")
    assert moves("water_volume") == pytest.approx(-drop * area, rel=1e-9)
    for falls in ("platform_temperature", "shell_temperature", "uv_index_shell", "water_mass"):
        assert moves(falls) < 0, falls
    assert moves("turnover") > 0 and moves("nitrate_peak") > 0


@pytest.mark.parametrize("kind", ["fixed", "pile", "above_tank"])
def test_a_standing_platform_keeps_its_lamps_and_leaves_the_water(kind: str) -> None:
    tank = tank_of(MUSK, {"platform_kind": kind})
    lower = changed(tank, {"water_line_below_rim": 0.14}).best
    for name in ("heat_lamp_height", "uvb_lamp_height", "shell_temperature", "uv_index_shell"):
        assert lower.value(name) == tank.best.value(name), name
    rise = lower.value("platform_height_above_water")
    assert rise - tank.best.value("platform_height_above_water") == pytest.approx(0.03, abs=1e-12)
    stays = lower.get("escape_height"), tank.best.get("escape_height")
    assert stays[0] == (None if kind == "above_tank" else pytest.approx(stays[1]))


def test_a_platform_set_higher_comes_nearer_to_the_lamps(musk: Tank) -> None:
    higher = changed(musk, {"platform_height_above_water": 0.045}).best
    assert higher.value("heat_lamp_height") == pytest.approx(0.22 - 0.02)
    assert higher.value("uvb_lamp_height") == pytest.approx(0.30 - 0.02)
    assert higher.value("shell_temperature") > musk.best.value("shell_temperature")
    both = changed(musk, {"platform_height_above_water": 0.045, "water_line_below_rim": 0.13}).best
    assert both.value("heat_lamp_height") == pytest.approx(0.22)


def test_without_a_platform_nothing_rides() -> None:
    known = {"water_line_below_rim": 0.1, "heat_lamp_height": 0.3, "platform_kind": "none"}
    assert coupled(known, {"water_line_below_rim": 0.2}) == {"water_line_below_rim": 0.2}
    assert coupled({"platform_kind": "floating"}, {"water_line_below_rim": 0.2}) == {
        "water_line_below_rim": 0.2
    }


def test_what_is_named_wins_over_what_moves_along(musk: Tank) -> None:
    wish = {"water_line_below_rim": 0.14, "heat_lamp_height": 0.21}
    after = changed(musk, wish).best
    assert after.value("heat_lamp_height") == 0.21
    assert after.value("uvb_lamp_height") == pytest.approx(0.33)
    assert set(moved_answers(musk, wish)) == {*wish, "uvb_lamp_height"}
    standing = tank_of(MUSK, {"platform_kind": "pile"})
    named = {"water_line_below_rim": 0.14, "platform_height_above_water": 0.025}
    after = changed(standing, named).best
    assert after.value("platform_height_above_water") == 0.025
    assert after.value("heat_lamp_height") == pytest.approx(0.25), "the platform went down too"


def test_candidates_broadcast(musk: Tank) -> None:
    lines = np.array([0.10, 0.11, 0.15])
    many = changed_working(musk.best, musk.best, {"water_line_below_rim": lines})
    for name in ("heat_lamp_height", "shell_temperature", "water_volume", "heat_loss"):
        each = [changed(musk, {"water_line_below_rim": float(w)}).best.value(name) for w in lines]
        np.testing.assert_allclose(many.value(name), each, rtol=1e-12)


# ---- nothing changed, and there and back


@pytest.mark.parametrize("path", [MUSK, COOTER, HATCHLING], ids=lambda p: p.stem)
def test_nothing_changed_is_the_same_tank_bit_for_bit(
    path: Path, audits: dict[Path, Audit]
) -> None:
    tank = audits[path].tank
    now = {n: v for n, v in tank.best.known.items() if isinstance(v, float)}
    for nothing in ({}, {"heat_lamp_height": tank.best.known["heat_lamp_height"]}, now):
        same = changed(tank, nothing)
        for name in quantities().formulas:
            for one, other in ((tank.best, same.best), (tank.sample, same.sample)):
                left, right = one.get(name), other.get(name)
                assert (left is None) == (right is None), name
                assert left is None or np.array_equal(left, right, equal_nan=_real(left)), name


def _real(value: Any) -> bool:
    return bool(np.asarray(value).dtype.kind == "f")


@settings(max_examples=often(4))
@given(
    line=st.floats(0.05, 0.25),
    lamp=st.floats(0.12, 0.6),
    watts=st.sampled_from([25.0, 75.0, 150.0]),
)
def test_there_and_back_again(line: float, lamp: float, watts: float) -> None:
    best = _musk().best
    way = {"water_line_below_rim": line, "heat_lamp_height": lamp, "heater_power": watts}
    home = {name: best.known[name] for name in (*way, "uvb_lamp_height")}
    there = changed_working(best, best, way)
    back = changed_working(there, there, home)
    for name in quantities().formulas:
        if not name.startswith("cycling"):  # days of simulated bacteria: not the lamp's matter
            assert same_value(best.get(name), back.get(name), 1e-9), name


_AUDITS: dict[str, Audit] = {}


def _musk() -> Tank:
    return _AUDITS.setdefault("musk", audit_of(MUSK)).tank


# ---- calibrations


def test_calibrations_are_pinned_and_predict(musk: Tank) -> None:
    after = changed(musk, {"heat_lamp_height": 0.30})
    for pin in pinned():
        assert after.best.value(pin) == musk.best.value(pin), pin
    predicted = after.best.known["basking_temperature"]
    assert predicted == after.best.value("platform_temperature") < 31
    # inverse square from the lamp's virtual source, a balance of its own at each height
    offset = musk.best.value("source_offset")
    share = ((0.22 + offset) / (0.30 + offset)) ** 2
    from interview.core.basking.warm_patch import patch_heat_loss

    room = musk.best.value("room_temperature_while_measuring")
    assert patch_heat_loss(predicted, room) == pytest.approx(
        share * patch_heat_loss(31.0, room), rel=1e-6
    )


def test_a_new_lamp_forgets_the_readings(audits: dict[Path, Audit]) -> None:
    tank = audits[COOTER].tank
    other = changed(tank, {"heat_lamp_kind": "incandescent"})
    assert "basking_temperature" not in other.best.known
    assert other.best.get("shell_temperature") is None
    assert "uvb_reading" in other.best.known
    tube = changed(tank, {"uvb_strength": "low"})
    assert "uvb_reading" not in tube.best.known and tube.best.value("uv_calibration") == 1
    assert tube.best.value("platform_temperature") == tank.best.value("platform_temperature")
    moved_first = changed(tank, {"heat_lamp_height": 0.5, "uvb_lamp_height": 0.5})
    for pin in ("lamp_heat", "heat_lamp_height_when_measured"):
        assert pin in moved_first.best.known
        assert pin not in changed(moved_first, {"heat_lamp_kind": "incandescent"}).best.known
    assert changed(moved_first, {"uvb_lamp_age": 0.0}).best.value("uv_calibration") == 1


def test_the_same_lamp_keeps_them() -> None:
    known = {"heat_lamp_kind": "halogen", "uvb_lamp_age": 3.6e6, "uvb_path": "open"}
    assert outdated(known, {"heat_lamp_kind": "halogen"}) == ((), ())
    assert outdated(known, {"uvb_lamp_age": 7.2e6}) == ((), ())
    assert outdated(known, {"uvb_lamp_age": 0.0})[0] == ("uvb_reading",)
    # an answer nobody had given, tried at several values at once
    assert outdated({}, {"uvb_lamp_length": np.array([0.6, 0.9])})[0] == ("uvb_reading",)
    assert outdated(known, {"uvb_path": "mesh"})[0] == ("uvb_reading",)
    assert outdated(known, {"heat_lamp_beam": "spot"})[0] == ("basking_temperature",)


# ---- doubt


def test_doubt_is_kept_and_moves_along(musk: Tank) -> None:
    """The cloud is shifted: every draw keeps its distance from the best value."""
    after = changed(musk, {"water_line_below_rim": 0.15, "heater_power": 100.0})
    for name, shift in (("water_line_below_rim", 0.04), ("heat_lamp_height", 0.04)):
        np.testing.assert_allclose(after.sample.known[name] - musk.sample.known[name], shift)
    spread = np.std(after.sample.known["heater_power"])
    assert spread == pytest.approx(np.std(musk.sample.known["heater_power"]), rel=0.01) and spread
    deep = changed(musk, {"water_line_below_rim": 0.001})
    assert np.min(deep.sample.known["water_line_below_rim"]) == 0, "no draw above the rim"


# ---- against a fresh audit of what a keeper would then measure

CHANGES: dict[str, dict[str, Any]] = {
    "lamp higher": {"heat_lamp_height": 0.31},
    "water lower": {"water_line_below_rim": 0.15},
    "another heater": {"heater_power": 75.0},
    "covers": {"cover_water": "mesh", "cover_basking": "mesh"},
    "water change": {"water_change_share": 0.45, "water_change_interval": 5 * 86400.0},
    "several": {
        "water_line_below_rim": 0.14,
        "heat_lamp_height": 0.28,
        "uvb_lamp_height": 0.33,
        "heater_power": 50.0,
        "water_change_share": 0.2,
        "cover_water": "mesh",
    },
}


def _read_by_the_kit(tank: Tank) -> float:
    """Nitrate just before a change, when the question asks for it."""
    peak = tank.best.get("nitrate_peak")
    return float(tank.best.known["nitrate"] if peak is None else peak)


@pytest.mark.parametrize("path", [MUSK, COOTER, HATCHLING], ids=lambda p: p.stem)
@pytest.mark.parametrize("name", CHANGES)
def test_a_change_agrees_with_a_fresh_audit(
    name: str, path: Path, audits: dict[Path, Audit]
) -> None:
    """The changed tank, measured again and typed into a new setup file, has the same figures.

    The keeper reads what is predicted on the platform; the UV meter, which was off by some
    share before, is off by the same share now.
    """
    tank = audits[path].tank
    after = changed(tank, CHANGES[name])
    new = {n: after.best.known[n] for n in moved_answers(tank, CHANGES[name])}
    measured = {"basking_temperature": after.best.value("platform_temperature")}
    if "uvb_reading" in tank.best.known:
        now = {n: v for n, v in after.best.known.items() if not n.endswith("_when_measured")}
        workings = tank.best, quantities().working(now)
        expected = [working.value("uv_index_at_reading") for working in workings]
        measured["uvb_reading"] = tank.best.known["uvb_reading"] * expected[1] / expected[0]
    if "nitrate" in tank.best.known:
        measured["nitrate"] = _read_by_the_kit(after)
    answers = {**answers_in(path), **typed(tank, {**new, **measured})}
    fresh = assembly.audit_of(interview_with(answers), "fresh").tank
    remembered = {*pinned(), "uv_index_at_reading"}  # tell of the readings taken before
    for quantity in quantities().formulas:
        if quantity in remembered - {"uv_calibration"}:
            continue
        one, other = after.best.get(quantity), fresh.best.get(quantity)
        assert same_value(one, other, 1e-8), (quantity, one, other)
    assert after.best.value("uv_calibration") == pytest.approx(fresh.best.value("uv_calibration"))


def test_only_what_depends_on_the_lamp_moves_with_it(musk: Tank) -> None:
    after = changed(musk, {"heat_lamp_height": 0.27})
    touched = {
        name
        for name in quantities().formulas
        if not same_value(musk.best.get(name), after.best.get(name), 0)
    }
    resting = {
        name for name in quantities().formulas if "heat_lamp_height" in quantities().upstream(name)
    }
    predicted = {"basking_over_room"}  # rests on the reading, which is predicted again
    assert touched and touched <= resting | predicted
    assert {"platform_temperature", "shell_temperature", "basking_rise"} <= touched


def test_the_good_bases_stay_good_when_nothing_is_changed() -> None:
    tank = tank_of(TANKS / "base.yaml")
    assert changed(tank, {}).best is tank.best


def test_a_bulb_of_heat_and_uvb_hangs_where_it_is_hung_though_the_water_moves(musk: Tank) -> None:
    bulb = {"heat_lamp_kind": "mercury_vapour", "uvb_lamp_kind": "mercury_vapour"}
    known = {**musk.best.known, **bulb, "heat_lamp_height": 0.24, "uvb_lamp_height": 0.24}
    line = float(known["water_line_below_rim"]) + 0.06
    both = coupled(known, {"water_line_below_rim": line, "heat_lamp_height": 0.41})
    assert both["uvb_lamp_height"] == both["heat_lamp_height"] == 0.41
    other = coupled(known, {"uvb_lamp_height": 0.30, "water_line_below_rim": line})
    assert other["heat_lamp_height"] == 0.30
    alone = coupled(known, {"water_line_below_rim": line})
    assert alone["heat_lamp_height"] == alone["uvb_lamp_height"] == pytest.approx(0.30)


@pytest.mark.parametrize("read", [None, "2", "4", "9"])
def test_a_renewed_lamp_is_no_weaker_than_the_old_one(read: str | None) -> None:
    """A lamp only loses UVB as it burns, so a new one of its kind gives at least what it gave.

    Ageing of lamps: Baines et al. 2016, and the makers' advice to renew (common practice).
    """
    said = {"uvb_lamp_age": "3000 hours", "uvb_reading": read or "", "uvb_reading_height": "5 cm"}
    tank = tank_of(COOTER, said if read else {**said, "uvb_reading_height": ""})
    new = changed(tank, {"uvb_lamp_age": 0.0})
    for then, now in ((tank.best, new.best), (tank.sample, new.sample)):
        assert np.all(now.value("uv_index_shell") >= then.value("uv_index_shell") * (1 - 1e-9))


# ---- lamp, cover and rim are one geometry


@pytest.fixture(scope="module")
def open_top() -> Tank:
    """No cover, the UVB lamp 30 cm over a raft whose rim stands 8.5 cm over it."""
    return tank_of(MUSK, {"cover_basking": "none", "cover_water": "none", "uvb_path": "open"})


def test_a_mesh_laid_under_the_lamp_lies_between(open_top: Tank) -> None:
    """Mesh takes light as it takes UVB (Kotilainen et al. 2018), wherever it came from."""
    under = changed(open_top, {"cover_basking": "mesh", "cover_water": "mesh"}).best
    assert under.value("uvb_path") == "mesh"
    share = under.value("uv_index_shell") / open_top.best.value("uv_index_shell")
    assert share == pytest.approx(under.value("uvb_transmission")) and share < 1
    behind = changed(open_top, {"cover_basking": "glass"}).best
    assert behind.value("uv_index_shell") == 0, "window glass stops UVB: Duarte et al. 2009"


def test_a_lamp_that_hangs_below_the_rim_keeps_its_open_path(open_top: Tank) -> None:
    low = changed(open_top, {"water_line_below_rim": 0.35, "uvb_lamp_height": 0.25})
    assert low.best.value("uvb_path") == "open"
    assert changed(low, {"cover_basking": "mesh"}).best.value("uvb_path") == "open"


def test_who_takes_away_what_lies_between_takes_the_cover_away(open_top: Tank) -> None:
    covered = changed(open_top, {"cover_basking": "mesh"})
    bare = changed(covered, {"uvb_path": "open"}).best
    assert bare.value("cover_basking") == "none"
    assert bare.value("uv_index_shell") == pytest.approx(open_top.best.value("uv_index_shell"))


def test_no_lamp_that_shines_through_the_cover_is_hung_below_it(open_top: Tank) -> None:
    covered = changed(open_top, {"cover_basking": "mesh", "water_line_below_rim": 0.20})
    over = 0.20 - float(covered.best.value("platform_height_above_water"))
    lever = next(lever for lever in all_levers() if lever.name == "uvb_lamp_height")
    heights = [option.changes["uvb_lamp_height"] for option in options_of(lever, covered)]
    assert heights and min(heights) >= over - 1e-9


def test_a_softshell_on_gravel_is_told_to_change_to_sand() -> None:
    """BMEL 1997, group C: softshells need fine sand to bury in, so the bed is never taken out."""
    animal = [{"species": "spiny softshell", "carapace_length": "12 cm", "sex": "male"}]
    bed = {"substrate": "gravel", "substrate_depth": "4 cm", "grain_size": "8 mm"}
    audit = audit_of(TANKS / "base.yaml", {"animals": animal, **bed})
    found = plans(audit.tank, audit.findings)
    said = [change.say for plan in found for change in plan.changes]
    assert any("fine rounded sand" in say for say in said)
    assert not any("substrate out" in say for say in said)


def test_a_lid_in_a_hot_room_is_opened() -> None:
    audit = audit_of(TANKS / "base.yaml", {"cover_water": "glass", "room_temperature_high": "31 C"})
    lever = next(lever for lever in all_levers() if lever.name == "open_lid")
    (option,) = options_of(lever, audit.tank)
    after = changed(audit.tank, option.changes).best
    assert after.value("hot_room_water") < audit.tank.best.value("hot_room_water")


def test_a_glass_cover_taken_away_makes_the_spot_hotter_and_its_reading_stale() -> None:
    audit = audit_of(TANKS / "base.yaml", {"cover_basking": "glass", "heat_lamp_height": "38 cm"})
    changes = {"cover_basking": "mesh"}
    after = changed(audit.tank, changes)
    rise = after.best.value("shell_temperature") - audit.tank.best.value("shell_temperature")
    assert 1.0 < float(rise) < 8.0
    assert "basking_temperature" in to_take_again(audit.tank, after, changes)
    assert np.std(after.sample.value("shell_temperature")) > np.std(
        audit.tank.sample.value("shell_temperature")
    )
