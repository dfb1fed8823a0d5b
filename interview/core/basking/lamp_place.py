"""Where the heat lamp hangs: out of the animals' reach, and away from a glass cover."""

from __future__ import annotations

import numpy as np

from interview.care.species import own_or_usual
from interview.core.animal.per_animal import facts
from interview.core.errors import NotApplicable
from interview.core.numeric import Num, Words, floats

__all__ = [
    "lamp_glass_gap",
    "lamp_glass_gap_needed",
    "lamp_glass_share",
    "lamp_height_least",
    "lamp_reach_share",
    "rearing_reach",
    "uvb_height_least",
    "uvb_reach_share",
]
QUANTITIES = __all__

_STACKED = 0.4  # of the shell of the one below
_UNDER_COVER = 0.85  # of a cover's height: a lamp on it is out of reach, roughly measured too
_FLOOD, _SPOT = 0.15, 0.25  # m from a lamp of 75 W to the glass
_POWER = 75.0  # W
_ON_IT = 1e-3  # m within which a lamp lies on the glass


def rearing_reach(carapace_length: Num, species: Words, rearing_reach_factor: Num) -> Num:
    """Height over the platform that the animal which reaches highest reaches when it rears [m].

    Args:
        species [choice]: id of each animal's species
        rearing_reach_factor: what an animal truly reaches over what is said of its kind

    Formula: largest of carapace_length · the kind's reach · rearing_reach_factor; with several
    animals 0.4 of the longest shell more, as one may stand on another

    Species source: modelling_choice, no measurement was found [assumption]
    """
    lengths = np.atleast_1d(floats(carapace_length))
    kinds = facts(species, lambda item: own_or_usual(item, "rearing_reach").low)
    reach = np.max(lengths * kinds, axis=-1) * rearing_reach_factor
    several = lengths.shape[-1] > 1
    return np.asarray(reach + (_STACKED * np.max(lengths, axis=-1) if several else 0.0))


def lamp_height_least(
    rearing_reach: Num,
    escape_height: Num | None = None,
    cover_basking: str | None = None,
    lamp_guard: bool | None = None,
) -> Num:
    """Height of the heat lamp over the platform at which no animal touches it [m].

    Args:
        lamp_guard: a cage round the lamp keeps the animals off it

    Formula: rearing_reach, or 0.85 · escape_height where a cover on the rim is lower; refused
    with a guard

    Source: modelling_choice, a cover keeps the animals from a lamp above it [assumption]
    """
    if lamp_guard:
        raise NotApplicable("a guard keeps the animals off the lamp")
    return _under_a_cover(rearing_reach, escape_height, cover_basking)


def _under_a_cover(reach: Num, escape_height: Num | None, cover_basking: str | None) -> Num:
    if cover_basking in (None, "none") or escape_height is None:
        return floats(reach)
    cover = np.maximum(_UNDER_COVER * floats(escape_height), 0.01)
    return np.asarray(np.minimum(reach, cover))


def uvb_height_least(
    rearing_reach: Num, escape_height: Num | None = None, cover_basking: str | None = None
) -> Num:
    """Height of the UVB lamp over the platform at which no animal touches it [m].

    Formula: rearing_reach, or 0.85 · escape_height where a cover on the rim is lower

    Source: modelling_choice, a cover keeps the animals from a lamp above it [assumption]
    """
    return _under_a_cover(rearing_reach, escape_height, cover_basking)


def uvb_reach_share(uvb_lamp_height: Num, uvb_height_least: Num) -> Num:
    """Height of the UVB lamp over the height at which no animal touches it [1].

    Source: geometry, plain arithmetic [computed]
    """
    return floats(uvb_lamp_height) / uvb_height_least


def lamp_reach_share(heat_lamp_height: Num, lamp_height_least: Num) -> Num:
    """Height of the heat lamp over the height at which no animal touches it [1].

    Source: geometry, plain arithmetic [computed]
    """
    return floats(heat_lamp_height) / lamp_height_least


def lamp_glass_gap(heat_lamp_height: Num, escape_height: Num, cover_basking: str) -> Num:
    """Distance from the heat lamp's face down to a glass cover [m].

    Args:
        cover_basking: only a cover of glass is judged

    Formula: heat_lamp_height − escape_height, 0 within a millimetre of the glass; refused where the
    lamp hangs below the cover

    Source: geometry, plain arithmetic [computed]
    """
    if cover_basking != "glass":
        raise NotApplicable("no glass covers the basking place")
    gap = floats(heat_lamp_height) - escape_height
    if np.all(gap < -0.01):
        raise NotApplicable("the lamp hangs below the glass cover")
    return np.where(gap > _ON_IT, gap, 0.0)


def lamp_glass_gap_needed(heat_lamp_power: Num, heat_lamp_beam: str = "flood") -> Num:
    """Distance at which a heat lamp warms a glass cover by less than 40 K [m].

    Args:
        heat_lamp_beam: bare, flood or spot

    Formula: 15 cm, 25 cm for a spot, at 75 W; with the root of heat_lamp_power

    Source: physics, 4000 W/m², of which the glass takes a fifth and sheds it both ways [computed]
    Source: modelling_choice, share taken, film coefficients and beam widths [assumption]
    """
    distance = _SPOT if heat_lamp_beam == "spot" else _FLOOD
    return distance * np.sqrt(floats(heat_lamp_power) / _POWER)


def lamp_glass_share(lamp_glass_gap: Num, lamp_glass_gap_needed: Num) -> Num:
    """Distance from the heat lamp to a glass cover over the distance it needs [1].

    Source: geometry, plain arithmetic [computed]
    """
    return floats(lamp_glass_gap) / lamp_glass_gap_needed
