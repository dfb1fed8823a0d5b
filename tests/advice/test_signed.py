"""Plans an expert would sign: obeying ends the danger, no step undoes another, all is said.

The order of work (another tank, its place, its water, then what hangs over it; dangers to life
first) is common practice, no source.
"""

from __future__ import annotations

import datetime
import itertools
from typing import Any, TypeAlias

import pytest
import yaml
from advice_tanks import DEMOS, TANKS, TESTS, audit_of, interview_with
from page_rules import faults_of_page

from interview import assembly
from interview.advice.advise import Advice
from interview.advice.calendar import calendar
from interview.advice.levers.guards import misplaced
from interview.advice.levers.levers import all_levers, options_of
from interview.advice.plans.leaving import look_first
from interview.advice.plans.plan import Plan
from interview.advice.plans.plans import plans
from interview.advice.what_if.suppose import changed, same
from interview.audit.audit import Audit
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.grades import grade_all
from interview.report.formats.markdown import markdown

ROWS = yaml.safe_load((TESTS / "setups_bad.yaml").read_text("utf-8"))
DAY = datetime.date(2026, 3, 1)
DANGERS = [row for row in ROWS if "danger" in row["finds"].values()]
ALONE = {
    "company": "Separate them",
    "hot_room_water": "heat lamp off, lid off",
    "tank_damage": "drain the tank below",
    "additives": "into clean water today",
    "warning_signs": "reptile veterinarian at once",
    "quarantine": "Part them today",
}
"""Dangers that nothing moved or bought for this tank ends: what its finding orders instead."""
STAYS_WITH_THE_TANK = {
    *("water_line_below_rim", "cover_water", "cover_basking", "platform_wall_gap"),
    *("heater_power", "filter_rated_flow", "water_change_share", "heater_mount"),
}
LETTERS = ["A", "B", "C", "D", "E", "no grade", "STOP"]


Planned: TypeAlias = tuple[Audit, tuple[Plan, ...]]


def _plans_of(slip: str) -> Planned:
    change = next(row["change"] for row in ROWS if row["slip"] == slip)
    audit = audit_of(TANKS / "base.yaml", change)
    return audit, plans(audit.tank, audit.findings)


@pytest.fixture(scope="module", params=[row["slip"] for row in DANGERS])
def planned(request: pytest.FixtureRequest) -> Planned:
    """One dangerous tank and its plans at a time: all that is tried on it comes together."""
    return _plans_of(request.param)


def _grave(findings: Any) -> set[str]:
    return {f.check for f in findings if f.applies and f.verdict in ("wrong", "danger")}


def _ended(plan: Plan) -> set[str]:
    return {f.check for f in plan.findings if f.verdict != "danger"}


def _replaces_the_tank(plan: Plan) -> bool:
    return "tank_length" in {change.quantity for change in plan.changes}


def _in_steps(plan: Plan) -> list[dict[str, Any]]:
    steps: list[dict[str, Any]] = []
    for change in plan.changes:
        if change.say:
            steps.append({})
        steps[-1][change.quantity] = change.after
    return steps


def test_who_obeys_ends_the_danger_or_is_told_what_else_it_takes(planned: Planned) -> None:
    """Each plan done step by step, and the tank that comes of it judged."""
    audit, found = planned
    dangers = {f.check for f in audit.findings if f.verdict == "danger"}
    orders = {f.check: f.do for f in audit.findings if f.verdict == "danger"}
    for check in dangers & set(ALONE):
        assert ALONE[check] in orders[check]
        for plan in found:
            assert check in {one.finding.check for one in plan.rest} | _ended(plan)
    if audit.inconsistencies:  # confirmed first: what rests on a slip is not bought for
        assert all(dangers <= {one.finding.check for one in p.rest} | _ended(p) for p in found)
        return
    if dangers <= set(ALONE):
        return
    assert found
    for plan in found:
        tank = audit.tank
        for step in _in_steps(plan):
            tank = changed(tank, step)
        still = {c.id for c in all_checks() if judge(c, tank).verdict == "danger"}
        assert still <= set(ALONE), "a plan leads out of every danger that can be ended"
        assert plan.grades.stop == bool(still)


def test_no_step_is_undone_by_a_later_one(planned: Planned) -> None:
    """One after another the steps lead to the tank of the plan, and each stays as it was set."""
    audit, found = planned
    for plan in found:
        tank, whole = audit.tank, changed(audit.tank, {c.quantity: c.after for c in plan.changes})
        for step in _in_steps(plan):
            tank = changed(tank, step)
        for name, value in whole.best.known.items():
            assert same(value, tank.best.known[name]), (name, [c.say for c in plan.changes])


def test_all_that_is_wrong_is_mended_or_named_with_its_reason(planned: Planned) -> None:
    _, found = planned
    for plan in found:
        named = {one.finding.check: one for one in plan.rest}
        assert _grave(plan.findings) - {"cycling"} <= set(named)
        assert all(one.reason or one.rests_on or one.against for one in named.values())
    for cheaper, dearer in itertools.pairwise(found):
        ranks = [LETTERS.index(plan.grades.overall) for plan in (cheaper, dearer)]
        assert ranks[1] <= ranks[0], "a dearer plan is never worse"
        assert ranks[1] < ranks[0] or _grave(dearer.findings) <= _grave(cheaper.findings)


