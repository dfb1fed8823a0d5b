"""Where a tank's temperature settles and how long it takes from one to another.

Both look at the heat loss of a whole cloud of tanks as few times as their precision needs:
those that are done, or that a few looks describe, don't wait for the others.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.heat.losses import TankLoss
from interview.core.heat.lumped import passage_time, time_along
from interview.core.numeric import Num, floats, solve_rising

__all__ = ["settling_temperature", "time_between"]

_Floats: TypeAlias = NDArray[np.float64]
_PIECES = 24  # between which the heat is taken linear, as passage_time does
_LOOKS = (5, 9)  # temperatures at which the heat is worked out, at most
_DESCRIBED = 1e-3  # of the time: what half the looks may be off
_TURNED = 0.02  # of the most net heat: so far the other way it goes for certain
_FOUND = 3e-7  # of the bracket: the last step; where it leads is a thousand times as near
_STEPS = 7  # of the secant rule; what it has not found by then goes to the bracketing one


@dataclass(frozen=True)
class _Tanks:
    """Tanks side by side, each with its room [degC], its heater [W] and what it stores [J/K]."""

    loss: TankLoss
    room: Any
    heater: Any
    stores: Any

    def net(self, water: Any) -> Any:
        """Heat gained at these water temperatures [W]; tanks on the last axis."""
        return self.heater - self.loss(water, self.room)

    def only(self, rows: Any) -> _Tanks:
        """Some of the tanks."""
        given = {item.name: getattr(self.loss, item.name) for item in fields(self.loss)}
        loss = replace(self.loss, **{name: _picked(value, rows) for name, value in given.items()})
        return _Tanks(loss, *(_picked(v, rows) for v in (self.room, self.heater, self.stores)))


def settling_temperature(
    loss: TankLoss, room: Num, heater: Num, low: Num, high: Num
) -> NDArray[np.float64]:
    """Water temperature at which a tank loses what its heater gives [degC], to 1e-9 of the bracket.

    Args:
        loss: the heat loss, rising with the water's temperature
        room [degC]: temperature of the room
        heater [W]: what is given all the time
        low [degC]: where the loss is smaller; what settles below ends here
        high [degC]: where the loss is larger; what settles above ends here
    """
    tanks, shape, (low, high) = _side_by_side(loss, room, heater, 1.0, low, high)
    found, sure = _by_secants(tanks, low, high)
    if not sure.all():
        rest = np.flatnonzero(~sure)
        few = tanks.only(rest)
        found[rest] = solve_rising(lambda water: -few.net(water), low[rest], high[rest])
    return found.reshape(shape)[()]


def time_between(
    loss: TankLoss, room: Num, heater: Num, stores: Num, start: Num, end: Num
) -> NDArray[np.float64]:
    """Time the water takes from one temperature to another [s]; infinite if it stops before.

    Net heat is worked out at five temperatures on the way, or at nine, and joined by a
    polynomial. Where the time by half of these differs by over a thousandth, as about a kink,
    it is worked out at 25 and taken linear in between.

    Args:
        loss: the heat loss
        room [degC]: temperature of the room
        heater [W]: what is given all the time
        stores [J/K]: heat that warms all by one degree
        start [degC]: of the water
        end [degC]: of the water
    """
    tanks, shape, (start, end) = _side_by_side(loss, room, heater, stores, start, end)
    times = np.zeros(start.size)
    rest = np.flatnonzero(start != end)
    for looks in _LOOKS:
        if rest.size:
            few = tanks.only(rest)
            found, known = _described(few, start[rest], end[rest], looks)
            times[rest[known]] = found[known]
            rest = rest[~known]
    if rest.size:
        few = tanks.only(rest)
        times[rest] = passage_time(few.net, few.stores, start[rest], end[rest], pieces=_PIECES)
    return times.reshape(shape)[()]


def _described(
    tanks: _Tanks, start: _Floats, end: _Floats, looks: int
) -> tuple[_Floats, NDArray[np.bool_]]:
    """Times by looks at the net heat, and for which tanks these are enough."""
    places, evenly, fewer = _polynomial(looks)
    water = start + places[:, None] * (end - start)
    net = tanks.net(water)
    way = (end - start) * tanks.stores
    all_looks, half = evenly @ net, fewer @ net[::2]
    finely, coarsely = time_along(way, all_looks), time_along(way, half)
    with np.errstate(invalid="ignore"):
        alike = np.abs(finely - coarsely) <= _DESCRIBED * finely
    stops = [(np.sign(way) * heat).min(axis=0) for heat in (all_looks, half)]
    never = np.maximum(*stops) < -_TURNED * np.abs(all_looks).max(axis=0)
    return finely, never | (alike & np.isfinite(coarsely))


def _polynomial(looks: int) -> tuple[_Floats, _Floats, _Floats]:
    """Chebyshev's places from 0 to 1, and what to multiply the values there by for even steps.

    The last goes with every second place only.
    """
    places = 0.5 - 0.5 * np.cos(np.pi * np.arange(looks) / (looks - 1))
    steps = np.linspace(0.0, 1.0, _PIECES + 1)
    return places, _through(places, steps), _through(places[::2], steps)


def _through(places: _Floats, at: _Floats) -> _Floats:
    """Weights of the polynomial through values at some places, for its values at others."""
    apart = places[:, None] - places[None, :]
    np.fill_diagonal(apart, 1.0)
    away = at[:, None, None] - places[None, None, :]
    away = np.where(np.eye(len(places), dtype=bool), 1.0, away)
    weights: _Floats = np.prod(away / apart, axis=-1)
    return weights


def _by_secants(tanks: _Tanks, low: _Floats, high: _Floats) -> tuple[_Floats, NDArray[np.bool_]]:
    """Roots between the ends of the brackets, and which of them are found."""
    found, sure = np.clip(tanks.room - 1.0, low, high), np.zeros(low.size, dtype=bool)
    rest, old = np.arange(low.size), found
    before = tanks.net(old)
    new = np.clip(old + _first_step(tanks, before), low, high)
    for _ in range(_STEPS):
        few = tanks if rest.size == low.size else tanks.only(rest)
        now = few.net(new)
        with np.errstate(all="ignore"):
            step = now * (new - old) / (before - now)
        end = new + step
        near = np.abs(step) <= _FOUND * (high - low)[rest]
        inside = (low[rest] < end) & (end < high[rest])
        found[rest], sure[rest] = end, near & inside
        on = ~near & inside & np.isfinite(end)
        rest, old, new, before = rest[on], new[on], end[on], now[on]
        if not rest.size:
            break
    return found, sure


def _first_step(tanks: _Tanks, net: _Floats) -> _Floats:
    """Towards the root: by the loss a degree of a usual tank of this size."""
    loss = tanks.loss
    area = loss.inside_length * loss.inside_width
    walls = 2.0 * (loss.inside_length + loss.inside_width) * loss.water_level
    by_degree = 7.0 * walls + loss.floor_conductance + area * (4.0 + 20.0 * loss.open_top_share)
    step = net / by_degree
    # A second look may not fall on the first.
    return np.where(np.abs(step) < 1e-3, 1e-3, step)


def _side_by_side(
    loss: TankLoss, room: Num, heater: Num, stores: Num, first: Num, last: Num
) -> tuple[_Tanks, tuple[int, ...], tuple[_Floats, _Floats]]:
    """The tanks in one row, the shape they came in, and two temperatures of each."""
    given = {item.name: getattr(loss, item.name) for item in fields(loss)}
    numbers = [v for v in given.values() if not isinstance(v, str)]
    shape = np.broadcast_shapes(*map(np.shape, (*numbers, room, heater, stores, first, last)))
    flat = {name: _flat(value, shape) for name, value in given.items()}
    tanks = _Tanks(replace(loss, **flat), *(_flat(v, shape) for v in (room, heater, stores)))
    ends = (np.broadcast_to(floats(v), shape).ravel() for v in (first, last))
    one, other = ends
    return tanks, shape, (one, other)


def _flat(value: Any, shape: tuple[int, ...]) -> Any:
    """A number as it is, an array in one row of all tanks."""
    if isinstance(value, str) or np.ndim(value) == 0:
        return value
    return np.broadcast_to(value, shape).ravel()


def _picked(value: Any, rows: Any) -> Any:
    return value[rows] if isinstance(value, np.ndarray) and value.ndim else value
