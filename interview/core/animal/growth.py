"""How the animals grow, and when they outgrow the tank."""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.care.species import Profile, captive_growth
from interview.core.animal import body as laws
from interview.core.animal.growth_curves import adult_end
from interview.core.animal.per_animal import facts, facts_by_sex
from interview.core.numeric import Num, Words, each_animal, floats, largest

__all__ = [
    "adult_carapace_length",
    "each_growth_factor",
    "fitting_carapace_length",
    "grown_length_share",
    "grown_over_fitting",
    "grown_over_roomy",
    "growth_done",
    "life_stage",
    "outgrow_time",
    "outgrow_time_high",
    "outgrow_time_low",
    "roomy_carapace_length",
]
QUANTITIES = __all__

_HARDLY = 1e-3  # m: a tank that fits nothing


def life_stage(
    species: Words, sex: Words, carapace_length: Num, hatchling_length_factor: Num
) -> Any:
    """Stage of life of each animal: 0 hatchling, 1 juvenile, 2 adult [1].

    Source: modelling_choice, hatchling to juvenile [assumption]
    Species source: amp, lengths at hatching and adult ranges [published]
    """
    return laws.growth_stage(species, sex, carapace_length, each_animal(hatchling_length_factor))


def adult_carapace_length(species: Words, sex: Words, carapace_length: Num) -> Any:
    """Carapace length the largest animal may reach, upper end of its adult range [m].

    An animal already longer than its range counts as long as it is.

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown (counts as female), for each animal
        carapace_length [m, 0.01 to 0.8]: straight carapace length of each animal

    Formula: largest of the adult ranges' upper ends and the lengths now

    Species source: amp, adult ranges by species [published]
    Species source: recalled, adult ranges by species [memory]
    """
    return largest(np.maximum(adult_end(species, sex), carapace_length))


def grown_length_share(species: Words, sex: Words, carapace_length: Num) -> Any:
    """Carapace length over the upper end of its kind's adult range, the largest share [1].

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown (counts as female), for each animal
        carapace_length [m, 0.01 to 0.8]: straight carapace length of each animal

    Formula: largest of carapace_length / adult range's upper end

    Species source: amp, adult ranges by species [published]
    Species source: recalled, adult ranges by species [memory]
    """
    return largest(floats(carapace_length) / adult_end(species, sex))


def grown_over_fitting(
    species: Words,
    sex: Words,
    carapace_length: Num,
    fitting_carapace_length: Num,
) -> Any:
    """Length that the animals still to grow may reach over the longest the tank allows [1].

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown (counts as female), for each animal

    Formula: largest of adult range's upper end / fitting_carapace_length, of animals shorter than
    its lower end; 0 where all are grown

    Species source: amp, adult ranges by species [published]
    Species source: recalled, adult ranges by species [memory]
    """
    return _grown_over(species, sex, carapace_length, fitting_carapace_length)


def grown_over_roomy(
    species: Words,
    sex: Words,
    carapace_length: Num,
    roomy_carapace_length: Num,
) -> Any:
    """Length that the animals still to grow may reach over what two rules of room allow [1].

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown (counts as female), for each animal

    Formula: as grown_over_fitting, with roomy_carapace_length

    Species source: amp, adult ranges by species [published]
    Species source: recalled, adult ranges by species [memory]
    """
    return _grown_over(species, sex, carapace_length, roomy_carapace_length)


def _grown_over(species: Words, sex: Words, carapace_length: Num, fitting: Num) -> Any:
    length = floats(carapace_length)
    least = facts_by_sex(species, sex, lambda item, s: item.adult_carapace_length(s).low)
    fits = np.maximum(each_animal(fitting), _HARDLY)
    return largest(np.where(length < least, adult_end(species, sex) / fits, 0.0))


def growth_done(species: Words, sex: Words, carapace_length: Num) -> Any:
    """How far each animal has grown, from 0 at hatching to 1 where its curve ends [1].

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown (counts as female), for each animal
        carapace_length [m, 0.01 to 0.8]: straight carapace length of each animal

    Formula: (carapace_length − length at hatching) / (end − length at hatching), from 0 to 1, where
    end = the growth curve's limit, else the middle of the adult range

    Source: modelling_choice, the share of the way in length [assumption]
    Species source: amp, lengths at hatching, growth curves and adult ranges [published]
    """
    hatching = facts(species, lambda item: item.facts["carapace_length_hatchling"].middle)
    end = facts_by_sex(species, sex, _curve_end)
    length = floats(carapace_length)
    return np.clip((length - hatching) / (end - hatching), 0.0, 1.0)