@pytest.mark.parametrize("name", ["musk_turtle", "river_cooter_adult", "painted_turtles_classroom"])
def test_steps_the_grade_needs_come_first_and_the_rest_apart(name: str) -> None:
    audit = audit_of(DEMOS / f"{name}.yaml")
    for plan in plans(audit.tank, audit.findings):
        steps = _in_steps(plan)
        needed = {n: v for step in steps[: plan.needed] for n, v in step.items()}
        after = {f.check: f for f in plan.findings}
        ripe = [judge(check, changed(audit.tank, needed)) for check in all_checks()]
        grade = grade_all([f for f in ripe if f.check != "cycling" or after["cycling"].applies])
        assert LETTERS.index(grade.overall) <= LETTERS.index(plan.grades.overall)


def test_the_first_step_for_what_nobody_knows_is_to_look() -> None:
    """“Look for a test button first”: an unknown RCD is neither hushed up nor bought for."""
    audit = audit_of(TANKS / "base.yaml", {"rcd": "not sure"})
    assert "rcd" in {finding.check for finding in look_first(audit.findings)}
    page = markdown(audit, "", assembly.advice_of(audit))
    section = page.partition("## What to measure or look up next")[2].partition("\n## ")[0]
    first = next(line for line in section.splitlines() if line.startswith("- **"))
    assert first.startswith("- **RCD**: This first") and "press test" in first


def test_another_tank_comes_before_what_stands_in_it(planned: Planned) -> None:
    """Nothing is set or bought for a tank that the plan replaces."""
    for plan in planned[1]:
        if not _replaces_the_tank(plan):
            continue
        steps = _in_steps(plan)
        tank = next(n for n, step in enumerate(steps) if "tank_length" in step)
        for step in steps[:tank]:
            assert not set(step) & STAYS_WITH_THE_TANK, step


def test_too_small_a_tank_is_replaced() -> None:
    _, found = _plans_of("a tank typed in centimetres that was measured in inches")
    assert _replaces_the_tank(found[-1])


# ---- what cold readers found


BOWL = {
    "stage": "living", "region": "north_america", "room_temperature_low": "64 F",
    "room_temperature_high": "74 F", "vulnerable_person": "no",
    "animals": [{"species": "red-eared slider", "carapace_length": "1 1/4 in"}],
    "tank_size": "16 x 10 x 8 in", "tank_origin": "aquarium", "water_line_below_rim": "5 in",
    "substrate": "none", "stand": "furniture", "stand_level": "yes", "floor": "slab",
    "water_temperature": "70 F", "heater_mount": "none", "filter_kind": "none",
    "feed_mass": "0.5 g", "feeds_per_week": "7", "water_change_share": "100 %",
    "water_change_interval": "every 3 days", "water_treatment": "conditioner",
    "platform_kind": "fixed", "platform_size": "5 x 3 in", "platform_height_above_water": "1/2 in",
    "platform_wall_gap": "0 in", "heat_lamp_kind": "none", "uvb_lamp_kind": "none",
    "cover_basking": "none", "cover_water": "none", "rcd": "yes", "drip_loops": "yes",
    "strip_raised": "yes", "decor_hazards": "none", "kitchen_used": "no",
}  # fmt: skip


def test_a_bowl_without_gear_gets_the_plan_that_buys_it() -> None:
    """Warmth, light and a filter are the advice; that a new filter ripens first hides no plan."""
    audit = assembly.audit_of(interview_with(BOWL), "bowl")
    found = plans(audit.tank, audit.findings)
    bought = {change.quantity for change in found[-1].changes}
    assert {"heat_lamp_kind", "uvb_lamp_kind", "heater_power", "filter_kind"} <= bought
    assert found[-1].meanwhile is not None


def test_a_tank_that_leaks_is_emptied_and_replaced() -> None:
    """A crack or a missing brace is ended by no other step: structure.md calls for a sound tank."""
    slip = next(row["slip"] for row in ROWS if row["finds"].get("tank_damage") == "danger")
    audit, found = _plans_of(slip)
    assert found and not found[-1].grades.stop
    assert found[-1].changes[0].say.startswith("Move the turtle into a tub and empty the tank")
    assert audit.grades.stop


def test_no_step_brings_a_lamp_within_reach_alone_or_together_with_others(planned: Planned) -> None:
    """One and a half shell lengths over the platform, our own assumption; a cover counts."""
    audit, found = planned
    for plan in found:
        changes = {change.quantity: change.after for change in plan.changes}
        assert not misplaced(changes, audit.tank), [c.say for c in plan.changes]


def test_an_open_uvb_lamp_is_not_lowered_to_where_a_turtle_touches_it() -> None:
    audit = audit_of(TANKS / "base.yaml", {"uvb_lamp_height": "40 cm", "uvb_path": "open"})
    reach = float(audit.tank.best.value("rearing_reach"))
    assert misplaced({"uvb_lamp_height": reach - 0.02}, audit.tank) == {"uvb_lamp_height"}
    assert not misplaced({"uvb_lamp_height": reach + 0.02}, audit.tank)
    lever = next(lever for lever in all_levers() if lever.name == "uvb_lamp_height")
    heights = [option.changes["uvb_lamp_height"] for option in options_of(lever, audit.tank)]
    assert heights and min(heights) >= reach


def test_the_first_page_fits_and_no_page_holds_anything_internal(planned: Planned) -> None:
    audit, found = planned
    advice = Advice(found, (), None, calendar(audit.tank, DAY), None)
    assert not faults_of_page(audit, advice)
