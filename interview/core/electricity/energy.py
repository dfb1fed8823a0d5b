"""Watts, hours and the continuous load a circuit may carry."""

from __future__ import annotations

from interview.core.numeric import Num

__all__ = ["continuous_load_limit", "energy_used"]
LAWS = __all__

_CONTINUOUS_SHARE = 0.8  # a continuous load counts 125 % (NEC 210.20(A)); 1/1.25


def energy_used(power: Num, duty: Num, hours_per_day: Num, days: Num) -> Num:
    """Electrical energy an appliance takes [J].

    Source: physics, power times time [computed]
    """
    return power * duty * hours_per_day * 3600.0 * days


def continuous_load_limit(mains_voltage: Num, circuit_rating: Num) -> Num:
    """Load that may run for three hours or more on a circuit: 80 % of its rating [W].

    Law in North America, prudence at 230 V.

    Source: nec_2023, 210.20(A), continuous load counts 125 % [standard]
    """
    return _CONTINUOUS_SHARE * mains_voltage * circuit_rating
