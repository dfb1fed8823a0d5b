"""Connected load, the share of the circuit it takes, energy and its cost."""

from __future__ import annotations

import numpy as np

from interview.core.electricity import energy as laws
from interview.core.errors import Missing
from interview.core.numeric import Num, first_known

__all__ = [
    "circuit_current",
    "circuit_share",
    "connected_load",
    "cost_per_month",
    "energy_per_month",
    "filter_load",
    "heat_lamp_load",
    "lighting_load",
    "supply_rating",
    "supply_voltage",
]
QUANTITIES = __all__

_DAYS_PER_MONTH = 30.4375  # 365.25 / 12
_JOULES_PER_KWH = 3.6e6
_SECONDS_PER_HOUR = 3600.0
_USUAL_RATING = {
    "north_america": 15.0,
    "europe": 16.0,
    "united_kingdom": 13.0,  # the plug's fuse
    "australia": 10.0,  # the plug
}


def heat_lamp_load(heat_lamp_kind: str, heat_lamp_power: Num | None = None) -> Num:
    """Power of the basking lamp, 0 without one [W].

    Source: physics, sum of powers [computed]
    """
    if heat_lamp_kind == "none":
        return 0.0
    return first_known("heat_lamp_power", heat_lamp_power)


def lighting_load(
    uvb_lamp_kind: str, heat_lamp_kind: str = "none", light_power: Num | None = None
) -> Num:
    """Power of all lamps but the heat lamp, UVB included [W].

    A mercury vapour lamp that gives heat and UVB is one lamp, counted with the heat lamps.

    Formula: light_power; 0 without a lamp of its own

    Source: physics, sum of powers [computed]
    """
    one_lamp = uvb_lamp_kind == heat_lamp_kind == "mercury_vapour"
    if light_power is None and (one_lamp or uvb_lamp_kind == "none"):
        return 0.0
    return first_known("light_power", light_power)


def filter_load(filter_kind: str, pump_power: Num | None = None) -> Num:
    """Power of filters and pumps, 0 when there are none [W].

    Source: physics, sum of powers [computed]
    """
    if filter_kind == "none" and pump_power is None:
        return 0.0
    return first_known("pump_power", pump_power)


def connected_load(
    installed_heater_power: Num, heat_lamp_load: Num, lighting_load: Num, filter_load: Num
) -> Num:
    """Power of everything on the tank switched on at once [W].

    Source: physics, sum of powers [computed]
    """
    return installed_heater_power + heat_lamp_load + lighting_load + filter_load


def supply_voltage(mains_voltage: Num | None = None, region: str = "elsewhere") -> Num:
    """Voltage of the sockets: as told, else the region's [V].

    Source: iec_60038, table 1, 230 V; 120 V in North America [memory]
    """
    if mains_voltage is not None:
        return mains_voltage
    if region == "elsewhere":
        raise Missing("mains_voltage")
    return 120.0 if region == "north_america" else 230.0


def supply_rating(circuit_rating: Num | None = None, region: str = "elsewhere") -> Num:
    """Rating of the circuit's breaker or fuse: as told, else the region's smallest usual one [A].

    Formula: circuit_rating where it is known, else the region's smallest usual one

    Source: common_practice, smallest circuit usual for sockets or a fused plug [practice]
    """
    if circuit_rating is not None:
        return circuit_rating
    if region not in _USUAL_RATING:
        raise Missing("circuit_rating")
    return _USUAL_RATING[region]


def circuit_current(connected_load: Num, supply_voltage: Num) -> Num:
    """Total current of the tank with everything on [A].

    Source: physics, power over voltage [computed]
    """
    return connected_load / supply_voltage


def circuit_share(
    connected_load: Num, circuit_other_load: Num, supply_voltage: Num, supply_rating: Num
) -> Num:
    """All loads on the circuit over the 80 % it may carry for hours on end [1].

    Source: nec_2023, 210.20(A) and Article 100, continuous load counts 125 % [standard]
    """
    limit = laws.continuous_load_limit(supply_voltage, supply_rating)
    return (connected_load + circuit_other_load) / limit


def energy_per_month(
    installed_heater_power: Num,
    mean_heat_loss: Num,
    heat_lamp_load: Num,
    lighting_load: Num,
    filter_load: Num,
    day_length: Num,
    mean_heater_power: Num | None = None,
) -> Num:
    """Electrical energy of the tank in a mean month of 30.4375 days [J].

    The heater makes up what is lost through the year and pump and lamps don't give, as far as it
    can; lamps burn through the day.

    Formula: 30.4375 days · (mean_heater_power + filter_load + (heat_lamp_load + lighting_load) ·
    day_length / 24 h); where mean_heater_power is not known, mean_heat_loss in its place, no more
    than installed_heater_power

    Source: physics, power times time [computed]
    """
    steadily = np.minimum(mean_heat_loss, installed_heater_power)
    heater = steadily if mean_heater_power is None else mean_heater_power
    steady = laws.energy_used(heater + filter_load, 1.0, 24.0, _DAYS_PER_MONTH)
    lit_hours = day_length / _SECONDS_PER_HOUR
    return steady + laws.energy_used(
        heat_lamp_load + lighting_load, 1.0, lit_hours, _DAYS_PER_MONTH
    )


def cost_per_month(energy_per_month: Num, electricity_price: Num) -> Num:
    """Cost of the tank's electricity in a month, in the keeper's money [1].

    Source: physics, energy times price [computed]
    """
    return energy_per_month / _JOULES_PER_KWH * electricity_price
