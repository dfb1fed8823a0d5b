"""Watts, hours and the continuous load a circuit may carry."""

from __future__ import annotations

from interview.core.numeric import Num

__all__ = ["continuous_load_limit", "energy_used"]

_CONTINUOUS_SHARE = 0.8  # a continuous load counts 125 % (NEC 210.20(A)); 1/1.25


def energy_used(power: Num, duty: Num, hours_per_day: Num, days: Num) -> Num:
    """Electrical energy an appliance takes [J].

    Args:
        power [W, 0 to 1e5]: while it is on
        duty [1, 0 to 1]: share of its hours in which it draws power
        hours_per_day [h, 0 to 24]: switched on
        days [day, 0 to 1e5]: counted

    Source: physics, power times time [computed]
    """
    return power * duty * hours_per_day * 3600.0 * days


def continuous_load_limit(mains_voltage: Num, circuit_rating: Num) -> Num:
    """Load that may run for three hours or more on a circuit: 80 % of its rating [W].

    Law in North America, prudence at 230 V.

    Args:
        mains_voltage [V, 90 to 260]: of the circuit
        circuit_rating [A, 1 to 100]: of its breaker or fuse

    Source: nec_2023, 210.20(A), continuous load counts 125 % [standard]
    """
    return _CONTINUOUS_SHARE * mains_voltage * circuit_rating
