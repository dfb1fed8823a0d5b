"""The smallest tank sold that serves an animal now and grown."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

from interview.advice.levers.tanks_sold import sold_here
from interview.advice.purchase.in_shops import labelled
from interview.audit.tank import Tank
from interview.care.tank_sizes import TradeSize
from interview.core.animal.animals import (
    least_side,
    proportional_depth,
    proportional_swim_area,
    required_depth,
    required_swim_area,
)
from interview.vocabulary.phrases import in_words

__all__ = [
    "CRAMPED",
    "RIM",
    "Needed",
    "fits",
    "grown_tank",
    "larger_tank",
    "least_size",
    "needed",
    "needed_by",
    "told_of",
    "where_cramped",
]

RIM = 0.09  # m of dry wall over the water, under a cover
CRAMPED = {"swim_area", "swim_depth", "volume_rule", "outgrow", "grown_size"}
"""Checks that a larger tank puts right."""

_NEED = "The animals, grown, need by EU and Australian guidelines"


@dataclass(frozen=True)
class Needed:
    """Inside measures that the grown animals need: surface [m**2], shorter side, depth [m]."""

    area: float
    side: float
    depth: float


def needed(tank: Tank) -> Needed:
    """What the animals need when they are grown, by the stricter of two rules."""
    grown = float(tank.best.value("adult_carapace_length"))
    return needed_by(grown, float(tank.lookup("animal_count") or 1))


def needed_by(length: float, count: float) -> Needed:
    """What so many animals of that length need."""
    area = max(required_swim_area(length, count), proportional_swim_area(length, count))
    depth = max(required_depth(length), proportional_depth(length))
    return Needed(float(area), float(least_side(length)), float(depth))


def fits(size: TradeSize, need: Needed) -> bool:
    """Whether a tank sold gives that much, with a rim left over the water."""
    length, width = (side - 2 * size.wall_thickness for side in (size.length, size.width))
    return (
        length * width >= need.area
        and min(length, width) >= need.side
        and size.height - size.wall_thickness - RIM >= need.depth
    )


def least_size(tank: Tank, need: Needed) -> TradeSize | None:
    """The smallest tank sold in the keeper's units that gives that much."""
    here = sold_here(tank.system, tank.lookup("region"))
    return next((size for size in here if fits(size, need)), None)


def where_cramped(tank: Tank, left: Collection[str]) -> str:
    """What larger tank would do, if one of the checks that nothing else mends asks for it."""
    return larger_tank(tank) if CRAMPED & set(left) else ""


def larger_tank(tank: Tank) -> str:
    """A sentence on what tank would do; empty while the animals aren't known."""
    if tank.lookup("adult_carapace_length") is None:
        return ""
    need = needed(tank)

    def shown(value: float, unit: str = "m") -> str:
        return in_words(value, unit, tank.system)

    wants = (
        f"{shown(need.area, 'm**2')} of water surface, no side under {shown(need.side)}, and "
        f"{shown(need.depth)} of water"
    )
    size = least_size(tank, need)
    if size is None:
        return (
            f"{_NEED} {wants}. No tank sold under a trade name gives that: "
            f"plan a custom tank, a stock tank or an indoor pond.{_for_now(tank)}"
        )
    sides = labelled((size.length, size.width, size.height), tank.system)
    return (
        f"{_NEED} {wants}: a tank of {sides} or larger, sold as "
        f"“{size.spoken[0]}”, where the floor carries it."
    )


def grown_tank(tank: Tank) -> str | None:
    """By what measures a tank for the grown animals is got; None while they aren't known."""
    if tank.lookup("adult_carapace_length") is None:
        return None
    return told_of(tank, needed(tank))


def told_of(tank: Tank, need: Needed) -> str:
    """The least tank sold that gives so much, or surface and depth where none does."""
    size = least_size(tank, need)
    if size is not None:
        return f"{labelled((size.length, size.width, size.height), tank.system)} or larger"
    surface, deep = in_words(need.area, "m**2", tank.system), in_words(need.depth, "m", tank.system)
    return f"with {surface} of water surface and {deep} of water"


def _for_now(tank: Tank) -> str:
    """The least tank sold that serves the animals as they are, if today's does not."""
    length, count = tank.lookup("largest_carapace_length"), tank.lookup("animal_count")
    area = tank.lookup("swim_area")
    if length is None or area is None:
        return ""
    need = needed_by(float(length), float(count or 1))
    size = least_size(tank, need)
    if float(area) >= need.area or size is None:
        return ""
    name = size.spoken[0]
    return f" For the animals as they are “{name}” is the least, where the floor carries it."
