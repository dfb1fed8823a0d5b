"""The profiles that ship with the program, and what holds for all of them."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Literal

from interview.base.rows import FileError, read, read_folder
from interview.care.species.profile import Fact, GrowthCurve, MassLaw, Profile, Trait, UvZone
from interview.care.species.rows import Common, CurveRow, SpeciesRow, ZoneFile
from interview.care.species.sisters import whole
from interview.care.species.sourced_numbers import Number, Word

__all__ = [
    "captive_growth",
    "own_or_usual",
    "plastron_to_carapace",
    "profiles",
    "read_profiles",
    "species_ids",
    "uv_zone",
    "welfare_groups",
]

_HERE = Path(__file__).parent


@cache
def profiles() -> Mapping[str, Profile]:
    """Every profile by its id, in the order of the files."""
    return read_profiles(_HERE / "profiles")


def species_ids() -> tuple[str, ...]:
    """Every profile's id, in the order of the files."""
    return tuple(profiles())


def read_profiles(folder: Path) -> dict[str, Profile]:
    """All profiles of a folder's files; FileError with file and line of the bad ones."""
    rows: dict[str, SpeciesRow] = {}
    for _, found in read_folder(folder, tuple[SpeciesRow, ...]):
        for row in found:
            if row.id in rows:
                raise FileError(row.where, f"{row.id}: the id is used twice")
            rows[row.id] = row
    return {name: _profile(whole(row, rows)) for name, row in rows.items()}


def _profile(row: SpeciesRow) -> Profile:
    values = {name: getattr(row, name) for name in row.__struct_fields__}
    facts = {name: v.fact() for name, v in values.items() if isinstance(v, Number)}
    traits = {name: v.trait() for name, v in values.items() if isinstance(v, Word)}
    law = row.mass_law
    assert law is not None  # `whole` needs one
    shell = facts.get("plastron_to_carapace", plastron_to_carapace())
    return Profile(
        id=row.id,
        like=row.like,
        scientific_name=row.scientific_name,
        common_names=row.common_names,
        loose_names=row.loose_names,
        family=row.family or "",
        facts=MappingProxyType(facts),
        traits=MappingProxyType(traits),
        law={name: word.trait() for name, word in row.law.items()},
        mass_law=MassLaw(law.a.fact(), law.b.fact(), law.valid_carapace_length.fact()),
        growth=tuple(_curve(curve, shell) for curve in row.growth),
        zones=uv_zone,
        remarks=row.remarks,
        where=row.where,
    )


def _curve(row: CurveRow, shell: Fact) -> GrowthCurve:
    """A growth curve, its lengths turned into carapace lengths."""
    a, k, start = row.a.fact(), row.k.fact(), row.l0.fact()
    turned_by = shell if row.length_kind == "plastron" else None
    share = turned_by.low if turned_by else 1.0
    return GrowthCurve(
        sex=row.sex,
        asymptote=a.low / share,
        rate=k.low,
        start=start.low / share,
        status=a.status,
        source=a.source,
        population=row.population,
        note=row.note,
        turned_by=turned_by,
    )


@cache
def _common() -> Common:
    return read(_HERE / "common.yaml", Common)


@cache
def plastron_to_carapace() -> Fact:
    """Plastron length over straight carapace length."""
    return _common().plastron_to_carapace.fact()


@cache
def captive_growth(which: Literal["typical", "generous", "band"]) -> Fact:
    """Captive over wild growth rate: `typical`, `band` or `generous`."""
    number: Number = getattr(_common().captive_growth_factor, which)
    return number.fact()


def own_or_usual(
    item: Profile, name: Literal["ph_least", "water_too_warm", "shell_too_hot", "rearing_reach"]
) -> Fact:
    """What the profile says, or what is usual for all kinds."""
    if name in item.facts:
        return item.facts[name]
    number: Number = getattr(_common().usual, name)
    return number.fact()


@cache
def welfare_groups() -> Mapping[str, Trait]:
    """Way of life by welfare group letter."""
    return {letter: word.trait() for letter, word in _common().welfare_groups.items()}


@cache
def _zones() -> Mapping[int, UvZone]:
    zones = read(_HERE / "uv_zones.yaml", ZoneFile).zones
    return {
        number: UvZone(number, row.habit, row.mean.fact(), row.maximum.fact())
        for number, row in zones.items()
    }


def uv_zone(number: int) -> UvZone:
    """Find the Ferguson zone with this number, 1 to 4."""
    return _zones()[number]
