"""One step of the water's temperature, and what its thermostat does meanwhile.

C · dT/dt = free heat + heater − loss. Over a step the loss is a straight line in the temperature
(its slope from where the step starts) and the room stands as in the middle of the step; so the
step has a closed form. It is linearly implicit, of second order, and as stable as the tank.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.time.loss_table import ByDegree

__all__ = ["Averaged", "Cycling", "Fluxes", "Heated", "Heater"]

Floats: TypeAlias = NDArray[np.float64]
_LEAST_SLOPE = 1e-9  # W/K, so that a tank which loses nothing can be divided by its slope


@dataclass(frozen=True)
class Fluxes:
    """What a step of the water rests on; tanks on the last axis."""

    free: Floats
    """Heat of pump and lamps [W]."""
    stores: Floats
    """Heat that warms all by one degree [J/K]."""
    room: Floats
    """Temperature of the room in the middle of the step [degC]."""
    step: float
    """[s]"""


@dataclass(frozen=True)
class Heated:
    """What a step ends with: temperature [degC], heater's energy [J], whether it is on."""

    water: Floats
    energy: Floats
    on: NDArray[np.bool_]


class Heater(Protocol):
    """A heater with its thermostat."""

    def after(self, water: Floats, on: NDArray[np.bool_], by: ByDegree, given: Fluxes) -> Heated:
        """The water one step on.

        Args:
            water [degC]: at the start of the step
            on: whether the heater is on then
            by: the heat loss
            given: room, free heat and what is stored
        """


@dataclass(frozen=True)
class _Line:
    """dT/dt as a straight line in the temperature: its value here and its slope."""

    rate: Floats
    decay: Floats

    def moved(self, time: Floats | float) -> Floats:
        """How far the temperature moves in a time [K]."""
        return -self.rate * np.expm1(-self.decay * time) / self.decay

    def time_to(self, way: Floats) -> Floats:
        """Time in which it moves so far [s]; only for ways it does go."""
        return -np.log1p(-self.decay * way / self.rate) / self.decay


@dataclass(frozen=True)
class Cycling:
    """A heater that switches on below the setting's band and off above it.

    A step in which it switches is ended at the switch and goes on from there. One switch a step:
    steps are to be shorter than either half of its cycle.
    """

    power: Floats
    """[W]"""
    setting: Floats
    """[degC]"""
    band: Floats
    """To either side [K]."""

    def after(self, water: Floats, on: NDArray[np.bool_], by: ByDegree, given: Fluxes) -> Heated:
        """The water one step on, the switch found in closed form."""
        loss, slope = by(water, given.room)
        decay = np.maximum(slope, _LEAST_SLOPE) / given.stores
        heat = given.free - loss + np.where(on, self.power, 0.0)
        line = _Line(heat / given.stores, decay)
        end = water + line.moved(given.step)
        edge = np.where(on, self.setting + self.band, self.setting - self.band)
        switches = (self.power > 0) & np.where(on, end > edge, end < edge)
        if not switches.any():
            return Heated(end, np.where(on, self.power * given.step, 0.0), on)
        way = edge - water
        past = np.where(on, way <= 0, way >= 0)
        with np.errstate(all="ignore"):
            when = np.where(past, 0.0, line.time_to(way))
        when = np.where(switches, np.clip(when, 0.0, given.step), given.step)
        at = np.where(past, water, edge)
        turned = np.where(on, -self.power, self.power) / given.stores
        rate = line.rate - decay * (at - water) + turned
        after = at + _Line(rate, decay).moved(given.step - when)
        lit = np.where(on, when, np.where(switches, given.step - when, 0.0))
        return Heated(np.where(switches, after, end), self.power * lit, on ^ switches)


@dataclass(frozen=True)
class Averaged:
    """A heater that gives what keeps the water at its setting, as far as its power goes.

    The mean of many cycles, for steps longer than one.
    """

    power: Floats
    setting: Floats

    def after(self, water: Floats, on: NDArray[np.bool_], by: ByDegree, given: Fluxes) -> Heated:
        """The water one step on."""
        loss, slope = by(water, given.room)
        decay = np.maximum(slope, _LEAST_SLOPE) / given.stores
        held = -np.expm1(-decay * given.step) / (decay * given.stores)  # K for each W
        drift = given.free - loss
        heater = np.minimum(np.maximum((self.setting - water) / held - drift, 0.0), self.power)
        return Heated(water + held * (drift + heater), heater * given.step, on)
