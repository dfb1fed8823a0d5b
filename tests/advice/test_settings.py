"""Settings a keeper can make, sentences that read well, and the surest of equal mends."""

from __future__ import annotations

import re
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest
from advice_tanks import DEMOS, TANKS, answers_in, audit_of, interview_with, tank_of

from interview import assembly
from interview.advice.levers.levers import Option, all_levers, cost_of, options_of
from interview.advice.levers.settings import settable
from interview.advice.plans import firm
from interview.advice.plans.plans import plans
from interview.advice.search import scores
from interview.advice.search.scores import thinned
from interview.advice.search.search import Search, merged
from interview.advice.what_if.candidates import severities
from interview.advice.what_if.severity import NEEDS_CHANGE
from interview.advice.what_if.suppose import changed
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.base import units
from interview.vocabulary.phrases import in_words

CHECKS = tuple(check for check in all_checks() if check.id != "cycling")


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize(
    ("value", "unit", "grain"),
    [
        (0.0861, "m", 0.0065),
        (0.187, "m", 0.0065),
        (22.4, "degC", 0.51),
        (1.234e-3, "kg", 1.5e-4),
        (0.0042, "m**3", 2.6e-4),
    ],
)
def test_rounding_moves_little_and_once(value: float, unit: str, grain: float, system: str) -> None:
    """Half centimetres or quarter inches, whole degrees, two figures of feed, half litres."""
    rounded = settable(value, unit, system)
    assert 0 < abs(rounded - value) <= grain
    assert settable(rounded, unit, system) == pytest.approx(rounded, rel=1e-12)


def test_grids_by_hand() -> None:
    assert settable(0.0861, "m", "metric") == pytest.approx(0.085)
    assert settable(0.187, "m", "metric") == pytest.approx(0.19)
    assert settable(0.0861, "m", "us") == pytest.approx(3.5 * 0.0254)
    assert settable(0.25, "m", "us") == pytest.approx(10 * 0.0254)
    assert settable(22.4, "degC", "us") == pytest.approx((72 - 32) / 1.8)
    assert settable(600e-3 / 3600, "m**3/s", "us") == pytest.approx(160 * 3.785411784e-3 / 3600)
    assert settable("mesh", "choice", "us") == "mesh" and settable(True, "yes/no", "us") is True
    assert settable(0.0, "m", "us") == 0


@pytest.mark.parametrize(
    "path", [*DEMOS.glob("*.yaml"), *TANKS.glob("*.yaml")], ids=lambda p: p.stem
)
def test_every_setting_of_every_lever_can_be_set(path: Path) -> None:
    tank = audit_of(path).tank
    us = tank.system == "us"
    for lever in all_levers():
        for option in options_of(lever, tank):
            value = option.changes.get(lever.name)
            unit = tank.unit_of(lever.name)
            if unit == "degC" and lever.name in option.changes:
                shown = units.convert(value, "degC", "degF" if us else "degC")
                assert shown == pytest.approx(round(shown), abs=1e-6), option.changes
            if unit == "m" and value and value != tank.best.known.get(lever.name):
                grid = units.convert(value, "m", "inch") * 4 if us else value * 200
                assert grid == pytest.approx(round(grid), abs=1e-6), option.changes


def test_a_plan_reads_like_advice() -> None:
    metric = audit_of(
        TANKS / "base.yaml",
        {"heat_lamp_height": "22 cm", "basking_temperature": "39 °C", "lamp_control": "none"},
    )
    said = [c.say for plan in plans(metric.tank, metric.findings) for c in plan.changes]
    height = re.compile(r"^Hang the heat lamp \d+(\.5)? cm over the platform\.$")
    assert any(height.match(sentence) for sentence in said)
    american = audit_of(DEMOS / "river_cooter_adult.yaml")
    for plan in plans(american.tank, american.findings):
        for change in plan.changes:
            for number in re.findall(r"(\d+(?:\.\d+)?) in\b", change.say):
                assert float(number) * 4 == pytest.approx(round(float(number) * 4)), change.say
            for number in re.findall(r"([\d.]+) °F", change.say):
                assert float(number).is_integer(), change.say


# ---- the surest of equal mends


def _mean_chance(tank: Tank, changes: dict[str, Any], touched: set[str]) -> float:
    after = changed(tank, changes)
    found = [judge(check, after) for check in CHECKS if check.id in touched]
    return float(np.mean([min(f.chance or 0.0, 0.9) for f in found if f.verdict != "unmeasured"]))


