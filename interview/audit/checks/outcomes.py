"""Sorts the draws of one tank by what a check says to each, and sums them up in a verdict."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from interview.audit.checks.check import Band, Check
from interview.audit.checks.verdicts import LEVELS, Chances, Level

__all__ = ["RULE_VERDICTS", "SURE", "chances_of", "deciding_rule", "levels_of", "rules_of", "weigh"]

SURE = 0.9
"""The chance from which on more certainty is worth no other setting."""

RULE_VERDICTS: dict[str, Level] = {
    "danger_when": "danger",
    "danger": "danger",
    "wrong_when": "wrong",
    "good_when": "good",
    "close_when": "close",
    "good": "good",
    "close": "close",
    "": "wrong",
}
"""The verdict of each rule of a check; where no rule holds it is wrong."""

Look = Callable[[str], Any]
"""Gives a name's value, or its sample of draws; None if unknown."""


def deciding_rule(check: Check, look: Look, unit_of: Callable[[str], str]) -> str | None:
    """The first rule that holds at single values; "" where the band is left, None if unknown.

    Inside the wider band only, nothing is decided while the good band itself is unknown.
    """
    rules = rules_of(check, look, unit_of)
    band_known = check.good is not None and "good" in rules
    for name, held in rules.items():
        if np.all(held):
            return name if name != "close" or band_known else None
    return "" if band_known else None


def weigh(check: Check, look: Look, unit_of: Callable[[str], str], at_best: str) -> Chances:
    """The chances of each level: every draw counts by the first rule it meets."""
    return chances_of(levels_of(check, look, unit_of, at_best))


def chances_of(levels: Any) -> Chances:
    """The share of each level among draws, told by their places in LEVELS."""
    shares = np.bincount(np.ravel(levels), minlength=len(LEVELS)) / np.size(levels)
    return Chances(**dict(zip(LEVELS, shares.tolist(), strict=True)))


def levels_of(check: Check, look: Look, unit_of: Callable[[str], str], at_best: str) -> Any:
    """The level of every draw as its place in LEVELS, by the first rule that it meets.

    Draws that the known rules leave open count by `at_best`, the rule of the best values,
    or as wrong where that is a known rule too.
    """
    rules = rules_of(check, look, unit_of)
    rules[at_best if at_best not in rules else ""] = True
    held = np.broadcast_arrays(*(np.asarray(h, dtype=bool) for h in rules.values()))
    return np.select(list(held), [LEVELS.index(RULE_VERDICTS[name]) for name in rules])


def rules_of(check: Check, look: Look, unit_of: Callable[[str], str]) -> dict[str, Any]:
    """Where each rule holds, in the order in which they count.

    A danger band counts before every condition but those the check names on purpose.
    """
    held = {key: when.each(look, unit_of) for key, when in check.whens.items()}
    value = look(check.measures)
    if value is not None:
        held |= {
            "danger": _beyond(check.danger, value, look),
            "good": _inside(check.good, value, look),
            "close": _inside(check.close, value, look),
        }
    order = ("danger_when", *check.overrules_danger, *RULE_VERDICTS)
    return {name: held[name] for name in dict.fromkeys(order) if held.get(name) is not None}


def _inside(band: Band | None, value: Any, look: Look) -> Any:
    """Where a value keeps every bound of a band; None if a bound is unknown."""
    if band is None or any(look(name) is None for name in band.names):
        return None
    kept = [value >= look(name) for name in band.low] + [value <= look(name) for name in band.high]
    return np.logical_and.reduce(np.broadcast_arrays(*kept))


def _beyond(band: Band | None, value: Any, look: Look) -> Any:
    """Where a value is past any bound of a danger band; None if a bound is unknown."""
    if band is None or any(look(name) is None for name in band.names):
        return None
    past = [value < look(name) for name in band.low] + [value > look(name) for name in band.high]
    return np.logical_or.reduce(np.broadcast_arrays(*past))
