"""One audit for each setup: what was judged once in a test run is not judged again.

An audit follows from the answers alone, so the same answers get the audit that was made for them,
under the title that is asked for. Advice is kept for an audit and a day. Plans, those of a talk in
steps, the list for a planned tank and its mishaps in short follow from the audit: the same answers
get them even if their audit is gone. Plans hold no draws, so those of many tanks are kept. What a
formula that takes long came to serves every tank with the same numbers. A test that counts how they
are made makes them anew. What is kept is bounded, and a mutation run, which changes the core
between two audits, keeps nothing.
"""

from __future__ import annotations

import datetime
import os
import weakref
from collections import OrderedDict, defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache, wraps
from typing import Any, TypeVar

from interview import assembly
from interview.advice import advise
from interview.advice.advise import Advice, Progress
from interview.advice.forecast import side_by_side
from interview.advice.forecast.lanes import Lanes
from interview.advice.forecast.mishaps import Outcome
from interview.advice.plans import plans as planned
from interview.advice.plans.plan import Plan
from interview.advice.purchase import planning
from interview.advice.purchase.planning import Specification
from interview.advice.search.budget import Budget
from interview.audit.audit import Audit
from interview.audit.checks.findings import Finding
from interview.audit.tank import Tank
from interview.core import working
from interview.core.formula import Formula
from interview.core.remembered import RememberedDear
from interview.graph.interview import Interview

__all__ = [
    "anew",
    "for_a_file",
    "for_each_audit",
    "forget_file",
    "keep_audits",
    "plans_anew",
    "steps_anew",
]

Made = TypeVar("Made")

_audits: OrderedDict[Any, Audit] = OrderedDict()
_advice: OrderedDict[Any, tuple[Audit, Advice]] = OrderedDict()
_steps: OrderedDict[Any, tuple[tuple[Plan, ...], ...]] = OrderedDict()
_plans: OrderedDict[Any, tuple[Plan, ...]] = OrderedDict()
_lists: OrderedDict[Any, Specification | None] = OrderedDict()
_mishaps: OrderedDict[Any, tuple[Outcome, ...]] = OrderedDict()
_sources: OrderedDict[int, tuple[weakref.ref[Tank], Sequence[Finding], Any]] = OrderedDict()
"""By the id of an audit's tank: the tank, what was found of it, and the answers it came from."""
_dear: defaultdict[Any, OrderedDict[Any, Any]] = defaultdict(OrderedDict)
"""By formula, what went in and what came out."""
_of_this_file: list[Any] = []
_MOST_AUDITS, _MOST_ADVICE = 20, 4  # about 5 MB each
_MOST_BETWEEN = 10  # audits that one test file leaves to the next
_MOST_LISTS = 2  # each holds two tanks
_MOST_PLANS = 200  # some 100 kB each
_MOST_MISHAPS = 40  # with their curves
_MOST_PAGES = 8
anew: Callable[[Interview, str], Audit] = assembly.audit_of
"""An audit that is made whatever is kept."""
plans_anew = planned.plans
"""Plans that are looked for whatever is kept."""
steps_anew = assembly.advice_in_steps
"""Advice in steps that is worked out whatever is kept."""
_advise, _specify = assembly.advice_of, planning.specify
_run_mishaps = side_by_side.mishaps_in_short


class _DearToAll(RememberedDear):
    """What a dear formula came to for one tank serves the others: they differ in a few answers."""

    def __call__(self, formula: Formula, given: Mapping[str, Any]) -> Any:
        self._results = _dear[self._draws, formula.function]
        return super().__call__(formula, given)


class _OfTalk(Budget):
    """What a talk may take; plans in steps are kept for no other budget."""

    awaited = False
    """Whether the clock bounds it too, so that less may be found."""


def keep_audits() -> None:
    """Let audits, advice, plans and lists for planned tanks be kept once they are made."""
    if "MUTANT_UNDER_TEST" not in os.environ:
        assembly.audit_of, assembly.advice_of = _audit_of, _advice_of
        assembly.advice_in_steps = _advice_in_steps_of
        planned.plans = advise.plans = _plans_of
        advise.plans_in_steps = _plans_in_steps_of
        planning.specify = advise.specify = _list_for
        side_by_side.mishaps_in_short = _mishaps_of
        working.RememberedDear = _DearToAll


