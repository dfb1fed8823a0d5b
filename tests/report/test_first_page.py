"""The first page: nothing dangerous left out, three steps for today, one side and one screen."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from textwrap import wrap
from types import SimpleNamespace
from typing import Any, cast

import pytest
from golden import DAY
from page_rules import faults_of_page
from report_tanks import DEMOS, audit_of

from interview import assembly
from interview.advice.levers.levers import Option, all_levers
from interview.advice.plans.leaving import NotMended
from interview.advice.plans.plan import Change, Plan
from interview.advice.purchase.planning import Specification
from interview.audit.audit import Audit
from interview.audit.checks.loader import all_checks
from interview.report.blocks import Labelled
from interview.report.first_page.blocks import beginning_blocks, in_short, page_blocks
from interview.report.first_page.page import FirstPage, first_page
from interview.report.first_page.planned import settled_by
from interview.report.first_page.sentences import beginning, enumerated
from interview.report.first_page.step import Step
from interview.report.first_page.steps import steps_week
from interview.report.formats.markdown import markdown
from interview.report.naming import fault_of
from interview.report.pictures.tank_picture import tank_picture
from interview.report.regional import Worded

NAMES = sorted(path.stem for path in DEMOS.glob("*.yaml"))
each_demo = pytest.mark.parametrize("name", NAMES)


def _page(audit: Audit) -> FirstPage:
    return first_page(audit, assembly.advice_of(audit, DAY))


@each_demo
def test_every_danger_is_met_today(demos: dict[str, Audit], name: str) -> None:
    audit = demos[name]
    for page in (first_page(audit), _page(audit)):
        met = {check for step in page.today for check in step.about}
        wanted = {f.check for f in audit.findings if f.verdict == "danger" or f.risk == "likely"}
        assert met >= wanted
        assert len(page.today) <= 3
        told = " ".join(step.do for step in page.today).casefold()
        for finding in audit.findings:
            if finding.verdict == "danger":
                worded = Worded(audit.tank.lookup("region"))
                first = worded.text(beginning(finding.do.removeprefix("Today: "), 0)[1:])
                assert finding.now
                short = [worded.text(c).casefold() for c in finding.now.clauses()]
                until = bool(finding.now.until) and all(
                    said.casefold() in told for said in (finding.now.until, finding.now.then)
                )
                guarded = finding.check == "heater_glass" and "guard it, mount" in told
                bare = told.replace("guard it, mount", "mount")
                apart = first.casefold() in told or all(c in bare for c in short)
                assert apart or until or guarded


def test_every_danger_has_words_for_a_crowded_page() -> None:
    """Two lines at most, in clauses that stand alone; a remedy for today has them too."""
    for check in all_checks():
        if "danger_when" in check.whens or check.danger:
            assert "danger" in check.now, check.id
        hurried = {key for key, said in check.do.items() if re.search(r"\b(today|now)\b", said)}
        assert not hurried or check.now or check.id == "grown_size", check.id
        for said in (action.text for action in check.now.values()):
            told = re.sub(r"\{\w+\}", "1 1/2 in", said.replace("GFCI or RCD", "GFCI"))
            assert len(wrap(told, 61)) <= 2, said
            assert not re.search(r"\b(today|now)\b", said), said
            assert not any(
                clause.split()[0] in ("it", "then", "and") for clause in said.split("; ")
            )


@each_demo
def test_no_step_of_today_is_longer_than_two_lines(demos: dict[str, Audit], name: str) -> None:
    """Three where a danger would be left out else."""
    page = first_page(demos[name])
    long = [step for step in page.today if len(wrap(step.text, 61)) > 2]
    assert all(len(wrap(step.text, 61)) == 3 for step in long)
    dangers = {f.check for f in demos[name].findings if f.verdict == "danger"}
    assert len(dangers) > 4 or not long
    assert all(dangers & {*step.about} for step in long)


@each_demo
def test_what_says_that_it_is_for_today_stands_under_today_or_first_of_the_week(
    demos: dict[str, Audit], name: str
) -> None:
    """The week begins with what today has no room for; nothing in it says that it is for today."""
    audit = demos[name]
    page = first_page(audit)
    met = {check for step in page.today for check in step.about}
    assert not page.week or len(page.today) == 3 or audit.tank.lookup("stage") == "planning"
    assert not any(re.search(r"\b(today|now)\b", step.do) for step in page.week)
    met |= {check for step in page.week for check in step.about}
    waits = {c for step in page.week if "company" in step.about for c in step.about}
    off = [f for f in audit.findings if f.verdict in ("close", "wrong", "danger")]
    planned = audit.tank.lookup("stage") == "planning"
    hurried = {f.check for f in off if re.search(r"\b(today|now)\b", f.do) and not planned}
    assert hurried <= met
    calm = {f.check for f in off if f.verdict != "danger" and f.risk != "likely"} - hurried
    assert all("Unplug" in f.do for f in off if f.check in (met - waits) & calm)


def test_no_turtle_is_put_into_a_tank_whose_filter_is_not_ripe(demos: dict[str, Audit]) -> None:
    empty = audit_of(DEMOS / "musk_turtle.yaml", {"stage": "set up", "filter_age": "1 week"})
    assert [s.lead for s in first_page(empty).today if s.about == ("cycling",)] == ["The turtle"]
    lived_in = first_page(demos["musk_turtle"])
    assert not any(step.lead == "The turtle" for step in lived_in.today)


def test_what_nobody_has_looked_at_is_looked_at_first() -> None:
    """An unknown RCD: the page says how to look, and what holds until then, in one step."""
    audit = audit_of(DEMOS / "musk_turtle.yaml", {"rcd": "not sure"})
    finding = next(f for f in audit.findings if f.check == "rcd")
    page = first_page(audit)
    assert finding.verdict == "danger"
    assert "no RCD" in page.why and "looked" in page.why
    (step,) = (step for step in page.today if "rcd" in step.about)
    assert "TEST button" in step.do and "plugs" in step.do
    (check,) = (check for check in all_checks() if check.id == "rcd")
    assert "or the tank stays on" in check.do["guessed"], "a button that does nothing is none"
    assert "stays on" in check.do["unmeasured"] and "; else plugs out" in check.now["guessed"].say


@pytest.mark.parametrize(
    ("region", "said"),
    [("europe", "no RCD"), ("north america", "no GFCI"), ("elsewhere", "no GFCI or RCD")],
)
def test_the_device_is_called_as_in_the_region(region: str, said: str) -> None:
    audit = audit_of(DEMOS / "musk_turtle.yaml", {"rcd": "no", "region": region})
    assert re.search(rf"\b{said}\b(?! or)", first_page(audit).why)


def test_an_animal_that_may_not_be_bought_is_not_shopped_for() -> None:
    """Sliders are on the Union's list: EU 1143/2014 forbids to buy them."""
    slider = [{"species": "red-eared slider", "carapace_length": "5 cm"}]
    audit = audit_of(DEMOS / "reeves_turtle_planned.yaml", {"animals": slider})
    page = _page(audit)
    assert page.forbidden and not page.buy and page.plan is None
    assert page.week[0].about == ("invasive_law",)
    assert "Don't buy it" in markdown(audit, "", None)
    shocking = {"animals": slider, "rcd": "no"}
    stopped = first_page(audit_of(DEMOS / "reeves_turtle_planned.yaml", shocking))
    assert stopped.headline == "STOP." and not stopped.today, "there is no order to go by"


