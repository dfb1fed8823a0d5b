"""What a page says in one place it doesn't say otherwise in another."""

from __future__ import annotations

from pathlib import Path

import pytest
from golden import DAY
from report_tanks import DEMOS, audit_of

from interview import assembly
from interview.advice.levers.levers import all_levers
from interview.audit.audit import Audit
from interview.report.blocks import Block, Items, Labelled
from interview.report.first_page.blocks import page_blocks
from interview.report.first_page.page import FirstPage, first_page
from interview.report.page.sections import section_blocks_in_short
from interview.report.page.to_measure import measure_blocks

BASE = Path(__file__).parents[1] / "tanks" / "base.yaml"


def _page(audit: Audit) -> FirstPage:
    return first_page(audit, assembly.advice_of(audit, DAY), f"{DAY}")


def _items(blocks: list[Block]) -> dict[str, str]:
    """What is said by what leads it."""
    found = (row for block in blocks if isinstance(block, Items) for row in block.rows)
    return {lead: " ".join(said) for lead, said in found}


def test_what_may_be_dangerous_is_called_so_in_its_section_too() -> None:
    audit = audit_of(BASE, {"platform_wall_gap": "about 3.7 cm"})
    (gap,) = (f for f in audit.findings if f.check == "platform_gap")
    assert (gap.verdict, gap.risk) == ("close", "likely")
    told = _items(list(section_blocks_in_short(audit)))
    said = told["may be dangerous · Gap beside the platform"]
    assert "Close the gap" in said


def test_two_that_want_other_depths_are_told_one_water_for_both() -> None:
    young = {"species": "common musk turtle", "carapace_length": "2.5 cm"}
    change = {"surface_rests": "no", "water_line_below_rim": "12 cm"}
    both = audit_of(BASE, {**change, "animals": [young, {**young, "carapace_length": "9 cm"}]})
    alone = audit_of(BASE, {**change, "animals": [young]})
    told = [next(f for f in one.findings if f.check == "depth_for_young") for one in (both, alone)]
    assert [one.verdict for one in told] == ["wrong", "wrong"]
    assert "lower the water" not in told[0].do and "as the best swimmer here" in told[0].do
    assert "or lower the water" in told[1].do


@pytest.mark.parametrize("lever", ["uvb_lamp_kind", "uvb_lamp_for_sheet"])
def test_a_uvb_lamp_is_got_for_uvb_alone(lever: str) -> None:
    (one,) = (one for one in all_levers() if one.name == lever)
    assert one.meant_for("uv_zone") and not one.meant_for("escape")


def test_a_heater_is_set_once_it_is_there() -> None:
    change = {"room_temperature_low": "13 °C", "heater_power": "50 W", "heater_count": "1"}
    page = _page(audit_of(BASE, {**change, "water_temperature": "20 °C"}))
    steps = [step.do for step in page.week]
    got, set_ = (
        next(n for n, do in enumerate(steps) if do.startswith(words))
        for words in ("Use 2 heaters", "Set the heater")
    )
    assert got < set_


def test_no_platform_is_wider_than_the_tank() -> None:
    each = {"species": "red-eared slider", "carapace_length": "20 cm"}
    change = {"animals": [each] * 3, "tank_size": "120 x 45 x 53 cm", "region": "north america"}
    audit = audit_of(BASE, {**change, "water_line_below_rim": "10 cm"})
    widths = [
        moved.after
        for plan in assembly.advice_of(audit, DAY).plans
        for moved in plan.changes
        if moved.quantity == "platform_width"
    ]
    assert all(width <= audit.tank.lookup("inside_width") for width in widths)


FLOOR = {"stand": "shelf", "stand_level": "no", "floor": "joists along"}


def test_what_still_stops_a_tank_after_a_plan_is_named_and_what_is_emptied_is_not_lowered() -> None:
    audit = audit_of(BASE, FLOOR)
    advice = assembly.advice_of(audit, DAY)
    page = first_page(audit, advice, f"{DAY}")
    (rows,) = (
        block.rows
        for block in page_blocks(page, advice.plans, lambda *_: None)
        if isinstance(block, Labelled) and block.label == "Plans"
    )
    assert rows[-1][1] == "then still STOP; still dangerous: too much weight for the floor."
    today = " ".join(step.text for step in page.today)
    assert "empty the tank" in today and "structural engineer" in today
    assert "ower the water" not in today


def test_a_plan_whose_only_step_is_for_today_stands_above() -> None:
    audit = audit_of(BASE, {"platform_wall_gap": "about 3.8 cm"})
    advice = assembly.advice_of(audit, DAY)
    page = first_page(audit, advice, f"{DAY}")
    assert page.today and not page.week
    blocks = page_blocks(page, advice.plans, lambda *_: None)
    (rows,) = (b.rows for b in blocks if isinstance(b, Labelled) and b.label == "Plans")
    assert rows[-1][0] == "Move things only (above)"


def test_water_is_ordered_to_be_changed_in_one_way() -> None:
    change = {"nitrate": "120 mg/L", "nitrite": "1 mg/L", "ammonia": "2 mg/L"}
    filter_ = {"filter_age": "2 weeks", "filter_seeded": "none", "media_volume": "0.5 L"}
    feed = {"feed_mass": "6 g", "feeds_per_week": "7", "water_change_interval": "14 days"}
    page = _page(audit_of(BASE, {**change, **filter_, **feed, "water_change_share": "20 %"}))
    today = [step.text for step in page.today if "third of the water" in step.text]
    assert len(today) == 1 and "until nitrate reads under" in today[0]
    (later,) = (step.do for step in page.week if "of the water every" in step.do)
    assert later.endswith("(Once nitrate reads under 40 mg/L; every other day till then.)")


def test_what_is_asked_for_is_looked_up_as_itself() -> None:
    """The filter's kind is not found out by looking at its intake."""
    audit = audit_of(BASE, {"filter_kind": "", "intake_guard": ""})
    told = _items(list(measure_blocks(audit)))
    assert "strainer" not in told["Filter kind"]


def test_a_lamp_that_is_to_be_raised_is_not_to_be_brought_nearer() -> None:
    """Nearer goes by a meter alone, which is what the compact lamp waits for too."""
    found = {f.check: f for f in audit_of(DEMOS / "map_turtle_hatchling.yaml", {}).findings}
    assert "Raise it" in found["compact_lamp"].do
    assert "only then hang it nearer, by a UV index meter" in found["uv_zone"].do


@pytest.mark.parametrize("lever", ["heater_mount", "heater_height"])
def test_the_plug_is_out_before_a_heater_is_moved(lever: str) -> None:
    assert all(one.say.startswith("Plugs out") for one in all_levers() if one.name == lever)


def test_watts_that_hold_only_without_the_plans_lid_are_said_to() -> None:
    """The plan lays a lid and needs less than the section asks for."""
    audit = audit_of(BASE, {"heater_mount": "none", "room_temperature_low": "12 °C"})
    (power,) = (f for f in audit.findings if f.check == "heater_power")
    assert power.do.startswith("As the tank stands heaters of ")


def test_water_that_no_heater_warms_is_for_today() -> None:
    cold = {"heater_mount": "none", "water_temperature": "17 °C", "room_temperature_low": "14 °C"}
    today = " ".join(step.text for step in _page(audit_of(BASE, cold)).today)
    assert "Warm the room" in today