def test_of_equal_settings_the_surest_is_taken() -> None:
    """One lever mends the hot spot at several heights; the one taken is as sure as any."""
    tank = tank_of(
        TANKS / "base.yaml",
        {"heat_lamp_height": "22 cm", "basking_temperature": "39 °C", "lamp_control": "none"},
    )
    mend = Search(tank, CHECKS).mend(frozenset({"free"}))
    assert [option.lever.name for option in mend.options] == ["heat_lamp_height"] and not mend.left
    lever = mend.options[0].lever
    base = severities(tank, CHECKS, [{}])[0]
    works = [
        option
        for option in options_of(lever, tank)
        if (
            severities(tank, CHECKS, [option.changes])[0] <= np.maximum(base, NEEDS_CHANGE - 1)
        ).all()
    ]
    assert len(works) > 2
    heat = {"basking_heat", "basking_hot_day", "basking_cold_day"}
    chances = [_mean_chance(tank, dict(option.changes), heat) for option in works]
    taken = _mean_chance(tank, merged(mend.options), heat)
    assert taken >= max(chances) - 0.03
    nearest = min(works, key=lambda option: option.steps)
    assert taken > _mean_chance(tank, dict(nearest.changes), heat), "not just the first that works"


def test_beyond_sure_the_nearest_is_taken() -> None:
    """Plastic may hang anywhere beyond the limit: the first distance that is sure will do."""
    tank = tank_of(TANKS / "base.yaml", {"lamp_plastic_gap": "5 cm"})
    mend = Search(tank, CHECKS).mend(frozenset({"free"}))
    assert merged(mend.options) == {"lamp_plastic_gap": pytest.approx(0.25)}


def test_the_thinned_cloud_is_the_first_draws_of_the_whole() -> None:
    tank = tank_of(TANKS / "base.yaml")
    few = thinned(tank.sample)
    whole = tank.sample.known["water_line_below_rim"]
    np.testing.assert_array_equal(few.known["water_line_below_rim"], whole[:256])
    assert few.known["carapace_length"].shape == (256, 1)
    assert np.mean(few.value("water_depth")) == pytest.approx(
        np.mean(tank.sample.value("water_depth")), rel=2e-3
    )