@each_demo
def test_every_wrong_is_met_by_some_step(demos: dict[str, Audit], name: str) -> None:
    """By a step of the plan, or where the plan leaves it, by its own remedy."""
    audit = demos[name]
    page = _page(audit)
    steps = (*page.today, *page.week, *page.left)
    met = {check for step in steps for check in step.about}
    assert {f.check for f in audit.findings if f.verdict == "wrong" and f.applies} <= met


@each_demo
def test_steps_are_numbered_through_and_marks_carry_the_numbers(
    demos: dict[str, Audit], name: str
) -> None:
    page = _page(demos[name])
    steps = (*page.today, *page.week, *page.left)
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))
    about = {step.number: step.about for step in steps}
    assert all(mark.check in about[mark.number] for mark in page.marks)
    assert {mark.check for mark in page.marks} == {c for step in steps for c in step.about}


@each_demo
def test_why_is_one_sentence_and_names_every_danger(demos: dict[str, Audit], name: str) -> None:
    page = first_page(demos[name])
    assert page.why.endswith(".") and ". " not in page.why
    assert page.headline.startswith("STOP" if demos[name].grades.stop else "Grade ")


def test_what_is_moved_is_not_bought(demos: dict[str, Audit]) -> None:
    page = _page(demos["musk_turtle"])
    assert page.leads_to == "grade A"
    assert any("mesh" in one for one in page.buy)
    moved = _page(demos["river_cooter_adult"])
    assert not any("water line" in one for one in moved.buy)
    assert moved.after is not None
    assert moved.after.best.known["water_line_below_rim"] < 0.2


