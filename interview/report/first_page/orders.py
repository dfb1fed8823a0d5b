"""What can't wait, in the fewest orders: one that holds another says both."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from msgspec.structs import replace

from interview.audit.checks.loader import checks_by_id
from interview.audit.immediate_action import ImmediateAction
from interview.report.first_page.step import remedy

if TYPE_CHECKING:
    from interview.audit.checks.findings import Finding

__all__ = ["Order", "action_of", "fewest", "in_one", "joined"]


@dataclass(frozen=True)
class Order:
    """One thing to do at once: the finding it is for, and the checks that it meets besides."""

    finding: Finding
    action: ImmediateAction
    also: tuple[str, ...] = ()

    @property
    def about(self) -> tuple[str, ...]:
        """All checks that it meets."""
        return (self.finding.check, *self.also)


def action_of(finding: Finding) -> ImmediateAction:
    """What can't wait in the fewest words."""
    return finding.now or ImmediateAction(say=remedy(finding, 0))


def fewest(findings: Sequence[Finding]) -> list[Order]:
    """The findings as orders, without those that another order meets too.

    A lamp that is off until it is raised burns on no hot day; a tank that is emptied has no heater
    to cover and no water to change; and what says no more than another is not said again. What
    such an order asks for besides, as for a hotter day, is kept at the end of the other.
    """
    action = {finding.check: action_of(finding) for finding in findings}
    held: dict[str, list[str]] = {}
    for check in action:
        if cover := _cover(check, action):
            held.setdefault(cover, []).append(check)
    met = {check for checks in held.values() for check in checks}
    orders: list[Order] = []
    for finding in findings:
        if finding.check not in met:
            also = tuple(held.get(finding.check, ()))
            does = _with_last(action[finding.check], [action[check] for check in also])
            orders.append(Order(finding, does, also))
    return _while_off(orders)


def _while_off(orders: Sequence[Order]) -> list[Order]:
    """The orders with what they ask for while a lamp is off that another switches off."""
    off = {order.action.isolates for order in orders}
    told: list[Order] = []
    for order in orders:
        does = order.action
        if say := [said for lamp, said in does.while_off.items() if lamp in off]:
            does = replace(does, then=_last(does.then, *say))
        told.append(Order(order.finding, does, order.also))
    return told


def _with_last(action: ImmediateAction, met: Sequence[ImmediateAction]) -> ImmediateAction:
    """The action with the last clauses of those that it meets, but what its effects make idle."""
    said = action.clauses()
    kept = [a.then for a in met if a.then and a.unless not in action.effects]
    kept = [then for then in kept if then not in said]
    return replace(action, then=_last(action.then, *kept)) if kept else action


def _last(*clauses: str) -> str:
    """Last clauses in one, each once."""
    return "; ".join(dict.fromkeys(filter(None, clauses)))


def _cover(check: str, action: dict[str, ImmediateAction]) -> str | None:
    """The check whose order meets this one's too; None where none does."""
    idle, own = checks_by_id()[check].superseded_by, set(action[check].clauses())
    for other, does in action.items():
        if (idle and idle in does.effects) or own < set(does.clauses()):
            return other
    return None


def in_one(orders: Sequence[Order]) -> list[Order]:
    """The orders, those of one lamp and those of one heater in one sentence each."""
    return _isolated(joined(orders))


def joined(orders: Sequence[Order]) -> list[Order]:
    """Two orders of which one has a sentence for both: it stands in the place of that one."""
    for one in orders:
        for other in orders:
            if say := one.action.joined.get(other.finding.check):
                does = replace(one.action, say=say)
                both = Order(one.finding, does, (*one.also, *other.about))
                return [both if o is one else o for o in orders if o is not other]
    return list(orders)


def _isolated(orders: Sequence[Order]) -> list[Order]:
    """Those to switch one lamp off until it hangs as it should, in the place of the first."""
    told: list[Order] = []
    for order in orders:
        lamp = order.action.appliance
        alike = [o for o in orders if lamp and o.action.appliance == lamp]
        if len(alike) < 2 or not any(o.action.isolates for o in alike):
            told.append(order)
        elif order is alike[0]:
            told.append(_off(alike))
    return told


def _off(alike: Sequence[Order]) -> Order:
    isolating = [order.action for order in alike if order.action.isolates]
    adjusting = [order.action for order in alike if not order.action.isolates]
    actions = (*isolating, *adjusting)
    does = replace(
        isolating[0],
        until="; ".join(a.until for a in actions),
        then=_last(*(a.then for a in actions)),
        effects=tuple(dict.fromkeys(effect for a in actions for effect in a.effects)),
    )
    _, *also = (check for order in alike for check in order.about)
    return Order(alike[0].finding, does, tuple(also))
