"""How slowly shell and platform follow the lamp, and how often a heater switches.

The steady temperatures of shell and platform come from the laws of the basking spot, room by room;
`approached` follows them with the time constants that stand here.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.errors import NotApplicable
from interview.core.numeric import Num, first_known, floats, power

__all__ = [
    "SteadyByRoom",
    "approached",
    "heater_band",
    "heater_cycle_time",
    "heater_setting",
    "platform_warm_up_time",
    "shell_cooling_time",
    "shell_warming_time",
]
QUANTITIES = [name for name in __all__ if name not in ("SteadyByRoom", "approached")]

Floats: TypeAlias = NDArray[np.float64]
_MINUTE = 60.0  # s
_NINE_TENTHS = float(np.log(10.0))  # time constants to nine tenths of the way
_LOOKS = 9


def shell_warming_time(largest_animal_mass: Num, shell_lag_factor: Num) -> Num:
    """Time constant with which the largest animal's shell warms under a lamp, in air [s].

    Measured in a stream of air; in still air it may be slower.

    Formula: 34.0 min · (largest_animal_mass / kg)^0.33 · shell_lag_factor

    Source: thermal_lags_1986, turtles of 0.14 to 115 kg warming in air at 2.5 m/s [published]
    """
    return 34.0 * _MINUTE * power(largest_animal_mass, 0.33) * shell_lag_factor


def shell_cooling_time(largest_animal_mass: Num, shell_lag_factor: Num) -> Num:
    """Time constant with which the largest animal cools down in water [s].

    Formula: 21.8 min · (largest_animal_mass / kg)^0.65 · shell_lag_factor

    Source: thermal_lags_1986, turtles of 0.14 to 115 kg cooling in water [published]
    """
    return 21.8 * _MINUTE * power(largest_animal_mass, 0.65) * shell_lag_factor


def platform_warm_up_time(platform_time_constant: Num) -> Num:
    """Time from switching the lamp on until the platform has nine tenths of its warmth [s].

    Formula: ln(10) · platform_time_constant

    Source: physics, lumped warming, exponential towards the steady state [published]
    """
    return np.asarray(_NINE_TENTHS * floats(platform_time_constant))


def heater_setting(
    thermostat_setting: Num | None = None,
    water_temperature: Num | None = None,
    target_water_temperature: Num | None = None,
) -> Num:
    """Temperature about which the heater switches: its dial's, else the water's as measured [degC].

    Args:
        water_temperature [degC, 0 to 60]
        target_water_temperature: what is planned, where neither is known

    Formula: thermostat_setting where it is told, else water_temperature, else
    target_water_temperature

    Source: modelling_choice, a heater holds what was measured in the water [assumption]
    """
    told = (thermostat_setting, water_temperature, target_water_temperature)
    return first_known("water_temperature", *told)


def heater_band(thermostat_band: Num, thermostat_swing: Num | None = None) -> Num:
    """How far the heater lets the water go to either side of its setting [K, from 0].

    Formula: half of thermostat_swing where it is told, else thermostat_band

    Source: modelling_choice, a heater switches as far above its setting as below [assumption]
    """
    told = None if thermostat_swing is None else 0.5 * floats(thermostat_swing)
    return first_known("thermostat_swing", told, thermostat_band)


def heater_cycle_time(
    heater_band: Num, heat_capacity: Num, installed_heater_power: Num, heat_loss: Num
) -> Num:
    """Time from one switching-on of the heater to the next, in the coldest room [s].

    Infinite where the heater never rests or never has to start.

    Formula: heat_capacity · 2 · heater_band · (1 / (installed_heater_power − heat_loss) + 1 /
    heat_loss)

    Source: physics, heat stored between two switchings over the net heat [computed]
    """
    if not np.any(installed_heater_power):
        raise NotApplicable("there is no heater")
    stored = heat_capacity * 2.0 * floats(heater_band)
    lost = floats(heat_loss)
    spare = installed_heater_power - lost
    cycles = (lost > 0) & (spare > 0)
    off = stored / np.where(cycles, lost, 1.0)
    on = stored / np.where(cycles, spare, 1.0)
    return np.where(cycles, on + off, np.inf)[()]


@dataclass(frozen=True)
class SteadyByRoom:
    """A steady temperature as a table by room temperature; tanks on the last axis."""

    _rooms: Floats
    _values: Floats

    @classmethod
    def of(
        cls, steady: Callable[[Floats], Floats], rooms: tuple[float, float], tanks: int
    ) -> SteadyByRoom:
        """Look at a law in nine rooms between the coldest and the warmest.

        Args:
            steady: the law, of the room temperature
            rooms: coldest and warmest [degC]
            tanks: how many there are
        """
        nodes = np.linspace(rooms[0], max(rooms[1], rooms[0] + 1.0), _LOOKS)
        values = [np.broadcast_to(steady(np.full(tanks, room)), tanks) for room in nodes]
        return cls(nodes, np.stack(values))

    def __call__(self, room: Floats) -> Floats:
        """The steady temperature in these rooms [degC]."""
        place = (room - self._rooms[0]) / (self._rooms[1] - self._rooms[0])
        whole = np.clip(place, 0, _LOOKS - 2).astype(np.intp)
        tanks = np.broadcast_to(np.arange(self._values.shape[1]), whole.shape)
        low, high = self._values[whole, tanks], self._values[whole + 1, tanks]
        found: Floats = low + (place - whole) * (high - low)
        return found


def approached(
    start: Floats, towards: Floats, warming: Floats, cooling: Floats, step: float
) -> Floats:
    """A temperature step by step as it follows another with a lag; the start comes first.

    Args:
        start [degC]: at first
        towards [degC]: what it tends to, steps on the first axis
        warming [s]: time constant where that is warmer
        cooling [s]: time constant where that is cooler
        step [s]: of time
    """
    kept_warming, kept_cooling = np.exp(-step / warming), np.exp(-step / cooling)
    here = start
    found = [here]
    for steady in towards:
        kept = np.where(steady > here, kept_warming, kept_cooling)
        here = steady + (here - steady) * kept
        found.append(here)
    return np.stack(found)