def for_a_file(make: Callable[..., Made]) -> Callable[..., Made]:
    """As `functools.cache`, for what stands beside test files and holds much: until one ends."""
    made = cache(make)
    _of_this_file.append(made)
    return made


def forget_file() -> None:
    """Let go of what was kept for a test file, and of the audits used longest ago."""
    for made in _of_this_file:
        made.cache_clear()
    while len(_audits) > _MOST_BETWEEN:
        _audits.popitem(last=False)


def for_each_audit(make: Callable[[Audit], Made]) -> Callable[[Audit], Made]:
    """Let what is made of an audit be made once for each of the last few; text, blocks, no draws.

    Forgotten with its test file, as what `functools.cache` keeps.
    """
    kept: OrderedDict[int, tuple[Audit, Made]] = OrderedDict()

    @wraps(make)
    def made(audit: Audit) -> Made:
        _, found = kept.get(id(audit)) or (audit, make(audit))
        _keep(kept, id(audit), (audit, found), _MOST_PAGES)
        return found

    made.cache_clear = kept.clear  # type: ignore[attr-defined]
    return made


def _audit_of(interview: Interview, title: str) -> Audit:
    key = interview.system, repr(sorted(interview.given().items()))
    audit = _audits.get(key) or anew(interview, title)
    _keep(_audits, key, audit, _MOST_AUDITS)
    source = weakref.ref(audit.tank), audit.findings, key
    _keep(_sources, id(audit.tank), source, _MOST_PLANS)
    return audit if audit.title == title else replace(audit, title=title)


def _advice_of(audit: Audit, today: datetime.date | None = None) -> Advice:
    key = id(audit.tank), audit.title, today or datetime.date.today()
    _, advice = _advice.get(key) or (audit, _advise(audit, today))
    _keep(_advice, key, (audit, advice), _MOST_ADVICE)
    return advice


def _advice_in_steps_of(audit: Audit, *, awaited: bool) -> Iterator[Progress]:
    budget = _OfTalk.shipped(talking=awaited)
    budget.awaited = awaited
    return advise.advise_in_steps(audit, datetime.date.today(), budget)


def _plans_in_steps_of(
    tank: Tank, findings: Sequence[Finding], budget: Budget
) -> Iterator[tuple[Plan, ...]]:
    answers = _answers_of(tank, findings)
    if answers is None or not isinstance(budget, _OfTalk):
        yield from planned.plans_in_steps(tank, findings, budget)
        return
    key, steps = (answers, budget.awaited), []
    for plans in _steps.get(key) or planned.plans_in_steps(tank, findings, budget):
        steps.append(plans)
        yield plans
    _keep(_steps, key, tuple(steps), _MOST_PLANS)  # not where somebody left before the end


def _plans_of(
    tank: Tank, findings: Sequence[Finding], budget: Budget | None = None
) -> tuple[Plan, ...]:
    key = None if budget else _answers_of(tank, findings)
    if key is None:
        return plans_anew(tank, findings, budget)
    plans = _plans[key] if key in _plans else plans_anew(tank, findings)
    _keep(_plans, key, plans, _MOST_PLANS)
    return plans


def _list_for(tank: Tank) -> Specification | None:
    key = _answers_of(tank)
    if key is None:
        return _specify(tank)
    listed = _lists[key] if key in _lists else _specify(tank)
    _keep(_lists, key, listed, _MOST_LISTS)
    return listed


def _mishaps_of(tank: Tank, lanes: Lanes) -> tuple[Outcome, ...]:
    key = _answers_of(tank)
    if key is None:
        return _run_mishaps(tank, lanes)
    outcomes = _mishaps[key] if key in _mishaps else _run_mishaps(tank, lanes)
    _keep(_mishaps, key, outcomes, _MOST_MISHAPS)
    return outcomes


def _answers_of(tank: Tank, findings: Sequence[Finding] | None = None) -> Any:
    """The answers that a tank came from; None where it, with its findings, is of no audit."""
    known, found, key = _sources.get(id(tank), (None, None, None))
    its_own = known is not None and known() is tank and (findings is None or findings is found)
    return key if its_own else None


def _keep(kept: OrderedDict[Any, Any], key: Any, made: Any, most: int) -> None:
    """Keep what was made, the last used last, and drop what was used longest ago."""
    kept[key] = made
    kept.move_to_end(key)
    if len(kept) > most:
        kept.popitem(last=False)
