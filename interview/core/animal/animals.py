"""The animals of a tank: how many, how large, how heavy, and the space rules they set."""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.core.animal import body as laws
from interview.core.animal.per_animal import facts
from interview.core.errors import NotApplicable
from interview.core.numeric import Num, Words, each_animal, floats, largest

__all__ = [
    "animal_count",
    "animal_mass",
    "body_mass",
    "escape_height_needed",
    "headroom_needed",
    "largest_animal_mass",
    "largest_carapace_length",
    "least_side",
    "least_volume",
    "proportional_depth",
    "proportional_swim_area",
    "required_depth",
    "required_swim_area",
    "righting_depth",
    "shell_height",
    "shell_width",
    "smallest_carapace_length",
    "swim_area_alone",
    "total_carapace_length",
]
QUANTITIES = __all__

# Doubt of a mass law beyond the lengths it was fitted over: ±30 % where ±25 % holds inside.
_WIDER_DOUBT = np.log(1.30) / np.log(1.25)


def animal_count(carapace_length: Num) -> float:
    """Animals in the tank [1].

    Formula: number of carapace lengths

    Source: geometry, plain counting [computed]
    """
    return float(np.shape(np.atleast_1d(carapace_length))[-1])


def largest_carapace_length(carapace_length: Num) -> Any:
    """Carapace length of the largest animal [m].

    Source: geometry, plain arithmetic [computed]
    """
    return largest(carapace_length)


def smallest_carapace_length(carapace_length: Num) -> Any:
    """Carapace length of the smallest animal [m].

    Source: geometry, plain arithmetic [computed]
    """
    return np.min(np.atleast_1d(carapace_length), axis=-1)


def total_carapace_length(carapace_length: Num) -> Any:
    """Carapace lengths of all animals together [m].

    Source: geometry, plain arithmetic [computed]
    """
    return np.sum(np.atleast_1d(carapace_length), axis=-1)


def body_mass(
    species: Words, carapace_length: Num, body_mass_factor: Num, mass: Num | None = None
) -> Any:
    """Mass of each animal: weighed, else by the power law of its species [kg].

    Args:
        mass [kg, 0.001 to 50]

    Formula: mass where it was weighed, else mass_from_length(species, carapace_length) ·
    body_mass_factor, whose doubt is wider outside the lengths the law was fitted over

    Species source: amp, power laws by species [computed]
    Source: modelling_choice, a quarter either way, wider outside the fitted range [assumption]
    """
    low = facts(species, lambda item: item.mass_law.valid_carapace_length.low)
    high = facts(species, lambda item: item.mass_law.valid_carapace_length.high)
    length = floats(carapace_length)
    doubt = np.where((length < low) | (length > high), _WIDER_DOUBT, 1.0)
    by_law = laws.mass_from_length(species, length) * each_animal(body_mass_factor) ** doubt
    if mass is None:
        return by_law
    return np.where(np.isnan(mass), by_law, mass)


def animal_mass(body_mass: Num) -> Any:
    """Mass of all animals together [kg].

    Source: geometry, plain arithmetic [computed]
    """
    return np.sum(np.atleast_1d(body_mass), axis=-1)


def largest_animal_mass(body_mass: Num) -> Any:
    """Mass of the heaviest animal [kg].

    Source: geometry, plain arithmetic [computed]
    """
    return largest(body_mass)


def shell_height(species: Words, sex: Words, carapace_length: Num, shell_height_factor: Num) -> Any:
    """Height of the tallest shell [m].

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown, for each animal
        carapace_length [m, 0.01 to 0.8]: straight carapace length of each animal
        shell_height_factor [1, 0.01 to 100]: spread between animals, 1 at the middle

    Species source: jolicoeur_mosimann_1960, Chrysemys picta [computed]
    Species source: recalled, other species [memory]
    """
    height = laws.shell_height_from_length(species, sex, carapace_length)
    return largest(height) * shell_height_factor


