"""The names keepers have for each kind, exact and loose."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from interview.base.rows import FileError, did_you_mean
from interview.care.species.catalogue import profiles
from interview.care.species.profile import Profile

__all__ = ["UnknownSpecies", "loose_names", "plain_name", "profile", "species_names"]


class UnknownSpecies(LookupError):
    """No profile goes by that name."""

    def __init__(self, name: str) -> None:
        near = did_you_mean(plain_name(name), species_names())
        super().__init__(f"no species profile is called {name!r}{near}")


def profile(species_id: str) -> Profile:
    """Find the profile with this id; UnknownSpecies if there is none."""
    try:
        return profiles()[species_id]
    except KeyError:
        raise UnknownSpecies(species_id) from None


@cache
def species_names() -> Mapping[str, str]:
    """Every accepted name, in the form `plain_name` gives, with the id it stands for."""
    names: dict[str, str] = {}
    for item in profiles().values():
        spoken = (item.id, item.scientific_name, *item.common_names, *item.loose_names)
        for name in dict.fromkeys(map(plain_name, spoken)):
            if names.setdefault(name, item.id) != item.id:
                wrong = f"{item.id}: the name “{name}” also means {names[name]}"
                raise FileError(item.where, wrong)
    return MappingProxyType(names)


@cache
def loose_names() -> Mapping[str, str]:
    """Names that fit several taxa, with the id assumed: to be said back to the keeper."""
    return MappingProxyType(
        {plain_name(n): item.id for item in profiles().values() for n in item.loose_names}
    )


def plain_name(text: str) -> str:
    """Write a species name as names are compared: lower case, no apostrophes or hyphens."""
    bare = text.casefold().replace("'", "").replace("’", "")
    return " ".join(bare.replace("-", " ").replace("_", " ").replace(".", " ").split())
