"""What the floor carries: joist moment and shear under the tank, against the code's live load.

Footprint pressure is information, never a test: every tank with more than 20 cm of
water exceeds the live load of a dwelling. Where the tank stands matters more than its size.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import reduce
from typing import TypeAlias

import numpy as np

from interview.core.constants import GRAVITY
from interview.core.errors import NotApplicable
from interview.core.numeric import Num, first_known
from interview.core.structure import statics as laws

__all__ = [
    "floor_joist_spacing",
    "floor_joist_span",
    "floor_live_load",
    "floor_pressure",
    "joist_design_moment",
    "joist_design_shear",
    "joist_limit_share",
    "joist_moment_share",
    "joist_share",
    "joist_shared_moment_share",
    "joist_shear_share",
    "joist_upper_moment_share",
    "joist_upper_shear_share",
    "stand_leg_load",
]
QUANTITIES = __all__

_PASCAL_PER_PSF = 0.45359237 * GRAVITY / 0.3048**2
_LIVE_LOADS = {  # Pa, rooms of dwellings
    "north_america": 40 * _PASCAL_PER_PSF,
    "united_kingdom": 1500.0,
    "europe": 2000.0,
    "australia": 1500.0,
    "elsewhere": 1500.0,
}
_NDS_PERMANENT = 0.90  # duration factor, permanent over ten-year live load
_EC5_PERMANENT = 0.75  # k_mod 0.60 permanent over 0.80 medium term, solid timber

# Part of the moment that the worst joist takes, over all of the tank's along the joists and over
# one joist's strip of it across them: a grillage of eleven joists under boards.
_SHARED = {
    ("joists_along", "middle"): 1 / 2.0,
    ("joists_along", "wall"): 1 / 1.5,
    ("joists_across", "middle"): 1.35,
    ("joists_across", "wall"): 1.7,
}

_SLAB = "the floor is a slab on the ground: there are no joists to check"
_EITHER_WAY = ("joists_across", "joists_along")

_Law: TypeAlias = Callable[..., Num]
_Place: TypeAlias = tuple[Num, Num, Num, Num]  # load, its length, its centre, span


def floor_pressure(filled_mass: Num, tank_length: Num, tank_width: Num) -> Num:
    """Weight over the footprint, for information: no test of a floor [Pa].

    Source: physics, weight over area [computed]
    """
    return filled_mass * GRAVITY / (tank_length * tank_width)


def stand_leg_load(filled_mass: Num, stand: str, leg_uneven_share: Num) -> Num:
    """Load on the heaviest of four legs; 2 kN on a 50 mm square is a floor's point load [N].

    Source: common_practice, a quarter of the weight, unevenly shared [practice]
    """
    if stand not in ("aquarium_stand", "furniture"):
        raise NotApplicable("the tank doesn't stand on legs")
    return filled_mass * GRAVITY / 4 * leg_uneven_share


def floor_live_load(region: str) -> Num:
    """Live load for which the building code has a dwelling's floor designed [Pa].

    A design minimum for a whole room, no permission for an object in it.

    Args:
        region: whose code; elsewhere takes the lowest of the others

    Formula: the code value of the region

    Source: irc_2015, Table R301.5, 40 psf for rooms other than sleeping rooms [law]
    Source: en_1991_1_1, Table 6.2, category A, 2.0 kN/m² recommended [memory]
    Source: na_to_bs_en_1991_1_1, A1 single dwellings, 1.5 kN/m² [memory]
    Source: as_nzs_1170_1, dwellings, 1.5 kN/m² [memory]
    """
    return _LIVE_LOADS[region]


def joist_limit_share(region: str) -> Num:
    """Share of the design live load a load that stays for years may take from timber joists [1].

    Args:
        region: whose timber code; the stricter European one outside North America

    Source: nds_2018, 2.3.2, duration factor 0.90 for permanent load [standard]
    Source: en_1995_1_1, k_mod 0.60 permanent over 0.80 medium term [memory]
    """
    return _NDS_PERMANENT if region == "north_america" else _EC5_PERMANENT


def floor_joist_span(joist_span: Num | None = None, typical_joist_span: Num | None = None) -> Num:
    """Span of the joists, a typical one when not measured [m].

    Args:
        joist_span [m, 0.5 to 12]

    Source: modelling_choice, a typical span stands in [assumption]
    """
    return first_known("joist_span", joist_span, typical_joist_span)


def floor_joist_spacing(
    joist_spacing: Num | None = None, typical_joist_spacing: Num | None = None
) -> Num:
    """Distance of the joists from centre to centre, a typical one when not measured [m].

    Source: modelling_choice, a typical spacing stands in [assumption]
    """
    return first_known("joist_spacing", joist_spacing, typical_joist_spacing)


def joist_design_moment(
    floor_live_load: Num, floor_joist_span: Num, floor_joist_spacing: Num
) -> Num:
    """Bending moment of the code's live load in one joist [N*m].

    Source: physics, uniform load on a simple beam, w S²/8 [computed]
    """
    return floor_live_load * floor_joist_spacing * floor_joist_span**2 / 8


def joist_design_shear(
    floor_live_load: Num, floor_joist_span: Num, floor_joist_spacing: Num
) -> Num:
    """Shear of the code's live load in one joist [N].

    Source: physics, uniform load on a simple beam, w S/2 [computed]
    """
    return floor_live_load * floor_joist_spacing * floor_joist_span / 2


def joist_moment_share(
    filled_mass: Num,
    tank_length: Num,
    tank_width: Num,
    floor: str,
    floor_joist_span: Num,
    floor_joist_spacing: Num,
    floor_wall_gap: Num,
    joist_design_moment: Num,
    floor_position: str = "unknown",
) -> Num:
    """Bending moment of the tank alone in its joist over that of the live load [1].

    Formula: largest of joist_moment over the places the tank may stand / joist_design_moment

    Source: physics, statics of a simple beam [computed]
    Source: modelling_choice, tank parallel to the joists: one joist carries all of it [assumption]
    """
    places = _places(
        filled_mass,
        tank_length,
        tank_width,
        floor,
        floor_position,
        floor_joist_span,
        floor_joist_spacing,
        floor_wall_gap,
    )
    return _largest(laws.joist_moment, places) / joist_design_moment


def joist_shear_share(
    filled_mass: Num,
    tank_length: Num,
    tank_width: Num,
    floor: str,
    floor_joist_span: Num,
    floor_joist_spacing: Num,
    floor_wall_gap: Num,
    joist_design_shear: Num,
    floor_position: str = "unknown",
) -> Num:
    """Shear of the tank alone in its joist over that of the live load [1].

    Formula: largest of joist_shear over the places the tank may stand / joist_design_shear

    Source: physics, statics of a simple beam [computed]
    Source: modelling_choice, tank parallel to the joists: one joist carries all of it [assumption]
    """
    places = _places(
        filled_mass,
        tank_length,
        tank_width,
        floor,
        floor_position,
        floor_joist_span,
        floor_joist_spacing,
        floor_wall_gap,
    )
    return _largest(laws.joist_shear, places) / joist_design_shear


def joist_shared_moment_share(
    filled_mass: Num,
    tank_length: Num,
    tank_width: Num,
    floor: str,
    floor_joist_span: Num,
    floor_joist_spacing: Num,
    floor_wall_gap: Num,
    joist_design_moment: Num,
    joist_sharing_factor: Num = 1.0,
    floor_position: str = "unknown",
) -> Num:
    """Bending moment of the tank in its joist, shared out by the boards, over the live load's [1].

    Args:
        joist_sharing_factor: doubt about boards, span and where the tank stands over the joists

    Formula: largest of joist_moment · part over the places the tank may stand /
    joist_design_moment, where part = 1/2 along the joists and 1/1.5 at the wall; across them 1.35
    at most one joist's strip, 1.7 at the wall, and never more than all

    Source: kloot_schuster_1965, 60 percent on the loaded joist of a test floor [published]
    Source: physics, parts of a grillage of eleven joists under boards, rounded up [computed]
    """
    if floor == "slab":
        raise NotApplicable(_SLAB)
    whole = filled_mass * GRAVITY
    strip = whole * np.minimum(1.0, floor_joist_spacing / tank_length)
    shares: list[Num] = []
    for direction in _directions(floor):
        for place in _positions(floor_position):
            loads = _places(
                filled_mass,
                tank_length,
                tank_width,
                direction,
                place,
                floor_joist_span,
                floor_joist_spacing,
                floor_wall_gap,
            )
            part: Num = _SHARED[direction, place]
            if direction == "joists_across":
                part = np.minimum(part, whole / strip)
            shares.append(part * _largest(laws.joist_moment, loads))
    worst: Num = reduce(np.maximum, shares)
    return joist_sharing_factor * worst / joist_design_moment


def joist_share(
    joist_shared_moment_share: Num, joist_shear_share: Num, joist_shear_reserve: Num
) -> Num:
    """Bending, shared out, or shear over its reserve: the larger share of the live load's [1].

    Formula: larger of (joist_shared_moment_share, joist_shear_share / joist_shear_reserve)

    Source: physics, statics of a simple beam [computed]
    Source: recalled, joists chosen by bending and sag bear twice as much shear [memory]
    """
    return np.maximum(joist_shared_moment_share, joist_shear_share / joist_shear_reserve)


def joist_upper_moment_share(
    filled_mass: Num,
    tank_length: Num,
    tank_width: Num,
    floor: str,
    floor_joist_span: Num,
    floor_joist_spacing: Num,
    floor_wall_gap: Num,
    floor_live_load: Num,
    joist_design_moment: Num,
    floor_position: str = "unknown",
) -> Num:
    """Bending moment of the tank in a fully loaded room over that of the live load [1].

    Formula: largest of joist_moment_in_full_room over the places the tank may stand /
    joist_design_moment

    Source: physics, statics of a simple beam [computed]
    Source: modelling_choice, tank parallel to the joists: one joist carries all of it [assumption]
    """
    places = _places(
        filled_mass,
        tank_length,
        tank_width,
        floor,
        floor_position,
        floor_joist_span,
        floor_joist_spacing,
        floor_wall_gap,
    )
    return (
        _largest(laws.joist_moment_in_full_room, places, floor_live_load * floor_joist_spacing)
        / joist_design_moment
    )


def joist_upper_shear_share(
    filled_mass: Num,
    tank_length: Num,
    tank_width: Num,
    floor: str,
    floor_joist_span: Num,
    floor_joist_spacing: Num,
    floor_wall_gap: Num,
    floor_live_load: Num,
    joist_design_shear: Num,
    floor_position: str = "unknown",
) -> Num:
    """Shear of the tank in a fully loaded room over that of the live load [1].

    Formula: largest of joist_shear_in_full_room over the places the tank may stand /
    joist_design_shear

    Source: physics, statics of a simple beam [computed]
    Source: modelling_choice, tank parallel to the joists: one joist carries all of it [assumption]
    """
    places = _places(
        filled_mass,
        tank_length,
        tank_width,
        floor,
        floor_position,
        floor_joist_span,
        floor_joist_spacing,
        floor_wall_gap,
    )
    return (
        _largest(laws.joist_shear_in_full_room, places, floor_live_load * floor_joist_spacing)
        / joist_design_shear
    )


def _directions(floor: str) -> tuple[str, ...]:
    """How the joists may run."""
    return (floor,) if floor in ("joists_across", "joists_along") else _EITHER_WAY


def _positions(floor_position: str) -> tuple[str, ...]:
    """Where in the room the tank may stand."""
    return (floor_position,) if floor_position in ("wall", "middle") else ("middle", "wall")


def _places(
    filled_mass: Num,
    tank_length: Num,
    tank_width: Num,
    floor: str,
    floor_position: str,
    span: Num,
    spacing: Num,
    wall_gap: Num,
) -> list[_Place]:
    """List the loads on the worst joist, one for each place and direction that may be true."""
    if floor == "slab":
        raise NotApplicable(_SLAB)
    weight = filled_mass * GRAVITY
    across = (weight * np.minimum(1.0, spacing / tank_length), tank_width)
    along = (weight, tank_length)
    directions = {"joists_across": [across], "joists_along": [along]}.get(floor, [across, along])
    return [
        (load * np.minimum(1.0, span / length), np.minimum(length, span), centre, span)
        for load, length in directions
        for centre in _centres(floor_position, np.minimum(length, span), span, wall_gap)
    ]


def _centres(floor_position: str, load_length: Num, span: Num, wall_gap: Num) -> list[Num]:
    middle = 0.5 * span
    at_wall = np.minimum(wall_gap + 0.5 * load_length, span - 0.5 * load_length)
    return {"middle": [middle], "wall": [at_wall]}.get(floor_position, [middle, at_wall])


def _largest(law: _Law, places: list[_Place], *line_load: Num) -> Num:
    return reduce(np.maximum, (law(*place, *line_load) for place in places))