def test_without_a_plan_the_findings_own_remedies_are_the_steps(demos: dict[str, Audit]) -> None:
    page = first_page(demos["musk_turtle"])
    assert page.plan is None and page.after is None and not page.buy
    assert [step.about for step in page.left] == [("escape",)] and not page.week


@pytest.mark.parametrize(
    ("most", "told"),
    [
        (0, "One is 1.5 cm."),
        (25, "One is 1.5 cm. Two."),
        (99, "One is 1.5 cm. Two. Three, at last."),
    ],
)
def test_as_many_sentences_as_there_is_room_for(most: int, told: str) -> None:
    assert beginning("One is 1.5 cm. Two. Three, at last.", most) == told


def test_names_in_a_row() -> None:
    assert [enumerated(row) for row in (["a"], ["a", "b"], ["a", "b", "c"])] == [
        "a", "a and b", "a, b and c",
    ]  # fmt: skip


@each_demo
def test_the_pages_hold_nothing_internal_and_the_first_fits(
    demos: dict[str, Audit], name: str
) -> None:
    audit = demos[name]
    assert not faults_of_page(audit, assembly.advice_of(audit, DAY))


@each_demo
def test_few_words_stand_before_the_first_numbers(demos: dict[str, Audit], name: str) -> None:
    """On the Markdown page, pictures apart; the page without what is only drawn."""
    audit = demos[name]
    page = markdown(audit, DAY.isoformat(), assembly.advice_of(audit, DAY))
    before = re.sub(r"```text\n[^`]*```", "", page.partition("## The tank in numbers")[0])
    assert len(before.split()) < 450


def test_one_order_meets_what_another_would_say_again() -> None:
    """A lamp that is off burns on no hot day; an emptied tank has no heater to cover."""
    change = {
        **{"stand": "furniture", "stand_signs": "swollen", "lamp_fixings": "0"},
        **{"lamp_holder": "plastic", "lamp_holder_rating": "40 W", "heat_lamp_height": "8 cm"},
        **{"basking_temperature": "48 C", "heater_mount": "vertical", "heater_guard": "no"},
        **{"heater_body": "glass", "heater_length": "30 cm", "heater_height": "3 cm"},
        **{"water_line_below_rim": "25 cm", "nitrate": "90 mg/L"},
    }
    page = first_page(audit_of(DEMOS / "musk_turtle.yaml", change))
    told = " ".join(step.do for step in page.today)
    met = {check for step in page.today for check in step.about}
    assert {"lamp_holder", "lamp_fixing", "basking_heat", "basking_hot_day", "heater_cover"} <= met
    lamp = "Heat lamp off, until it hangs in a porcelain holder, from two fixings, "
    assert told.count(lamp) == told.casefold().count("heat lamp off") == 1
    assert "Raise or dim" not in told and " and higher or with a weaker bulb." in told
    assert " Stay by the lamp until the spot reads 32 °C at most; lamp off when the room" in told
    assert all(len(wrap(step.text, 61)) <= 3 for step in page.today)
    assert "empty the tank" in told and "plug in" not in told and "third of the water" not in told
    assert not any("third of the water" in step.do for step in page.week)


