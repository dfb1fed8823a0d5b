"""A kind of turtle as the core knows it: facts in SI, each with status and source."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from interview.base.rows import NOWHERE, Where

__all__ = ["Fact", "GrowthCurve", "MassLaw", "Profile", "Trait", "UvZone"]


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
    like: str
    """The sister whose profile adds what this one leaves out, or ""."""
    scientific_name: str
    common_names: tuple[str, ...]
    loose_names: tuple[str, ...]
    family: str
    facts: Mapping[str, Fact]
    traits: Mapping[str, Trait]
    law: Mapping[str, Trait]
    mass_law: MassLaw
    growth: tuple[GrowthCurve, ...]
    zones: Callable[[int], UvZone]
    """Finds the Ferguson zone of a number."""
    remarks: tuple[str, ...]
    where: Where = field(default=NOWHERE, compare=False)

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

    def uv_zone(self) -> UvZone:
        """The Ferguson zone assumed for it (the lower of two); it cites who assigned it."""
        return self.zones(int(self.facts["default_uv_zone"].low))

    def uv_zone_above(self) -> UvZone:
        """The higher of two Ferguson zones that are plausible; the same where one is assumed."""
        return self.zones(int(self.facts["default_uv_zone"].high))

    def growth_curve(self, sex: str) -> GrowthCurve | None:
        """Growth curve of the sex (unknown counts as female), None where none is known."""
        wanted = (_counted_as(sex), "both")
        return next((curve for curve in self.growth if curve.sex in wanted), None)

    def is_marked(self, law: str) -> bool:
        """Whether a legal mark is set, with any words but `false`."""
        return law in self.law and self.law[law].value is not False

    def is_true(self, trait: str) -> bool:
        """Whether a yes/no trait or legal mark is set; absent counts as no."""
        found = self.traits.get(trait) or self.law.get(trait)
        return found is not None and found.value is True


def _counted_as(sex: str) -> str:
    return "male" if sex == "male" else "female"
