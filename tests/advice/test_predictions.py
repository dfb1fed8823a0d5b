"""Before and after: grades, turned verdicts, and readings that surprise."""

from __future__ import annotations

import numpy as np
import pytest
from advice_tanks import DEMOS, TANKS, audit_of, tank_of

from interview.advice.plans.plans import plans
from interview.advice.what_if.comparison import compare, surprises
from interview.advice.what_if.suppose import changed
from interview.audit.checks.findings import NOTHING


def test_nothing_changed_compares_as_nothing() -> None:
    audit = audit_of(DEMOS / "musk_turtle.yaml")
    found = compare(audit, audit)
    assert found.sections == () and found.turns == ()
    assert found.grade_before == found.grade_after == audit.grades.overall


def test_one_slip_turns_one_verdict_and_its_section() -> None:
    good = audit_of(TANKS / "base.yaml")
    bad = audit_of(TANKS / "base.yaml", {"rcd": "no"})
    worse, better = compare(good, bad), compare(bad, good)
    assert [(t.check, t.before, t.after) for t in worse.turns] == [("rcd", "good", "danger")]
    assert [(t.check, t.before, t.after) for t in better.turns] == [("rcd", "danger", "good")]
    assert worse.turns[0].say == next(f.say for f in bad.findings if f.check == "rcd")
    assert worse.sections == (("electricity", "A", "E"),)
    assert (worse.grade_before, worse.grade_after) == (good.grades.overall, "STOP")


def test_a_check_that_stops_applying_counts_as_turned_where_it_was_off() -> None:
    """That there is nothing to judge any more is no news of what was good."""
    floating, trap = (
        audit_of(TANKS / "base.yaml", change) for change in ({}, {"platform_wall_gap": "5 cm"})
    )
    above = audit_of(TANKS / "base.yaml", {"platform_kind": "above_tank"})
    assert "platform_gap" not in {turn.check for turn in compare(floating, above).turns}
    (turn,) = (t for t in compare(trap, above).turns if t.check == "platform_gap")
    assert turn.before in ("wrong", "danger") and turn.after == NOTHING


def test_a_plan_compares_like_an_audit() -> None:
    audit = audit_of(TANKS / "base.yaml", {"rcd": "no", "drip_loops": "no"})
    plan = plans(audit.tank, audit.findings)[-1]
    found = compare(audit, plan)
    assert {t.check for t in found.turns} == {"rcd", "drip_loops"}
    assert (found.grade_before, found.grade_after) == ("STOP", plan.grades.overall)


@pytest.mark.parametrize("sigmas", [0.0, 1.5, 1.9, 2.1, 4.0])
def test_a_reading_surprises_beyond_two_sigma(sigmas: float) -> None:
    tank = changed(tank_of(TANKS / "base.yaml"), {"heat_lamp_height": 0.30})
    predicted = float(tank.best.value("basking_temperature"))
    spread = float(np.std(tank.sample.value("basking_temperature")))
    assert 0.5 < spread < 5
    for sign in (-1, 1):
        found = surprises(tank, {"basking_temperature": predicted + sign * sigmas * spread})
        assert bool(found) == (sigmas > 2)
        for surprise in found:
            assert surprise.name == "basking_temperature" and surprise.unit == "degC"
            assert surprise.predicted == pytest.approx(predicted)
            assert surprise.read == pytest.approx(predicted + sign * sigmas * spread)


def test_words_and_unknown_names_never_surprise() -> None:
    tank = tank_of(TANKS / "base.yaml")
    assert surprises(tank, {"species": 3.0, "no_such_name": 1.0}) == ()
