"""What an existing tank's plans need bought, by specification, and what to measure it with."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import islice

from interview.advice.levers.lever import Option
from interview.advice.plans.plan import Plan
from interview.advice.purchase.in_shops import in_shops
from interview.advice.purchase.usual import usual
from interview.advice.what_if.candidates import rests_on
from interview.audit.audit import Audit
from interview.audit.checks.findings import Finding
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.vocabulary.phrases import fill

__all__ = ["Item", "bought_with_another", "specified", "to_buy"]

_MOST_NAMED = 3
"""Checks that are told of one thing; the gravest say enough."""
_NEEDLESS_WITH = {"Heater guard": "Heater"}
"""What isn't got besides another thing: new heaters are got with theirs."""
_OFF = ("close", "wrong", "danger")
_ORDER = {verdict: place for place, verdict in enumerate(("danger", "wrong", "close"))}


@dataclass(frozen=True)
class Item:
    """One thing to buy.

    `plan` names the cheapest plan that needs it, "" for an instrument. `checks` are ids of what it
    mends, the gravest first; `measures` the answers it reads. Where both are empty, `step` alone
    tells what it is for.
    """

    what: str
    specification: str
    step: str = ""
    plan: str = ""
    checks: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The item in one line."""
        return f"{self.what}: {self.specification}" if self.specification else self.what


def to_buy(audit: Audit, plans: Sequence[Plan]) -> tuple[Item, ...]:
    """What the last of the plans, which does most, needs bought; then what is measured with.

    Each thing stands once, under the cheapest plan that needs it. Empty where nothing is bought.

    Args:
        audit: the tank as it is
        plans: those that are shown, the cheapest first
    """
    gear = _once(_gear(audit, plans[-1])) if plans else []
    first = {item.text: plan.name for plan in reversed(plans) for item in _gear(audit, plan)}
    gear = [replace(item, plan=first[item.text]) for item in gear]
    return (*gear, *_instruments(audit, plans))


def _gear(audit: Audit, plan: Plan) -> Iterator[Item]:
    """What each step takes, in the order of the steps, as the tank will be after all of them."""
    after = plan.carried_out(audit.tank)
    said = iter(change.say for change in plan.changes if change.say)
    bought = {what for step in plan.steps for what in step.lever.buys}
    for step in plan.steps:
        sentence = next(said, "")
        if bought_with_another(step, plan.steps):
            continue
        for what, text in step.lever.buys.items():
            if _NEEDLESS_WITH.get(what) in bought:
                continue
            specification = specified(text, after)
            checks = tuple(islice(_mended(step, audit, plan), _MOST_NAMED))
            yield Item(what, specification, sentence, plan.name, checks)


def bought_with_another(step: Option, steps: Sequence[Option]) -> bool:
    """Whether another step says of the same thing how it has to be, and this one how many."""
    others = [other for other in steps if other is not step]
    return any(
        set(step.lever.buys) & set(other.lever.buys)
        and set(step.lever.together) & set(other.changes)
        for other in others
    )


def specified(text: str, tank: Tank) -> str:
    """The parts of a specification whose numbers are known, filled in for a tank.

    Args:
        text: as a lever's `buys` has it, parts between semicolons
        tank: as it will be
    """
    own = in_shops(tank)

    def look(name: str) -> object:
        return own[name] if name in own else tank.lookup(name)

    parts = (fill(part, look, tank.unit_of, tank.system) for part in text.split("; "))
    return "; ".join(part for part in parts if part)


def _mended(step: Option, audit: Audit, plan: Plan) -> Iterator[str]:
    """Checks that are off today, better after the plan, and may feel the step."""
    after = {finding.check: finding for finding in plan.findings}
    names, wiring = {*step.changes}, audit.tank.best.wiring
    felt = {check.id for check in all_checks() if names & rests_on(check.names, wiring)}
    off = [f for f in audit.findings if f.applies and f.verdict in _OFF and f.check in felt]
    for finding in sorted(off, key=lambda f: (_ORDER[f.verdict], -f.weight)):
        if step.lever.meant_for(finding.check) and _better(finding, after[finding.check]):
            yield finding.check


def _better(before: Finding, after: Finding) -> bool:
    return not after.applies or _ORDER.get(after.verdict, len(_ORDER)) > _ORDER[before.verdict]


def _instruments(audit: Audit, plans: Sequence[Plan]) -> Iterator[Item]:
    """What reads the answers that are asked for next, or again after the last plan."""
    wanted = [*audit.measure_next, *(plans[-1].take_again if plans else ())]
    reads: dict[tuple[str, str], list[str]] = {}
    for name in dict.fromkeys(wanted):
        for row in usual().instruments.get(name, {}).items():
            reads.setdefault(row, []).append(name)
    for (what, specification), names in reads.items():
        yield Item(what, specification, measures=tuple(names))


def _once(items: Iterable[Item]) -> list[Item]:
    """Each thing once, with all the checks it is for."""
    found: dict[str, Item] = {}
    for item in items:
        old = found.get(item.text)
        checks = tuple(dict.fromkeys((*(old.checks if old else ()), *item.checks)))
        found[item.text] = replace(old or item, checks=checks)
    return list(found.values())
