"""Nitrogen and oxygen in the water, a step at a time.

The bacteria grow and take up by the rates of `nitrifiers.guilds`, as in the start-up of a filter.
Ammonia and nitrite are stepped backwards (implicitly), where each step is a quadratic: so they
never fall below nothing, however large the film, and no nitrogen is lost.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.numeric import Num, floats
from interview.core.time.dissolved.oxygen import OXYGEN_TO_NITRATE, OXYGEN_TO_NITRITE
from interview.core.water.nitrifiers import DAY, Guild, guilds
from interview.core.water.properties import oxygen_saturation

__all__ = ["Water", "diluted", "stepped", "with_oxygen"]

Floats: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True)
class Water:
    """What is dissolved and who lives on it, tank by tank.

    Nitrogen in all three forms in mg/L N, films as oxygen demand for each tank water in mg/L,
    oxygen in mg/L.
    """

    ammonia: Floats
    nitrite: Floats
    nitrate: Floats
    eaters: Floats
    finishers: Floats
    oxygen: Floats

    @property
    def nitrogen(self) -> Floats:
        """All three forms [mg/L N]."""
        return self.ammonia + self.nitrite + self.nitrate

    def of_tank(self, one: slice) -> Water:
        """That of one tank of many."""
        nitrogen = self.ammonia[one], self.nitrite[one], self.nitrate[one]
        return Water(*nitrogen, self.eaters[one], self.finishers[one], self.oxygen[one])


def stepped(
    water: Water, supply: Num, temperature: Floats, pace: Num, step: float, works: Num = 1.0
) -> tuple[Water, Floats]:
    """The water one step on, and the oxygen its nitrification used [mg/L].

    Args:
        water: at the start
        supply [mg/L/s]: ammonia nitrogen from food
        temperature [degC]: of the water
        pace [1]: of the bacteria against the handbook's
        step [s]: of time
        works: 1 while the filter runs, 0 while it stands
    """
    days = step / DAY
    eaters, finishers = guilds(temperature, pace, water.oxygen)
    fed = water.ammonia + supply * step
    ammonia, grown = _eaten(fed, water.eaters * works, eaters, days)
    first = fed - ammonia
    nitrite, finished = _eaten(water.nitrite + first, water.finishers * works, finishers, days)
    second = water.nitrite + first - nitrite
    after = Water(
        ammonia,
        nitrite,
        water.nitrate + second,
        water.eaters * np.exp((grown * works - eaters.decay) * days),
        water.finishers * np.exp((finished * works - finishers.decay) * days),
        water.oxygen,
    )
    return after, OXYGEN_TO_NITRITE * first + OXYGEN_TO_NITRATE * second


def with_oxygen(
    oxygen: Floats, temperature: Floats, exchange: Num, uptake: Num, step: float
) -> Floats:
    """Oxygen one step on, never below 0 [mg/L].

    Args:
        oxygen [mg/L]: at the start
        temperature [degC]: of the water
        exchange [1/s]: rate of evening out with the air; 0 in a closed vessel
        uptake [mg/L/s]: what is used
        step [s]: of time
    """
    pace = floats(exchange) * step
    gone = -np.expm1(-pace)
    reach = np.where(pace > 1e-12, gone / np.where(pace > 1e-12, pace, 1.0), 1.0)
    lacking = oxygen_saturation(temperature) - oxygen
    after: Floats = np.maximum(oxygen + lacking * gone - uptake * step * reach, 0.0)
    return after


def diluted(held: Num, share: Num, brought: Num = 0.0) -> Floats:
    """A concentration after a share of the water was swapped for another water."""
    return floats(held + np.asarray(share) * (np.asarray(brought) - held))


def _eaten(food: Floats, film: Floats, guild: Guild, days: float) -> tuple[Floats, Floats]:
    """What is left of the food after a step, and the growth on that [1/day].

    left = food − days · growth · film / cells · left / (half + left): a quadratic.
    """
    most = guild.growth * film / guild.cells * days
    half_sum = 0.5 * (food - guild.half - most)
    root = np.sqrt(half_sum * half_sum + guild.half * food)
    # The root without a difference of two near numbers.
    left = np.where(half_sum > 0, half_sum + root, guild.half * food / (root - half_sum))
    return left, guild.growth * left / (guild.half + left)
