"""The water line between two top-ups: what evaporates, what is poured in."""

from __future__ import annotations

import numpy as np

from interview.core.numeric import Num, floats
from interview.core.water.properties import water_density

__all__ = ["top_up_volume"]
QUANTITIES = __all__


def top_up_volume(evaporation_rate: Num, top_up_interval: Num, filter_temperature: Num) -> Num:
    """Water that makes good the evaporation, each time it is topped up [m**3].

    Args:
        filter_temperature [degC, 0 to 40]

    Formula: evaporation_rate · top_up_interval / density, never below 0

    Source: physics, balance of mass [computed]
    """
    lost = np.maximum(floats(evaporation_rate), 0.0)
    return np.asarray(lost * top_up_interval / water_density(filter_temperature))
