"""Species facts as numbers: one for a lone species, or one for each animal (last axis)."""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any, cast

import numpy as np

from interview.care.species import (
    Fact,
    GrowthCurve,
    MassLaw,
    Profile,
    Trait,
    UnknownSpecies,
    UvZone,
    profile,
)
from interview.core.errors import NotApplicable
from interview.core.numeric import Words
from interview.core.sheet_lines import Citation

__all__ = ["facts", "facts_by_sex", "known_species", "noting"]

_Notes = dict[int, Citation]
_notes: ContextVar[_Notes | None] = ContextVar("notes", default=None)


def facts(species: Words | str, pick: Callable[[Profile], float]) -> Any:
    """Pick one number from each species' profile."""
    if isinstance(species, str):
        return pick(known_species(species))
    return np.array([pick(known_species(name)) for name in species])


def facts_by_sex(
    species: Words | str, sex: Words | str, pick: Callable[[Profile, str], float]
) -> Any:
    """Pick one number for each animal by species and sex; a lone species or sex holds for all."""
    if isinstance(species, str) and isinstance(sex, str):
        return pick(known_species(species), sex)
    count = len(sex) if isinstance(species, str) else len(species)
    kinds = (species,) * count if isinstance(species, str) else species
    sexes = (sex,) * count if isinstance(sex, str) else sex
    return np.array([pick(known_species(k), s) for k, s in zip(kinds, sexes, strict=True)])


@contextmanager
def noting() -> Iterator[Mapping[int, Citation]]:
    """Note where the species facts picked meanwhile come from, in the order of their first use."""
    notes: _Notes = {}
    token = _notes.set(notes)
    try:
        yield notes
    finally:
        _notes.reset(token)


def known_species(species: str) -> Profile:
    """A species' profile, noting what is read from it; NotApplicable for an unknown one."""
    try:
        found = profile(species)
    except UnknownSpecies as problem:
        raise NotApplicable(str(problem)) from None
    notes = _notes.get()
    return found if notes is None else cast(Profile, _Watched(found, found.name, notes))


class _Watched:
    """A profile or a part of it that notes the origin of each fact that is read from it."""

    def __init__(self, thing: Any, animal: str, notes: _Notes, what: str = "") -> None:
        self._thing, self._animal, self._notes, self._what = thing, animal, notes, what

    def __getattr__(self, name: str) -> Any:
        method = getattr(type(self._thing), name, None)
        if inspect.isfunction(method):
            # With this in place of the profile, so that what the method reads is noted too.
            return lambda *given: self._read(method(self, *given), name)
        return self._read(getattr(self._thing, name), name)

    def __getitem__(self, name: str) -> Any:
        return self._read(self._thing[name], name)

    def __contains__(self, name: str) -> bool:
        return self.get(name) is not None

    def get(self, name: str) -> Any:
        """What a mapping holds under a name, or None."""
        return self._read(self._thing.get(name), name)

    def _read(self, found: Any, name: str) -> Any:
        what = self._what or name
        if isinstance(found, MassLaw | UvZone | Mapping):
            part = "" if isinstance(found, Mapping) else what
            return _Watched(found, self._animal, self._notes, part)
        if isinstance(found, Fact | Trait | GrowthCurve):
            said = what.replace("_", " ").replace("uv", "UV")
            cited = Citation(found.source, f"{self._animal}, {said}", found.status)
            self._notes.setdefault(id(found), cited)
        if isinstance(found, GrowthCurve) and found.turned_by:
            self._read(found.turned_by, "plastron_to_carapace")
        return found
