"""Species facts as numbers: one for a lone species, or one for each animal (last axis)."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np

from interview.care.species import Profile, UnknownSpecies, profile
from interview.core.errors import NotApplicable
from interview.core.numeric import Words

__all__ = ["facts", "facts_by_sex"]


def facts(species: Words | str, pick: Callable[[Profile], float]) -> Any:
    """Pick one number from each species' profile."""
    if isinstance(species, str):
        return pick(_known(species))
    return np.array([pick(_known(name)) for name in species])


def facts_by_sex(
    species: Words | str, sex: Words | str, pick: Callable[[Profile, str], float]
) -> Any:
    """Pick one number for each animal by species and sex; a lone species or sex holds for all."""
    if isinstance(species, str) and isinstance(sex, str):
        return pick(_known(species), sex)
    count = len(sex) if isinstance(species, str) else len(species)
    kinds = (species,) * count if isinstance(species, str) else species
    sexes = (sex,) * count if isinstance(sex, str) else sex
    return np.array([pick(_known(k), s) for k, s in zip(kinds, sexes, strict=True)])


def _known(species: str) -> Profile:
    try:
        return profile(species)
    except UnknownSpecies as problem:
        raise NotApplicable(str(problem)) from None
