"""How a new filter matures: two groups of bacteria growing one after the other."""

from __future__ import annotations

import numpy as np

from interview.core.numeric import Num
from interview.core.water.nitrifiers import DAY, guilds
from interview.core.water.start_up import StartUp
from interview.core.water.start_up_table import looked_up

__all__ = ["mature_film", "start_up_time"]


def mature_film(ammonia_supply: Num, water_temperature: Num, nitrifier_pace: Num) -> Num:
    """Ammonia oxidisers that a settled filter carries, as oxygen demand per tank water [mg/L].

    Where growth on the supply just makes good the decay.

    Args:
        ammonia_supply [mg/L/s, 0 to 1]
        water_temperature [degC, 10 to 35]

    Formula: ammonia_supply · yield / decay, of ammonia oxidisers at water_temperature

    Source: metcalf_eddy_2014, table 8-14, yield and decay of ammonia oxidisers [published]
    """
    eaters, _ = guilds(water_temperature, nitrifier_pace)
    film: Num = ammonia_supply * DAY * eaters.cells / eaters.decay
    return film


def start_up_time(
    ammonia_supply: Num, water_temperature: Num, starting_film: Num, nitrifier_pace: Num
) -> Num:
    """Time until a new filter first has ammonia and nitrite both below 0.25 mg/L N [s].

    Two groups of bacteria growing one after the other (Monod), from a first 2 mg/L N.
    Infinite if it never gets there. Nitrite oxidisers start at a third of the ammonia oxidisers.
    Within 0.3 % of the exact solution, most of it from a table, the rest in steps. Later on
    ammonia may pass the mark once more by some hundredths of a mg/L.

    Args:
        ammonia_supply [mg/L/s, 0 to 1]
        water_temperature [degC, 10 to 35]

    Formula: first time at which ammonia and nitrite are both below 0.25 mg/L N in two Monod
    steps: dX/dt = X · (μ · S / (K + S) − decay), dS/dt = supply − μ · X · S / (K + S) / yield,
    stepped through

    Source: metcalf_eddy_2014, table 8-14, ammonia oxidisers [published]
    Source: recalled, nitrite oxidisers and temperature factors of the same table [memory]
    """
    given = (ammonia_supply, water_temperature, starting_film, nitrifier_pace)
    times, holds = looked_up(*given)
    if not holds.all():
        supply, warmth, film, pace = (item[~holds] for item in np.broadcast_arrays(*given))
        times[~holds] = StartUp.run(supply, warmth, film, pace).ready
    return times[()]
