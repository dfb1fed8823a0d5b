"""The sentences of a plan's steps, and the answers that each gives or moves along."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np

from interview.advice.levers.levers import Option, cost_of
from interview.advice.plans.plan import Change
from interview.advice.purchase.in_shops import in_shops
from interview.advice.purchase.larger_tank import grown_tank
from interview.advice.what_if.suppose import same
from interview.audit.tank import Tank
from interview.base.templates import by_number
from interview.vocabulary.phrases import fill

__all__ = ["changes_of", "folded", "moved_along"]

_FREE = "free"


def folded(options: Iterable[Option]) -> list[Option]:
    """The steps, two that are one act told as one, at the place of the first."""
    left, done = list(options), list[Option]()
    while left:
        step = left.pop(0)
        for other in list(left):
            one = _as_one(step, other)
            if one is not None:
                left.remove(other)
                step = one
        done.append(step)
    return done


def _as_one(first: Option, second: Option) -> Option | None:
    """Two steps as one, with the sentence that one of their levers has for both."""
    for own, other in ((first, second), (second, first)):
        say = own.lever.together.get(other.lever.name)
        if say is None:
            continue
        dearer = max(own.lever, other.lever, key=cost_of)
        only_for = own.lever.only_for and other.lever.only_for
        lever = replace(
            own.lever,
            say=say,
            cost=dearer.cost,
            price=cost_of(own.lever) + cost_of(other.lever),
            only_for=(*own.lever.only_for, *other.lever.only_for) if only_for else (),
            buys={**other.lever.buys, **own.lever.buys},
        )
        return Option(lever, {**first.changes, **second.changes}, first.steps + second.steps)
    return None


_UNTOLD = {"outside": "the same size", "foam_thick": "enough"}
"""What stands for a size that nobody told."""


def changes_of(option: Option, tank: Tank, after: Tank) -> Iterator[Change]:
    """A row for each answer of an option; the sentence stands on the first."""
    shops = in_shops(after)
    told = {name: shops[name] or said for name, said in _UNTOLD.items()}
    own = {**shops, **told, "grown_tank": grown_tank(after)}
    own["value"] = option.changes.get(option.lever.name)

    def look(name: str) -> Any:
        return own[name] if own.get(name) is not None else after.lookup(name)

    same = {"value": option.lever.name}
    text = by_number(option.lever.kept if _stays(option, tank) else option.lever.say, tank.several)
    say = fill(text, look, tank.unit_of, tank.system, same) or text
    for more in option.lever.besides:
        besides = fill(more.say, look, tank.unit_of, tank.system)
        if besides and more.when.holds(after.lookup, tank.unit_of):
            say = f"{say} {besides}"
    for name, value in option.changes.items():
        before, unit = tank.best.known.get(name), tank.unit_of(name)
        yield Change(name, before, value, unit, say, option.lever.cost != _FREE)
        say = ""


def _stays(option: Option, tank: Tank) -> bool:
    """Whether it only keeps a value that another step would move along."""
    known = tank.best.known
    here = all(same(known.get(name), value) for name, value in option.changes.items())
    return bool(option.lever.kept) and here


def moved_along(tank: Tank, after: Tank, names: Sequence[str]) -> Iterator[Change]:
    """A row for each number that another change moves along."""
    for name in names:
        before, now = tank.best.known.get(name), after.best.known.get(name)
        if isinstance(now, float | int | np.floating) and before != now:
            yield Change(name, before, now, tank.unit_of(name), "")