@pytest.mark.parametrize(
    "change",
    [
        {"basking_temperature": "50 C", "room_temperature_high": "33 C"},
        {**{"room_temperature_high": "37 C", "lamp_holder": "plastic", "rcd": "no"},
         **{"lamp_holder_rating": "40 W", "heater_mount": "vertical", "heater_body": "glass"}},
    ],
)  # fmt: skip
def test_a_lamp_that_is_mended_is_off_on_a_hot_day(change: dict[str, str]) -> None:
    """Raised for an ordinary day, it still burns on a hot one: said alone, and on a full page."""
    page = first_page(audit_of(DEMOS / "musk_turtle.yaml", change))
    (step,) = (step for step in page.today if "basking_hot_day" in step.about)
    assert step.do.startswith("Heat lamp off, until it hangs ") and len(step.about) > 1
    assert step.do.count("; lamp off when the room is warmer than usual") == 1


def test_a_planned_tank_is_set_up_in_order_and_drawn_as_it_is_bought(
    demos: dict[str, Audit],
) -> None:
    page = _page(demos["reeves_turtle_planned"])
    assert page.later == "In order" and page.listed is not None and page.list_grade == "A"
    assert [step.number for step in page.week] == [1, 2, 3]
    assert page.week[-1].do.endswith("get the turtle.")
    sides = [float(page.listed.lookup(f"tank_{side}")) for side in ("length", "width", "height")]
    assert " × ".join(f"{100 * side:.0f}" for side in sides) in page.buy[0]


def test_what_the_list_of_a_planned_tank_settles_is_not_ordered_today() -> None:
    """21 CFR 1240.62: no turtle under 4 in (10.2 cm) is sold; the RCD stands on the list."""
    change = {
        **{"rcd": "no", "region": "north america", "water_temperature": "not sure"},
        "animals": [{"species": "common musk turtle", "carapace_length": "2 in"}],
    }
    page = _page(audit_of(DEMOS / "reeves_turtle_planned.yaml", change))
    assert page.stop and not page.today and "go by the order below" in page.headline
    assert any(row.startswith("GFCI") for row in page.buy)
    assert page.week[-1].do.endswith("get the turtle, none under 10.2 cm.")


def test_a_planned_tank_on_a_floor_that_does_not_bear_it_asks_for_an_engineer() -> None:
    """Its list stops too, so the page doesn't say that it ends what was chosen."""
    change = {"tank_size": "180 x 80 x 60 cm", "floor": "joists_along", "stand": "shelf"}
    page = _page(audit_of(DEMOS / "reeves_turtle_planned.yaml", change))
    assert page.headline == "STOP. Settle what stands first, before anything is bought."
    (floor,) = (step for step in page.week if "floor_load" in step.about)
    assert "Ask a licensed structural engineer before filling" in floor.do
    assert floor.do.count("across the joists") == 1 and not page.today


def test_only_what_is_known_to_end_with_the_list_or_is_told_before_it_is_settled(
    demos: dict[str, Audit],
) -> None:
    """What the list leaves wrong, likely dangerous or unmeasured is still for today."""
    (rcd,) = (f for f in demos["reeves_turtle_planned"].findings if f.check == "rcd")
    cases: tuple[tuple[dict[str, Any], bool], ...] = (
        ({"verdict": "good"}, True),
        ({"verdict": "close"}, True),
        ({"verdict": "close", "risk": "likely"}, False),
        ({"verdict": "unmeasured"}, False),
        ({"verdict": "wrong"}, False),
        ({"verdict": "wrong", "applies": False}, True),
    )
    for changed, ends in cases:
        listed = SimpleNamespace(findings=(replace(rcd, **changed),))
        assert ("rcd" in settled_by(cast(Specification, listed), ())) is ends
    hygiene = Step(0, "From today keep all of the tank out of the kitchen.", ("hygiene",))
    assert "hygiene" in settled_by(cast(Specification, SimpleNamespace(findings=())), [hygiene])


