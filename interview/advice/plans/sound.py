"""Steps left out of a plan: those that bring a danger, and those that spoil a tank for nothing."""

from __future__ import annotations

from collections.abc import Sequence

from interview.advice.levers.guards import misplaced
from interview.advice.levers.levers import Option, cost_of
from interview.advice.plans.audited import Audited
from interview.advice.search.search import Mend, Search, merged
from interview.advice.what_if.suppose import moved_answers, same
from interview.audit.checks.findings import Finding
from interview.audit.tank import Tank

__all__ = ["sound", "unspoilt"]

_IN_REACH = "in reach"
"""What is wrong with a lamp that the steps together bring too near."""
_SPOILS = 5.0
"""What a step costs at least that empties a tank or lowers its water, on the levers' scale."""


def sound(search: Search, mend: Mend, before: Sequence[Finding], audited: Audited) -> Mend:
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


def unspoilt(search: Search, mend: Mend, audited: Audited) -> Mend:
    """The mend without what is rebuilt, or water taken out, where the tank is a STOP all the same.

    Such a step stays where it ends a danger by itself.
    """
    options, dangers = mend.options, _dangers(audited(mend.options))
    for step in sorted(options, key=lambda o: -cost_of(o.lever)) if dangers else ():
        fewer = tuple(o for o in options if o is not step)
        if cost_of(step.lever) >= _SPOILS and _dangers(audited(fewer)) <= dangers:
            options = fewer
    if options is mend.options:
        return mend
    return search.with_only(mend, tuple(o for o in options if _moves(search.tank, options, o)))


def _moves(tank: Tank, options: Sequence[Option], step: Option) -> bool:
    """Whether something is otherwise for a step; what nothing carries off stays by itself."""
    others = merged([option for option in options if option is not step])
    without = {**tank.best.known, **moved_answers(tank, others)}
    return not all(same(without.get(name), value) for name, value in step.changes.items())


def _dangers(findings: Sequence[Finding]) -> set[str]:
    return {f.check for f in findings if f.verdict == "danger"}
