"""What stands on the first page, before any format dresses it."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from typing import TYPE_CHECKING

from interview.advice.plans.choosing import told
from interview.advice.purchase.larger_tank import grown_tank
from interview.advice.shopping import to_buy
from interview.audit.measure_next import best_tool
from interview.report.first_page.planned import (
    before_buying,
    forbidden_by_law,
    in_order,
    listed_by,
    settled_by,
)
from interview.report.first_page.sentences import TWO_LINES, beginning, enumerated
from interview.report.first_page.step import Step, numbered
from interview.report.first_page.steps import marks_of, steps_left, steps_parted, steps_week
from interview.report.first_page.today import steps_soon, steps_today
from interview.report.first_page.why import why_graded
from interview.report.naming import capital
from interview.report.regional import Worded

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.advice.plans.plan import Plan
    from interview.advice.purchase.planning import Specification
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding
    from interview.audit.grades import Grades
    from interview.audit.tank import Tank
    from interview.report.marks import Mark

__all__ = ["FirstPage", "first_page"]

_LAWS = ("invasive_law", "small_turtle_law")
_FINE = ("good", "unmeasured")
_SIZES = ("swim_area", "outgrow")
_BY_THE_TANK = ("Stand", "Glass lid", "Metal mesh", "Heater")
_NOTHING = "Nothing."
_NEEDING = "with "
"""How a tank is told that none sold is large enough for: by surface and depth."""
_LISTED = (
    "Bought by the list and drawn so: {grade}, now and when grown. Grade and faults above "
    "are of what you had chosen."
)
_CHOSEN = "So it was chosen; go by the order below instead."
_LIST_STOPS = "Settle what stands first, before anything is bought."
_LARGER = "The tank stays too small: get a larger one first. {needs}"
_MOST_TO_MEASURE = 3
_NOT_BOUGHT = (
    *("The law", "Floor", "Water line", "Electricity", "Circuit"),
    *("Running cost", "Water changes"),
)
"""Rows of a planned tank's list that are settled or set, not got."""
_ALWAYS = (
    "Plugs out before hands go in, soap after. Local code, electrician and reptile veterinarian "
    "come before this page."
)
_KITCHEN = "No tank water or gear in the kitchen. "
_SURELY_TOLD = 1
"""Steps of the week that nearly every page has room for."""
_AT_RISK = (
    "Who is under 5, 65 or more, pregnant or of weak immunity: hands off animal, water and gear. "
)
_VET = (
    "At once: gasping, askew, limp, bleeding, burnt. Within two days: puffy or shut eyes, no "
    "basking, a week unfed, soft or foul shell."
)


@dataclass(frozen=True)
class FirstPage:
    """One page for a keeper: the grade, what to do and to get, when to look again.

    `planned` says that the tank isn't set up yet. `why` is one sentence. `confirm` names answers
    that don't fit together. Steps are numbered through `today`, `week` and `left`, what neither of
    these mends; `marks` carry these numbers into the picture. `plan` is the one whose steps are
    told, None where there is none or not yet; `leads_to` says to which grade, and `after` is the
    tank once they are done. `forbidden` says that the animal may not be bought,
    `larger` says what a larger tank has to have where this one stays too small. `listed` is the
    tank that a planned one's list describes, drawn in place of what was decided; `list_grade` its
    grade where the list parts from that, else "".
    """

    title: str
    planned: bool
    date: str
    grade: str
    stop: bool
    headline: str
    why: str
    forbidden: bool
    listed: Tank | None
    list_grade: str
    larger: str
    confirm: tuple[str, ...]
    today: tuple[Step, ...]
    week: tuple[Step, ...]
    left: tuple[Step, ...]
    plan: Plan | None
    leads_to: str
    marks: tuple[Mark, ...]
    after: Tank | None
    buy: tuple[str, ...]
    measure: tuple[str, ...]
    again: tuple[str, ...]
    law: tuple[str, ...]
    vet: str
    always: str

    @property
    def notes(self) -> tuple[str, ...]:
        """What list and picture are of, and that a larger tank comes first."""
        grade = (
            "STOP until what stands first is settled"
            if self.list_grade == "STOP"
            else f"grade {self.list_grade}"
        )
        listed = _LISTED.format(grade=grade) if self.list_grade else ""
        larger = _LARGER.format(needs=self.larger) if self.larger else ""
        return tuple(note for note in (listed, larger) if note and not self.forbidden)

    @property
    def later(self) -> str:
        """What the steps after those of today are headed by."""
        return "In order" if self.planned else "This week"