_KIN = {
    "animals": [
        {"species": "painted turtle", "carapace_length": length, "sex": "female"}
        for length in ("4 in", "4 1/2 in", "5 in")
    ]
}
"""Females may share a tank, so that it can be too small for all of them."""


def test_what_is_not_there_at_all_is_called_neither_weak_nor_too_small() -> None:
    none = ("platform_kind", "heat_lamp_kind", "uvb_lamp_kind", "heater_mount", "filter_kind")
    bare = audit_of(DEMOS / "musk_turtle.yaml", {**dict.fromkeys(none, "none"), _WATER: "17 °C"})
    found = {f.check: fault_of(f) for f in bare.findings if f.lacks}
    assert found == {
        **{"platform_space": "no platform", "basking_heat": "no heat lamp"},
        **{"uv_zone": "no UVB lamp", "heater_power": "no heater", "turnover": "no filter"},
    }
    assert not any(f.lacks for f in audit_of(DEMOS / "musk_turtle.yaml", {}).findings)
    said = first_page(bare).why
    assert "no platform, no UVB lamp" in said and "too little room" not in said


def test_the_list_of_a_planned_tank_leaves_nothing_wrong_that_its_tank_mends() -> None:
    """Nor is a floor to be settled, or a tank drawn as chosen, for one that may not be bought."""
    small = {"tank_size": "90 x 40 x 40 cm", "region": "north_america", "floor": "unknown"}
    page = _page(audit_of(DEMOS / "reeves_turtle_planned.yaml", small))
    assert "a tank too small once grown" in page.why and not page.left
    floor = next(step.do for step in page.week if step.lead == "The floor")
    assert re.match(r"A tank of \d+ × \d+ × \d+ cm weighs \d+ kg full: ", floor)
    listed = {
        **small,
        "region": "united_kingdom",
        "animals": [{"species": "red-eared slider", "carapace_length": "8 cm", "sex": "female"}],
    }
    audit = audit_of(DEMOS / "reeves_turtle_planned.yaml", listed | {"heater_mount": ""})
    page = _page(audit)
    assert page.forbidden and not any(step.lead == "The floor" for step in page.week)
    assert "as you decided, the rest as the list has it" in tank_picture(audit).words


_WATER = "water_temperature"


def test_what_is_bought_by_a_tanks_size_waits_for_the_larger_one(demos: dict[str, Audit]) -> None:
    page = _page(audit_of(DEMOS / "painted_turtles_classroom.yaml", _KIN))
    assert "of water surface" in page.larger
    assert page.buy[0].startswith("Stock tank or pond: 15.1 sq ft of water surface and ")
    assert page.buy[-1].endswith("stand and glass lid by the size of that tank")
    assert not any(row.startswith(("Stand", "Glass lid")) for row in page.buy)
    assert not _page(demos["musk_turtle"]).larger


def test_a_page_says_that_nothing_is_bought_and_what_no_plan_holds(demos: dict[str, Audit]) -> None:
    assert _page(demos["mud_turtle_settled"]).buy == ("Nothing.",)
    cold = {"heater_mount": "none", "water_temperature": "14 C", "room_temperature_low": "8 C"}
    page = _page(audit_of(DEMOS / "mud_turtle_settled.yaml", cold))
    left = {check for step in page.left for check in step.about}
    assert ("heater_power" in left) == any(
        "in all or a little more, as the tank stands" in row for row in page.buy
    )
    assert any(row.startswith("Heater: ") for row in page.buy)
    assert any(row.startswith("Over-temperature controller: ") for row in page.buy)


def test_what_a_step_takes_is_bought_once(demos: dict[str, Audit]) -> None:
    """A tub for animals that are taken out, a kit to test with, a heater for one that cracked."""
    page = _page(demos["map_turtle_hatchling"])
    assert page.buy[0] == "Heater, if the old one is cracked: 100 W; metal, or behind a guard"
    assert sum(row.startswith("Kit for ammonia") for row in page.buy) == 1
    swollen = {"stand": "furniture", "stand_signs": "swollen"}
    rows = _page(audit_of(DEMOS / "musk_turtle.yaml", swollen)).buy
    assert rows[0].startswith("Tub, if you have none: ")
    assert not any(row.startswith(("Heater, if", "Kit")) for row in rows)


