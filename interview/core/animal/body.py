"""Building blocks about the animals: size, mass, growth, space, food.

A species may be given as one id or as one id for each animal (animals on the last axis).
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.core.animal.growth_curves import (
    growth_factor_from_age,
    growth_stage,
    growth_time_to,
    outgrowing_time,
    outgrowing_time_high,
    outgrowing_time_low,
    projected_length,
    projected_length_high,
    projected_length_low,
)
from interview.core.animal.per_animal import facts, facts_by_sex
from interview.core.constants import WARM_WATER_DENSITY
from interview.core.errors import NotApplicable
from interview.core.numeric import Num, Words, floats

__all__ = [
    "ammonia_from_feed",
    "extra_animal_factor",
    "feed_for_mass",
    "feed_need_for",
    "foam_volume_needed",
    "growth_factor_from_age",
    "growth_stage",
    "growth_time_to",
    "largest_fitting_length",
    "mass_from_length",
    "outgrowing_time",
    "outgrowing_time_high",
    "outgrowing_time_low",
    "projected_length",
    "projected_length_high",
    "projected_length_low",
    "required_depth",
    "required_swim_area",
    "resting_energy",
    "shell_height_from_length",
    "shell_width_from_length",
]
LAWS = __all__

# Directive 2010/63/EU, annex III B, table 10.1: carapace length up to [m] (upper edge
# included), water surface [m**2], more for each further animal [m**2], depth [m].
_EU_EDGES = np.array([0.05, 0.10, 0.15, 0.20, 0.30])
_EU_AREA = np.array([0.06, 0.16, 0.35, 0.60, 1.00, 2.00])
_EU_FURTHER = np.array([0.01, 0.03, 0.06, 0.12, 0.20, 0.50])
_EU_DEPTH = np.array([0.10, 0.15, 0.20, 0.30, 0.35, 0.40])
_EDGE_SLACK = 1e-9  # m or m**2: 15 cm converted from inches is still 15 cm

_KILOCALORIE = 4184.0  # J, thermochemical
_DAY = 86400.0
# 10 kcal a day at 1 kg (trade habit), falling with mass ** 0.75
_RESTING_KILOCALORIES = 10.0
# Multiples of the resting energy fed (modelling choice) and energy of dry pellets (recalled)
_FED_ADULT, _FED_GROWING = 1.25, 2.5
_PELLET_ENERGY = 3.2 * _KILOCALORIE / 1e-3  # J/kg

# Ammonia nitrogen for each part of protein: 0.16 N in protein, 0.80 assimilated, 0.80 excreted,
# 0.90 of that as ammonia (Timmons and Ebeling, recalled) = 0.092
_AMMONIA_PER_PROTEIN = 0.092

_FOAM_DENSITY = 30.0  # kg/m**3, closed-cell foam
_FOAM_SAFETY = 2.0


def mass_from_length(species: Words | str, carapace_length: Num) -> Any:
    """Mass of an animal by its species' power law [kg].

    Give or take a quarter. Outside the lengths a law was fitted over the value still
    stands, with a wider doubt.

    Args:
        species [choice]: one id, or one for each animal
        carapace_length [m, 0.01 to 0.8]: straight carapace length

    Formula: 0.001 · a · (100 · carapace_length)^b, a and b by species

    Species source: amp, two-point power laws for emydids and Apalone [computed]
    Species source: folt_captures, log-log least squares over 68 of a related genus [computed]
    Species source: jolicoeur_mosimann_1960, ellipsoid of 48 shells at density 1 [computed]
    Species source: recalled, musk, mud, map and side-necked turtles [memory]
    """
    factor = facts(species, lambda item: item.mass_law.a.low)
    power = facts(species, lambda item: item.mass_law.b.low)
    # The laws are for centimetres and grams.
    return 1e-3 * factor * (100.0 * floats(carapace_length)) ** power


def shell_width_from_length(species: Words | str, sex: Words | str, carapace_length: Num) -> Any:
    """Width of a shell, by the middle of its species' range [m].

    Args:
        species [choice]: one id, or one for each animal
        sex [choice]: female, male or unknown
        carapace_length [m, 0.01 to 0.8]: straight carapace length

    Formula: carapace_length · width over length, the middle of the species' range

    Species source: jolicoeur_mosimann_1960, 24 males and 24 females of Chrysemys picta [computed]
    Species source: recalled, other species [memory]
    """
    ratio = facts_by_sex(species, sex, lambda item, s: item.shell_ratio("width", s).middle)
    return ratio * floats(carapace_length)


def shell_height_from_length(species: Words | str, sex: Words | str, carapace_length: Num) -> Any:
    """Height of a shell, by the middle of its species' range [m].

    Args:
        species [choice]: one id, or one for each animal
        sex [choice]: female, male or unknown
        carapace_length [m, 0.01 to 0.8]: straight carapace length

    Formula: carapace_length · height over length, the middle of the species' range

    Species source: jolicoeur_mosimann_1960, 24 males and 24 females of Chrysemys picta [computed]
    Species source: recalled, other species [memory]
    """
    ratio = facts_by_sex(species, sex, lambda item, s: item.shell_ratio("height", s).middle)
    return ratio * floats(carapace_length)


def required_swim_area(carapace_length: Num, animal_count: Num) -> Any:
    """Least water surface by the European table for laboratory turtles [m**2].

    Args:
        carapace_length: of the largest animal (a choice for mixed sizes)

    Formula: the table's row for the longest carapace_length, and the row's share more for each
    further animal

    Source: eu_2010_63, annex III B, table 10.1 [law]
    """
    row = _eu_row(carapace_length)
    return _EU_AREA[row] + (floats(animal_count) - 1.0) * _EU_FURTHER[row]


def required_depth(carapace_length: Num) -> Any:
    """Least water depth by the European table for laboratory turtles [m].

    Args:
        carapace_length: of the largest animal

    Formula: the table's row for the longest carapace_length

    Source: eu_2010_63, annex III B, table 10.1 [law]
    """
    return _EU_DEPTH[_eu_row(carapace_length)]


def largest_fitting_length(swim_area: Num, water_depth: Num, animal_count: Num) -> Any:
    """Longest carapace for which the European table still allows this tank [m].

    The upper edge of the last band that fits; infinite if even the last band does, 0 if none.

    Args:
        swim_area [m**2, 0 to 100]
        water_depth [m, 0 to 10]

    Formula: the last row of the table whose area and depth swim_area and water_depth keep

    Source: eu_2010_63, annex III B, table 10.1 read backwards [law]
    """
    further = floats(animal_count)[..., None] - 1.0
    area = floats(swim_area)[..., None] + _EDGE_SLACK
    enough = area >= _EU_AREA + further * _EU_FURTHER
    deep = floats(water_depth)[..., None] + _EDGE_SLACK >= _EU_DEPTH
    # Area and depth both rise from band to band, so the bands that fit come first.
    fitting = np.sum(enough & deep, axis=-1)
    return np.concatenate(([0.0], _EU_EDGES, [np.inf]))[fitting]


def extra_animal_factor(animal_count: Num) -> Any:
    """Floor for all animals over the floor for the first two [1].

    A tenth more for the third and the fourth, a fifth more for each from the fifth on.

    Source: bmel_1997, read second-hand, written for tortoises [published]
    Source: recalled, that it covers water turtles [memory]
    """
    count = floats(animal_count)
    return 1.0 + 0.1 * np.clip(count - 2.0, 0.0, 2.0) + 0.2 * np.maximum(count - 4.0, 0.0)


def resting_energy(mass: Num) -> Any:
    """Energy a resting turtle spends in warm water [W].

    Ten kilocalories a day at 1 kg. Lies 25 to 57 % over the respirometry of a painted turtle
    brought to 30 degC.

    Args:
        mass [kg, 0.001 to 50]: of the animal

    Source: common_practice, 10 W**0.75 kcal a day, W in kg [practice]
    """
    return _RESTING_KILOCALORIES * _KILOCALORIE / _DAY * floats(mass) ** 0.75


def feed_for_mass(mass: Num, growth: Words | str) -> Any:
    """Dry pellets for an animal of known mass, averaged over the days [kg/s].

    Args:
        mass [kg, 0.001 to 50]: of the animal

    Formula: multiple · resting_energy(mass) / energy of dry pellets; 1.25 for adults, 2.5 for
    growing animals

    Source: modelling_choice, multiples of the resting energy [assumption]
    Source: common_practice, resting energy 10 W**0.75 kcal a day, W in kg [practice]
    Source: recalled, 3.2 kcal a gram of dry pellets [memory]
    """
    return _fed_multiple(growth) * resting_energy(mass) / _PELLET_ENERGY


def feed_need_for(species: Words | str, carapace_length: Num, growth: Words | str) -> Any:
    """Dry pellets for an animal of known length, averaged over the days [kg/s].

    A sanity check on what is fed, not a diet plan.

    Source: modelling_choice, multiples of the resting energy [assumption]
    Source: common_practice, resting energy 10 W**0.75 kcal a day, W in kg [practice]
    Source: recalled, 3.2 kcal a gram of dry pellets [memory]
    Species source: amp, mass by a power law for emydids and Apalone [computed]
    """
    return feed_for_mass(mass_from_length(species, carapace_length), growth)


def ammonia_from_feed(
    feed_mass: Num, feed_protein: Num, ammonia_per_protein: Num = _AMMONIA_PER_PROTEIN
) -> Any:
    """Ammonia nitrogen that food turns into, for growing animals [kg].

    Args:
        feed_mass: food eaten

    Source: timmons_ebeling, 0.092 of the protein [memory]
    """
    return floats(feed_mass) * feed_protein * ammonia_per_protein


def foam_volume_needed(mass: Num) -> Any:
    """Closed-cell foam that carries a turtle with a safety factor of 2 [m**3].

    Args:
        mass [kg, 0 to 100]: carried

    Source: physics, buoyancy in water of 997 kg/m3 with foam of 30 kg/m3 [computed]
    """
    return _FOAM_SAFETY * floats(mass) / (WARM_WATER_DENSITY - _FOAM_DENSITY)


def _fed_multiple(growth: Words | str) -> Any:
    multiples = {"adult": _FED_ADULT, "juvenile": _FED_GROWING}
    for word in (growth,) if isinstance(growth, str) else growth:
        if word not in multiples:
            raise NotApplicable(f"growth is adult or juvenile, not {word}")
    if isinstance(growth, str):
        return multiples[growth]
    return np.array([multiples[word] for word in growth])


def _eu_row(carapace_length: Num) -> NDArray[np.intp]:
    length = floats(carapace_length) - _EDGE_SLACK
    return np.searchsorted(_EU_EDGES, length, side="left")
