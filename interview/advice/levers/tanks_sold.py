"""Tanks that are sold under a trade name, as a keeper may buy them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from math import isclose
from typing import Any

from interview.audit.tank import Tank
from interview.care.tank_sizes import TradeSize, known_sizes

__all__ = ["larger_tanks", "sold_as", "sold_here"]


_AS_SOLD = 1e-4
"""By less than this [m] a side differs from that of the trade's tank."""
_KNOWN = ("north_america", "europe", "united_kingdom", "australia")
"""Regions that decide by themselves."""


def sold_here(system: str, region: str | None = None) -> tuple[TradeSize, ...]:
    """Tanks sold in the keeper's region, the smallest first; larger ones last, of unknown regions.

    Args:
        system: the keeper's units, which decide where no region is told
        region: as answered: sizes by the gallon are those of North America
    """
    sizes = sorted(known_sizes(), key=_box)
    american = region == "north_america" or (region not in _KNOWN and system == "us")
    own = [size for size in sizes if _in_inches(size) == american]
    others = () if region in _KNOWN else (s for s in sizes if _box(s) > _box(own[-1]))
    return (*own, *others)


def _box(size: TradeSize) -> float:
    return size.length * size.width * size.height


def sold_as(known: Mapping[str, Any]) -> str | None:
    """The trade's name of a tank with these outside measures, if it has one."""
    found = [known.get(f"tank_{side}") for side in ("length", "width", "height")]
    if any(side is None for side in found):
        return None
    sides = [float(side) for side in found if side is not None]
    return next((s.spoken[0] for s in known_sizes() if _has_sides(s, sides)), None)


def _has_sides(size: TradeSize, sides: Sequence[float]) -> bool:
    pairs = zip(_sides(size), sides, strict=True)
    return all(isclose(own, side, rel_tol=0.0, abs_tol=_AS_SOLD) for own, side in pairs)


def _in_inches(size: TradeSize) -> bool:
    return all(abs(side / 0.0254 - round(side / 0.0254)) < 1e-4 for side in _sides(size))


def _sides(size: TradeSize) -> tuple[float, float, float]:
    return size.length, size.width, size.height


def larger_tanks(tank: Tank) -> Iterator[tuple[dict[str, Any], float]]:
    """Tanks that are sold, larger than today's and large enough for the animals as they are.

    Each with its outer volume [m**3], the glass as is usual for it. A tank that is cramped on
    the day it is bought is none.
    """
    now = tank.best.get("brim_volume") or 0.0
    area = max(
        tank.lookup("required_swim_area") or 0.0, tank.lookup("proportional_swim_area") or 0.0
    )
    least = tank.lookup("least_side") or 0.0
    for size in sold_here(tank.system, tank.lookup("region")):
        length, width, height = _sides(size)
        inside = [side - 2 * size.wall_thickness for side in (length, width)]
        if length * width * height > now and inside[0] * inside[1] >= area and min(inside) >= least:
            sides = {"tank_length": length, "tank_width": width, "tank_height": height}
            glass = {"wall_thickness": size.wall_thickness, "tank_origin": "aquarium"}
            yield {**sides, **glass}, length * width * height
