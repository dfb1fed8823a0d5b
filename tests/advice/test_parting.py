"""Animals that must be parted: which tank is for whom, and no larger one for all of them."""

from __future__ import annotations

import datetime
from dataclasses import replace
from typing import Any

import pytest
from advice_tanks import DEMOS, answers_in, interview_with

from interview import assembly
from interview.advice.calendar import calendar
from interview.advice.plans.leaving import what_is_left
from interview.advice.plans.plans import plans
from interview.advice.purchase.parting import must_part, stays_here, tank_each
from interview.audit.audit import Audit

DAY = datetime.date(2026, 3, 1)
SLIDER = {"species": "red-eared slider", "carapace_length": "7 in", "sex": "female"}
MUSK = {"species": "common musk turtle", "carapace_length": "3.5 in", "sex": "male"}
YOUNG = {**SLIDER, "carapace_length": "6 in"}


def _audit(*animals: Any, **change: Any) -> Audit:
    answers = {**answers_in(DEMOS / "river_cooter_adult.yaml"), "animals": [*animals], **change}
    return assembly.audit_of(interview_with(answers), "")


def test_the_largest_that_this_tank_does_for_stays_and_the_others_get_one_each() -> None:
    tank = _audit(SLIDER, MUSK, tank_size="40 breeder").tank
    stays = stays_here(tank)
    assert must_part(tank) and stays and stays.species == "sternotherus_odoratus"
    said = tank_each(tank)
    begins = "Give each a tank, till then a firm screen: "
    assert said.startswith(f"{begins}common musk turtle (3 1/2 in) in this one, ")
    assert "red-eared slider (7 in) in one of 72 × 24 × 24 in or larger" in said


def test_those_that_maim_each_other_are_parted_today_and_not_by_a_screen() -> None:
    audit = _audit(MUSK, MUSK, tank_size="40 breeder")
    company = next(f for f in audit.findings if f.check == "company")
    assert company.verdict == "danger" and "Separate them today" in company.do
    assert tank_each(audit.tank).startswith("Give them a tank each: ")


def test_what_is_not_there_at_all_is_no_price() -> None:
    """A tank without a heater loses no heater power by what would mend something else."""
    audit = _audit(SLIDER, heater_mount="none", heater_power="")
    found = {f.check: f for f in audit.findings}
    assert found["heater_power"].verdict in ("wrong", "danger")
    sound = next(f.check for f in audit.findings if f.applies and f.verdict == "good")
    escape = replace(found["escape"], verdict="wrong", applies=True)
    findings = [escape, *(f for f in audit.findings if f.check != "escape")]
    against = [("escape", "heater_power", sound)]
    left = {
        n.finding.check: n
        for n in what_is_left(findings, ["escape"], against, [], None, dearest=True)
    }
    assert left["escape"].against == (sound,)
    against = [("escape", "heater_power")]
    (alone, *_) = what_is_left([escape, found["heater_power"]], [], against, [], None, dearest=True)
    assert not alone.against and alone.reason


def test_where_two_are_alike_each_gets_one() -> None:
    tank = _audit(SLIDER, MUSK, MUSK, tank_size="20 long").tank
    assert "each common musk turtle (3 1/2 in) in one of " in tank_each(tank)


def test_for_a_planned_tank_it_is_a_choice() -> None:
    tank = _audit(SLIDER, MUSK, stage="planning").tank
    said = tank_each(tank)
    assert said.startswith("Choose one of them, or plan a tank each: ") and "this one" not in said


@pytest.mark.parametrize("animals", [(SLIDER,), (SLIDER, YOUNG, MUSK), (YOUNG, YOUNG)])
def test_no_larger_tank_is_ordered_for_animals_that_must_be_parted(animals: Any) -> None:
    """Nor a date told at which it would be too small for all of them."""
    audit = _audit(*animals, tank_size="40 breeder")
    told = " ".join(c.say for p in plans(audit.tank, audit.findings) for c in p.changes)
    duties = " ".join(duty.what for duty in calendar(audit.tank, DAY))
    parted = must_part(audit.tank)
    assert parted == (MUSK in animals)
    assert ("Move to a sound tank" in told) is not parted
    assert ("outgrown" in duties) is not parted


def test_a_larger_tank_that_is_outgrown_too_is_called_by_its_size() -> None:
    audit = _audit(YOUNG, YOUNG, tank_size="40 breeder")
    after = plans(audit.tank, audit.findings)[-1].carried_out(audit.tank)
    said = [duty.what for duty in calendar(after, DAY, before=audit.tank)]
    (outgrown,) = (what for what in said if "outgrown" in what)
    assert "the one of " in outgrown and "is outgrown too" in outgrown
