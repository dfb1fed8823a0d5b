"""What is known of each kind of turtle: profiles read from species.yaml, in SI.

Every number in the file carries unit, status and source; loading fails with the
file, the species and the field when one doesn't, or when a band is upside down.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from interview.base.rows.lines import FileError, Lined, read
from interview.base.spelling import nearest
from interview.care.facts import STATUSES, bibliography

__all__ = [
    "Fact",
    "GrowthCurve",
    "MassLaw",
    "Profile",
    "SpeciesFileError",
    "Trait",
    "UnknownSpecies",
    "UvZone",
    "captive_growth",
    "loose_names",
    "plain_name",
    "plastron_to_carapace",
    "profile",
    "species_ids",
    "species_names",
    "uv_zone",
    "welfare_groups",
]

_HERE = Path(__file__).parent
_SPECIES_FILE = _HERE / "species.yaml"
_ZONES_FILE = _HERE / "uv_zones.yaml"

_DAY = 86400.0
_YEAR = 365.25 * _DAY
# written unit → (core unit, factor)
_TO_CORE: Mapping[str, tuple[str, float]] = {
    "1": ("1", 1.0),
    "degC": ("degC", 1.0),
    "cm": ("m", 0.01),
    "mm": ("m", 0.001),
    "g": ("kg", 0.001),
    "d": ("s", _DAY),
    "yr": ("s", _YEAR),
    "1/yr": ("1/s", 1.0 / _YEAR),
    "cm/month": ("m/s", 0.01 / (_YEAR / 12.0)),
    "g/kg": ("1", 0.001),
    "g/cm**3": ("kg/m**3", 1000.0),
    "g/cm**b": ("g/cm**b", 1.0),
    "carapace_length": ("1", 1.0),
    "ferguson_zone": ("1", 1.0),
}


_UNIT_OF = (
    ("temperature", "degC"),
    ("too_cold", "degC"),
    ("thermal_maximum", "degC"),
    ("carapace_length", "m"),
    ("substrate_grain", "m"),
    ("mass_adult", "kg"),
    ("mass_hatchling", "kg"),
    ("mass_record", "kg"),
    ("lifespan", "s"),
    ("_ratio", "1"),
    ("_factor", "1"),
    ("uv_zone", "1"),
    ("plastron_to_carapace", "1"),
)
"""Part of a field's name → the core unit its number must have."""


class SpeciesFileError(FileError):
    """A facts file contradicts its own rules; the message starts with file and line."""


class UnknownSpecies(LookupError):
    """No profile goes by that name."""

    def __init__(self, name: str) -> None:
        near = nearest(plain_name(name), species_names(), most=1)
        hint = f"; did you mean {near[0]}?" if near else ""
        super().__init__(f"no species profile is called {name!r}{hint}")


@dataclass(frozen=True)
class Fact:
    """A number or a band of numbers in the core's unit, and where it comes from."""

    low: float
    high: float
    unit: str
    status: str
    source: str
    detail: str = ""

    @property
    def middle(self) -> float:
        """Middle of the band; the number itself where there is no band."""
        return 0.5 * (self.low + self.high)


@dataclass(frozen=True)
class Trait:
    """A word or a yes/no, and where it comes from."""

    value: str | bool
    status: str
    source: str
    detail: str = ""


@dataclass(frozen=True)
class MassLaw:
    """mass = a · length ** b, with a for grams and centimetres as in the sources."""

    a: Fact
    b: Fact
    valid_carapace_length: Fact


@dataclass(frozen=True)
class GrowthCurve:
    """Von Bertalanffy growth of wild animals: lengths are straight carapace lengths [m]."""

    sex: str
    asymptote: float
    rate: float
    start: float
    status: str
    source: str
    population: str
    note: str
    turned_by: Fact | None = None
    """Plastron over carapace length, where the lengths were published as plastron lengths."""


@dataclass(frozen=True)
class UvZone:
    """A Ferguson zone: UV index over the day (mean) and at the most exposed moment (maximum)."""

    number: int
    habit: str
    mean: Fact
    maximum: Fact


