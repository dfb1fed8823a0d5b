"""Like its sister, but: a profile takes from another one what it does not say itself."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

import msgspec

from interview.base.rows import FileError, did_you_mean
from interview.care.species.rows import SpeciesRow

__all__ = ["whole"]

_OWN = ("id", "like", "scientific_name", "common_names", "loose_names", "where", "key")
_NEEDED = (
    *("family", "welfare_group", "diet", "basking", "swimming", "swimming_depth_factor"),
    *("carapace_length_male", "carapace_length_female", "carapace_length_hatchling"),
    *("water_temperature_adult", "water_temperature_hatchling", "water_too_cold"),
    *("basking_surface_temperature", "uv_zone", "default_uv_zone", "cohabitation", "burrows"),
    *("shell_width_ratio", "shell_height_ratio", "mass_law", "hibernation_required"),
)


def whole(row: SpeciesRow, known: Mapping[str, SpeciesRow]) -> SpeciesRow:
    """The profile with what its sister, and hers, adds; a key written `null` stays out.

    Raises:
        FileError: for a sister that is unknown or leads back here, or a key that all need and
            none of them has.
    """
    found = dict(_said(row))
    sister, seen = row, {row.id}
    while sister.like:
        if sister.like not in known or sister.like in seen:
            near = did_you_mean(sister.like, known)
            wrong = "leads back to itself" if sister.like in seen else f"is no species{near}"
            raise FileError(sister.where.at("like"), f"{sister.id}, like: “{sister.like}” {wrong}")
        sister = known[sister.like]
        seen.add(sister.id)
        found = {**dict(_said(sister)), **found}
    for name in _NEEDED:
        if found.get(name) is None:
            raise FileError(row.where, f"{row.id} has no {name}; write it, or `like: another_id`")
    return msgspec.structs.replace(row, **found)


def _said(row: SpeciesRow) -> Iterator[tuple[str, Any]]:
    """What the file says of it, but for its names."""
    for name in row.where.lines:
        if name not in _OWN:
            yield name, getattr(row, name)