def shell_width(species: Words, sex: Words, carapace_length: Num, shell_width_factor: Num) -> Any:
    """Width of the widest shell [m].

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown, for each animal
        carapace_length [m, 0.01 to 0.8]: straight carapace length of each animal
        shell_width_factor [1, 0.01 to 100]: spread between animals, 1 at the middle

    Species source: jolicoeur_mosimann_1960, Chrysemys picta [computed]
    Species source: recalled, other species [memory]
    """
    return largest(laws.shell_width_from_length(species, sex, carapace_length)) * shell_width_factor


def required_swim_area(largest_carapace_length: Num, animal_count: Num) -> Any:
    """Least water surface by the European table for laboratory turtles [m**2].

    Args:
        largest_carapace_length: its band decides for mixed sizes (a choice)

    Source: eu_2010_63, annex III B, table 10.1 [law]
    """
    return laws.required_swim_area(largest_carapace_length, animal_count)


def swim_area_alone(adult_carapace_length: Num, animal_count: Num) -> Any:
    """Water surface that the largest animal needs alone, once grown [m**2].

    Args:
        animal_count: refused for a single animal

    Formula: the larger of required_swim_area and proportional_swim_area of one animal as long as
    adult_carapace_length

    Source: eu_2010_63, annex III B, table 10.1 [law]
    Source: nsw_education, 5 by 2.5 carapace lengths [published]
    """
    if np.all(np.asarray(animal_count) < 2):
        raise NotApplicable("only one turtle lives here")
    by_table = required_swim_area(adult_carapace_length, 1.0)
    return np.maximum(by_table, proportional_swim_area(adult_carapace_length, 1.0))


def required_depth(largest_carapace_length: Num) -> Any:
    """Least water depth by the European table for laboratory turtles [m].

    Source: eu_2010_63, annex III B, table 10.1 [law]
    """
    return laws.required_depth(largest_carapace_length)


def proportional_swim_area(largest_carapace_length: Num, animal_count: Num) -> Any:
    """Water surface of 5 by 2.5 carapace lengths for two animals, more for further ones [m**2].

    Source: nsw_education, enclosure for up to two animals [published]
    Source: bmel_1997, a tenth or a fifth more for further animals, read second-hand [published]
    """
    floor = 12.5 * floats(largest_carapace_length) ** 2
    return floor * laws.extra_animal_factor(animal_count)


def proportional_depth(largest_carapace_length: Num) -> Any:
    """Water depth of 1.5 carapace lengths [m].

    Source: nsw_education, mean water depth [published]
    """
    return 1.5 * floats(largest_carapace_length)


def escape_height_needed(largest_carapace_length: Num) -> Any:
    """Rim over the highest foothold that no animal reaches, 1.5 carapace lengths [m].

    Source: common_practice, upright reach of 1.3 to 1.5 carapace lengths [practice]
    """
    return 1.5 * floats(largest_carapace_length)


def headroom_needed(shell_height: Num, headroom_margin: Num) -> Any:
    """Room for the tallest shell between the platform and a cover [m].

    Args:
        shell_height [m, 0 to 0.5]

    Source: geometry, plain arithmetic [computed]
    """
    return floats(shell_height) + headroom_margin


def least_side(largest_carapace_length: Num) -> Any:
    """Shortest side a tank may have, 1.5 carapace lengths [m].

    Source: nsw_education, no side shorter [published]
    """
    return 1.5 * floats(largest_carapace_length)


def righting_depth(largest_carapace_length: Num) -> Any:
    """Least depth in which a turtle on its back can right itself [m].

    It must tilt on edge, so the water must be deeper than the widest shells are wide.

    Source: jolicoeur_mosimann_1960, widest shell 0.835 of its length, rounded up [computed]
    """
    return 0.85 * floats(largest_carapace_length)


def least_volume(largest_carapace_length: Num) -> Any:
    """Water in a tank of 5 by 2.5 by 1.5 carapace lengths [m**3].

    Source: nsw_education, sides and depth multiplied [published]
    """
    return 18.75 * floats(largest_carapace_length) ** 3
