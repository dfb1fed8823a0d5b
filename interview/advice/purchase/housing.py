"""Tank and platform for animals that will grow: the least sold in which both fit together.

A raft that carries a grown turtle stands high, the cover has to clear its shell, and what
that takes from the water must leave depth: where a raft does not fit, a shelf on the glass
may, and else a box on the rim.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import numpy as np

from interview.advice.levers.settings import settable
from interview.advice.levers.tanks_sold import sold_here
from interview.advice.purchase.larger_tank import RIM, Needed, fits, needed
from interview.audit.tank import Tank
from interview.care.facts import limit
from interview.care.tank_sizes import TradeSize
from interview.core.animal.body import foam_volume_needed
from interview.core.basking.platform import platform_edge_sinkage
from interview.core.structure.enclosure import typical_wall_thickness

__all__ = ["KINDS", "SIDES", "furnished", "housing", "own_size", "up"]

SIDES = ("tank_length", "tank_width", "tank_height")
KINDS = ("floating", "fixed", "above_tank")
_RAFTS = (0.04, 0.05, 0.06, 0.07, 0.08)  # m that an empty raft stands above the water
_SHELF = 0.03  # m that a shelf hangs above the water
_BOX = 0.05  # m of a box's floor over the rim
_TAPE = 0.02  # m: doubt of shell, tape and water under the cover
_WET = 0.006  # m: doubt of the empty raft's height
_HEAVY = 1.35  # nine of ten turtles are not heavier than the law of their kind says by more
_SPARE = 1.05  # of the water that the rule asks for
_BESIDE = 0.06  # m of the tank's width that a platform leaves free
_HALF_STEP = 0.0064  # m: so that rounding to what a keeper sets takes nothing away
_LONGEST = 0.5  # of the tank's length that a platform may take
_FOAM_UNDER = 1.03  # a slab that stands so high above the water is so much thicker


def up(value: float, step: float) -> float:
    """The next multiple of a step."""
    return float(round(np.ceil(value / step - 1e-9) * step, 12))


def own_size(tank: Tank) -> TradeSize | None:
    """The tank the keeper has in mind, with the pane it has or is usually sold with."""
    known = tank.best.known
    if any(known.get(side) is None for side in SIDES):
        return None
    length, width, height = (float(known[side]) for side in SIDES)
    pane = known.get("wall_thickness") or typical_wall_thickness(length, height)
    return TradeSize("", length, width, height, float(pane), "", "", ())


def housing(tank: Tank, old: Tank, kinds: tuple[str, ...] = KINDS) -> dict[str, Any] | None:
    """Answers for the least tank sold, its platform and its water line; None if none serves.

    Args:
        tank: the tank in planning
        old: the same with its animals grown
        kinds: platforms to try, the first that fits taken
    """
    need = needed(tank)
    for size in sold_here(tank.system, tank.lookup("region")):
        if (found := furnished(size, need, old, kinds)) is not None:
            return found
    return None


def furnished(
    size: TradeSize, need: Needed, old: Tank, kinds: tuple[str, ...] = KINDS
) -> dict[str, Any] | None:
    """Answers for a tank of this size; None where it does not serve the grown animals."""
    if not fits(size, need):
        return None
    ways = {"floating": _rafts, "fixed": _shelves, "above_tank": _boxes}
    for kind in kinds:
        for found in ways[kind](size, old):
            line = found["water_line_below_rim"]
            if _deep_enough(size, line, need, old) and _not_too_long(size, found):
                return _sides(size) | {"platform_kind": kind} | found
    return None


def _sides(size: TradeSize) -> dict[str, Any]:
    sides = zip(SIDES, (size.length, size.width, size.height), strict=True)
    return {**dict(sides), "wall_thickness": size.wall_thickness}


def _deep_enough(size: TradeSize, line: float, need: Needed, old: Tank) -> bool:
    depth = size.height - size.wall_thickness - line
    length, width = (side - 2 * size.wall_thickness for side in (size.length, size.width))
    volume = _SPARE * float(old.best.value("least_volume"))
    return depth >= need.depth and length * width * depth >= volume


def _not_too_long(size: TradeSize, found: Mapping[str, Any]) -> bool:
    above = found["platform_height_above_water"] > found["water_line_below_rim"]
    return bool(found["platform_length"] <= size.length * (1.0 if above else _LONGEST))


def _headroom(old: Tank) -> float:
    return float(old.best.value("headroom_needed")) + _TAPE


def _rafts(size: TradeSize, old: Tank) -> Iterator[dict[str, Any]]:
    """Rafts whose edge stays dry under the grown animals, the lowest first."""
    dip = float(platform_edge_sinkage("floating", old.best.value("animal_mass"), 1.0))
    dry = limit("freeboard_good")
    for height in (_set(h, old) for h in _RAFTS):
        area = _HEAVY * dip / (height - dry - _WET)
        found = _deck(size, old, area, height, _headroom(old) + height)
        slab = found["platform_length"] * found["platform_width"] * height * _FOAM_UNDER
        foam = max(slab, float(foam_volume_needed(old.best.value("animal_mass"))))
        yield {**found, "platform_foam_volume": up(foam, 0.1e-3)}


def _shelves(size: TradeSize, old: Tank) -> Iterator[dict[str, Any]]:
    """A shelf that hangs on the glass."""
    height = _set(_SHELF, old)
    yield _deck(size, old, 0.0, height, _headroom(old) + height)


def _boxes(size: TradeSize, old: Tank) -> Iterator[dict[str, Any]]:
    """A box with walls of its own on the rim, and a ramp down into the water."""
    yield _deck(size, old, 0.0, _set(RIM + _BOX, old), RIM)


def _set(length: float, tank: Tank) -> float:
    return float(settable(length, "m", tank.system))


def _deck(size: TradeSize, old: Tank, area: float, height: float, line: float) -> dict[str, Any]:
    """A platform on which all the grown animals lie, at its height, with its water line."""
    longest = float(np.max(old.best.known["carapace_length"]))
    area = max(area, 1.1 * float(old.best.value("platform_area_needed")))
    widest = size.width - 2 * size.wall_thickness - _BESIDE
    width = min(up(max(0.18, 1.2 * longest, np.sqrt(area / 1.8)), 0.01), up(widest, 0.01) - 0.01)
    return {
        "water_line_below_rim": _set(line + _HALF_STEP, old),
        "platform_height_above_water": height,
        "platform_length": up(max(0.25, 1.6 * longest, area / width), 0.01),
        "platform_width": width,
    }
