"""What the animals need and are: warmth, UV zone, habits, legal marks.

Bands of a mixed tank are overlaps; a low end above the high end means the animals have no
common band, and is kept as it is.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.care.species import Profile, own_or_usual
from interview.core.animal.growth_curves import ADULT, HATCHLING
from interview.core.animal.per_animal import facts, facts_by_sex
from interview.core.numeric import Num, Words, floats

__all__ = [
    "basking_band_high",
    "basking_band_low",
    "basking_close_low",
    "fine_sand_required",
    "hot_day_danger",
    "invasive_listed",
    "ph_least",
    "protected_native",
    "strong_swimmer",
    "target_water_temperature",
    "too_large_indoors",
    "uv_zone_high",
    "uv_zone_low",
    "water_band_high",
    "water_band_low",
    "water_too_cold",
    "water_watch_high",
]
QUANTITIES = __all__

_TOO_WARM = 3.0  # K
_STRONG = frozenset({"moderate", "strong", "very_strong"})


def water_band_low(species: Words, life_stage: Num) -> Any:
    """Lower end of the water temperatures that suit every animal [degC].

    Hatchlings and adults have bands of their own; a juvenile may have either. Higher than
    the upper end if the animals have no water in common.

    Formula: largest of the lower ends by species and stage

    Species source: common_practice, bands by species and age [practice]
    Source: modelling_choice, a juvenile takes both bands [assumption]
    """
    ends = _by_stage(species, life_stage, np.minimum, lambda i, key: i.facts[key].low)
    return np.max(ends, axis=-1)


def water_band_high(species: Words, life_stage: Num) -> Any:
    """Upper end of the water temperatures that suit every animal [degC].

    Formula: smallest of the upper ends by species and stage

    Species source: common_practice, bands by species and age [practice]
    Source: modelling_choice, a juvenile takes both bands [assumption]
    """
    ends = _by_stage(species, life_stage, np.maximum, lambda i, key: i.facts[key].high)
    return np.min(ends, axis=-1)


def water_watch_high(water_band_high: Num) -> Any:
    """Water temperature above which it is plainly too warm [degC].

    Formula: water_band_high + 3 K

    Source: modelling_choice, three kelvin over the band [assumption]
    """
    return floats(water_band_high) + _TOO_WARM


def ph_least(species: Words) -> float:
    """Lowest pH that is still tolerated by every animal [1].

    Args:
        species [choice]: id of each animal's species

    Formula: largest of the species' limits

    Species source: common_practice, 6.0, softshells 6.5 [practice]
    """
    return float(np.max(facts(species, lambda item: own_or_usual(item, "ph_least").low)))


def hot_day_danger(species: Words) -> float:
    """Shell temperature that an animal kept warm does not bear for long [degC].

    Args:
        species [choice]: id of each animal's species

    Formula: smallest of the species' limits

    Species source: tatum_2020, upper chronic limit of sliders kept warm [published]
    Source: analogy, the same for other kinds [assumption]
    """
    return float(np.min(facts(species, lambda item: own_or_usual(item, "shell_too_hot").low)))


def target_water_temperature(water_band_low: Num, water_band_high: Num) -> Any:
    """Water temperature to aim for, the middle of the band [degC].

    Source: modelling_choice, the middle [assumption]
    """
    return 0.5 * (floats(water_band_low) + water_band_high)


def water_too_cold(species: Words) -> float:
    """Water temperature below which at least one of the animals is in trouble [degC].

    Args:
        species [choice]: id of each animal's species

    Formula: largest of the species' limits

    Species source: modelling_choice, 20 degC, tropical side-necks 23 [assumption]
    """
    return float(np.max(facts(species, lambda item: item.facts["water_too_cold"].low)))


def basking_band_low(species: Words) -> float:
    """Lower end of the basking surface temperatures that suit every animal [degC].

    Args:
        species [choice]: id of each animal's species

    Formula: largest of the species' lower ends

    Species source: common_practice, bands by species [practice]
    """
    return float(np.max(facts(species, lambda i: i.facts["basking_surface_temperature"].low)))


def basking_close_low(basking_band_low: Num, basking_close_margin: Num) -> Num:
    """Shell temperature down to which a basking spot is too cool by little [degC].

    Source: crawford_1983, for sliders the 28 °C below which they as a rule don't bask [published]
    Source: modelling_choice, as far under the band of the other species [assumption]
    """
    return basking_band_low - basking_close_margin


def basking_band_high(species: Words) -> float:
    """Upper end of the basking surface temperatures that suit every animal [degC].

    Args:
        species [choice]: id of each animal's species

    Formula: smallest of the species' upper ends

    Species source: common_practice, bands by species [practice]
    """
    return float(np.min(facts(species, lambda i: i.facts["basking_surface_temperature"].high)))


def uv_zone_low(species: Words) -> float:
    """UV index wanted at least at the closest basking point [1].

    Lower end of the zone's maximum range; the zone itself is assigned by analogy, no field
    study of a turtle's UV exposure is known.

    Args:
        species [choice]: id of each animal's species

    Formula: largest of the lower ends of the zones' maximum

    Species source: ferguson_2010, zones of snakes and lizards, read second-hand [published]
    Species source: analogy, zone of each turtle [assumption]
    """
    return float(np.max(facts(species, lambda item: item.uv_zone().maximum.low)))


def uv_zone_high(species: Words) -> float:
    """UV index not to be passed at the closest basking point [1].

    Args:
        species [choice]: id of each animal's species

    Formula: smallest of the upper ends of the zones' maximum, of the higher where two are plausible

    Species source: ferguson_2010, zones of snakes and lizards, read second-hand [published]
    Species source: analogy, zone of each turtle [assumption]
    """
    return float(np.min(facts(species, lambda item: item.uv_zone_above().maximum.high)))


def strong_swimmer(species: Words) -> bool:
    """Whether any of the animals swims more than weakly [yes/no].

    Args:
        species [choice]: id of each animal's species

    Species source: common_practice, swimming by species [practice]
    """
    return _any(species, lambda item: item.traits["swimming"].value in _STRONG)


def too_large_indoors(species: Words, sex: Words) -> bool:
    """Whether any of the animals outgrows every indoor tank [yes/no].

    Args:
        species [choice]: id of each animal's species
        sex [choice]: female, male or unknown (counts as female), for each animal

    Species source: modelling_choice, female softshells [assumption]
    """
    female = facts_by_sex(
        species, sex, lambda item, s: s != "male" and item.is_true("too_large_indoors_female")
    )
    return bool(np.any(female))


def fine_sand_required(species: Words) -> bool:
    """Whether any of the animals must bury itself in fine sand [yes/no].

    Args:
        species [choice]: id of each animal's species

    Species source: bmel_1997, group C, read second-hand [published]
    """
    return _any(species, lambda item: item.is_true("fine_sand_required"))


def invasive_listed(species: Words) -> bool:
    """Whether any of the animals stands on the European list of invasive species [yes/no].

    Args:
        species [choice]: id of each animal's species

    Species source: eu_2016_1141, Union list [law]
    """
    return _any(species, lambda item: item.is_true("eu_invasive_list"))


def protected_native(species: Words) -> bool:
    """Whether any of the animals is native to and protected in much of Europe [yes/no].

    Args:
        species [choice]: id of each animal's species

    Species source: recalled, Emys orbicularis [memory]
    """
    return _any(species, lambda item: item.is_marked("protected_native"))


def _any(species: Words, holds: Callable[[Profile], bool]) -> bool:
    return bool(np.any(facts(species, holds)))


def _by_stage(
    species: Words,
    life_stage: Num,
    wider: Callable[[Any, Any], Any],
    pick: Callable[[Profile, str], float],
) -> NDArray[np.float64]:
    """One end of each animal's water band; `wider` joins the two bands for a juvenile."""
    young = facts(species, lambda item: pick(item, "water_temperature_hatchling"))
    adult = facts(species, lambda item: pick(item, "water_temperature_adult"))
    stage = floats(life_stage)
    either = np.where(stage == HATCHLING, young, wider(young, adult))
    return np.atleast_1d(np.where(stage == ADULT, adult, either))
