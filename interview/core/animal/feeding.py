"""Food: what is fed, what the animals need, and the ammonia it turns into."""

from __future__ import annotations

from typing import Any

import numpy as np

from interview.core.animal import body as laws
from interview.core.animal.growth_curves import ADULT
from interview.core.animal.per_animal import facts
from interview.core.numeric import Num, Words, floats

__all__ = [
    "ammonia_load",
    "feed_need",
    "feed_rate",
    "feed_share",
    "feed_share_close_most",
    "feed_share_most",
    "grown_feed_share",
    "leaves_wanted",
    "leaves_wanted_least",
]
QUANTITIES = __all__

_WEEK = 7 * 86400.0
_PLANTS_GROWN = {
    "herbivore": 0.9,
    "omnivore_leaning_herbivore": 0.8,
    "omnivore": 0.6,
    "omnivore_leaning_carnivore": 0.3,
    "carnivore_leaning_omnivore": 0.1,
    "carnivore": 0.0,
}
"""Share of plants in the food of a grown animal."""
# All the nitrogen there is in protein: the bound no excretion passes.
_NITROGEN_IN_PROTEIN = 0.16


def feed_rate(feed_mass: Num, feeds_per_week: Num) -> Any:
    """Food given, averaged over the week [kg/s].

    Args:
        feed_mass [kg, 0 to 10]

    Source: geometry, plain arithmetic [computed]
    """
    return floats(feed_mass) * feeds_per_week / _WEEK


def feed_need(body_mass: Num, growth_done: Num, feed_need_factor: Num) -> Any:
    """Dry pellets all animals need, averaged over the days [kg/s].

    A sanity check on what is fed, not a diet plan. The need fades with length from that of a
    hatchling to that of a grown animal, without a step.

    Formula: sum of feed_for_mass(body_mass, growing) · (1 − growth_done / 2) · feed_need_factor

    Source: common_practice, energy by mass to the power 0.75 [practice]
    Source: modelling_choice, 1.25 times it for adults, 2.5 for growing animals [assumption]
    Source: recalled, 3.2 kcal a gram of dry pellets [memory]
    """
    return np.sum(_each_need(body_mass, growth_done), axis=-1) * feed_need_factor


def feed_share(feed_rate: Num, feed_need: Num) -> Any:
    """Dry food given over the food needed [1].

    Source: physics, ratio of two rates [computed]
    """
    return floats(feed_rate) / feed_need


def feed_share_most(body_mass: Num, growth_done: Num) -> Any:
    """Dry food over the need that still counts as about right [1].

    Formula: 2 for hatchlings, 1.55 for grown animals, between them by growth_done, each by its need

    Source: modelling_choice, a growing animal makes length of what is too much [assumption]
    """
    return 2.0 - 0.45 * _mean_growth_done(body_mass, growth_done)


def feed_share_close_most(body_mass: Num, growth_done: Num) -> Any:
    """Dry food over the need from which it is too much [1].

    Formula: 3 for hatchlings, 2.2 for grown animals, between them by growth_done, each by its need

    Source: modelling_choice, a growing animal makes length of what is too much [assumption]
    """
    return 3.0 - 0.8 * _mean_growth_done(body_mass, growth_done)


def _mean_growth_done(body_mass: Num, growth_done: Num) -> Any:
    need = _each_need(body_mass, growth_done)
    return np.sum(need * growth_done, axis=-1) / np.sum(need, axis=-1)


def grown_feed_share(body_mass: Num, growth_done: Num, life_stage: Num) -> Any:
    """Share of the food that goes to animals which no longer grow [1].

    Formula: need of the grown animals / need of all

    Source: modelling_choice, food shared out by need [assumption]
    """
    need = _each_need(body_mass, growth_done)
    grown = np.where(np.asarray(life_stage) == ADULT, need, 0.0)
    return np.sum(grown, axis=-1) / np.sum(need, axis=-1)


def leaves_wanted(species: Words, growth_done: Num) -> Any:
    """Share of plants in the food of the animal that wants most of them [1].

    Args:
        species [choice]: id of each animal's species

    Formula: largest of that of the kind's grown animals · (1 + growth_done) / 2: by its diet 0.9
    for plant eaters, 0.8, 0.6, 0.3, 0.1, and 0 for hunters

    Species source: bouchard_bjorndal_2006, sliders turn from animals to plants [published]
    Source: modelling_choice, the shares, and half of them for hatchlings [assumption]
    """
    return np.max(_each_leaves_wanted(species, growth_done), axis=-1)


def leaves_wanted_least(species: Words, growth_done: Num) -> Any:
    """Share of plants in the food of the animal that wants fewest of them [1].

    Args:
        species [choice]: id of each animal's species

    Formula: as leaves_wanted, the smallest

    Species source: bouchard_bjorndal_2006, sliders turn from animals to plants [published]
    Source: modelling_choice, the shares, and half of them for hatchlings [assumption]
    """
    return np.min(_each_leaves_wanted(species, growth_done), axis=-1)


def _each_leaves_wanted(species: Words, growth_done: Num) -> Any:
    grown = facts(species, lambda item: _PLANTS_GROWN[str(item.traits["diet"].value)])
    return np.atleast_1d(grown * 0.5 * (1.0 + floats(growth_done)))


def ammonia_load(
    feed_rate: Num,
    feed_protein: Num,
    grown_feed_share: Num,
    ammonia_per_protein: Num,
    adult_nitrogen_return: Num,
) -> Any:
    """Ammonia nitrogen the filter must turn over, urea counted with it [kg/s].

    A growing animal builds nitrogen in and droppings are netted out. An animal that no longer
    grows gives nearly all of it back, and droppings decay in a closed loop: of the nitrogen
    the growing animal would keep, it returns the share `adult_nitrogen_return`.

    Source: timmons_ebeling, 0.092 of the protein for growing animals [memory]
    Source: modelling_choice, 0.13 to 0.16 where growth has ended [assumption]
    """
    kept = _NITROGEN_IN_PROTEIN - floats(ammonia_per_protein)
    yielded = ammonia_per_protein + grown_feed_share * adult_nitrogen_return * kept
    return laws.ammonia_from_feed(feed_rate, feed_protein, yielded)


def _each_need(body_mass: Num, growth_done: Num) -> Any:
    mass = np.atleast_1d(body_mass)
    adult, growing = (laws.feed_for_mass(mass, word) for word in ("adult", "juvenile"))
    return growing + (adult - growing) * floats(growth_done)
