"""The keys of the species files, each with the kind of number or word it holds."""

from __future__ import annotations

from typing import Annotated, ClassVar, Literal

import msgspec

from interview.base.rows import Names, Row, WrongKey
from interview.care.sources import Sourced
from interview.care.species.sourced_numbers import (
    Density,
    Length,
    Mass,
    MassFactor,
    Plain,
    Rate,
    Salinity,
    Shells,
    Speed,
    Temperature,
    Time,
    Word,
    Zone,
)

__all__ = ["Column", "Common", "CurveRow", "MassLawRow", "SpeciesRow", "ZoneFile", "ZoneRow"]

Sex = Literal["female", "male", "both"]
LengthKind = Literal["carapace", "plastron"]


class MassLawRow(Row, frozen=True, kw_only=True):
    """mass = a * carapace_length ** b, mass in g, carapace_length in cm."""

    form: str
    a: MassFactor
    b: Plain
    valid_carapace_length: Length
    relative_uncertainty: Plain | None = None


class CurveRow(Row, frozen=True, kw_only=True):
    """length = a - (a - l0) * exp(-k * age), length in cm, age in yr."""

    sex: Sex
    length_kind: LengthKind
    form: str
    a: Length
    k: Rate
    l0: Length
    rmse: Length | None = None
    age_range: Time | None = None
    population: str = ""
    note: str = ""


class Column(Sourced, frozen=True, kw_only=True):
    """Numbers of a recorded growth series, side by side with the ages."""

    values: tuple[float, ...]
    unit: Literal["d", "yr", "cm", "g"]
    detail: str = ""


class SeriesRow(Row, frozen=True, kw_only=True):
    """Growth as it was recorded, where there is too little for a curve."""

    sex: Sex
    age: Column
    length: Column | None = None
    mass: Column | None = None
    length_kind: LengthKind | None = None
    slope: Speed | None = None
    temperature: Temperature | None = None
    population: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """Refuse columns that don't match the ages."""
        for name in ("length", "mass"):
            column: Column | None = getattr(self, name)
            if column and len(column.values) != len(self.age.values):
                raise WrongKey(name, "not as many values as ages")


class SpeciesRow(Row, frozen=True, kw_only=True):
    """A profile as written; what it leaves out comes from the one it is `like`."""

    EXAMPLE: ClassVar[str] = (
        "{id: emys_trinacris, like: emys_orbicularis, scientific_name: Emys trinacris, "
        "common_names: [Sicilian pond turtle]}"
    )

    id: str
    scientific_name: str
    common_names: tuple[str, ...]
    loose_names: tuple[str, ...] = ()
    like: Annotated[str, Names("species")] = ""
    family: str | None = None
    welfare_group: Word | None = None
    carapace_length_male: Length | None = None
    carapace_length_female: Length | None = None
    carapace_length_both: Length | None = None
    carapace_length_ultimate_male: Length | None = None
    carapace_length_ultimate_female: Length | None = None
    carapace_length_record: Length | None = None
    carapace_length_hatchling: Length | None = None
    plastron_to_carapace: Plain | None = None
    mass_hatchling: Mass | None = None
    mass_adult_female: Mass | None = None
    mass_adult_male: Mass | None = None
    mass_record: Mass | None = None
    mass_record_female: Mass | None = None
    lifespan_record: Time | None = None
    diet: Word | None = None
    basking: Word | None = None
    swimming: Word | None = None
    swimming_depth_factor: Shells | None = None
    water_temperature_adult: Temperature | None = None
    water_temperature_hatchling: Temperature | None = None
    water_too_cold: Temperature | None = None
    water_too_warm: Temperature | None = None
    ph_least: Plain | None = None
    shell_too_hot: Temperature | None = None
    rearing_reach: Shells | None = None
    water_temperature_laboratory: Temperature | None = None
    water_temperature_official: Temperature | None = None
    basking_surface_temperature: Temperature | None = None
    preferred_body_temperature: Temperature | None = None
    critical_thermal_maximum: Temperature | None = None
    uv_zone: Zone | None = None
    default_uv_zone: Zone | None = None
    cohabitation: Word | None = None
    burrows: Word | None = None
    too_large_indoors_female: Word | None = None
    fine_sand_required: Word | None = None
    substrate_grain: Length | None = None
    substrate_depth_factor: Shells | None = None
    salinity_hatchling_optimum: Salinity | None = None
    shell_width_ratio: Plain | None = None
    shell_width_ratio_male: Plain | None = None
    shell_width_ratio_female: Plain | None = None
    shell_height_ratio: Plain | None = None
    shell_height_ratio_male: Plain | None = None
    shell_height_ratio_female: Plain | None = None
    ellipsoid_mass_coefficient: Density | None = None
    mass_law: MassLawRow | None = None
    growth: tuple[CurveRow, ...] = ()
    growth_series: tuple[SeriesRow, ...] = ()
    law: dict[Literal["eu_invasive_list", "switzerland_dealing_ban", "protected_native"], Word] = (
        msgspec.field(default_factory=dict)
    )
    hibernation_required: Word | None = None
    remarks: tuple[str, ...] = ()


class Growth(Row, frozen=True, kw_only=True):
    """Captive over wild growth rate."""

    typical: Plain
    generous: Plain
    band: Plain


class Usual(Row, frozen=True, kw_only=True):
    """What holds for kinds whose profile says nothing of its own."""

    ph_least: Plain
    water_too_warm: Temperature
    shell_too_hot: Temperature
    rearing_reach: Shells


class Common(Row, frozen=True, kw_only=True):
    """What holds for all kinds."""

    usual: Usual

    plastron_to_carapace: Plain
    captive_growth_factor: Growth
    welfare_groups: dict[Literal["A", "B", "C", "D", "E", "F"], Word]


class ZoneRow(Row, frozen=True, kw_only=True):
    """UV index over the day, and at the most exposed moment."""

    habit: str
    mean: Plain
    maximum: Plain


class ZoneFile(Row, frozen=True, kw_only=True):
    """The Ferguson zones."""

    zones: dict[Literal[1, 2, 3, 4], ZoneRow]