@pytest.mark.parametrize(
    ("text", "most", "told"),
    [
        ("Stand: made for a tank of 48 × 12 in; carries 9 kg, full", 2, "48 × 12 in, carries 9 kg"),
        ("Heater: 2 × 150 W; metal, or behind a guard", 1, "2 × 150 W, metal"),
        ("Tank: glass, with its rim; 90 × 45 × 45 cm outside; sold as “180 litre”", 2,
         "glass, 90 × 45 × 45 cm outside, “180 litre”"),
        ("Kit: with drops; its colour cards in it", 1, "with drops"),
    ],
)  # fmt: skip
def test_a_thing_in_short_keeps_number_and_size(text: str, most: int, told: str) -> None:
    assert in_short(text, most) == f"{text.partition(':')[0]} ({told})"


def test_a_guard_and_a_spare_heater_do_not_wait_for_the_larger_tank() -> None:
    """They go by the heater that is there."""
    bare = {
        **{"heater_mount": "vertical", "heater_power": "200 W", "heater_body": "glass"},
        **{"heater_length": "12 in", "heater_height": "4 in", "heater_guard": "no"},
    }
    pair = {"animals": _KIN["animals"][:1]}
    page = _page(audit_of(DEMOS / "painted_turtles_classroom.yaml", {**bare, **pair}))
    assert re.match(r"Tank: \d+ × \d+ × \d+ in or larger; with its rim", page.buy[0])
    assert page.larger and "by the size of that tank" in page.buy[-1]
    assert "guard" not in page.buy[-1] and "cracked" not in page.buy[-1]
    assert any(row.startswith("Heater guard: ") for row in page.buy[:-1])


@pytest.mark.parametrize(
    ("grade", "said"),
    [
        ("A", "Nothing to change."),
        ("C", "Nothing dangerous."),
        ("no grade", "No danger in what was answered; what is open may hold one."),
    ],
)
def test_without_a_grade_a_page_does_not_say_that_nothing_is_dangerous(
    demos: dict[str, Audit], grade: str, said: str
) -> None:
    page = replace(_page(demos["musk_turtle"]), grade=grade, today=(), planned=False)
    today = [one for one in beginning_blocks(page) if isinstance(one, Labelled)]
    assert [one.rows for one in today if one.label == "Today"] == [(("", said),)]


def test_where_a_plan_leads_names_what_it_leaves(demos: dict[str, Audit]) -> None:
    """The gravest first; of a STOP what is dangerous, of the same grade what is wrong."""
    audit = demos["painted_turtles_classroom"]
    advice = assembly.advice_of(audit, DAY)
    page = first_page(audit, advice)
    assert page.plan
    assert _plans_told(page, [page.plan]) == ["then no danger left, grade D."]
    (row,) = _plans_told(replace(page, stop=False, grade="D"), [page.plan])
    assert re.match(r"then still grade D; still wrong: .+ and 2 more\.$", row)
    stuck = replace(page.plan, grades=replace(page.plan.grades, overall="STOP", stop=True), rest=())
    (finding,) = (f for f in audit.findings if f.check == "company")
    grave = NotMended(replace(finding, verdict="danger"), "")
    (row,) = _plans_told(page, [replace(stuck, rest=(grave,))])
    assert row == "then still STOP; still dangerous: animals that should not share a tank."


def _plans_told(page: FirstPage, plans: Sequence[Plan]) -> list[str]:
    """What is told of where plans lead; the last is the told one."""
    page = replace(page, plan=plans[-1])
    told = [b for b in page_blocks(page, plans, lambda *_: None) if isinstance(b, Labelled)]
    return [said for block in told if block.label == "Plans" for _, said in block.rows]


