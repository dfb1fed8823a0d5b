"""Numbers and words of the species files: each with its unit, status and source."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import ClassVar, Literal

from interview.base.rows import WrongKey
from interview.care.sources import Sourced
from interview.care.species.profile import Fact, Trait

__all__ = [
    "Density",
    "Length",
    "Mass",
    "MassFactor",
    "Number",
    "Plain",
    "Rate",
    "Salinity",
    "Shells",
    "Speed",
    "Temperature",
    "Time",
    "Word",
    "Zone",
    "told",
]

_DAY = 86400.0
_YEAR = 365.25 * _DAY
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
"""Written unit → core unit and factor."""


class Number(Sourced, frozen=True, kw_only=True):
    """A number, or a band from low to high; every subclass says in which units."""

    EXAMPLE: ClassVar[str] = "{low: 20, high: 29, unit: cm, status: memory, source: recalled}"

    unit: str
    value: float | None = None
    low: float | None = None
    high: float | None = None
    standard_deviation: float | None = None
    standard_error: float | None = None
    detail: str = ""
    note: str = ""

    def __post_init__(self) -> None:
        """Refuse what is neither a number nor a band."""
        super().__post_init__()
        band = self.low is not None and self.high is not None
        if (self.value is None) != band or (self.low is None) != (self.high is None):
            raise ValueError("neither a value nor low and high, or both")
        low, high = self.ends
        if not (math.isfinite(low) and math.isfinite(high)):
            raise ValueError(f"{low:g} to {high:g} has no end")
        if low > high:
            raise WrongKey("low", f"the band {low:g} to {high:g} is upside down")

    @property
    def ends(self) -> tuple[float, float]:
        """Low and high as written; the value twice where there is no band."""
        if self.value is not None:
            return self.value, self.value
        return self.low or 0.0, self.high or 0.0

    def fact(self) -> Fact:
        """The number in its core unit."""
        unit, factor = _TO_CORE[self.unit]
        low, high = self.ends
        return Fact(low * factor, high * factor, unit, self.status, self.source, told(self))


class Length(Number, frozen=True, kw_only=True):
    """A length [m]."""

    unit: Literal["cm", "mm"]


class Mass(Number, frozen=True, kw_only=True):
    """A mass [kg]."""

    unit: Literal["g"]


class Time(Number, frozen=True, kw_only=True):
    """A time [s]."""

    unit: Literal["d", "yr"]


class Temperature(Number, frozen=True, kw_only=True):
    """A temperature [degC]."""

    unit: Literal["degC"]


class Plain(Number, frozen=True, kw_only=True):
    """A ratio [1]."""

    unit: Literal["1"]


class Shells(Number, frozen=True, kw_only=True):
    """A multiple of the carapace length [1]."""

    unit: Literal["carapace_length"]


class Zone(Number, frozen=True, kw_only=True):
    """A Ferguson zone, 1 to 4 [1]."""

    unit: Literal["ferguson_zone"]


class Rate(Number, frozen=True, kw_only=True):
    """A rate [1/s]."""

    unit: Literal["1/yr"]


class Speed(Number, frozen=True, kw_only=True):
    """Growth in length [m/s]."""

    unit: Literal["cm/month"]


class Salinity(Number, frozen=True, kw_only=True):
    """Salt over water by mass [1]."""

    unit: Literal["g/kg"]


class Density(Number, frozen=True, kw_only=True):
    """A density [kg/m**3]."""

    unit: Literal["g/cm**3"]


class MassFactor(Number, frozen=True, kw_only=True):
    """The factor a of mass = a · length ** b, for grams and centimetres as in the sources."""

    unit: Literal["g/cm**b"]


class Word(Sourced, frozen=True, kw_only=True):
    """A word or a yes/no."""

    EXAMPLE: ClassVar[str] = "{value: strong, status: practice, source: common_practice}"

    value: bool | str
    detail: str = ""
    note: str = ""

    def trait(self) -> Trait:
        """The word as profiles hold it."""
        return Trait(self.value, self.status, self.source, told(self))


def told(row: Number | Word) -> str:
    """What is added for people."""
    return "; ".join(text for text in (row.detail, row.note) if text)
