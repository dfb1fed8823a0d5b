"""What stands on every list, and what is reckoned from one tank: heater, food, UVB lamp."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np

from interview.advice.levers.settings import settable
from interview.advice.purchase.preferences import Pair
from interview.advice.purchase.usual import usual
from interview.advice.what_if.suppose import changed_working
from interview.audit.tank import Tank
from interview.care.facts import limit

__all__ = ["WEEK", "hung", "least_heater", "on_every_list", "warmed_and_fed"]

WEEK = 7 * 86400.0  # s
_SELDOM = 0.92  # of a hundred estimates so many stay under the top of the zone
_RESERVE = 1.15  # beyond the least heater: the room's coldest night is a guess
_SERVES = 0.25
"""A lamp whose index comes so near to the wanted one (log-normal) serves as well as any."""
_NEAREST, _FARTHEST = 0.20, 0.81  # m over the platform, where animals reach no higher
_HALF_STEP = 0.0064  # m: so that rounding to what a keeper sets brings no lamp into reach
_HEATERS = (25, 50, 75, 100, 150, 200, 250, 300)


def on_every_list(tank: Tank) -> dict[str, Any]:
    """What is the same for every tank but for its animals' sand, and a filter already seeded."""
    settings = usual().values(sand=bool(tank.lookup("fine_sand_required")))
    for name in usual().rounded:
        settings[name] = float(settable(settings[name], "m", tank.system))
    seeded = tank.best.known.get("filter_seeded")
    return settings | ({"filter_seeded": seeded} if seeded else {})


def warmed_and_fed(planned: Tank) -> dict[str, Any]:
    """The water's warmth and the food that suit the animals."""
    water = float(round(float(planned.best.value("target_water_temperature"))))
    return {
        "water_temperature": water,
        "tap_temperature": water,
        "feeds_per_week": 5.0,
        "feed_mass": _portion(float(planned.best.value("feed_need")) * WEEK / 5.0),
    }


def least_heater(loss: float) -> tuple[int, int]:
    """Count and size of the heaters sold that hold the tank with a reserve and no more.

    Of equal power two: one goes on where the other fails. A third is not bought for the
    reserve alone.
    """
    least = limit("heater_margin_good") * loss
    wanted = _RESERVE * least
    choices = [(n * size, -n, size) for n in (1, 2) for size in _HEATERS if n * size >= wanted]
    if choices:
        _, count, size = min(choices)
        return -count, size
    largest = _HEATERS[-1]
    return (2, largest) if 2 * largest >= least else (int(np.ceil(wanted / largest)), largest)


def _portion(mass: float) -> float:
    return float(f"{mass:.2g}")


def hung(pair: Pair, strengths: Iterable[str]) -> list[tuple[str, float, float]]:
    """The weakest UVB lamp that serves, and its heights now and grown; nothing where none does.

    A weak lamp near by lights no more than the platform; a strong one far away the whole tank.

    Args:
        pair: the tank with its animals as they are, and grown
        strengths: to choose from, the weakest first
    """
    found = []
    for place, strength in enumerate(strengths):
        (miss, now), (other, later) = (_nearest_height(tank, strength) for tank in pair)
        worst = max(miss, other)
        found.append((max(worst, _SERVES), place, strength, now, later))
    return [row[2:] for row in sorted(found)[:1] if np.isfinite(row[0])]


def _nearest_height(planned: Tank, strength: str) -> tuple[float, float]:
    """How far the index at the shell is off the one wanted, and the height that comes nearest.

    Wanted is the middle of the zone, or less where the doubt of an estimate would pass its top.
    """
    low, high = (planned.best.value(f"uv_zone_{end}") for end in ("low", "high"))
    middle = float(np.sqrt(low * high))
    miss, height = _nearest_to(middle, planned, strength)
    lit = {"uvb_strength": strength, "uvb_lamp_height": height}
    at_best = changed_working(planned.best, planned.best, lit, reread=False).get("uv_index_shell")
    drawn = changed_working(planned.sample, planned.best, lit, reread=False).get("uv_index_shell")
    if drawn is None or at_best is None or not np.all(at_best > 0):
        return miss, height
    bright = float(np.max(np.quantile(drawn, _SELDOM, axis=0) / at_best))
    return _nearest_to(max(low, min(middle, high / bright)), planned, strength)


def _nearest_to(wanted: float, planned: Tank, strength: str) -> tuple[float, float]:
    least = max(_NEAREST, float(planned.best.get("rearing_reach") or 0.0))
    reach = np.arange(least + _HALF_STEP, _FARTHEST, 0.01)
    heights = np.unique([settable(h, "m", planned.system) for h in reach])
    if not heights.size:  # so large an animal reaches every lamp
        return np.inf, 0.3
    change = {"uvb_strength": strength, "uvb_lamp_height": heights}
    lit = changed_working(planned.best, planned.best, change, reread=False)
    index = lit.get("uv_index_shell")
    if index is None:
        return np.inf, 0.3
    miss = np.abs(np.log(np.maximum(index, 1e-6) / wanted)) * np.ones(len(heights))
    at = int(np.argmin(miss))
    return float(miss[at]), float(heights[at])
