"""What a keeper can change: the levers, and the options they have on one tank."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from interview.advice.levers.guards import allowed
from interview.advice.levers.lever import Lever, Option, in_core_units
from interview.advice.levers.rows import LeverFile
from interview.advice.levers.settings import settings
from interview.advice.what_if.suppose import same
from interview.audit.checks.loader import all_checks
from interview.audit.tank import Tank
from interview.base.rows import read
from interview.care.facts import limits
from interview.core.wiring import quantities
from interview.vocabulary.vocabulary import riding

__all__ = ["PATH", "Lever", "Option", "all_levers", "cost_of", "options_of", "unit_of"]

PATH = Path(__file__).parent / "levers.yaml"

_PAIR = frozenset(("cover_basking", "uvb_path"))
"""One moves the other where it is named alone; who sets both keeps both, changed or not."""


@cache
def all_levers() -> tuple[Lever, ...]:
    """Every lever in the order of the file; FileError for one that is written wrong."""
    return in_core_units(read(PATH, LeverFile), unit_of)


def unit_of(name: str) -> str:
    """Core unit of an answer, by the formulas that take it or what a check holds it against.

    What neither knows is a word, a list, or yes or no.
    """
    return _units().get(name, "choice")


@cache
def _units() -> Mapping[str, str]:
    known = {**{name: fact.unit for name, fact in limits().items()}, **quantities().units}
    compared = [pair for check in all_checks() for pair in check.compared]
    return {**{name: known[bound] for name, bound in compared if bound in known}, **known}


def cost_of(lever: Lever) -> float:
    """What the lever costs, on the common scale."""
    return lever.price


def options_of(lever: Lever, tank: Tank) -> Iterator[Option]:
    """The settings a lever has on this tank, today's left out; none if it does not apply.

    What it sets where it is absent is set anew too, where none may be told as that is today: a new
    lamp is hung higher than the old one, if that hangs within reach.
    """
    if not lever.relevant.holds(tank.lookup, tank.unit_of):
        return
    kept = [*_allowed(lever, lever, tank)]
    anew = replace(lever, sets={**lever.sets, **lever.sets_if_absent}, sets_if_absent={})
    yield from kept or (_allowed(lever, anew, tank) if lever.sets_if_absent else ())


def _allowed(lever: Lever, as_set: Lever, tank: Tank) -> Iterator[Option]:
    seen: list[dict[str, Any]] = []
    for changes, steps in settings(as_set, tank):
        new = {n: v for n, v in changes.items() if not same(tank.best.known.get(n), v)}
        if _PAIR & set(new):
            new |= {name: changes[name] for name in _PAIR & set(changes)}
        same_as_now = lever.name in changes and lever.name not in new
        if same_as_now and lever.name in riding("platform"):
            new, same_as_now = dict(changes), False
        if new and not same_as_now and new not in seen and allowed(lever, new, tank):
            seen.append(new)
            yield Option(lever, new, steps)