@dataclass(frozen=True)
class Profile:
    """One taxon."""

    id: str
    scientific_name: str
    common_names: tuple[str, ...]
    loose_names: tuple[str, ...]
    family: str
    facts: Mapping[str, Fact]
    traits: Mapping[str, Trait]
    law: Mapping[str, Trait]
    mass_law: MassLaw
    growth: tuple[GrowthCurve, ...]
    remarks: tuple[str, ...]

    @property
    def name(self) -> str:
        """The name a keeper knows it by."""
        return self.common_names[0]

    def adult_carapace_length(self, sex: str) -> Fact:
        """Adult range [m] of the sex; an unknown sex counts as female, the larger."""
        return self.facts[f"carapace_length_{_counted_as(sex)}"]

    def shell_ratio(self, side: str, sex: str) -> Fact:
        """Shell `width` or `height` over carapace length, of the sex where it is known."""
        own = f"shell_{side}_ratio_{sex}"
        return self.facts[own if own in self.facts else f"shell_{side}_ratio"]

    def growth_curve(self, sex: str) -> GrowthCurve | None:
        """Growth curve of the sex (unknown counts as female), None where none is known."""
        wanted = (_counted_as(sex), "both")
        return next((curve for curve in self.growth if curve.sex in wanted), None)

    def uv_zone(self) -> UvZone:
        """Look up the Ferguson zone assumed for it."""
        return uv_zone(int(self.facts["default_uv_zone"].low))

    def is_true(self, trait: str) -> bool:
        """Whether a yes/no trait or legal mark is set; absent counts as no."""
        found = self.traits.get(trait) or self.law.get(trait)
        return found is not None and found.value is True


def profile(species_id: str) -> Profile:
    """Find the profile with this id; UnknownSpecies if there is none."""
    try:
        return _profiles()[species_id]
    except KeyError:
        raise UnknownSpecies(species_id) from None


def species_ids() -> tuple[str, ...]:
    """Every profile's id, in the order of the file."""
    return tuple(_profiles())


@cache
def species_names() -> Mapping[str, str]:
    """Every accepted name, in the form `plain_name` gives, with the id it stands for."""
    names: dict[str, str] = {}
    for item in _profiles().values():
        spoken = (item.id, item.scientific_name, *item.common_names, *item.loose_names)
        for name in dict.fromkeys(map(plain_name, spoken)):
            if names.setdefault(name, item.id) != item.id:
                raise _bad(_SPECIES_FILE, item.id, f"the name {name!r} also means {names[name]}")
    return MappingProxyType(names)


@cache
def loose_names() -> Mapping[str, str]:
    """Names that fit several taxa, with the id assumed: to be said back to the keeper."""
    return MappingProxyType(
        {plain_name(n): item.id for item in _profiles().values() for n in item.loose_names}
    )


def plain_name(text: str) -> str:
    """Write a species name as names are compared: lower case, no apostrophes or hyphens."""
    bare = text.casefold().replace("'", "").replace("’", "")
    return " ".join(bare.replace("-", " ").replace("_", " ").replace(".", " ").split())


@cache
def plastron_to_carapace() -> Fact:
    """Plastron length over straight carapace length."""
    return _common("plastron_to_carapace", lambda raw: raw["plastron_to_carapace"])


@cache
def captive_growth(which: str) -> Fact:
    """Captive over wild growth rate: `typical`, `band` or `generous`."""
    return _common(
        f"captive_growth_factor.{which}", lambda raw: raw["captive_growth_factor"][which]
    )


@cache
def welfare_groups() -> Mapping[str, Trait]:
    """Way of life by welfare group letter."""
    groups = _read(_SPECIES_FILE)["welfare_groups"]
    return {key: _trait(f"group {key}", value) for key, value in groups.items()}


@cache
def _zones() -> Mapping[int, UvZone]:
    zones = _read(_ZONES_FILE)["zones"]
    return {
        number: UvZone(
            number,
            raw["habit"],
            _fact(f"zone {number}: mean", raw["mean"]),
            _fact(f"zone {number}: maximum", raw["maximum"]),
        )
        for number, raw in zones.items()
    }


def uv_zone(number: int) -> UvZone:
    """Find the Ferguson zone with this number, 1 to 4."""
    return _zones()[number]


@cache
def _profiles() -> Mapping[str, Profile]:
    return _read_profiles(_read(_SPECIES_FILE))


@cache
def _read(path: Path) -> Any:
    return read(path)


def _common(where: str, pick: Callable[[Any], Any]) -> Fact:
    return _fact(where, pick(_read(_SPECIES_FILE)))


def _read_profiles(raw: Mapping[str, Any]) -> dict[str, Profile]:
    shell = _fact("plastron_to_carapace", raw["plastron_to_carapace"])
    found: dict[str, Profile] = {}
    for item in raw["species"]:
        if item["id"] in found:
            raise _bad(item, item["id"], "the id is used twice")
        found[item["id"]] = _read_profile(item, shell)
    return found


def _read_profile(raw: Lined, shell: Fact) -> Profile:
    who = raw["id"]
    numbers = dict(_marked(who, raw))
    for series in raw["growth_series"]:
        _check_series(who, series)
    traits = {key: value for key, value in numbers.items() if isinstance(value, Trait)}
    facts = {key: value for key, value in numbers.items() if isinstance(value, Fact)}
    law = raw["mass_law"]
    return Profile(
        id=who,
        scientific_name=raw["scientific_name"],
        common_names=tuple(raw["common_names"]),
        loose_names=tuple(raw.get("loose_names", ())),
        family=raw["family"],
        facts=MappingProxyType(facts),
        traits=MappingProxyType(traits),
        law={key: _trait(f"{who}, law.{key}", value) for key, value in raw["law"].items()},
        mass_law=MassLaw(
            *(
                _fact(f"{who}, mass_law.{key}", law[key])
                for key in ("a", "b", "valid_carapace_length")
            )
        ),
        growth=tuple(
            _curve(who, curve, facts.get("plastron_to_carapace", shell)) for curve in raw["growth"]
        ),
        remarks=tuple(raw["remarks"]),
    )


