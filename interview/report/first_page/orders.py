"""What can't wait, in the fewest orders: one that holds another says both."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from interview.report.first_page.sentences import enumerated
from interview.report.first_page.step import remedy

if TYPE_CHECKING:
    from interview.audit.checks.findings import Finding

__all__ = ["Order", "at_once", "clauses", "fewest", "in_one", "moot", "order_of"]

_HELD_BY_RAISING = ("basking_hot_day",)
_RAISED = "basking_heat"
_LAMP_OFF = "Heat lamp off, until "
_HOT_DAY = "Raise or dim the heat lamp; "
_EMPTIED = "empty the tank"
_AT_ONCE = ("Unplug", "Plugs out;", "Animals into a tub")
"""How an order begins that goes before all others: what is live or hot by the water first."""
_HELD_BY_EMPTYING = (
    *("heater_cover", "heater_glass", "ammonia", "nitrite", "nitrate_today", "dechlorination"),
    *("water_temperature", "tank_glass"),
)
"""What an empty tank with its plugs out has no more: the plan sees to it before it is filled."""
_DRAINED = "drain the tank below the damage"
_DRY, _GLASS, _MOUNT = "heater_cover", "heater_glass", "mount flat"
Said: TypeAlias = tuple[tuple[str, ...], str]
"""An order in words, after the checks that it meets."""


@dataclass(frozen=True)
class Order:
    """One thing to do at once: the finding it is for, and the checks that it meets besides."""

    finding: Finding
    also: tuple[str, ...] = ()

    @property
    def about(self) -> tuple[str, ...]:
        """All checks that it meets."""
        return (self.finding.check, *self.also)


def order_of(finding: Finding) -> str:
    """What can't wait in the fewest words."""
    return finding.now or remedy(finding, 0)


def clauses(order: str) -> list[str]:
    """The parts of an order that can stand alone."""
    return order.rstrip(".").split("; ")


def moot(orders: Iterable[str]) -> set[str]:
    """Clauses that need not be said beside these orders."""
    return {_DRAINED} if any(_EMPTIED in order for order in orders) else set()


def fewest(findings: Sequence[Finding]) -> list[Order]:
    """The findings as orders, without those that another order meets too.

    A lamp that is off until it is raised burns on no hot day; a tank that is emptied has no heater
    to cover and no water to change; and what says no more than another is not said again.
    """
    held: dict[str, list[str]] = {}
    said = {finding.check: set(clauses(order_of(finding))) for finding in findings}
    for finding in findings:
        if cover := _cover(finding, findings, said):
            held.setdefault(cover, []).append(finding.check)
    met = {check for checks in held.values() for check in checks}
    return [Order(f, tuple(held.get(f.check, ()))) for f in findings if f.check not in met]


def _cover(
    finding: Finding, findings: Sequence[Finding], said: Mapping[str, set[str]]
) -> str | None:
    """The check whose order meets this finding too; None where none does."""
    for other in findings:
        raised = other.check == _RAISED and order_of(other).startswith(_LAMP_OFF)
        emptied = _EMPTIED in order_of(other)
        if (
            (raised and finding.check in _HELD_BY_RAISING)
            or (emptied and finding.check in _HELD_BY_EMPTYING)
            or said[finding.check] < said[other.check]
        ):
            return other.check
    return None


def at_once(order: str) -> bool:
    """Whether it goes before others."""
    return order.startswith(_AT_ONCE)


def in_one(orders: Sequence[Said]) -> list[Said]:
    """The orders, those of one lamp and those of one heater in one sentence each.

    Args:
        orders: each with the checks that it meets
    """
    return _heater(_lamp_off(orders))


def _heater(orders: Sequence[Said]) -> list[Said]:
    """A bare heater that lies dry is guarded when it goes back, no hand goes in before."""
    glass = next((row for row in orders if row[0][0] == _GLASS), None)
    dry = next((row for row in orders if row[0][0] == _DRY and _MOUNT in row[1]), None)
    if glass is None or dry is None:
        return list(orders)
    both = ((*dry[0], *glass[0]), dry[1].replace(_MOUNT, f"guard it, {_MOUNT}"))
    return [both if row is dry else row for row in orders if row is not glass]


def _lamp_off(orders: Sequence[Said]) -> list[Said]:
    """Those to switch the heat lamp off until something is so."""
    off = [row for row in orders if row[1].startswith(_LAMP_OFF)]
    hot = [row for row in orders if row[1].startswith(_HOT_DAY)]
    if len(off) + len(hot) < 2 or not off:
        return list(orders)
    until = [said.removeprefix(_LAMP_OFF).rstrip(".") for _, said in off]
    then = [said.removeprefix(_HOT_DAY).rstrip(".") for _, said in hot]
    until += ["it is raised or dimmed"] * len(then)
    told = f"{_LAMP_OFF}{enumerated(until)}{''.join(f'; {said}' for said in then)}."
    about = tuple(check for checks, _ in (*off, *hot) for check in checks)
    first = min(orders.index(row) for row in (*off, *hot))
    rest = [(n, row) for n, row in enumerate(orders) if row not in (*off, *hot)]
    return [
        *(row for n, row in rest if n < first),
        (about, told),
        *(row for n, row in rest if n > first),
    ]
