"""What an existing tank's plans need bought: by specification, each thing once, in shop units."""

from __future__ import annotations

import re
from functools import cache

import pytest
from advice_tanks import DEMOS, TANKS, audit_of, tank_of

from interview.advice.levers.lever import Option
from interview.advice.levers.levers import all_levers
from interview.advice.plans.plan import Plan
from interview.advice.plans.plans import plans
from interview.advice.shopping import bought_with_another, specified, to_buy
from interview.audit.audit import Audit

NOT_SOLD = {"floor", "floor_position"}
"""A place against another wall costs a day, and no shop has it."""


@cache
def _demo(name: str) -> tuple[Audit, tuple[Plan, ...]]:
    audit = audit_of(DEMOS / f"{name}.yaml")
    return audit, plans(audit.tank, audit.findings)


def test_whatever_costs_money_says_what_to_get() -> None:
    for lever in all_levers():
        assert bool(lever.buys) == (lever.cost != "free" and lever.name not in NOT_SOLD), lever.name


@pytest.mark.parametrize("name", ["map_turtle_hatchling", "musk_turtle"])
def test_each_thing_stands_once_under_the_cheapest_plan_that_needs_it(name: str) -> None:
    audit, found = _demo(name)
    items = to_buy(audit, found)
    gear = [item for item in items if not item.measures]
    assert gear and len({item.text for item in items}) == len(items)
    bought = {step.lever.name for step in found[-1].steps if step.lever.buys}
    assert len({item.step for item in gear}) <= len(bought)
    for item in gear:
        without = found[: [plan.name for plan in found].index(item.plan)]
        assert all(item.text != other.text for plan in without for other in to_buy(audit, [plan]))
        assert item.step
        assert "{" not in item.text and "None" not in item.text
        off = {f.check for f in audit.findings if f.verdict in ("close", "wrong", "danger")}
        assert set(item.checks) <= off
    for item in items[len(gear) :]:
        assert set(item.measures) <= {*audit.measure_next, *found[-1].take_again}


def test_the_reason_of_a_thing_is_what_it_mends() -> None:
    audit, found = _demo("map_turtle_hatchling")
    why = {item.what: item.checks for item in to_buy(audit, found)}
    assert why["Water conditioner"] == ("dechlorination",)
    assert why["Lamp holder"] == ("lamp_holder",) and why["Stand"] == ("stand",)


def test_shops_of_the_region_sell_in_their_own_units_and_under_their_own_names() -> None:
    """GFCI is the word of the US code (UL 943, Class A), RCD of IEC 61008, with 30 mA."""
    american, metric = (
        " ".join(item.text for item in to_buy(*_demo(name)))
        for name in ("map_turtle_hatchling", "musk_turtle")
    )
    assert re.search(r"\d in\b", american) and re.search(r"\d gal\b", american)
    assert "GFCI (Class A)" in american and "30 mA" not in american
    assert not re.search(r"\d (cm|L|kg)\b", american)
    assert not re.search(r"\d (in|gal|lb)\b", metric)


def test_a_cracked_tank_that_is_too_small_is_replaced_once() -> None:
    small = {
        "tank_damage": "crack",
        "tank_size": "50 x 30 x 30 cm",
        "water_line_below_rim": "10 cm",
    }
    audit = audit_of(TANKS / "base.yaml", small)
    found = plans(audit.tank, audit.findings)
    (tank,) = (item for item in to_buy(audit, found) if item.what == "Tank")
    assert {"tank_damage", "swim_area"} <= set(tank.checks)
    (outside,) = re.findall(r"\d+ × \d+ × \d+ cm", tank.text)
    told = [change.say for change in found[-1].changes if "a sound tank" in change.say]
    assert len(told) == 2 and all(outside in say for say in told)


def test_a_chip_empties_no_tank() -> None:
    """The check asks for less water and a glazier (structure of glass: common practice)."""
    audit = audit_of(TANKS / "base.yaml", {"tank_damage": "chip"})
    (change,) = (c for c in plans(audit.tank, audit.findings)[-1].changes if c.say)
    assert "below the chip" in change.say and "glazier" in change.say
    assert "today" not in change.say


@pytest.mark.parametrize("name", ["heater_cutout", "new_heater"])
def test_a_controller_carries_all_the_heaters_that_hang_on_it(name: str) -> None:
    """Two heaters of 100 W on one controller draw 200 W: plain arithmetic."""
    tank = tank_of(TANKS / "base.yaml", {"heater_count": "2", "heater_power": "100 W"})
    lever = next(lever for lever in all_levers() if lever.name == name)
    assert "of 200 W or more" in specified(lever.buys["Over-temperature controller"], tank)


def test_a_sound_tank_needs_nothing_bought() -> None:
    audit, _ = _demo("musk_turtle")
    assert all(item.measures for item in to_buy(audit, ()))


def test_a_second_filter_is_bought_beside_the_old_and_new_ones_once() -> None:
    """More of the same is one; where the flow changes too, both are new: plain counting."""
    tank = tank_of(TANKS / "base.yaml", {"filter_kind": "canister"})
    by_name = {lever.name: lever for lever in all_levers() if "Filter" in lever.buys}
    count = Option(by_name["filter_count"], {"filter_count": 2.0})
    flow = Option(by_name["filter_rated_flow"], {"filter_rated_flow": 1500 / 3.6e6})
    assert (
        specified(count.lever.buys["Filter"], tank)
        == "1 × canister of 1200 L/h or more besides yours"
    )
    kept = [bought_with_another(step, [count, flow]) for step in (count, flow)]
    assert kept == [True, False] and not bought_with_another(count, [count])


def test_a_footprint_is_told_as_on_a_label() -> None:
    """150 cm, not 1.5 m beside 50 cm."""
    tank = tank_of(TANKS / "base.yaml", {"tank_size": "150 x 50 x 50 cm"})
    assert specified("{footprint}", tank) == "150 × 50 cm"