def first_page(audit: Audit, advice: Advice | None = None, date: str = "") -> FirstPage:
    """The first page of an audit.

    Args:
        audit: the tank, judged
        advice: what there is of it by now; without, the findings' own remedies are the steps
        date: the day of the audit, as it is to be told
    """
    forbidden = forbidden_by_law(audit)
    planned = audit.tank.lookup("stage") == "planning"
    listed = listed_by(audit, advice)
    plan = told(advice.plans) if advice and not (forbidden or listed) else None
    week = tuple(before_buying(audit, None if forbidden else listed)) if planned else ()
    settled = settled_by(listed, week)
    today = () if forbidden else steps_today(audit, settled)
    if not forbidden:
        of_plan = steps_week(audit, plan, today)
        soon = steps_soon(audit, (*today, *of_plan))
        week = (*steps_parted(audit), *week, *soon, *of_plan, *in_order(audit, listed))
    week = numbered(week, len(today))
    left = () if forbidden else steps_left(audit, plan, (*today, *week), settled)
    buy = () if forbidden else tuple(_buy(audit, advice, plan, (*today, *week, *left)))
    larger = _larger(advice, left, buy)
    return Worded(audit.tank.lookup("region")).page(
        FirstPage(
            title=audit.title,
            planned=planned,
            date=date,
            grade=audit.grades.overall,
            stop=audit.grades.stop,
            headline=_headline(audit.grades, listed, forbidden, bool(today)),
            why=why_graded(audit),
            forbidden=forbidden,
            larger=larger,
            listed=None if forbidden or listed is None else listed.tank,
            list_grade=_list_grade(listed),
            confirm=tuple(beginning(m.say, TWO_LINES) for m in audit.inconsistencies),
            today=today,
            week=week,
            left=left,
            plan=plan,
            leads_to=_leads_to(plan),
            marks=tuple(marks_of(audit, (*today, *week, *left))),
            after=plan.carried_out(audit.tank) if plan else None,
            buy=_for_the_larger(buy, grown_tank(audit.tank)) if larger else buy,
            measure=() if planned else tuple(dict.fromkeys(_measure(audit, plan))),
            again=() if planned else tuple(_again(advice, bool(today or week), date)),
            law=() if forbidden else tuple(_law(audit.findings, planned)),
            vet="" if planned else _VET,
            always=_always(audit, today, week),
        )
    )


def _headline(grades: Grades, listed: Specification | None, forbidden: bool, today: bool) -> str:
    """The grade, and what it asks for or where it stands between best and worst."""
    if grades.stop and forbidden:
        return grades.headline
    if grades.stop and listed and not today:
        stays = listed.grades is not None and listed.grades.stop
        return f"{grades.headline} {_LIST_STOPS if stays else _CHOSEN}"
    if grades.stop:
        return f"{grades.headline} Do what stands under Today before anything else."
    return f"{grades.headline}{'' if grades.overall == 'A' else ' A is the best, E the worst.'}"


def _larger(advice: Advice | None, left: Sequence[Step], buy: Sequence[str]) -> str:
    """What a larger tank has to have, where gear is got by the size of one that stays too small."""
    small = any(check in _SIZES for step in left for check in step.about)
    by_size = any(_by_the_tank(row) for row in buy)
    return beginning(advice.would, 0) if advice and small and by_size else ""


def _for_the_larger(buy: Sequence[str], grown: str | None) -> tuple[str, ...]:
    """What to get, the larger tank first; what goes by a tank's size by that of this one."""
    later = [row.partition(":")[0].lower() for row in buy if _by_the_tank(row)]
    named = enumerated(list(dict.fromkeys(later)))
    now = [row for row in buy if not _by_the_tank(row)]
    if grown:
        pond = f"Stock tank or pond: {grown.removeprefix(_NEEDING)}"
        now.insert(0, pond if grown.startswith(_NEEDING) else f"Tank: {grown}; with its rim")
    return (*now, f"{capital(named)} by the size of that tank")