def _marked(who: str, raw: Lined) -> Iterator[tuple[str, Fact | Trait]]:
    """Every fact and trait written directly under a profile."""
    for key, value in raw.items():
        where = f"{who}, {key}"
        if isinstance(value, int | float):
            place = f"{raw.path.name}, line {raw.line_of(key)}"
            raise _bad(place, where, "a number without unit, status and source")
        if not isinstance(value, Lined) or key in ("mass_law", "law"):
            continue
        word = isinstance(value.get("value"), str | bool) and "unit" not in value
        yield key, _trait(where, value) if word else _fact(where, value)


def _curve(who: str, raw: Lined, shell: Fact) -> GrowthCurve:
    """Read a growth curve, its lengths turned into carapace lengths."""
    where = f"{who}, growth of {raw['sex']}"
    a, k, start = (_fact(f"{where}, {key}", raw[key]) for key in ("a", "k", "l0"))
    if raw["length_kind"] not in ("plastron", "carapace"):
        raise _bad(raw, where, f"length_kind is {raw['length_kind']!r}")
    turned_by = shell if raw["length_kind"] == "plastron" else None
    share = turned_by.low if turned_by else 1.0
    return GrowthCurve(
        sex=raw["sex"],
        asymptote=a.low / share,
        rate=k.low,
        start=start.low / share,
        status=a.status,
        source=a.source,
        population=raw.get("population", ""),
        note=raw.get("note", ""),
        turned_by=turned_by,
    )


def _check_series(who: str, raw: Lined) -> None:
    """Raise if a recorded growth series has numbers without origin or columns that don't match."""
    columns = {key: col for key, col in raw.items() if isinstance(col, Lined) and "values" in col}
    for key, column in columns.items():
        where = f"{who}, growth_series of {raw['sex']}, {key}"
        _origin(where, column)
        if column.get("unit") not in _TO_CORE:
            raise _bad(column, where, "no known unit")
        if len(column["values"]) != len(raw["age"]["values"]):
            raise _bad(column, where, "not as many values as ages")


def _fact(where: str, raw: Lined) -> Fact:
    """Read a number with its unit, turned into the core's unit."""
    status, source = _origin(where, raw)
    if "value" in raw:
        low = high = raw["value"]
    elif "low" in raw and "high" in raw:
        low, high = raw["low"], raw["high"]
    else:
        raise _bad(raw, where, "neither a value nor low and high")
    if any(isinstance(end, bool) or not isinstance(end, int | float) for end in (low, high)):
        raise _bad(raw, where, f"{low!r} to {high!r} are no numbers")
    if "unit" not in raw:
        raise _bad(raw, where, "no unit")
    if raw["unit"] not in _TO_CORE:
        raise _bad(raw, where, f"the unit {raw['unit']!r} is unknown")
    if low > high:
        raise _bad(raw, where, f"the band {low} to {high} is upside down")
    unit, factor = _TO_CORE[raw["unit"]]
    wanted = next((wanted for part, wanted in _UNIT_OF if part in where.rpartition(", ")[2]), unit)
    if unit != wanted:
        raise _bad(raw, where, f"the unit {raw['unit']!r} doesn't fit; [{wanted}] is wanted")
    return Fact(low * factor, high * factor, unit, status, source, _told(raw))


def _trait(where: str, raw: Lined) -> Trait:
    status, source = _origin(where, raw)
    return Trait(raw["value"], status, source, _told(raw))


def _origin(where: str, raw: Lined) -> tuple[str, str]:
    for key in ("status", "source"):
        if not raw.get(key):
            raise _bad(raw, where, f"no {key}")
    if raw["status"] not in STATUSES:
        raise _bad(raw, where, f"the status {raw['status']!r} is unknown")
    if raw["source"] not in bibliography():
        raise _bad(raw, where, f"the source {raw['source']!r} is not in the bibliography")
    return raw["status"], raw["source"]


def _told(raw: Lined) -> str:
    return "; ".join(raw[key] for key in ("detail", "note") if key in raw)


def _bad(place: Lined | Path | str, where: str, what: str) -> SpeciesFileError:
    return SpeciesFileError(place, f"{where}: {what}")


def _counted_as(sex: str) -> str:
    return "male" if sex == "male" else "female"
