"""A plan's grade is the grade that its keeper gets who edits the file and measures again."""

from __future__ import annotations

from pathlib import Path

import pytest
from advice_tanks import DEMOS, TANKS, answers_in, audit_of, interview_with, same_value, typed
from often import often

from interview import assembly
from interview.advice.plans.plan import Plan
from interview.advice.plans.plans import plans
from interview.advice.what_if.suppose import changed
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.audit.grades import grade_all
from interview.audit.tank import Tank
from interview.core.wiring import quantities

_ALL = (*sorted(DEMOS.glob("*.yaml")), *sorted(TANKS.glob("*.yaml")))
PATHS = (
    _ALL
    if often(1) > 1
    else tuple(p for p in _ALL if p.stem in ("reeves_turtle_planned", "slider"))
)
CHECKS = {check.id: check for check in all_checks()}
READ = {"basking_temperature", "uvb_reading"}
_TIME_MENDS = "cycling"
"""A new filter isn't ripe when the file is written; a plan's grade counts it as ripe."""


def _read_again(before: Tank, after: Tank) -> dict[str, float]:
    """What thermometer and UV meter show after the change, the meter as far off as before."""
    read = {}
    if "basking_temperature" in after.best.known:
        read["basking_temperature"] = float(after.best.value("platform_temperature"))
    if "uvb_reading" in before.best.known and "uvb_reading" in after.best.known:
        now = {n: v for n, v in after.best.known.items() if not n.endswith("_when_measured")}
        worked = before.best, quantities().working(now)
        then, expected = (working.value("uv_index_at_reading") for working in worked)
        read["uvb_reading"] = float(before.best.known["uvb_reading"] * expected / then)
    return read


def _by_hand(path: Path, tank: Tank, plan: Plan) -> dict[str, str]:
    """The answers of the file after the plan, typed."""
    changes = {change.quantity: change.after for change in plan.changes}
    after = changed(tank, changes)
    moved = {change.quantity: change.after for change in plan.moved}
    readings = ("basking_temperature", "uvb_reading", "uvb_reading_height")
    lost = [n for n in readings if n in tank.best.known and n not in after.best.known]
    new = {**moved, **changes, **_read_again(tank, after)}
    said: dict[str, str] = {**answers_in(path), **typed(tank, new)}
    return said | dict.fromkeys(lost, "")


def _as_sure(meant: Finding, told: Finding) -> Finding:
    """A finding on a spot read anew, as sure as the plan's, which knew the old reading's heat.

    A second reading is as far off as the first, of a cooler spot; so a chance near a limit may
    fall to its other side. Everything but the doubt has to agree.
    """
    check, wiring = CHECKS[told.check], quantities()
    behind = check.decides.union(*(wiring.upstream(n) for n in check.decides & set(wiring.units)))
    same = told.inside == meant.inside and same_value(meant.value, told.value, 1e-6)
    return meant if READ & behind and same and told.verdict != "danger" else told


@pytest.mark.parametrize("path", PATHS, ids=lambda path: path.stem)
def test_the_promised_grade_comes_out(path: Path) -> None:
    audit = audit_of(path)
    offered = plans(audit.tank, audit.findings)
    for plan in offered:
        fresh = assembly.audit_of(interview_with(_by_hand(path, audit.tank, plan)), "by hand")
        promised = plan.meanwhile or plan.grades
        meant = {f.check: f for f in plan.findings}
        as_sure = [_as_sure(meant[found.check], found) for found in fresh.findings]
        told = grade_all(as_sure)
        apart = {f.check: (meant[f.check].verdict, f.verdict) for f in as_sure
                 if f.verdict != meant[f.check].verdict}  # fmt: skip
        assert (told.overall, told.stop) == (promised.overall, promised.stop), (plan.name, apart)
        assert set(apart) <= {_TIME_MENDS}
        differ = [one for one, other in zip(fresh.findings, as_sure, strict=True)
                  if one.verdict != other.verdict]  # fmt: skip
        assert len(differ) <= 1, "one spot, read by one thermometer"
