"""The settings a lever has on one tank, each one a keeper can set: whole degrees, half inches."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from interview.audit.tank import Tank
from interview.base import units
from interview.base.rows.lines import Lined
from interview.care.tank_sizes import TradeSize, known_sizes
from interview.core.numeric import is_number

__all__ = ["RIDERS", "in_core_unit", "settable", "settings", "sold_as", "sold_here"]

RIDERS = ("heat_lamp_height", "uvb_lamp_height")
"""Lengths that another change moves along; naming today's value holds them."""
_NUMBER = re.compile(r"^(-?\d+(?:\.\d+)?)\s*(\S.*)?$")
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
    return units.convert(round(units.convert(value, unit, shown) / step) * step, shown, unit)


def _to_figures(value: float, shown: str, figures: int) -> float:
    amount = units.convert(value, "kg", shown)
    return units.convert(float(f"{amount:.{figures}g}"), shown, "kg")


def settings(name: str, row: Lined, tank: Tank) -> Iterator[Setting]:
    """Every setting of the lever `name`, whose row in the file says how far it goes."""
    if "trade_sizes" in row:
        yield from _tanks(tank)
        return
    own = [({name: value}, steps) for value, steps in _own_values(name, row, tank)] or [({}, 1.0)]
    for setting, steps in own:
        for rest in _together(row, tank):
            yield {**setting, **rest}, steps


def _own_values(name: str, row: Lined, tank: Tank) -> Iterator[tuple[Any, float]]:
    unit, now = tank.unit_of(name), tank.best.get(name)
    for said in row.get("of", ()):
        yield settable(in_core_unit(said, unit), unit, tank.system), 1.0
    if now is None or not is_number(now):
        return
    for factor in row.get("times", ()):
        yield settable(now * factor, unit, tank.system), abs(float(np.log(factor)))
    if around := row.get("around"):
        reach = {key: in_core_unit(said, unit) for key, said in around.items()}
        least, most = (
            in_core_unit(row[key], unit) if key in row else limit
            for key, limit in (("least", -np.inf), ("most", np.inf))
        )
        yield from _around(name, float(now), reach, (least, most), unit, tank.system)


def _around(
    name: str,
    now: float,
    reach: Mapping[str, float],
    limits: tuple[float, float],
    unit: str,
    system: str,
) -> Iterator[tuple[float, float]]:
    """To both sides of today's value, on a keeper's grid, the nearest first, coarser far off."""
    (least, most), step = limits, reach["step"]
    seen = {now}
    if name in RIDERS:  # hung anew at today's distance, after the water line carried it off
        yield now, 0.5
    for apart in _offsets(step, reach["near"], reach["stride"], reach["reach"]):
        for value in (now + apart, now - apart):
            value = settable(value, unit, system, step)
            if least - 1e-12 <= value <= most + 1e-12 and value not in seen:
                seen.add(value)
                yield value, abs(value - now) / step


def _offsets(step: float, near: float, stride: float, reach: float) -> Iterator[float]:
    """Every step as far as `near`, from there every stride as far as `reach`."""
    for number in range(1, round(near / step) + 1):
        yield number * step
    for number in range(1, round((reach - near) / stride) + 1):
        yield near + number * stride


def _together(row: Lined, tank: Tank) -> Iterator[dict[str, Any]]:
    """Every combination of what else the lever sets."""
    sets = dict(row.get("sets", {}))
    for name, said in row.get("sets_if_absent", {}).items():
        if tank.best.known.get(name) is None:
            sets[name] = said
    lists = [
        [
            settable(in_core_unit(v, tank.unit_of(n)), tank.unit_of(n), tank.system)
            for v in (said if isinstance(said, list) else [said])
        ]
        for n, said in sets.items()
    ]
    for values in itertools.product(*lists):
        yield dict(zip(sets, values, strict=True))


def sold_here(system: str) -> tuple[TradeSize, ...]:
    """Tanks sold in sizes of the keeper's own units, the smallest first; then larger ones."""
    sizes = sorted(known_sizes(), key=_box)
    own = [size for size in sizes if _in_inches(size) == (system == "us")]
    return (*own, *(size for size in sizes if _box(size) > _box(own[-1])))


def _box(size: TradeSize) -> float:
    return size.length * size.width * size.height


def sold_as(known: Mapping[str, Any]) -> str | None:
    """The trade's name of a tank with these outside measures, if it has one."""
    found = [known.get(f"tank_{side}") for side in ("length", "width", "height")]
    if any(side is None for side in found):
        return None
    sides = [float(side) for side in found if side is not None]
    named = (s.spoken[0] for s in known_sizes() if np.allclose(_sides(s), sides, atol=1e-4))
    return next(named, None)


def _in_inches(size: TradeSize) -> bool:
    return all(abs(side / 0.0254 - round(side / 0.0254)) < 1e-4 for side in _sides(size))


def _sides(size: TradeSize) -> tuple[float, float, float]:
    return size.length, size.width, size.height


def _tanks(tank: Tank) -> Iterator[Setting]:
    """Tanks that are sold, larger than today's and large enough for the animals as they are.

    The glass as is usual for them. A tank that is cramped on the day it is bought is none.
    """
    now = tank.best.get("brim_volume") or 0.0
    area = max(
        tank.lookup("required_swim_area") or 0.0, tank.lookup("proportional_swim_area") or 0.0
    )
    least = tank.lookup("least_side") or 0.0
    for size in sold_here(tank.system):
        length, width, height = _sides(size)
        inside = [side - 2 * size.wall_thickness for side in (length, width)]
        if length * width * height > now and inside[0] * inside[1] >= area and min(inside) >= least:
            sides = {"tank_length": length, "tank_width": width, "tank_height": height}
            glass = {"wall_thickness": size.wall_thickness, "tank_origin": "aquarium"}
            yield {**sides, **glass}, length * width * height


def in_core_unit(said: Any, unit: str) -> Any:
    """A value as written in the file: yes/no, a word, a list, or a number with its unit."""
    if isinstance(said, list):
        return tuple(said)
    if isinstance(said, bool):
        return said
    found = _NUMBER.match(str(said))
    if found is None or unit in ("choice", "yes/no"):
        return said
    number, written = float(found[1]), (found[2] or unit).strip()
    return number if written == unit else units.convert(number, written, unit)
