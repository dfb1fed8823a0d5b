"""How a new filter matures: two groups of bacteria growing one after the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.core.numeric import Num

__all__ = ["StartUp", "mature_film", "start_up_time"]

_DAY = 86400.0
_OXYGEN = 7.0  # mg/L, an aerated filter at tank temperature
_FIRST_DOSE = 2.0  # mg/L N, ammonia in the water when the count starts
_CLEAR = 0.25  # mg/L N, the least a drop kit tells from nothing
_NITRITE_SHARE = 0.33  # nitrite oxidisers on the starting media, relative to ammonia oxidisers
_STEP = 0.05  # time step, in units of the ammonia oxidisers' growth time
_LONGEST = 120.0  # give up after this many growth times


@dataclass(frozen=True)
class _Guild:
    """One group of bacteria at a temperature: rates in 1/day, half-saturation in mg/L N."""

    growth: Any
    decay: Any
    half: float
    cells: float  # mg of cells (as oxygen demand) for each mg of nitrogen

    def uptake(self, film: Any) -> Any:
        """Most nitrogen the film can turn over, mg/L a day."""
        return self.growth * film / self.cells

    def grown(self, film: Any, food: Any, step: Any) -> Any:
        """Grow the film for one step, with the food held."""
        return film * np.exp(step * (self.growth * food / (food + self.half) - self.decay))


def _guilds(water_temperature: Num, nitrifier_pace: Num) -> tuple[_Guild, _Guild]:
    """Ammonia and nitrite oxidisers, Metcalf & Eddy table 8-14, in well aerated water."""
    warmer = np.asarray(water_temperature, dtype=float) - 20.0
    decay = nitrifier_pace * 0.17 * 1.029**warmer
    ammonia = nitrifier_pace * 0.90 * 1.072**warmer * _OXYGEN / (_OXYGEN + 0.50)
    nitrite = nitrifier_pace * 1.00 * 1.063**warmer * _OXYGEN / (_OXYGEN + 0.90)
    demand = 1.42  # g oxygen demand for each g of cells, C5H7O2N
    return (
        _Guild(ammonia, decay, 0.50, 0.15 * demand),
        _Guild(nitrite, decay, 0.20, 0.05 * demand),
    )


def _after_uptake(before: Any, most: Any, half: float) -> Any:
    """Nitrogen left after an implicit Monod step: the positive root of its quadratic."""
    middle = 0.5 * (before - half - most)
    return middle + np.sqrt(middle**2 + half * before)


@dataclass(frozen=True)
class _Tank:
    """Nitrogen in the water, mg/L N, and the two films."""

    ammonia: Any
    nitrite: Any
    nitrate: Any
    first: Any
    second: Any

    @property
    def worst(self) -> Any:
        return np.maximum(self.ammonia, self.nitrite)

    def after(self, step: Any, fed: Any, eaters: _Guild, finishers: _Guild) -> _Tank:
        """One step on: films grow exponentially, nitrogen is taken up implicitly.

        What one group oxidises the next one gets, so nitrogen is kept to rounding.
        """
        midway = eaters.grown(self.first, self.ammonia, 0.5 * step)
        offered = self.ammonia + fed
        ammonia = _after_uptake(offered, step * eaters.uptake(midway), eaters.half)
        midway = finishers.grown(self.second, self.nitrite, 0.5 * step)
        passed = self.nitrite + (offered - ammonia)
        nitrite = _after_uptake(passed, step * finishers.uptake(midway), finishers.half)
        return _Tank(
            ammonia,
            nitrite,
            self.nitrate + (passed - nitrite),
            eaters.grown(self.first, 0.5 * (self.ammonia + ammonia), step),
            finishers.grown(self.second, 0.5 * (self.nitrite + nitrite), step),
        )


class _Peak:
    """The highest value seen and the step it was seen at."""

    def __init__(self, start: Any) -> None:
        self.value = start
        self.step = np.zeros(np.shape(start))

    def see(self, value: Any, step: int) -> None:
        self.step = np.where(value > self.value, step, self.step)
        self.value = np.maximum(value, self.value)


@dataclass(frozen=True)
class StartUp:
    """How a new filter comes into its own: times in seconds, nitrogen in mg/L N.

    `ready` is when ammonia and nitrite are both below 0.25 mg/L N, infinite if never;
    `ammonia`, `nitrite` and `nitrate` are the state at `end`, where the run stopped.
    """

    ready: NDArray[np.float64]
    ammonia_peak: NDArray[np.float64]
    ammonia_peak_time: NDArray[np.float64]
    nitrite_peak: NDArray[np.float64]
    nitrite_peak_time: NDArray[np.float64]
    end: NDArray[np.float64]
    ammonia: NDArray[np.float64]
    nitrite: NDArray[np.float64]
    nitrate: NDArray[np.float64]

    @classmethod
    def run(
        cls, ammonia_supply: Num, water_temperature: Num, starting_film: Num, nitrifier_pace: Num
    ) -> StartUp:
        """Let both groups grow, every tank in steps of a fraction of its own growth time."""
        given = (ammonia_supply, water_temperature, starting_film, nitrifier_pace)
        supply, warmth, film, pace = np.broadcast_arrays(*given)
        eaters, finishers = _guilds(warmth, pace)
        step = _STEP / (eaters.growth - eaters.decay)
        dose, none = np.full(film.shape, _FIRST_DOSE), np.zeros(film.shape)
        tank = _Tank(dose, none, none, film, _NITRITE_SHARE * film)
        ammonia, nitrite = _Peak(dose), _Peak(none)
        ready = np.full(film.shape, np.inf)
        count = 0
        while count * _STEP < _LONGEST and not np.isfinite(ready).all():
            before = tank
            tank = before.after(step, supply * _DAY * step, eaters, finishers)
            ready = np.minimum(ready, count + _share_to_clear(before.worst, tank.worst))
            count += 1
            ammonia.see(tank.ammonia, count)
            nitrite.see(tank.nitrite, count)
        day = step * _DAY
        return cls(
            ready * day,
            ammonia.value,
            ammonia.step * day,
            nitrite.value,
            nitrite.step * day,
            count * day,
            tank.ammonia,
            tank.nitrite,
            tank.nitrate,
        )


def _share_to_clear(before: Any, now: Any) -> Any:
    """Where in a step the worse of the two crossed the clear mark; infinite if it did not."""
    crossed = (before >= _CLEAR) & (now < _CLEAR)
    return np.where(crossed, (before - _CLEAR) / np.where(crossed, before - now, 1.0), np.inf)


def mature_film(ammonia_supply: Num, water_temperature: Num, nitrifier_pace: Num) -> Num:
    """Ammonia oxidisers that a settled filter carries, as oxygen demand per tank water [mg/L].

    Where growth on the supply just makes good the decay.

    Args:
        ammonia_supply [mg/L/s, 0 to 1]: ammonia nitrogen the tank gains
        water_temperature [degC, 10 to 35]: temperature of the water
        nitrifier_pace [1, 0.05 to 2]: speed of the bacteria's life against the handbook's

    Formula: ammonia_supply · yield / decay, of ammonia oxidisers at water_temperature

    Source: metcalf_eddy_2014, table 8-14, yield and decay of ammonia oxidisers [published]
    """
    eaters, _ = _guilds(water_temperature, nitrifier_pace)
    film: Num = ammonia_supply * _DAY * eaters.cells / eaters.decay
    return film


def start_up_time(
    ammonia_supply: Num, water_temperature: Num, starting_film: Num, nitrifier_pace: Num
) -> Num:
    """Time until a new filter keeps ammonia and nitrite both below 0.25 mg/L N [s].

    Two groups of bacteria growing one after the other (Monod), from a first 2 mg/L N.
    Infinite if it never gets there. Nitrite oxidisers start at a third of the ammonia oxidisers.

    Args:
        ammonia_supply [mg/L/s, 0 to 1]: ammonia nitrogen the tank gains
        water_temperature [degC, 10 to 35]: temperature of the water
        starting_film [mg/L, 1e-9 to 100]: ammonia oxidisers at the start, as oxygen demand
        nitrifier_pace [1, 0.05 to 2]: speed of the bacteria's life against the handbook's

    Formula: first time after which ammonia and nitrite stay below 0.25 mg/L N in two Monod
    steps: dX/dt = X · (μ · S / (K + S) − decay), dS/dt = supply − μ · X · S / (K + S) / yield,
    stepped through

    Source: metcalf_eddy_2014, table 8-14, ammonia oxidisers [published]
    Source: recalled, nitrite oxidisers and temperature factors of the same table [memory]
    """
    return StartUp.run(ammonia_supply, water_temperature, starting_film, nitrifier_pace).ready
