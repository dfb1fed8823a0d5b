"""What a keeper can change: levers as data, and the options they have on one tank."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

from interview.advice.levers.guards import allowed
from interview.advice.levers.settings import RIDERS, settings
from interview.advice.what_if.suppose import same
from interview.audit.tank import Tank
from interview.base.conditions import Condition
from interview.base.rows.lines import FileError, Lined, read

__all__ = ["Lever", "Option", "all_levers", "cost_of", "options_of"]

_KEYS = {
    *("lever", "cost", "of", "around", "times", "sets", "sets_if_absent", "trade_sizes"),
    *(
        "least",
        "most",
        "relevant",
        "say",
        "for",
        "bother",
        "standing",
        "not_under",
        "renewed",
        "due",
    ),
}


@dataclass(frozen=True)
class Lever:
    """One thing to change; `row` holds how far, as written."""

    name: str
    cost: str
    say: str
    row: Lined
    relevant: Condition = field(default_factory=lambda: Condition.read([]))

    @property
    def choosy(self) -> bool:
        """Whether a keeper would use it for some checks only."""
        return "for" in self.row

    def meant_for(self, check: str) -> bool:
        """Whether a keeper would use it for that check."""
        return check in self.row.get("for", [check])


@dataclass(frozen=True)
class Option:
    """One setting of a lever: the answers it gives, in core units."""

    lever: Lever
    changes: Mapping[str, Any]
    steps: float = 1.0
    """How far it moves, in steps of the lever: the smaller of two equal mends wins."""


@cache
def _file() -> Any:
    return read(Path(__file__).parent / "levers.yaml")


@cache
def all_levers() -> tuple[Lever, ...]:
    """Every lever in the order of the file; FileError for one that is written wrong."""
    return tuple(_lever(row) for row in _file()["levers"])


def _lever(row: Lined) -> Lever:
    name = row.get("lever", "")
    if unknown := set(row) - _KEYS:
        raise FileError(row, f"{name}: unknown key {', '.join(sorted(unknown))}")
    if row.get("cost") not in _file()["costs"] or not row.get("say"):
        raise FileError(row, f"{name} needs a cost from the list above and a sentence to say")
    return Lever(name, row["cost"], row["say"], row, Condition.read(row.get("relevant", [])))


def cost_of(lever: Lever) -> float:
    """What the lever costs, on the common scale."""
    return float(_file()["costs"][lever.cost]["value"]) + float(lever.row.get("bother", 0))


def options_of(lever: Lever, tank: Tank) -> Iterator[Option]:
    """The settings a lever has on this tank, today's left out; none if it does not apply."""
    if not lever.relevant.holds(tank.lookup, tank.unit_of):
        return
    seen: list[dict[str, Any]] = []
    for changes, steps in settings(lever.name, lever.row, tank):
        new = {n: v for n, v in changes.items() if not same(tank.best.known.get(n), v)}
        same_as_now = lever.name in changes and lever.name not in new
        if same_as_now and lever.name in RIDERS:
            new, same_as_now = dict(changes), False
        if new and not same_as_now and new not in seen and allowed(lever.row, new, tank):
            seen.append(new)
            yield Option(lever, new, steps)
