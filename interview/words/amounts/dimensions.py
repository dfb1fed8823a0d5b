"""What the grammar knows of each dimension: its name in a sentence, examples, usual sizes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from interview.base.units import CORE_UNITS

__all__ = ["DIMENSIONS", "Dimension", "example_for"]


@dataclass(frozen=True)
class Dimension:
    """One kind of quantity, as far as words about it go."""

    name: str
    noun: str
    """With its article: "a length"."""
    example: str
    example_us: str
    usual: tuple[float, float]
    """What a keeper can mean, in the core's unit: decides only what a mark in 1,000 is."""
    bare: tuple[float, float] | None = None
    """Numbers that need no unit here, because only one reading makes sense."""
    signed: bool = False
    hedge: float = 0.10
    """Half the width of "about", as a share of the value."""
    hedge_fixed: float = 0.0
    """The same in the core's unit, where the zero of the scale means nothing."""
    none_is_zero: bool = False
    """The words "none" and "nothing" mean 0."""

    @property
    def core_unit(self) -> str:
        """The unit of its readings."""
        return CORE_UNITS[self.name]


_ANY = (0.0, 1e9)

_ALL = (
    Dimension("length", "a length", "45 cm", "18 in", (2e-4, 10), none_is_zero=True),
    Dimension(
        "temperature", "a temperature", "25 °C", "77 °F", (-60, 300), signed=True, hedge_fixed=2.0
    ),
    Dimension(
        "temperature_difference", "a temperature difference", "3 °C", "5 °F", (0, 100), signed=True
    ),
    Dimension("area", "an area", "1600 cm²", "2 sq ft", (1e-4, 50)),
    Dimension("volume", "a volume", "100 L", "30 US gal", (1e-5, 5), none_is_zero=True),
    Dimension("flow", "a flow", "1200 L/h", "350 gph", (5e-6, 5e-3), none_is_zero=True),
    Dimension("power", "a power", "100 W", "100 W", (2, 5000), none_is_zero=True),
    Dimension("voltage", "a voltage", "230 V", "120 V", (5, 1000)),
    Dimension("current", "a current", "16 A", "15 A", (0.5, 200)),
    Dimension("mass", "a mass", "500 g", "1.5 lb", (1e-4, 800), none_is_zero=True),
    Dimension("duration", "a time", "10 days", "10 days", (1, 3.2e9)),
    Dimension("share", "a share", "30%", "30%", (0, 1.0), bare=(0, 0.99999), none_is_zero=True),
    Dimension("percent", "a percentage", "50%", "50%", (0, 100), bare=(1.00001, 100)),
    Dimension(
        "concentration", "a concentration", "20 mg/L", "20 ppm", (1e-3, 900), none_is_zero=True
    ),
    Dimension("angle", "an angle", "30 degrees", "30 degrees", (0, 360)),
    Dimension("number", "a number", "0.3", "0.3", (-1e6, 1e6), bare=(-1e12, 1e12), signed=True),
    Dimension("rating", "a plain number", "7.5", "7.5", (0, 50), bare=(0, 1e6), hedge=0.05),
    Dimension("price", "a price", "0.30", "0.15", (0, 900), bare=(0, 1e6)),
    Dimension("count", "a whole number", "2", "2", (0, 900), bare=(0, 1e6), none_is_zero=True),
    Dimension(
        "per_week",
        "how often",
        "3 times a week",
        "3 times a week",
        (0, 200),
        bare=(0, 200),
        none_is_zero=True,
    ),
    Dimension("pressure", "a pressure", "101.3 kPa", "40 psf", _ANY),
    Dimension("energy", "an energy", "50 kWh", "50 kWh", (3600, 1e13)),
    Dimension("force", "a force", "3800 N", "850 lbf", _ANY),
    Dimension("density", "a density", "2650 kg/m3", "2650 kg/m3", (1, 25000)),
    Dimension("irradiance", "an irradiance", "100 W/m2", "100 W/m2", (1e-6, 2000)),
    Dimension("loss", "a loss coefficient", "8 W/K", "8 W/K", (0.01, 1000)),
    Dimension("heat_capacity", "a heat capacity", "500 kJ/K", "500 kJ/K", (1, 1e9)),
    Dimension(
        "concentration_rate", "a daily rise", "2 mg/L a day", "2 ppm a day", (1e-9, 1), signed=True
    ),
    Dimension("mass_rate", "a mass per time", "2 g a day", "2 g a day", (1e-12, 1)),
    Dimension("rate", "how often", "4 per hour", "4 per hour", (0, 1)),
)

DIMENSIONS: Mapping[str, Dimension] = {dimension.name: dimension for dimension in _ALL}


def example_for(dimension: Dimension, region: str) -> str:
    """An answer of this dimension as the region would type it, in quotation marks."""
    shown = dimension.example_us if region == "north_america" else dimension.example
    return f'"{shown}"'
