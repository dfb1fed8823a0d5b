"""Number types and the few array helpers every subject shares."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.errors import Missing

__all__ = [
    "Num",
    "Words",
    "alike",
    "draws_at_least",
    "each_animal",
    "first_known",
    "floats",
    "is_number",
    "largest",
    "power",
    "shaped_like",
    "solve_rising",
]

Num: TypeAlias = float | NDArray[np.float64]
"""A float, or an array of draws or candidates: everything broadcasts."""

_CLOSE_ENOUGH = 1e-10  # of the bracket
_NEXT_TO_NOTHING = 1e-300  # has a logarithm, and no root that is asked for of it counts

Words: TypeAlias = tuple[str, ...]
"""One word for each animal (species ids, sexes)."""


def floats(value: Any) -> NDArray[np.float64]:
    """A number, or numbers, as floats: whole ones and lists may be given too."""
    return np.asarray(value, dtype=float)


def first_known(name: str, *values: Num | None) -> Num:
    """The first value there is; Missing, asking for `name`, if there is none."""
    for value in values:
        if value is not None:
            return value
    raise Missing(name)


def each_animal(value: Num) -> NDArray[np.float64]:
    """A tank-wide number shaped to meet per-animal arrays, whose animals lie on the last axis."""
    return floats(value)[..., None]


def alike(one: Any, other: Any) -> bool:
    """Whether two values are the same, number by number; gaps (NaN) in an array are alike."""
    if isinstance(one, np.ndarray) and isinstance(other, np.ndarray):
        return one is other or np.array_equal(one, other, equal_nan=True)
    return type(one) is type(other) and bool(one == other)


def draws_at_least(value: Any, least: Num) -> Any:
    """Draws below the least that can be, raised to it; where all are below 0, as they are.

    What is below 0 at its best value is for the wiring to refuse.
    """
    return value if np.all(np.less(value, 0.0)) else np.maximum(value, least)


def is_number(value: Any) -> bool:
    """Whether a value can be reckoned with: no word, no yes or no, no list of words."""
    return not isinstance(value, str | bool | tuple)


def largest(per_animal: Num) -> Any:
    """Largest over the animals (last axis); a lone number is its own largest."""
    return np.max(np.atleast_1d(per_animal), axis=-1)


def power(base: Num, exponent: float) -> Num:
    """A number of at least 0 raised to a fixed power: numpy's own takes ten times as long."""
    if exponent == 3:
        return base * base * base
    if exponent == 4:
        squared = base * base
        return squared * squared
    return np.exp(exponent * np.log(np.maximum(base, _NEXT_TO_NOTHING)))


def shaped_like(value: Num, unused: Num) -> Num:
    """The value in the shape it has together with an input that doesn't move it."""
    if not np.ndim(unused):
        return value
    shape = np.broadcast_shapes(np.shape(value), np.shape(unused))
    return np.broadcast_to(value, shape) if shape else value


def solve_rising(
    function: Callable[[Any], Any], low: Num, high: Num, *, steps: int = 60
) -> NDArray[np.float64]:
    """Where an increasing function of one array argument crosses zero.

    False position that halves the weight of an end which stays (the Illinois rule), element
    by element on broadcast brackets, so a whole cloud of draws is solved at once. Elements
    without a crossing end on the nearer bracket end.

    On 2,048 surfaces under lamps it takes 0.7 ms and 9 looks where scipy 1.17's
    `elementwise.find_root` takes 3.4 ms and 17, and `brentq` one by one 250 ms; all agree to
    1e-13, and loading scipy's takes half a second.
    """
    ends = [floats(end) for end in (low, high)]
    values = [floats(function(end)) for end in ends]
    shape = np.broadcast_shapes(*(item.shape for item in (*ends, *values)))
    left, right = (np.broadcast_to(end, shape).copy() for end in ends)
    at_left, at_right = (np.broadcast_to(value, shape) for value in values)
    close_enough = _CLOSE_ENOUGH * np.abs(right - left)
    found = np.where(at_left >= 0, left, right)
    stayed = np.zeros(shape)  # -1: the left end moved last, 1: the right end did
    inside = (at_left < 0) & (at_right > 0)
    for _ in range(steps):
        rise = at_right - at_left
        share = np.where(rise > 0, -at_left / np.where(rise > 0, rise, 1.0), 0.5)
        middle = left + np.where((share > 0) & (share < 1), share, 0.5) * (right - left)
        moved = np.abs(middle - found)
        found = np.where(inside, middle, found)
        if not np.any(inside & (moved > close_enough)):
            break
        here = np.broadcast_to(function(found), shape)
        below, inside = here < 0, inside & (here != 0)
        at_right = np.where(below, np.where(stayed < 0, 0.5 * at_right, at_right), here)
        at_left = np.where(below, here, np.where(stayed > 0, 0.5 * at_left, at_left))
        left, right = np.where(below, middle, left), np.where(below, right, middle)
        stayed = np.where(below, -1.0, 1.0)
    return np.asarray(found)[()]