def test_a_setting_is_scored_once_for_a_check_whatever_else_is_changed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The same scores as those of a tank that was asked nothing before."""
    tables = Search(tank_of(DEMOS / "musk_turtle.yaml"), CHECKS).tables
    number = {lever.name: n for n, lever in enumerate(tables.levers)}
    lamp, share = number["heat_lamp_height"], number["water_change_share"]
    lines = [[one, tables.options[share][1]] for one in tables.options[lamp][1:4]]
    felt = np.flatnonzero(tables.reach[lamp] & ~tables.reach[share]).tolist()
    kept = scores.Scores(tables)
    alone = kept(felt, [line[:1] for line in lines])
    assert len(felt) > 3 and len({*alone.tolist()}) > 1
    asked: list[str] = []
    judged = scores.severity_in

    def heard(check: Any, *given: Any) -> Any:
        asked.append(check.id)
        return judged(check, *given)

    monkeypatch.setattr(scores, "severity_in", heard)
    assert kept(felt, lines).tolist() == alone.tolist() and not asked
    both = [*felt, *np.flatnonzero(tables.reach[share]).tolist()]
    assert kept(both, lines).tolist() == scores.Scores(tables)(both, lines).tolist()
    assert 2 * len(asked) < 3 * len(both)


def test_settle_keeps_every_goal() -> None:
    search = Search(tank_of(DEMOS / "musk_turtle.yaml"), CHECKS)
    mend = search.mend(frozenset({"free", "cheap", "buy"}))
    after = search.tables.severities_with(mend.options)
    assert (after < NEEDS_CHANGE).all() and not mend.left
    assert mend.cost == sum(cost_of(option.lever) for option in mend.options)


# ---- dimming, and how far a lamp may be moved


def _dims(tank: Tank) -> list[Option]:
    return [
        o for lever in all_levers() if lever.name == "lamp_heat" for o in options_of(lever, tank)
    ]


HOT = {"heat_lamp_height": "30 cm", "basking_temperature": "36 °C", "lamp_control": "none"}


def test_a_dimmer_takes_heat_in_proportion_and_keeps_the_doubt_of_the_reading() -> None:
    tank = tank_of(TANKS / "base.yaml", HOT)
    dims = _dims(tank)
    assert dims and all(option.changes["lamp_control"] == "dimmer" for option in dims)
    before = tank.best.value("lamp_heat")
    doubt = np.std(tank.sample.value("lamp_heat")) / before
    for option in dims:
        after = changed(tank, option.changes)
        share = after.best.value("lamp_heat") / before
        assert 0.49 < share < 1.0
        assert np.std(after.sample.value("lamp_heat")) / (share * before) == pytest.approx(doubt)
        room = tank.best.value("room_temperature_while_measuring")
        cooler = after.best.value("platform_temperature")
        assert room < cooler < tank.best.value("platform_temperature")
        assert after.best.known["basking_temperature"] == pytest.approx(cooler)


@pytest.mark.filterwarnings("error")
def test_a_lamp_that_was_read_as_giving_nothing_gives_nothing_dimmed() -> None:
    told = {**answers_in(TANKS / "base.yaml"), **HOT, "basking_temperature": "20 °C"}
    tank = assembly.tank_of(interview_with(told), drawn=True)
    assert tank.best.value("lamp_heat") == 0
    option = _dims(tank)[0]
    after = changed(tank, {**option.changes, "lamp_heat": 0.0})
    assert after.best.value("lamp_heat") == 0
    assert np.isfinite(after.best.value("platform_temperature"))
    assert np.all(np.isfinite(after.sample.value("platform_temperature")))


def test_the_holders_mark_is_held_against_the_lamps_own_watts_dimmed_or_not() -> None:
    tank = tank_of(TANKS / "base.yaml", {**HOT, "lamp_holder_rating": "40 W"})
    for option in _dims(tank):
        assert severities(tank, CHECKS, [option.changes])[0][_at("lamp_holder")] >= NEEDS_CHANGE


def test_where_the_lamp_cannot_rise_it_is_dimmed_to_a_reading_the_keeper_can_check() -> None:
    high = {**HOT, "heat_lamp_height": "80 cm", "basking_temperature": "40 °C"}
    audit = audit_of(TANKS / "base.yaml", high)
    plan = next(p for p in plans(audit.tank, audit.findings) if p.name == "Spend a little")
    step = next(change for change in plan.changes if change.quantity == "lamp_heat")
    after = changed(audit.tank, {c.quantity: c.after for c in plan.changes})
    reads = in_words(after.best.value("platform_temperature"), "degC", "metric")
    assert "dimmer" in step.say and reads.split()[0][:2] in step.say
    assert not plan.left


@pytest.mark.parametrize("kind", ["ceramic", "mercury_vapour"])
def test_lamps_that_no_dimmer_suits_are_not_dimmed(kind: str) -> None:
    change = {**HOT, "heat_lamp_kind": kind}
    assert _dims(tank_of(TANKS / "base.yaml", change)) == []


def test_a_lamp_may_move_as_far_as_the_room_over_the_platform_allows() -> None:
    tank = tank_of(TANKS / "base.yaml")
    reach = 0.17  # no lamp is offered within reach of the animal
    for name in ("heat_lamp_height", "uvb_lamp_height"):
        lever = next(lever for lever in all_levers() if lever.name == name)
        heights = sorted(option.changes[name] for option in options_of(lever, tank))
        assert heights[0] == pytest.approx(reach, abs=0.03) and 0.75 <= heights[-1] <= 0.80
        near = [h for h in heights if abs(h - tank.best.known[name]) < 0.10]
        assert max(np.diff(near)) < 0.021, "fine steps near today's height"
        assert len(heights) < 60


def test_one_bulb_for_heat_and_uvb_has_one_height_to_set() -> None:
    bulb = {"heat_lamp_kind": "mercury_vapour", "uvb_lamp_kind": "mercury_vapour"}
    audit = audit_of(TANKS / "base.yaml", {**HOT, **bulb, "uvb_lamp_height": "30 cm"})
    for plan in plans(audit.tank, audit.findings):
        said = [c.say for c in plan.changes if c.say.startswith(("Hang the heat", "Hang the UVB"))]
        assert len(said) <= 1


def _at(check: str) -> int:
    return [c.id for c in CHECKS].index(check)


def test_a_plan_is_made_firmer_where_the_setting_was_never_told() -> None:
    """The first of its settings is then no number; found by a random tank without a reading."""
    lever = SimpleNamespace(name="water_temperature")
    offered = [
        SimpleNamespace(changes={"water_temperature": warmth}, steps=float(number), lever=lever)
        for number, warmth in enumerate((None, 24.0, 22.0, 23.0, 25.0))
    ]
    search = SimpleNamespace(tables=SimpleNamespace(levers=[lever], options=[offered]))
    near = firm._settings_near(search, offered[2])  # type: ignore[arg-type]
    assert [one.changes["water_temperature"] for one in near] == [23.0, 24.0, 25.0]
    assert list(firm._settings_near(search, offered[0])) == []  # type: ignore[arg-type]
