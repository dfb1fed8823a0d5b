"""The settings a lever has on one tank, each one a keeper can set: whole degrees, half inches."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from interview.advice.levers.lever import Around, Lever
from interview.advice.levers.tanks_sold import larger_tanks
from interview.audit.tank import Tank
from interview.base import units
from interview.core.numeric import is_number
from interview.vocabulary.vocabulary import riding

__all__ = ["settable", "settings"]

_GRIDS: Mapping[str, tuple[tuple[str, float], tuple[str, float]]] = {
    "m": (("cm", 0.5), ("inch", 0.25)),
    "degC": (("degC", 1.0), ("degF", 1.0)),
    "m**3": (("L", 0.5), ("gallon", 0.1)),
    "m**3/s": (("L/hour", 50.0), ("gallon/hour", 10.0)),
}
"""How finely a keeper sets each unit, in the metric system and in the United States."""
_LONG, _COARSE = 0.15, 0.0127  # m: beyond a hand's breadth nobody sets quarter inches
_FEED = 2  # significant digits of a portion on a kitchen scale

Setting = tuple[dict[str, Any], float]
"""Answers in core units, and how far they move in steps of the lever."""


def settable(value: Any, unit: str, system: str, finest: float = 0.0) -> Any:
    """A number rounded to what a keeper can set in their own units; words as they are.

    Args:
        value: the wanted value, in `unit`
        unit: one of the core's units
        system: metric, us or uk
        finest: no finer than this, in `unit`
    """
    if not is_number(value) or value == 0:
        return value
    us = system in ("us", "uk_inches")
    if unit == "kg":
        return _to_figures(value, "ounce" if us else "g", _FEED)
    if unit not in _GRIDS:
        return value
    finest = max(finest, _COARSE) if unit == "m" and value > _LONG else finest
    shown, step = _GRIDS[unit][us]
    start = units.convert(0.0, unit, shown)
    while finest and units.convert(finest, unit, shown) - start >= 1.9 * step:
        step *= 2
    steps = round(units.convert(value, unit, shown) / step)
    grain = steps == 0 and unit == "m"  # of sand: bought, not set with a tape
    return value if grain else units.convert(steps * step, shown, unit)


def _to_figures(value: float, shown: str, figures: int) -> float:
    amount = units.convert(value, "kg", shown)
    return units.convert(float(f"{amount:.{figures}g}"), shown, "kg")


def settings(lever: Lever, tank: Tank) -> Iterator[Setting]:
    """Every setting of the lever on this tank."""
    if lever.trade_sizes:
        yield from larger_tanks(tank)
        return
    own = [({lever.name: value}, steps) for value, steps in _own_values(lever, tank)]
    for setting, steps in own or [({}, 1.0)]:
        for rest in _together(lever, tank):
            yield {**setting, **rest}, steps


def _own_values(lever: Lever, tank: Tank) -> Iterator[tuple[Any, float]]:
    unit, now = tank.unit_of(lever.name), tank.best.get(lever.name)
    wanted = tank.best.get(lever.to) if lever.to else None
    if wanted is not None and is_number(wanted):
        yield settable(float(wanted), unit, tank.system), 0.5
    for value in lever.of:
        yield settable(value, unit, tank.system), 1.0
    if now is None or not is_number(now):
        return
    for factor in lever.times:
        yield settable(now * factor, unit, tank.system), abs(float(np.log(factor)))
    if lever.around:
        yield from _around(lever.name, float(now), lever.around, unit, tank.system)


def _around(
    name: str, now: float, around: Around, unit: str, system: str
) -> Iterator[tuple[float, float]]:
    """To the sides of today's value, on a keeper's grid, the nearest first, coarser far off."""
    seen = {now}
    if name in riding(
        "platform"
    ):  # hung anew at today's distance, after the water line carried it off
        yield now, 0.5
    for apart in _offsets(around):
        for value in (now + side * apart for side in around.sides):
            value = settable(value, unit, system, around.step)
            inside = around.least - 1e-12 <= value <= around.most + 1e-12
            if inside and value not in seen:
                seen.add(value)
                yield value, abs(value - now) / around.step


def _offsets(around: Around) -> Iterator[float]:
    """Every step as far as `near`, from there every stride as far as `reach`."""
    for number in range(1, round(around.near / around.step) + 1):
        yield number * around.step
    for number in range(1, round((around.reach - around.near) / around.stride) + 1):
        yield around.near + number * around.stride


def _together(lever: Lever, tank: Tank) -> Iterator[dict[str, Any]]:
    """Every combination of what else the lever sets."""
    sets = dict(lever.sets)
    for name, values in lever.sets_if_absent.items():
        if tank.best.known.get(name) is None:
            sets[name] = values
    lists = [
        [settable(value, tank.unit_of(name), tank.system) for value in values]
        for name, values in sets.items()
    ]
    for combination in itertools.product(*lists):
        yield dict(zip(sets, combination, strict=True))