def _curve_end(kind: Profile, sex: str) -> float:
    curve = kind.growth_curve(sex)
    return curve.asymptote if curve else kind.adult_carapace_length(sex).middle


def each_growth_factor(
    species: Words,
    sex: Words,
    carapace_length: Num,
    captive_growth_factor: Num,
    age: Num | None = None,
) -> Any:
    """Growth rate of each animal over the wild rate [1].

    Its own, where age and length tell it, kept between the wild rate and the most that
    generous feeding is thought to do; else that of captive animals in general.

    Formula: growth_factor_from_age where the age is known and within the captive band, else
    captive_growth_factor

    Source: modelling_choice, captive growth one to four times the wild rate [assumption]
    """
    usual = each_animal(captive_growth_factor) * np.ones(np.shape(np.atleast_1d(carapace_length)))
    if age is None:
        return usual
    own = laws.growth_factor_from_age(species, sex, carapace_length, age)
    within = np.clip(own, captive_growth("band").low, captive_growth("generous").high)
    return np.where(np.isnan(own), usual, within)


def fitting_carapace_length(swim_area: Num, fillable_depth: Num, animal_count: Num) -> Any:
    """Longest carapace for which the European table still allows this tank [m].

    Water is cheaper than a tank: its depth counts as far as the tank can be filled.

    Source: eu_2010_63, annex III B, table 10.1 read backwards [law]
    """
    return laws.largest_fitting_length(swim_area, fillable_depth, animal_count)


def roomy_carapace_length(
    fitting_carapace_length: Num, swim_area: Num, inside_width: Num, animal_count: Num
) -> Any:
    """Longest carapace that keeps the European table and the rule of 5 by 2.5 lengths [m].

    Formula: smallest of fitting_carapace_length, √(swim_area / (12.5 · extra_animal_factor)) and
    inside_width / 1.5

    Source: eu_2010_63, annex III B, table 10.1 read backwards [law]
    Source: nsw_education, 5 by 2.5 lengths, no side under 1.5, read backwards [published]
    Source: bmel_1997, the same floor, and more for further animals, read second-hand [published]
    """
    by_area = np.sqrt(floats(swim_area) / (12.5 * laws.extra_animal_factor(animal_count)))
    by_side = floats(inside_width) / 1.5
    return np.minimum(fitting_carapace_length, np.minimum(by_area, by_side))


def outgrow_time(
    species: Words,
    sex: Words,
    carapace_length: Num,
    each_growth_factor: Num,
    fitting_carapace_length: Num,
) -> Any:
    """Time until an animal outgrows the tank's swimming surface or depth [s].

    By the European table. Zero if one already has, infinite if the grown animals still fit.

    Args:
        sex: female, male or unknown (counts as female), for each animal

    Formula: first of the animals' outgrowing_time(species, sex, carapace_length,
    fitting_carapace_length, each_growth_factor)

    Species source: frazer_1990, growth curve of the slider; others by species [computed]
    Source: modelling_choice, faster growth in captivity, upper end of the range [assumption]
    """
    limit = each_animal(fitting_carapace_length)
    return _first(laws.outgrowing_time(species, sex, carapace_length, limit, each_growth_factor))


def outgrow_time_low(
    species: Words, sex: Words, carapace_length: Num, fitting_carapace_length: Num
) -> Any:
    """Time until an animal outgrows the tank if it grows fast and large [s].

    Args:
        sex: female, male or unknown (counts as female), for each animal

    Formula: first of the animals' outgrowing_time_low(species, sex, carapace_length,
    fitting_carapace_length)

    Source: modelling_choice, three times the wild rate towards the adult range's end [assumption]
    """
    limit = each_animal(fitting_carapace_length)
    return _first(laws.outgrowing_time_low(species, sex, carapace_length, limit))


def outgrow_time_high(
    species: Words, sex: Words, carapace_length: Num, fitting_carapace_length: Num
) -> Any:
    """Time until an animal outgrows the tank if it grows as in the wild [s].

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown (counts as female), for each animal
        carapace_length [m, 0.01 to 0.8]: straight carapace length of each animal
        fitting_carapace_length [m]: longest carapace the tank allows

    Formula: first of the animals' outgrowing_time_high(species, sex, carapace_length,
    fitting_carapace_length)

    Species source: frazer_1990, growth curve of the slider; others by species [computed]
    """
    limit = each_animal(fitting_carapace_length)
    return _first(laws.outgrowing_time_high(species, sex, carapace_length, limit))


def _first(per_animal: Any) -> Any:
    return np.min(np.atleast_1d(per_animal), axis=-1)