def test_animals_that_must_be_parted_are_told_which_tank_is_for_whom_once(
    demos: dict[str, Audit],
) -> None:
    """One order in place of “a tank each” beside “a larger tank” for all."""
    page = _page(demos["painted_turtles_classroom"])
    steps = (*page.today, *page.week, *page.left)
    (parting,) = (step for step in steps if "company" in step.about)
    assert (
        "Give each a tank, till then a firm screen: " in parting.do and "in this one" in parting.do
    )
    assert parting.do.endswith("audit each anew: this is for all in one.")
    assert not any("firm screen" in step.do for step in steps if step is not parting)
    assert {"swim_area", "outgrow"} <= set(parting.about) and not page.larger
    assert not any("Move to a" in step.do or "larger tank" in step.do for step in steps)


def test_what_is_got_for_the_lamp_stays_a_step_though_today_holds_until_then() -> None:
    """“Raise or dim it” is for today; the thermostat that the plan buys is not told by that."""
    hot = {"basking_temperature": "95 F", "room_temperature_high": "92 F"}
    audit = audit_of(DEMOS / "river_cooter_adult.yaml", hot)
    (hot_day,) = (f for f in audit.findings if f.check == "basking_hot_day")
    assert hot_day.verdict in ("wrong", "danger")
    mended = replace(hot_day, verdict="good", risk="")
    (lever,) = (one for one in all_levers() if one.name == "lamp_control")
    plan = SimpleNamespace(
        changes=(Change("lamp_control", "none", "thermostat", "choice", lever.say, bought=True),),
        steps=(Option(lever, {"lamp_control": "thermostat"}),),
        findings=tuple(mended if f is hot_day else f for f in audit.findings),
    )
    today = (Step(1, "Raise or dim the heat lamp.", ("basking_hot_day",)),)
    for verdict in ("wrong", "danger"):
        found = tuple(replace(f, verdict=verdict) if f is hot_day else f for f in audit.findings)
        week = steps_week(replace(audit, findings=found), cast(Plan, plan), today)
        assert [step.do for step in week] == [lever.say]


@pytest.mark.parametrize("sign", ["swollen eyes", "another illness"])
def test_an_ill_animal_goes_to_a_veterinarian_before_its_tank_is_mended(sign: str) -> None:
    for path in (DEMOS / "mud_turtle_settled.yaml", DEMOS / "map_turtle_hatchling.yaml"):
        page = _page(audit_of(path, {"warning_signs": sign}))
        (step,) = (step for step in page.today if "warning_signs" in step.about)
        assert "Call a reptile veterinarian" in step.text
        assert path.stem == "map_turtle_hatchling" or step == page.today[0]


@pytest.mark.parametrize("most", [{}, {"cords": "chained strips", "rcd": "no", "drip_loops": "no"}])
def test_nothing_says_to_keep_an_ill_animal_warm_beside_a_lamp_that_is_to_be_off(
    most: dict[str, str],
) -> None:
    ill = {"warning_signs": "swollen eyes", "heater_mount": "none", "heater_power": ""}
    page = _page(audit_of(DEMOS / "mud_turtle_settled.yaml", {**ill, **most}))
    told = " ".join(step.text for step in page.today)
    assert "warm and quiet" in told or most
    off = _page(
        audit_of(DEMOS / "mud_turtle_settled.yaml", {**ill, **most, "lamp_plastic_gap": "0.5 cm"})
    )
    told = " ".join(step.text for step in off.today)
    assert "Heat lamp off" in told or "lamp off" in told.casefold()
    assert "warm and quiet" not in told and "while the lamp is off, warm the room" in told


def test_what_may_be_dangerous_is_called_so_on_all_of_a_page(demos: dict[str, Audit]) -> None:
    audit = demos["musk_turtle"]
    found = tuple(
        replace(f, risk="likely", warning=0.3) if f.check == "escape" else f for f in audit.findings
    )
    risky = replace(audit, findings=found)
    page = _page(risky)
    assert page.why.startswith("May be dangerous: a way to climb out")
    assert {mark.verdict for mark in page.marks if mark.check == "escape"} == {"may be dangerous"}
    picture = tank_picture(risky)
    assert picture and "over foothold (may be dangerous)" in picture.words
