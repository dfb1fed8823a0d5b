"""Up to three plans that put the tank right, each verified by auditing the changed tank."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.advice.levers.guards import misplaced
from interview.advice.levers.levers import Option
from interview.advice.plans.audited import Audited
from interview.advice.plans.leaving import NotMended, what_is_left
from interview.advice.plans.order import also_worth, ending, in_order
from interview.advice.purchase.in_shops import in_shops
from interview.advice.search.budget import Budget
from interview.advice.search.search import Mend, Search, merged
from interview.advice.search.worth_changing import worth_changing
from interview.advice.what_if.suppose import changed, moved_answers, to_take_again
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.audit.grades import Grades, grade_all
from interview.audit.tank import Tank
from interview.base.templates import by_number
from interview.vocabulary.phrases import fill

__all__ = ["Change", "Plan", "plans", "plans_in_steps"]

_KINDS = (
    ("Move things only", ("free",)),
    ("Spend a little", ("free", "cheap")),
    ("Do it properly", ("free", "cheap", "buy")),
)
_FREE = "free"
_LAST_RESORT = ("free", "cheap", "buy", "rebuild")
"""Another tank, stand or place, only where nothing less mends everything."""
_HEIGHT = "platform_height_above_water"
_STANDING = ("fixed", "pile")
"""Platforms that stay where they are when the water line moves."""
_LETTERS = "ABCDE"
_BADNESS = {"wrong": 3, "danger": 4}
_BOUGHT = 4.0
"""What the cheapest thing costs that is bought, on the scale of the levers."""
_IN_REACH = "in reach"
"""What is wrong with a lamp that the steps together bring too near."""
_TIME_MENDS = ("cycling",)
"""Checks that time mends, no change does: left out of the search."""


@dataclass(frozen=True)
class Change:
    """One answer that would be another: what it is, what it becomes, what to do for it.

    `bought` says that something has to be got for it.
    """

    quantity: str
    before: Any
    after: Any
    unit: str
    say: str
    bought: bool = False


@dataclass(frozen=True)
class Plan:
    """A set of changes, and the audit of the tank after them.

    The changes against a danger come first, then what the grade needs. `urgent` of them end the
    danger by themselves and lead to `then`; 0 and None where there is none to end so.
    `left` are the findings that still want a change afterwards; `against` names, for such a
    check, the checks it can't be brought in line with. `moved` are answers that change by
    themselves (a floating platform's lamp distances). `grades` leave out what only time mends
    and the plan brings about, as a new filter's start; `meanwhile` are the grades with it.
    `worse` are sections with a lower letter than today: name, letter before, letter after.
    `nearer` are the findings that are nearer to a limit than today, or beyond it. `proven` says
    that no smaller or cheaper set of changes does as much; else it is the best that was found
    before the budget of the search ended. `take_again` are the readings that tell nothing of
    the changed tank, or were taken before something was moved. `needed` of the steps lead to
    the grade, those after them are also worth it. `rest` names everything wrong that is left,
    and why. `steps` are the levers' settings in the order of the changes.
    """

    name: str
    changes: tuple[Change, ...]
    moved: tuple[Change, ...]
    findings: tuple[Finding, ...]
    grades: Grades
    left: tuple[Finding, ...]
    cost: float
    against: tuple[tuple[str, ...], ...] = ()
    urgent: int = 0
    then: Grades | None = None
    meanwhile: Grades | None = None
    worse: tuple[tuple[str, str, str], ...] = ()
    nearer: tuple[Finding, ...] = ()
    proven: bool = True
    take_again: tuple[str, ...] = ()
    needed: int = 0
    rest: tuple[NotMended, ...] = ()
    steps: tuple[Option, ...] = ()


def plans(
    tank: Tank, findings: Sequence[Finding], budget: Budget | None = None
) -> tuple[Plan, ...]:
    """The plans for a tank that needs a change, from moving things to rebuilding.

    A plan that changes nothing, or no more than the one before, is left out.

    Args:
        tank: the tank
        findings: what was found of it
        budget: what the search may take; the shipped number of steps if None
    """
    steps = list(_in_steps(tank, findings, budget or Budget.shipped(), dangers_first=bool(budget)))
    return steps[-1] if steps else ()


def plans_in_steps(
    tank: Tank, findings: Sequence[Finding], budget: Budget
) -> Iterator[tuple[Plan, ...]]:
    """The plans as they are found: each time all that are worth showing by then.

    Where there are dangers, first a plan against these alone; it gives way to the first that
    does as much. The last are those of `plans`.
    """
    yield from _in_steps(tank, findings, budget, dangers_first=True)


def _in_steps(
    tank: Tank, findings: Sequence[Finding], budget: Budget, *, dangers_first: bool
) -> Iterator[tuple[Plan, ...]]:
    if not any(f.verdict in ("close", "wrong", "danger") for f in findings):
        return
    checks = [check for check in all_checks() if check.id not in _TIME_MENDS]
    search = Search(tank, checks, worth_changing(tank, checks, findings), budget)
    audited = Audited(tank, findings)
    first = _against_dangers(search, findings, audited) if dangers_first else None
    if first:
        yield (first,)
    found: list[Plan] = []
    seen: list[Mend] = []
    for name, costs in _KINDS:
        floor = seen[-1].options if seen else ()
        mend = search.mend(frozenset(costs), floor)
        if mend.left and "buy" in costs:
            mend = search.mend(frozenset(_LAST_RESORT), floor)
        mend = _sound(search, mend, findings, audited)
        same = any(_keys(mend) == _keys(old) for old in seen)
        if mend.options and not same:
            seen.append(mend)
            found.append(_plan(name, search, mend, findings, audited))
            stopped = all(plan.grades.stop for plan in found)
            yield _worth_showing([*found, first] if first and stopped else found, findings)


def _against_dangers(search: Search, findings: Sequence[Finding], audited: Audited) -> Plan | None:
    """A plan with the cheapest levers that end a danger; None where none does."""
    for name, costs in _KINDS:
        mend = search.against_dangers(frozenset(costs))
        if mend and mend.options:
            mend = _sound(search, mend, findings, audited)
            plan = _plan(name, search, mend, findings, audited)
            if _worth_showing([plan], findings):
                return plan
    return None


def _sound(search: Search, mend: Mend, before: Sequence[Finding], audited: Audited) -> Mend:
    """The mend without steps that, with all doubt counted, bring a danger nobody had before.

    Nor one so likely that it would have to be settled today, nor steps that together bring a
    lamp into reach.
    """
    had = _perils(before)
    options = mend.options

    def perils(some: Sequence[Option]) -> set[tuple[str, str]]:
        lamps = misplaced(merged(some), search.tank)
        return (_perils(audited(some)) - had) | {(name, _IN_REACH) for name in lamps}

    while new := perils(options):
        near = any(kind == _IN_REACH for _, kind in new)
        felt = options if near else search.reaching(options, {check for check, _ in new})
        ways = [tuple(o for o in options if o is not step) for step in felt]
        fewest = min(ways, key=lambda way: len(perils(way)), default=options)
        if len(perils(fewest)) >= len(new):
            break
        options = fewest
    if options is mend.options:
        return mend
    spared = search.needed(options)
    return search.with_only(mend, options if perils(spared) else spared)


def _perils(findings: Sequence[Finding]) -> set[tuple[str, str]]:
    """Checks that are dangerous, and checks that are at least likely to be."""
    dangers = {(f.check, "danger") for f in findings if f.verdict == "danger"}
    likely = {(f.check, "likely") for f in findings if f.risk == "likely"}
    return dangers | likely | {(check, "likely") for check, _ in dangers}


def _worth_showing(found: Sequence[Plan], findings: Sequence[Finding]) -> tuple[Plan, ...]:
    """Plans that better something and no grade worsens; no STOP that another ends."""
    now = grade_all(findings)
    worth = [
        plan
        for plan in found
        if _rank(plan.grades) < _rank(now)
        or (_rank(plan.grades) == _rank(now) and _ends(plan, findings))
    ]
    ending = [plan for plan in worth if not plan.grades.stop]
    return tuple(_each_better(ending or worth))


def _each_better(found: Sequence[Plan]) -> Iterator[Plan]:
    """The plans that mend more, or to a better grade, than the cheaper one before them."""
    best: Plan | None = None
    for plan in found:
        if best is None or (_no_worse(plan, best) and _betters(plan, best)):
            best = plan
            yield plan


def _no_worse(plan: Plan, cheaper: Plan) -> bool:
    """Whether a dearer plan leads to no worse a grade, and leaves nothing wrong that was right.

    That a new filter has to ripen first is no fault of it.
    """
    grave = {f.check for f in cheaper.findings if f.applies and f.verdict in _BADNESS}
    now = {f.check for f in plan.findings if f.applies and f.verdict in _BADNESS}
    now -= {*_TIME_MENDS}
    fewer = _rank(plan.grades) < _rank(cheaper.grades)
    return _rank(plan.grades) <= _rank(cheaper.grades) and (fewer or now <= grave)


def _betters(plan: Plan, cheaper: Plan) -> bool:
    return _rank(plan.grades) < _rank(cheaper.grades) or bool(_off(cheaper) - _off(plan))


def _off(plan: Plan) -> set[str]:
    """What a plan leaves wanting, by check; a check that is better than wrong counts apart."""
    return {f"{f.check} {f.verdict}" for f in plan.findings if f.applies and f.verdict != "good"}


def _rank(grades: Grades) -> int:
    """How far down the letters the whole stands; STOP below them all."""
    return len(_LETTERS) + 1 if grades.stop else _place(grades.overall)


def _place(letter: str) -> int:
    return _LETTERS.index(letter) if letter in _LETTERS else len(_LETTERS)


def _ends(plan: Plan, findings: Sequence[Finding]) -> bool:
    """Whether it ends something grave, or what is off a little: all of it, or for little money."""
    off = {f.check for f in findings if f.verdict in ("danger", "wrong")}
    still = {f.check for f in plan.findings if f.verdict in ("danger", "wrong")}
    if off - still:
        return True
    little = {f.check for f in findings if _off_a_little(f)}
    left = {f.check for f in plan.findings if _off_a_little(f)} | still
    return (plan.cost < _BOUGHT or not plan.left) and bool(little - left)


def _still_off(finding: Finding) -> bool:
    """Whether a finding that the search left is worth naming."""
    return finding.applies and finding.verdict != "good"


def _off_a_little(finding: Finding) -> bool:
    sound = finding.inside or finding.certainty == "open"
    return finding.applies and finding.verdict == "close" and not sound


def _keys(mend: Mend) -> frozenset[str]:
    return frozenset(f"{o.lever.name} {sorted(map(str, o.changes.items()))}" for o in mend.options)


def _plan(
    name: str, search: Search, mend: Mend, before: Sequence[Finding], audited: Audited
) -> Plan:
    tank = search.tank
    first = ending(search, mend.options, audited)

    def rank(some: Sequence[Option]) -> int:
        return _rank(grade_all(_without_a_start(audited(some), before)))

    extra = also_worth(search, mend.options, first, rank)
    rest = [option for option in mend.options if option not in (*first, *extra)]
    options = (*first, *in_order(search, rest), *extra)
    after = changed(tank, merged(options))
    findings = audited(options)
    moved = moved_answers(tank, merged(options))
    named = {name for option in options for name in (option.lever.name, *option.changes)}
    chosen = frozenset(option.lever.name for option in options)
    then = grade_all(audited(first)) if first else None
    ended = then is not None and not then.stop
    ripe = _without_a_start(findings, before)
    return Plan(
        name=name,
        changes=tuple(row for o in options for row in _changes(o, tank, after, chosen)),
        moved=tuple(_moved(tank, after, [n for n in moved if n not in named])),
        findings=findings,
        grades=grade_all(ripe),
        left=tuple(f for f in findings if f.check in mend.left and _still_off(f)),
        cost=mend.cost,
        against=mend.against,
        urgent=len(first) if ended else 0,
        then=then if ended else None,
        meanwhile=None if len(ripe) == len(findings) else grade_all(findings),
        worse=tuple(_worse_sections(grade_all(before), grade_all(ripe))),
        nearer=tuple(_nearer(ripe, before)),
        proven=mend.proven,
        needed=len(options) - len(extra),
        rest=tuple(
            what_is_left(ripe, mend.left, mend.against, _TIME_MENDS, dearest=name == _KINDS[-1][0])
        ),
        take_again=to_take_again(tank, after, merged(options)),
        steps=tuple(options),
    )


def _nearer(after: Sequence[Finding], before: Sequence[Finding]) -> Iterator[Finding]:
    was = {finding.check: _how_bad(finding) for finding in before}
    for finding in after:
        if finding.applies and _how_bad(finding) > was[finding.check]:
            yield finding


def _how_bad(finding: Finding) -> int:
    """From good to dangerous; a limit that is kept but not for sure stands between."""
    if finding.verdict == "close":
        return 1 if finding.inside else 2
    if finding.verdict == "good" and finding.certainty == "open":
        return 1
    return _BADNESS.get(finding.verdict, 0)


def _without_a_start(findings: Sequence[Finding], before: Sequence[Finding]) -> tuple[Finding, ...]:
    """The findings without those that time mends and that were no worry before the changes."""
    fine = {f.check for f in before if f.verdict in ("good", "unmeasured") or not f.applies}
    started = {
        f.check
        for f in findings
        if f.check in _TIME_MENDS and f.check in fine and f.verdict in ("close", "wrong")
    }
    return tuple(finding for finding in findings if finding.check not in started)


def _worse_sections(before: Grades, after: Grades) -> Iterator[tuple[str, str, str]]:
    was = dict(before.sections)
    for section, letter in after.sections:
        if letter in _LETTERS and _place(letter) > _place(was[section]):
            yield section, was[section], letter


def _changes(option: Option, tank: Tank, after: Tank, chosen: frozenset[str]) -> Iterator[Change]:
    """A row for each answer of an option; the sentence stands on the first."""
    own = {**in_shops(after), "value": option.changes.get(option.lever.name)}

    def look(name: str) -> Any:
        return own[name] if own.get(name) is not None else after.lookup(name)

    same = {"value": option.lever.name}
    text = by_number(option.lever.say, tank.several)
    say = fill(text, look, tank.unit_of, tank.system, same) or text
    if option.lever.standing and tank.lookup("platform_kind") in _STANDING:
        say = f"{say} {_reset(tank, look) if _HEIGHT in chosen else option.lever.standing}"
    for name, value in option.changes.items():
        before, unit = tank.best.known.get(name), tank.unit_of(name)
        yield Change(name, before, value, unit, say, option.lever.cost != _FREE)
        say = ""


def _reset(tank: Tank, look: Callable[[str], Any]) -> str:
    """Where a platform that stands or hangs has to go once the water line has moved."""
    text = f"Set the platform's surface {{{_HEIGHT}}} above it again; see that the ramp reaches in."
    return fill(text, look, tank.unit_of, tank.system) or ""


def _moved(tank: Tank, after: Tank, names: Sequence[str]) -> Iterator[Change]:
    for name in names:
        before, now = tank.best.known.get(name), after.best.known.get(name)
        if isinstance(now, float | int | np.floating) and before != now:
            yield Change(name, before, now, tank.unit_of(name), "")
