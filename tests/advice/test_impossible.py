"""Tanks that no change can put right: what stands against what is named, and what would do."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from typing import Any

import pytest
from advice_tanks import TANKS, audit_of

from interview.advice.advise import advise
from interview.advice.levers.tanks_sold import sold_here
from interview.advice.plans.plan import Plan
from interview.advice.plans.plans import plans
from interview.advice.purchase.in_shops import labelled
from interview.advice.purchase.larger_tank import fits, larger_tank, least_size, needed
from interview.advice.search.search import Search
from interview.advice.window import water_window
from interview.audit.audit import Audit
from interview.audit.checks.loader import all_checks
from interview.report.formats.markdown import markdown
from interview.report.naming import capital, spoken

CHECKS = tuple(check for check in all_checks() if check.id != "cycling")
TODAY = datetime.date(2026, 3, 1)
OPEN = {"cover_water": "none", "cover_basking": "none"}


def _audit(like: str = "base", **change: Any) -> Audit:
    return audit_of(TANKS / f"{like}.yaml", change)


def _plan(audit: Audit) -> Plan:
    return plans(audit.tank, audit.findings)[-1]


def _cooter() -> Audit:
    """A grown river cooter in a tank for a musk turtle."""
    animals = [{"species": "river cooter", "carapace_length": "30 cm", "sex": "female"}]
    return _audit(animals=animals, platform_size="70 x 45 cm", feed_mass="8 g")


def test_a_cooter_in_a_small_tank_needs_a_tank_nobody_sells() -> None:
    audit = _cooter()
    plan = _plan(audit)
    left = {finding.check for finding in plan.left}
    assert "outgrow" in left, "surface for today is sold; for the grown animal it isn't"
    would = advise(audit, TODAY).would
    assert "No tank sold under a trade name" in would
    assert "indoor pond" in would and "m² of water surface" in would
    page = " ".join(markdown(audit, "", advise(audit, TODAY)).split())
    assert "### What would mend the rest" in page and would in page
    assert not any(fits(size, needed(audit.tank)) for size in sold_here("metric"))


def test_a_low_open_tank_gets_a_cover_and_keeps_its_water() -> None:
    """What would keep the animal in without a cover leaves it no depth: nobody is told so."""
    audit = _low_and_open()
    mend = Search(audit.tank, CHECKS).mend(frozenset({"free"}))
    assert "escape" in mend.left
    assert all(o.changes.get("water_line_below_rim", 0.0) <= 0.12 for o in mend.options)
    bought = _plan(audit)
    assert not bought.left and any("mesh" in change.say for change in bought.changes)


def _low_and_open() -> Audit:
    return _audit(
        **OPEN,
        tank_size="120 x 50 x 34 cm",
        water_line_below_rim="12 cm",
        animals=[{"species": "painted turtle", "carapace_length": "12 cm", "sex": "male"}],
    )


def _too_low_for_both() -> Audit:
    """A rim so low that, with nothing bought, the water is too shallow and the animal gets out."""
    return _audit(
        **OPEN,
        tank_size="100 x 40 x 26 cm",
        water_line_below_rim="8 cm",
        night_light="yes",  # so that moving things mends more than a trifle
        animals=[{"species": "painted turtle", "carapace_length": "14 cm", "sex": "male"}],
    )


def test_the_windows_two_checks_really_exclude_each_other() -> None:
    audit = _low_and_open()
    window = water_window(audit.tank, CHECKS)
    assert window is not None and window.low is None and len(window.against) == 2
    spans = {span.check: span for span in window.spans}
    one, other = (spans[check] for check in window.against)
    assert one.low is not None and other.low is not None
    assert one.high is not None and other.high is not None
    assert one.high < other.low or other.high < one.low


def test_a_softshell_female_is_left_as_outgrown_whatever_is_bought() -> None:
    animals = [{"species": "spiny softshell", "carapace_length": "14 cm", "sex": "female"}]
    audit = _audit(animals=animals)
    advice = advise(audit, TODAY)
    for plan in advice.plans:
        assert "outgrow" in {finding.check for finding in plan.left}
    assert "indoor pond" in advice.would
    assert advice.would in " ".join(markdown(audit, "", advice).split())


def _one_lamp_for_all_seasons() -> Audit:
    """A lamp that suits the coldest hours burns the shell in the hottest."""
    return _audit(room_temperature_low="8 °C", room_temperature_high="34 °C", lamp_control="none")


def _softshell() -> Audit:
    animals = [{"species": "spiny softshell", "carapace_length": "14 cm", "sex": "female"}]
    return _audit(animals=animals)


@pytest.mark.parametrize(
    ("tank", "left", "against"),
    [
        (_cooter, {"outgrow"}, set()),
        (_too_low_for_both, {"swim_depth"}, {"swim_depth", "escape"}),
        (_one_lamp_for_all_seasons, {"basking_cold_day"}, {"basking_cold_day", "basking_hot_day"}),
        (_softshell, {"outgrow"}, set()),
    ],
)
def test_what_binds_an_impossible_tank_is_named_on_its_page(
    tank: Callable[[], Audit], left: set[str], against: set[str]
) -> None:
    """Each requirement that stays unmet, and each pair that can't be met together, by name."""
    audit = tank()
    advice = advise(audit, TODAY)
    page = " ".join(markdown(audit, "", advice).split())
    verdicts = {f.check: f.verdict for f in audit.findings}
    for plan in advice.plans[:1]:
        assert left <= {finding.check for finding in plan.left}
        assert not against or any(against <= set(pair) for pair in plan.against), plan.against
        verdicts |= {f.check: f.verdict for f in plan.left}
    for check in left:
        assert f"{spoken(check)} ({verdicts[check]})".lower() in page.lower()
    if against:
        (unmet,) = left
        other = spoken(next(iter(against - left)))
        wanted = f"{capital(spoken(unmet))} could only be mended at the cost of"
        assert f"{wanted} {other}" in page
    else:
        assert advice.would in page and "indoor pond" in advice.would


