"""How shops of the keeper's region name what is got: measures on labels, kinds, trade names."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any

from interview.advice.levers.tanks_sold import sold_as
from interview.audit.tank import Tank
from interview.vocabulary.phrases import in_words, rounded

__all__ = ["in_shops", "labelled"]

_CM, _INCH = 0.01, 0.0254  # m
_WATER = 1000.0  # kg/m**3
_FILTERS = {
    "canister": "canister",
    "internal": "internal filter",
    "hang_on": "hang-on filter",
    "sump": "sump",
    "sponge": "sponge filter",
}
_UVB_LAMPS = {
    "tube_t5": "T5 tube",
    "tube_t8": "T8 tube",
    "coil": "compact or coil lamp",
    "mercury_vapour": "mercury-vapour bulb",
    "metal_halide": "metal-halide lamp",
}
_BREAKERS = {
    "north_america": "a GFCI (Class A)",
    "europe": "an RCD of 30 mA",
    "united_kingdom": "an RCD of 30 mA",
    "australia": "an RCD of 30 mA",
}
"""A Class A device trips at 4 to 6 mA by UL 943 (recalled); BS 7671 411.3.3 asks 30 mA."""
_EITHER = "a GFCI or an RCD of 30 mA"


def in_shops(tank: Tank) -> Mapping[str, Any]:
    """Names that a specification may hold besides quantities; None for what is not known."""
    known = tank.best.known
    return {
        "sold_as": sold_as(known),
        "outside": _outside(tank, "length", "width", "height"),
        "footprint": _outside(tank, "length", "width"),
        "lid": _lid(tank),
        "foam_thick": _foam_thick(tank),
        "filter": _FILTERS.get(known.get("filter_kind", "")),
        "uvb_lamp": _UVB_LAMPS.get(known.get("uvb_lamp_kind", "")),
        "brim_mass": _brim_mass(tank),
        "rcd_sold": _BREAKERS.get(known.get("region", ""), _EITHER),
    }


def labelled(sides: Sequence[float], system: str) -> str:
    """Outside measures [m] as a tank is labelled: whole centimetres, or half inches."""
    inches = system in ("us", "uk_inches")
    step, unit = (_INCH / 2, _INCH) if inches else (_CM, _CM)
    shown = [f"{round(side / step) * step / unit:g}" for side in sides]
    return f"{' × '.join(shown)} {'in' if inches else 'cm'}"


def _lid(tank: Tank) -> str | None:
    """Length and width of a lid over the water beside a platform at one end of the tank."""
    platform = tank.lookup("platform_length") or 0.0
    gap = tank.lookup("platform_wall_gap") or 0.0
    sides = [tank.lookup(f"tank_{side}") for side in ("length", "width")]
    if None in sides:
        return None
    long = float(sides[0]) - float(platform) - float(gap)
    return f"about {labelled([long, float(sides[1])], tank.system)}" if long > 0 else None


def _outside(tank: Tank, *names: str) -> str | None:
    sides = [tank.lookup(f"tank_{side}") for side in names]
    if any(side is None for side in sides):
        return None
    return labelled([float(side) for side in sides], tank.system)


def _foam_thick(tank: Tank) -> str | None:
    """How thick the foam under the whole raft is at least: sold in sheets, by half centimetres."""
    foam, *sides = (tank.lookup(f"platform_{name}") for name in ("foam_volume", "length", "width"))
    if foam is None or None in sides:
        return None
    step = _INCH / 4 if tank.system in ("us", "uk_inches") else _CM / 2
    thick = math.ceil(float(foam) / float(sides[0] * sides[1]) / step - 1e-6) * step
    return in_words(thick, "m", tank.system)


def _brim_mass(tank: Tank) -> str | None:
    """Weight of the tank when it is full to the brim: what a stand has to carry one day."""
    mass, brim, water = map(tank.lookup, ("filled_mass", "brim_volume", "water_volume"))
    if mass is None or brim is None or water is None:
        return None
    full = float(mass) + _WATER * max(0.0, float(brim) - float(water))
    return rounded(full, "kg", tank.system)
