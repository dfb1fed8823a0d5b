"""Tanks at random, many at once: every number thrown anew round one that was typed, some words too.

Nobody may ever have kept such a tank. What physics asks holds for it all the same.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from typed_tanks import DEMOS, TESTS, interview_in

from interview.audit.sampling.sample import best_values
from interview.care.facts import assumptions
from interview.core.numeric import is_number
from interview.core.wiring import quantities
from interview.core.working import Working

__all__ = ["GROUNDS", "random_tanks", "shares", "worked_out"]

GROUNDS = (*sorted(DEMOS.glob("*.yaml")), *sorted((TESTS / "tanks").glob("*.yaml")))
"""What the tanks are thrown round."""
_COUNTS = ("filter_count", "heater_count", "lamp_fixings", "animal_count")
_WORDS: Mapping[str, tuple[str, ...]] = {
    "platform_kind": ("floating", "fixed", "pile", "above_tank"),
    "heat_lamp_kind": ("halogen", "incandescent", "ceramic", "infrared", "mercury_vapour"),
    "heat_lamp_beam": ("bare", "flood", "spot"),
    "uvb_lamp_kind": ("tube_t5", "tube_t8", "coil", "metal_halide"),
    "uvb_strength": ("low", "high"),
    "uvb_path": ("open", "mesh"),
    "cover_water": ("none", "mesh", "glass"),
    "cover_basking": ("none", "mesh", "glass"),
}
"""Words that one throw gives to all tanks of a ground."""
Known = dict[str, Any]


def random_tanks(ground: int, count: int, seed: int) -> Known:
    """What is known of `count` tanks thrown round one of the grounds, by name, in core units."""
    dice = np.random.default_rng([seed, ground])
    given = interview_in(GROUNDS[ground]).given()
    known: Known = dict(best_values(given, assumptions()))
    for name in sorted(set(known) & set(given)):
        if is_number(known[name]) and name not in _COUNTS:
            known[name] = _thrown(name, known[name], given[name].unit, count, dice)
    for name, words in _WORDS.items():
        if name in known and known[name] != "none" and dice.random() < 0.5:
            known[name] = str(dice.choice(words))
    return known


def _thrown(name: str, typed: Any, unit: str, count: int, dice: np.random.Generator) -> Any:
    """Numbers from half to twice as much, temperatures within 8 K, inside what can be."""
    animals = np.shape(typed)
    around = dice.uniform(-1, 1, (count, *animals))
    thrown = typed + 8 * around if unit == "degC" else typed * 2.0**around
    low, high = quantities().range_of(name)
    low = max(low, 0.0) if unit != "degC" else low
    return np.clip(thrown, low, min(high, 1.0) if unit == "1" and np.max(typed) <= 1 else high)


def shares(count: int, seed: int, low: float, high: float, animals: int = 0) -> Any:
    """A number for each tank, or for each animal of each."""
    shape = (count, animals) if animals else count
    return np.random.default_rng(seed).uniform(low, high, shape)


def worked_out(known: Known) -> Working:
    """The quantities of all the tanks."""
    return quantities().working(known, draws=True)
