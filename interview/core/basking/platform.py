"""The basking platform: whether it is big enough, carries, and leaves no gap to jam in."""

from __future__ import annotations

import numpy as np

from interview.core.animal.body import foam_volume_needed
from interview.core.animal.per_animal import facts
from interview.core.basking.warm_patch import raft_edge_sinkage, raft_sinkage
from interview.core.constants import WARM_WATER_DENSITY
from interview.core.errors import Missing, NotApplicable
from interview.core.numeric import Num, Words, each_animal, floats

__all__ = [
    "foam_carried_mass",
    "foam_volume_required",
    "gap_share_enter",
    "gap_share_jam_high",
    "gap_share_jam_low",
    "platform_area",
    "platform_area_least",
    "platform_area_needed",
    "platform_edge_sinkage",
    "platform_float_area",
    "platform_freeboard",
    "platform_gap_share",
    "platform_sinkage",
]
QUANTITIES = __all__

# A turtle hauls out a sixth of the raft's width from its edge: at the edge itself a
# weightless raft would tip.
_CLIMBING_PLACE = 1.0 / 3.0
_FOAM_DENSITY = 30.0  # kg/m**3, closed-cell
_DRY_AREA = 1.5  # times the carapace length squared, stretched neck and legs included
_LEAST_AREA = 1.2  # one carapace length by 1.2: lying, head and legs drawn in
_JAM_FROM = 0.30  # lowest shell height over length, less a tenth (jolicoeur_mosimann_1960)
_SPARE = 0.9  # a tenth to spare below the flattest shell
# flattest and widest of 48 painted turtle shells, over the length: where the kind isn't known
_FLATTEST, _WIDEST = 0.333, 0.835


def platform_area(
    platform_kind: str,
    platform_length: Num | None = None,
    platform_width: Num | None = None,
) -> Num:
    """Area of the basking platform [m**2].

    Source: geometry, rectangle; 0 without a platform [computed]
    """
    if platform_kind == "none":
        return 0.0
    if platform_length is None or platform_width is None:
        raise Missing("platform_length", "platform_width")
    return np.asarray(floats(platform_length) * platform_width)


def platform_area_needed(carapace_length: Num) -> Num:
    """Platform area that lets every animal lie stretched out of the water at once [m**2].

    Source: common_practice, 1.5 times the carapace length squared for each [practice]
    """
    return np.asarray(_DRY_AREA * np.sum(np.atleast_1d(carapace_length) ** 2, axis=-1))


def platform_area_least(carapace_length: Num) -> Num:
    """Platform area on which every animal just lies out of the water at once [m**2].

    Source: common_practice, 1.2 times the carapace length squared for each [practice]
    """
    return np.asarray(_LEAST_AREA * np.sum(np.atleast_1d(carapace_length) ** 2, axis=-1))


def _only_floating(platform_kind: str) -> None:
    if platform_kind != "floating":
        raise NotApplicable("the platform does not float")


def foam_volume_required(platform_kind: str, animal_mass: Num) -> Num:
    """Closed-cell foam that carries all animals with a double reserve [m**3].

    Args:
        platform_kind: only a floating one needs foam

    Formula: foam_volume_needed(animal_mass)

    Source: physics, Archimedes [computed]
    """
    _only_floating(platform_kind)
    return np.asarray(foam_volume_needed(animal_mass))


def foam_carried_mass(platform_kind: str, platform_foam_volume: Num | None = None) -> Num:
    """Mass that closed-cell foam just holds up when it is all under water [kg].

    Args:
        platform_kind: only a floating one needs foam

    Formula: platform_foam_volume · (density of water − density of foam)

    Source: physics, Archimedes [computed]
    Source: recalled, closed-cell foam of 30 kg/m**3 [memory]
    """
    _only_floating(platform_kind)
    if platform_foam_volume is None:
        raise Missing("platform_foam_volume")
    return np.asarray(platform_foam_volume * (WARM_WATER_DENSITY - _FOAM_DENSITY))