def _by_the_tank(row: str) -> bool:
    """Whether it is got by the tank's size: a heater is, its guard is not."""
    return row.partition(":")[0] in _BY_THE_TANK


def _always(audit: Audit, today: Sequence[Step], week: Sequence[Step]) -> str:
    """What always holds; of the kitchen and of people at risk where no step before says it."""
    hygiene = next((f for f in audit.findings if f.check == "hygiene"), None)
    told = any("hygiene" in step.about for step in (*today, *week[:_SURELY_TOLD]))
    if told or hygiene is None or not hygiene.applies or hygiene.verdict == "danger":
        return _ALWAYS
    kitchen = _KITCHEN if audit.tank.lookup("kitchen_used") is True else ""
    at_risk = _AT_RISK if audit.tank.lookup("vulnerable_person") is True else ""
    return f"{kitchen}{at_risk}{_ALWAYS}"


def _list_grade(listed: Specification | None) -> str:
    """The grade of the tank built as listed, where that is another than what was decided."""
    if listed is None or not listed.refused or listed.grades is None:
        return ""
    return listed.grades.overall


def _leads_to(plan: Plan | None) -> str:
    """Where the steps lead, as “grade B”."""
    if plan is None:
        return ""
    ripe = " once the new filter is ripe" if plan.meanwhile and not plan.grades.stop else ""
    return f"{plan.grades.reached}{ripe}"


def _buy(
    audit: Audit,
    advice: Advice | None,
    plan: Plan | None,
    steps: Sequence[Step],
) -> Iterator[str]:
    """What to get, by specification: a planned tank's gear, or what the told steps take."""
    if advice and advice.specification:
        for row in advice.specification.rows:
            if row.what not in _NOT_BOUGHT:
                yield f"{row.what}: {row.specification.partition(':')[0]}"
    elif advice:
        bought = [item.text for item in to_buy(audit, (plan,) if plan else ())]
        yield from (*_had_for(steps, bought), *bought) or [_NOTHING]


def _had_for(steps: Iterable[Step], bought: Collection[str]) -> Iterator[str]:
    """What has to be at hand for these steps, but what is bought by a plan's specification."""
    got = {row.partition(":")[0] for row in bought}
    for row in dict.fromkeys(thing for step in steps for thing in step.takes):
        if row.partition(":")[0].partition(", if ")[0] not in got:
            yield row


def _measure(audit: Audit, plan: Plan | None) -> Iterator[str]:
    """What to find out next, with the tool that settles it; nothing that the plan makes idle."""
    idle = {f.check for f in plan.findings if not f.applies} if plan else set()
    for name in islice(_wanted(audit, idle), _MOST_TO_MEASURE):
        tool = best_tool(name)
        needed = any(name in finding.missing for finding in audit.findings)
        by = f" ({tool.called})" if tool and tool.called and not needed else ""
        yield f"{capital(audit.label_of(name))}{by}"


def _wanted(audit: Audit, idle: set[str]) -> Iterator[str]:
    """What is measured next, unless only checks want it that the plan makes idle."""
    for name in audit.measure_next:
        asking = {f.check for f in audit.findings if name in f.missing or f.settled_by == name}
        if not asking or asking - idle:
            yield name


def _again(advice: Advice | None, to_do: bool, date: str) -> Iterator[str]:
    """When to look again: after the steps, and on the next date of the calendar."""
    dated = [duty for duty in advice.duties if duty.due] if advice else []
    dated = [duty for duty in dated if not date or f"{duty.due}" > date]
    after = "After these steps" if to_do else ""
    told = [f"{duty.when}: {_first(duty.what)}" for duty in dated[:1]]
    if after or told:
        yield capital("; ".join(part for part in (after, *told) if part)) + "."


def _first(text: str) -> str:
    """The first sentence, or what comes before its semicolon or colon."""
    return re.split(r"[;:]", beginning(text, 0))[0].rstrip(".")


def _law(findings: Sequence[Finding], planned: bool) -> Iterator[str]:
    """What a law asks of the keeper of the animals that are there, or are wished for."""
    for finding in findings:
        if finding.check in _LAWS and finding.applies and finding.verdict not in _FINE:
            yield beginning(finding.say if planned else finding.do or finding.say, 0)
