"""The two groups of bacteria in a filter: how fast they grow, decay and take up nitrogen."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from interview.core.numeric import Num, floats

__all__ = ["DAY", "FIRST_DOSE", "NITRITE_SHARE", "Guild", "guilds"]

DAY = 86400.0
FIRST_DOSE = 2.0  # mg/L N, ammonia in the water when the count starts
NITRITE_SHARE = 0.33  # nitrite oxidisers on the starting media, relative to ammonia oxidisers
_OXYGEN = 7.0  # mg/L, an aerated filter at tank temperature


@dataclass(frozen=True)
class Guild:
    """One group of bacteria at a temperature: rates in 1/day, half-saturation in mg/L N."""

    growth: Any
    decay: Any
    half: float
    cells: float  # mg of cells (as oxygen demand) for each mg of nitrogen


def guilds(
    water_temperature: Num, nitrifier_pace: Num, oxygen: Num = _OXYGEN
) -> tuple[Guild, Guild]:
    """Ammonia and nitrite oxidisers, Metcalf & Eddy table 8-14; oxygen in mg/L."""
    warmer = floats(water_temperature) - 20.0
    decay = nitrifier_pace * 0.17 * 1.029**warmer
    ammonia = nitrifier_pace * 0.90 * 1.072**warmer * oxygen / (oxygen + 0.50)
    nitrite = nitrifier_pace * 1.00 * 1.063**warmer * oxygen / (oxygen + 0.90)
    demand = 1.42  # g oxygen demand for each g of cells, C5H7O2N
    return (
        Guild(ammonia, decay, 0.50, 0.15 * demand),
        Guild(nitrite, decay, 0.20, 0.05 * demand),
    )