def test_what_would_do_is_the_least_tank_sold() -> None:
    tank = _audit(tank_size="60 x 30 x 30 cm", water_line_below_rim="8 cm").tank
    size = least_size(tank, needed(tank))
    assert size is not None and fits(size, needed(tank))
    smaller = [s for s in sold_here("metric") if s.length * s.width < size.length * size.width]
    assert smaller and not any(fits(other, needed(tank)) for other in smaller)
    said = larger_tank(tank)
    assert f"“{size.spoken[0]}”" in said and "or larger" in said


@pytest.mark.parametrize("system", ["metric", "us"])
def test_sizes_are_sold_in_the_keepers_units_first(system: str) -> None:
    sizes = sold_here(system)
    assert ("litre" in sizes[0].spoken[0]) == (system == "metric")
    assert len({size.name for size in sizes}) == len(sizes)


HEAVY = {"tank_size": "150 x 50 x 50 cm", "joist_span": "4.5 m"}


def test_a_floor_nobody_knows_is_told_what_would_ease_it() -> None:
    audit = _audit(floor="unknown", floor_position="unknown", **HEAVY)
    advice = advise(audit, TODAY)
    assert all("floor_load" in {f.check for f in plan.left} for plan in advice.plans)
    assert "how the joists run" in advice.would and "structural engineer" in advice.would
    assert "200 kg" in advice.would and "is safe" not in advice.would


def test_joists_along_the_tank_are_mended_by_turning_it_and_the_engineer_is_asked() -> None:
    narrow = {**HEAVY, "joist_spacing": "25 cm"}
    audit = _audit(floor="joists_along", floor_position="middle", **narrow)
    assert audit.grades.stop
    plan = _plan(audit)
    assert not plan.grades.stop and not plan.left
    turned = next(change for change in plan.changes if change.quantity == "floor")
    assert turned.after == "joists_across" and "structural engineer" in turned.say


def test_a_circuit_too_small_for_the_tank_alone_wants_a_licensed_electrician() -> None:
    audit = _audit(mains_voltage="120 V", circuit_rating="1 A", circuit_other_load="0 W")
    assert audit.grades.stop
    advice = advise(audit, TODAY)
    left = advice.plans[-1].left if advice.plans else audit.findings
    assert "circuit" in {finding.check for finding in left if finding.verdict != "good"}
    assert "licensed electrician" in advice.would and "290 W on the tank" in advice.would


def test_what_else_hangs_on_the_circuit_is_moved_before_anything_is_bought() -> None:
    audit = _audit(mains_voltage="230 V", circuit_rating="10 A", circuit_other_load="1600 W")
    plan = plans(audit.tank, audit.findings)[0]
    assert [change.quantity for change in plan.changes] == ["circuit_other_load"]
    assert "another one" in plan.changes[0].say


def test_a_sinking_raft_gets_foam_and_not_just_another_height() -> None:
    audit = _audit(platform_height_above_water="0.5 cm", platform_foam_volume="0.3 L")
    said = {change.quantity: change for change in _plan(audit).changes}
    required = audit.tank.best.value("foam_volume_required")
    assert said["platform_foam_volume"].after >= required
    assert "foam under the raft" in said["platform_height_above_water"].say
    assert not any(change.say.startswith("Let the platform") for change in said.values())


@pytest.mark.parametrize(
    ("system", "region"),
    [("us", "north_america"), ("metric", "europe"), ("us", "europe"), ("uk", "united_kingdom")],
)
def test_a_tank_sold_in_the_region_is_never_rounded_past_itself(system: str, region: str) -> None:
    """Trade sizes are whole inches or centimetres: what is labelled is the tank itself.

    Gallons name tanks in North America; elsewhere shops name litres (common practice, no source).
    """
    for size in sold_here(system, region):
        own = "us" if region == "north_america" else "metric"
        sides = (size.length, size.width, size.height)
        label = labelled(sides, own)
        unit = 0.0254 if own == "us" else 0.01
        shown = [float(side) * unit for side in label.split(" ", 5)[0:5:2]]
        assert shown == pytest.approx(sides, abs=1e-6), label
        assert size.spoken[0].endswith("litre") != (region == "north_america")
