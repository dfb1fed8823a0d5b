"""Up to three plans that put the tank right, each verified by auditing the changed tank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from interview.advice.levers.levers import Option
from interview.advice.plans.audited import Audited
from interview.advice.plans.choosing import BADNESS, TIME_MENDS, when_ripe, worth_showing
from interview.advice.plans.firm import firm
from interview.advice.plans.leaving import what_is_left
from interview.advice.plans.order import also_worth, ending, in_order
from interview.advice.plans.plan import Plan
from interview.advice.plans.sound import sound, unspoilt
from interview.advice.plans.wording import changes_of, folded, moved_along
from interview.advice.purchase.parting import stays_here
from interview.advice.search.budget import Budget
from interview.advice.search.search import Mend, Search, merged
from interview.advice.search.worth_changing import worth_changing
from interview.advice.what_if.suppose import changed, moved_answers, to_take_again
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.audit.grades import NO_GRADE, Grades, grade_all, place
from interview.audit.tank import Tank

__all__ = ["plans", "plans_in_steps"]

_KINDS = (
    ("Move things only", ("free",)),
    ("Spend a little", ("free", "cheap")),
    ("Do it properly", ("free", "cheap", "buy")),
)
_LAST_RESORT = ("free", "cheap", "buy", "rebuild")
"""Another tank, stand or place, only where nothing less mends everything."""


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
    checks = [check for check in all_checks() if check.id not in TIME_MENDS]
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
        mend = _signed(search, mend, findings, audited)
        same = any(_keys(mend) == _keys(old) for old in seen)
        if mend.options and not same:
            seen.append(mend)
            found.append(_plan(name, search, mend, findings, audited))
            stopped = all(plan.grades.stop for plan in found)
            yield worth_showing([*found, first] if first and stopped else found, findings)


def _against_dangers(search: Search, findings: Sequence[Finding], audited: Audited) -> Plan | None:
    """A plan with the cheapest levers that end a danger; None where none does."""
    for name, costs in _KINDS:
        mend = search.against_dangers(frozenset(costs))
        if mend and mend.options:
            mend = _signed(search, mend, findings, audited)
            plan = _plan(name, search, mend, findings, audited)
            if worth_showing([plan], findings):
                return plan
    return None


def _signed(search: Search, mend: Mend, before: Sequence[Finding], audited: Audited) -> Mend:
    """The mend as an expert would sign it, all doubt counted."""
    mend = firm(search, mend, before, audited)
    return unspoilt(search, sound(search, mend, before, audited), audited)


def _still_off(finding: Finding) -> bool:
    """Whether a finding that the search left is worth naming."""
    return finding.applies and finding.verdict != "good"


def _keys(mend: Mend) -> frozenset[str]:
    return frozenset(f"{o.lever.name} {sorted(map(str, o.changes.items()))}" for o in mend.options)


def _plan(
    name: str, search: Search, mend: Mend, before: Sequence[Finding], audited: Audited
) -> Plan:
    tank = search.tank
    first = ending(search, mend.options, audited)

    def rank(some: Sequence[Option]) -> int:
        return grade_all(when_ripe(audited(some), before)).rank

    extra = also_worth(search, mend.options, first, rank)
    rest = [option for option in mend.options if option not in (*first, *extra)]
    groups = [folded(some) for some in (first, in_order(search, rest), extra)]
    options = tuple(option for group in groups for option in group)
    after = changed(tank, merged(options))
    findings = audited(options)
    moved = moved_answers(tank, merged(options))
    named = {name for option in options for name in (option.lever.name, *option.changes)}
    then = grade_all(audited(first)) if first else None
    ended = then is not None and not then.stop
    ripe = when_ripe(findings, before)
    return Plan(
        name=name,
        changes=tuple(row for o in options for row in changes_of(o, tank, after)),
        moved=tuple(moved_along(tank, after, [n for n in moved if n not in named])),
        findings=findings,
        grades=grade_all(ripe),
        left=tuple(f for f in findings if f.check in mend.left and _still_off(f)),
        cost=mend.cost,
        against=mend.against,
        urgent=len(groups[0]) if ended else 0,
        then=then if ended else None,
        meanwhile=None if len(ripe) == len(findings) else grade_all(findings),
        worse=tuple(_worse_sections(grade_all(before), grade_all(ripe))),
        nearer=tuple(_nearer(ripe, before)),
        proven=mend.proven,
        needed=len(options) - len(groups[2]),
        rest=tuple(
            what_is_left(
                ripe,
                mend.left,
                mend.against,
                TIME_MENDS,
                stays_here(tank),
                dearest=name == _KINDS[-1][0],
            )
        ),
        take_again=to_take_again(tank, after, merged(options)),
        steps=options,
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
    return BADNESS.get(finding.verdict, 0)


def _worse_sections(before: Grades, after: Grades) -> Iterator[tuple[str, str, str]]:
    was = dict(before.sections)
    for section, letter in after.sections:
        if letter != NO_GRADE and place(letter) > place(was[section]):
            yield section, was[section], letter
