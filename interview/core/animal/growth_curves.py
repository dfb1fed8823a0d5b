"""Building blocks about growth: stage of life, wild curves, captive projections."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from interview.care.species import GrowthCurve, Profile, captive_growth
from interview.core.animal.per_animal import facts, facts_by_sex
from interview.core.errors import NotApplicable
from interview.core.numeric import Num, Words, floats

__all__ = [
    "ADULT",
    "HATCHLING",
    "JUVENILE",
    "adult_end",
    "growth_factor_from_age",
    "growth_stage",
    "growth_time_to",
    "outgrowing_time",
    "outgrowing_time_high",
    "outgrowing_time_low",
    "projected_length",
    "projected_length_high",
    "projected_length_low",
]

HATCHLING, JUVENILE, ADULT = 0.0, 1.0, 2.0
_SLACK = 1e-9  # m: 15 cm converted from inches is still 15 cm


def growth_stage(
    species: Words | str,
    sex: Words | str,
    carapace_length: Num,
    hatchling_length_factor: Num = 2.0,
) -> Any:
    """Stage of life: 0 hatchling, 1 juvenile, 2 adult [1].

    Adult from the lower end of the adult range of its sex (unknown counts as female).
    A hatchling up to twice the upper end of the range at hatching: no published border
    is known, the factor is a choice.

    Formula: 2 from the lower end of the adult range on, 0 up to hatchling_length_factor ·
    length at hatching, else 1

    Source: modelling_choice, hatchling to juvenile [assumption]
    Species source: amp, lengths at hatching and adult ranges [published]
    """
    length = floats(carapace_length)
    hatching = facts(species, lambda item: item.facts["carapace_length_hatchling"].high)
    adult = facts_by_sex(species, sex, lambda item, s: item.adult_carapace_length(s).low)
    young = np.where(length <= hatchling_length_factor * hatching, HATCHLING, JUVENILE)
    return np.where(length >= adult, ADULT, young)


def projected_length(
    species: Words | str,
    sex: Words | str,
    carapace_length: Num,
    after: Num,
    captive_growth_factor: Num | None = None,
) -> Any:
    """Carapace length some time from now, growing as in captivity (central line) [m].

    The wild animals' von Bertalanffy curve of the sex (unknown counts as female), plastron
    lengths turned into carapace lengths, at twice the wild rate. An animal at or over the
    curve's asymptote stays as long as it is.

    Args:
        captive_growth_factor: growth rate over the wild rate, 2 unless given

    Formula: L∞ − (L∞ − carapace_length) · exp(−captive_growth_factor · k · after)

    Species source: frazer_1990, growth curve of the slider; others by species [computed]
    Species source: webb_1961, plastron 0.92 of the carapace [published]
    Source: modelling_choice, captive animals grow at twice the wild rate [assumption]
    """
    typical = captive_growth("typical").low
    factor = typical if captive_growth_factor is None else captive_growth_factor
    asymptote = _curve_facts(species, sex, lambda curve: curve.asymptote)
    return _grown(species, sex, carapace_length, after, factor, asymptote)


def projected_length_low(
    species: Words | str, sex: Words | str, carapace_length: Num, after: Num
) -> Any:
    """Carapace length some time from now at the wild rate of growth (low line) [m].

    Args:
        species [choice]: one id, or one for each animal
        sex [choice]: female, male or unknown
        carapace_length [m, 0.01 to 0.8]: straight carapace length now
        after [s, 0 to 4e9]: time from now

    Formula: L∞ − (L∞ − carapace_length) · exp(−k · after)

    Species source: frazer_1990, growth curve of the slider; others by species [computed]
    """
    return projected_length(species, sex, carapace_length, after, captive_growth("band").low)


def projected_length_high(
    species: Words | str, sex: Words | str, carapace_length: Num, after: Num
) -> Any:
    """Carapace length some time from now at three times the wild rate (high line) [m].

    Heads for the upper end of the adult range of the sex: a fitted asymptote is the mean of
    one wild, often small population.

    Formula: the same curve towards the adult range's end, at 3 · k

    Species source: frazer_1990, growth rate of the slider; others by species [computed]
    Source: modelling_choice, three times the wild rate towards the adult range's end [assumption]
    """
    fast = captive_growth("band").high
    return _grown(species, sex, carapace_length, after, fast, _far_end(species, sex))


def growth_time_to(carapace_length: Num, end_length: Num, asymptote: Num, growth_rate: Num) -> Any:
    """Time until a growing animal is longer than a given length; infinite if it never is [s].

    Formula: ln((asymptote − carapace_length) / (asymptote − end_length)) / growth_rate; 0
    beyond the end, ∞ where it lies past the asymptote

    Source: geometry, inverse of the von Bertalanffy curve [computed]
    """
    now, end = floats(carapace_length), floats(end_length)
    ahead = (end < asymptote) & (end >= now)
    share = np.where(ahead, asymptote - now, 1.0) / np.where(ahead, asymptote - end, 1.0)
    time = np.where(ahead, np.log(share) / growth_rate, np.inf)
    return np.where(now > end + _SLACK, 0.0, time)


def outgrowing_time(
    species: Words | str,
    sex: Words | str,
    carapace_length: Num,
    fitting_length: Num,
    growth_factor: Num,
) -> Any:
    """Time until an animal is longer than its tank allows, central line [s].

    Zero if it is already; infinite if even the upper end of its adult range fits. Where the
    wild curve stops short of the border but the adult range doesn't, the animal is taken to
    head for the upper end of that range: an asymptote is the mean of one wild population.

    Formula: growth_time_to(carapace_length, fitting_length, L∞, growth_factor · k), towards the
    adult range's end where L∞ is never passed

    Species source: frazer_1990, growth curve of the slider; others by species [computed]
    Source: modelling_choice, faster growth in captivity, upper end of the range [assumption]
    """
    rate = growth_factor * _known_rate(species, sex, carapace_length, fitting_length)
    asymptote = _curve_facts_or_nan(species, sex, lambda curve: curve.asymptote)
    by_curve = growth_time_to(carapace_length, fitting_length, asymptote, rate)
    by_range = growth_time_to(carapace_length, fitting_length, _far_end(species, sex), rate)
    return np.where(np.isinf(by_curve), by_range, by_curve)


def outgrowing_time_low(
    species: Words | str, sex: Words | str, carapace_length: Num, fitting_length: Num
) -> Any:
    """Time until an animal is longer than its tank allows, growing fast and large [s].

    Formula: growth_time_to(carapace_length, fitting_length, adult range's end, 3 · k)

    Source: modelling_choice, three times the wild rate towards the adult range's end [assumption]
    """
    rate = captive_growth("band").high * _known_rate(species, sex, carapace_length, fitting_length)
    return growth_time_to(carapace_length, fitting_length, _far_end(species, sex), rate)


def outgrowing_time_high(
    species: Words | str, sex: Words | str, carapace_length: Num, fitting_length: Num
) -> Any:
    """Time until an animal is longer than its tank allows, growing as in the wild [s].

    Args:
        species [choice]: one id, or one for each animal
        sex [choice]: female, male or unknown
        carapace_length [m, 0.01 to 0.8]: straight carapace length now
        fitting_length [m, 0 to 5]: longest carapace the tank allows

    Formula: growth_time_to(carapace_length, fitting_length, L∞, k)

    Species source: frazer_1990, growth curve of the slider; others by species [computed]
    """
    rate = captive_growth("band").low * _known_rate(species, sex, carapace_length, fitting_length)
    asymptote = _curve_facts_or_nan(species, sex, lambda curve: curve.asymptote)
    return growth_time_to(carapace_length, fitting_length, asymptote, rate)


def growth_factor_from_age(
    species: Words | str, sex: Words | str, carapace_length: Num, age: Num
) -> Any:
    """How much faster than a wild animal this one has grown, from its age and length [1].

    Not a number where that can't be told: no age, no curve, or an animal already at the
    asymptote or not past its length at hatching.

    Args:
        species [choice]: one id, or one for each animal
        sex [choice]: female, male or unknown
        carapace_length [m, 0.01 to 0.8]: straight carapace length now
        age [s, 0 to 4e9]: age now

    Formula: ln((L∞ − L0) / (L∞ − carapace_length)) / (k · age), L0, L∞ and k of the wild growth
    curve

    Species source: frazer_1990, growth curve of the slider; others by species [computed]
    """
    start, asymptote, rate = (
        _curve_facts_or_nan(species, sex, pick)
        for pick in (lambda c: c.start, lambda c: c.asymptote, lambda c: c.rate)
    )
    length, since = floats(carapace_length), floats(age)
    usable = (length > start) & (length < asymptote) & (since > 0.0)
    left = np.where(usable, asymptote - length, np.nan)
    return np.log((asymptote - start) / left) / (rate * np.where(usable, since, np.nan))


def _curve_facts_or_nan(
    species: Words | str, sex: Words | str, pick: Callable[[GrowthCurve], float]
) -> Any:
    def picked(item: Profile, of_sex: str) -> float:
        curve = item.growth_curve(of_sex)
        return np.nan if curve is None else pick(curve)

    return facts_by_sex(species, sex, picked)


def _curve_facts(
    species: Words | str, sex: Words | str, pick: Callable[[GrowthCurve], float]
) -> Any:
    found = _curve_facts_or_nan(species, sex, pick)
    if np.any(np.isnan(found)):
        raise _no_curve(species, sex, np.isnan(found))
    return found


def _no_curve(species: Words | str, sex: Words | str, unknown: Any) -> NotApplicable:
    """Say for which of the animals no growth curve is known."""
    lacking: list[str] = []

    def collect(item: Profile, of_sex: str) -> float:
        lacking.append(item.name if of_sex == "unknown" else f"{of_sex} {item.name}")
        return 0.0

    facts_by_sex(species, sex, collect)
    which = np.broadcast_to(unknown, (len(lacking),))
    named = dict.fromkeys(name for name, lacks in zip(lacking, which, strict=True) if lacks)
    return NotApplicable("no growth curve is known for the " + " or the ".join(named))


def _known_rate(
    species: Words | str, sex: Words | str, carapace_length: Num, fitting_length: Num
) -> Any:
    """Wild growth rate; NotApplicable where it is unknown and the answer hangs on it."""
    rate = _curve_facts_or_nan(species, sex, lambda curve: curve.rate)
    now, fits = floats(carapace_length), floats(fitting_length)
    undecided = (now <= fits + _SLACK) & (fits + _SLACK < adult_end(species, sex))
    unknown = np.atleast_1d(np.isnan(rate) & undecided)
    if np.any(unknown):
        raise _no_curve(species, sex, np.any(unknown, axis=tuple(range(unknown.ndim - 1))))
    return rate


def adult_end(species: Words | str, sex: Words | str) -> Any:
    """Upper end of each animal's adult range [m]; an unknown sex counts as female."""
    return facts_by_sex(species, sex, lambda item, s: item.adult_carapace_length(s).high)


def _far_end(species: Words | str, sex: Words | str) -> Any:
    """Upper end of the adult range, or the curve's asymptote where that lies beyond it."""
    asymptote = _curve_facts_or_nan(species, sex, lambda curve: curve.asymptote)
    return np.fmax(adult_end(species, sex), asymptote)


def _grown(
    species: Words | str,
    sex: Words | str,
    carapace_length: Num,
    after: Num,
    factor: Num,
    asymptote: Any,
) -> Any:
    rate = _curve_facts(species, sex, lambda curve: curve.rate)
    now = floats(carapace_length)
    later = asymptote - (asymptote - now) * np.exp(-factor * rate * floats(after))
    return np.maximum(now, later)  # animals do not shrink