def platform_float_area(
    platform_area: Num,
    platform_foam_volume: Num | None = None,
    platform_foam_thickness: Num | None = None,
) -> Num:
    """Area over which a floating platform is carried: of its foam, if that is known [m**2].

    Formula: platform_foam_volume / platform_foam_thickness, at most platform_area; else
    platform_area

    Source: geometry, plain arithmetic [computed]
    """
    if platform_foam_volume is None or platform_foam_thickness is None:
        return platform_area
    return np.minimum(platform_foam_volume / platform_foam_thickness, platform_area)


def platform_sinkage(platform_kind: str, animal_mass: Num, platform_float_area: Num) -> Num:
    """How far a floating platform sinks with all animals in its middle [m].

    Args:
        platform_kind: only a floating one sinks

    Formula: raft_sinkage(animal_mass, platform_float_area)

    Source: physics, Archimedes [computed]
    """
    _only_floating(platform_kind)
    return raft_sinkage(animal_mass, platform_float_area)


def platform_edge_sinkage(platform_kind: str, animal_mass: Num, platform_float_area: Num) -> Num:
    """How far the edge of a floating platform sinks where the animals haul out [m].

    Args:
        platform_kind: only a floating one sinks

    Formula: raft_edge_sinkage(animal_mass, platform_float_area, a third of the width off the
    middle)

    Source: physics, statics of a weightless raft [computed]
    Source: modelling_choice, loaded a sixth of its width from the edge [assumption]
    """
    _only_floating(platform_kind)
    return raft_edge_sinkage(animal_mass, platform_float_area, _CLIMBING_PLACE)


def platform_freeboard(platform_height_above_water: Num, platform_edge_sinkage: Num) -> Num:
    """Height of a floating platform's edge over the water while the animals haul out [m].

    Args:
        platform_height_above_water [m, -1 to 2]

    Source: geometry, plain arithmetic [computed]
    """
    return floats(platform_height_above_water) - platform_edge_sinkage


def gap_share_jam_low(species: Words | None = None) -> float:
    """Gap over shell length from which the flattest shell enters it [1].

    Args:
        species [choice]: id of each animal's species; painted turtles where it isn't known

    Formula: smallest height over length of the species' shells

    Species source: jolicoeur_mosimann_1960, flattest of 48 painted turtle shells [computed]
    Species source: recalled, shell height over length of other species, the low end [memory]
    """
    if species is None:
        return _FLATTEST
    return float(np.min(facts(species, lambda item: item.facts["shell_height_ratio"].low)))


def gap_share_jam_high(species: Words | None = None) -> float:
    """Gap over shell length up to which the widest shell jams in it [1].

    Args:
        species [choice]: id of each animal's species; painted turtles where it isn't known

    Formula: largest width over length of the species' shells

    Species source: jolicoeur_mosimann_1960, widest of 48 painted turtle shells [computed]
    Species source: recalled, shell width over length of other species, the high end [memory]
    """
    if species is None:
        return _WIDEST
    return float(np.max(facts(species, lambda item: item.facts["shell_width_ratio"].high)))


def gap_share_enter(gap_share_jam_low: Num) -> Num:
    """Gap over shell length below which no shell enters, a tenth to spare [1].

    Source: modelling_choice, nine tenths of the flattest shell [assumption]
    """
    return np.asarray(_SPARE * floats(gap_share_jam_low))


def platform_gap_share(platform_kind: str, platform_wall_gap: Num, carapace_length: Num) -> Num:
    """Gap beside the platform over the carapace length of the animal likeliest to jam in it [1].

    An animal enters a gap wider than its shell is high and jams in one narrower than it is
    long, so the animal nearest to the middle of that band, in proportion, decides.

    Args:
        platform_kind: above_tank and none have no gap

    Formula: platform_wall_gap / carapace_length, of the animal for whom it lies nearest to the
    middle of the shares that trap

    Source: jolicoeur_mosimann_1960, shell height and width with a tenth to spare [computed]
    """
    if platform_kind == "none":
        raise NotApplicable("there is no platform")
    if platform_kind == "above_tank":
        raise NotApplicable("the platform stands above the tank")
    shares = each_animal(platform_wall_gap) / np.atleast_1d(carapace_length)
    with np.errstate(divide="ignore"):
        off_middle = np.abs(np.log(shares / np.sqrt(_JAM_FROM)))
    worst = np.argmin(off_middle, axis=-1)
    return np.asarray(np.take_along_axis(shares, worst[..., None], axis=-1)[..., 0])
