"""The heat loss of many tanks as a table, because the laws are too slow for every step of a year.

The laws themselves are worked out in four rooms, at water temperatures that lie closest about the
one at which the air over the water turns from rising to lying still: there the loss bends. Between
them it is a straight line, between the rooms a cubic. That is within 0.5 % of the laws, counted on
no less than the loss at 3 K, in 98 looks of 100 (`tests/core/time`); 1.2 % where the published law
of a level plate jumps by 6 %, and 1.7 % under a lid in a room of 36 degC.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Protocol, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.heat.evaporation import surface_grashof
from interview.core.heat.losses import SHEETS, TankLoss
from interview.core.numeric import Num, floats, solve_rising

__all__ = ["ByDegree", "LossTable", "Losses", "SideBySide"]

Floats: TypeAlias = NDArray[np.float64]
_FINEST = 0.025  # K over the turn, of the first look; the n-th lies n² times as far
_ROOMS = 4
_STILL = (-12.0, 2.0)  # K over the room, between which the air over the water turns


class Losses(Protocol):
    """A heat loss that rises with the water's temperature; its walls stand apart."""

    def __call__(self, water: Num, room: Num) -> Num:
        """All parts together [W]."""

    def walls(self, water: Num, room: Num) -> Num:
        """What goes through the wetted walls, in proportion to the water's height [W]."""

    def floor(self, water: Num, room: Num) -> Num:
        """What goes through the floor [W]."""


@dataclass(frozen=True)
class SideBySide:
    """Losses of unlike tanks beside each other, as under different covers."""

    parts: tuple[tuple[Losses, slice], ...]
    """Each with its tanks, in their order on the last axis."""

    def __call__(self, water: Num, room: Num) -> Num:
        """All parts together [W]."""
        return self._beside("__call__", water, room)

    def walls(self, water: Num, room: Num) -> Num:
        """What goes through the wetted walls [W]."""
        return self._beside("walls", water, room)

    def floor(self, water: Num, room: Num) -> Num:
        """What goes through the floor [W]."""
        return self._beside("floor", water, room)

    def _beside(self, part: str, water: Num, room: Num) -> Num:
        warm, around = np.broadcast_arrays(water, room)
        found = (getattr(one, part)(warm[..., rows], around[..., rows]) for one, rows in self.parts)
        return np.concatenate([floats(one) for one in found], axis=-1)


@dataclass(frozen=True)
class ByDegree:
    """The loss about one room temperature, ready for the steps; tanks on the last axis."""

    _least: int
    _room: Floats
    _turn: Floats
    _turn_by_room: Floats
    _at: Floats
    _slope: Floats
    _by_room: Floats
    _last: int
    _tanks: NDArray[np.intp]

    def __call__(self, water: Floats, room: Floats) -> tuple[Floats, Floats]:
        """Loss [W], and how much more of it a warmer water gives [W/K]."""
        warmer = room - self._room
        over = water - room - self._turn - self._turn_by_room * warmer
        place = np.copysign(np.sqrt(np.abs(over) * (1.0 / _FINEST)), over) - self._least
        whole = np.minimum(np.maximum(place, 0.0), self._last).astype(np.intp)
        cell = whole * self._tanks.size + self._tanks
        low = whole + self._least
        slope = self._slope.take(cell)
        loss = self._at.take(cell) + (over - _FINEST * low * np.abs(low)) * slope
        return loss + self._by_room.take(cell) * warmer, slope


class LossTable:
    """Losses at water temperatures about the room's, in four rooms, tank by tank."""

    def __init__(
        self, losses: Losses, rooms: tuple[Num, Num], apart: tuple[float, float], tanks: int
    ) -> None:
        """Look at the laws.

        Args:
            losses: the heat loss of all tanks
            rooms: coldest and warmest room that will be met [degC]; of all tanks or of each
            apart: least and most that the water is warmer than the room [K]
            tanks: how many there are
        """
        ends = [np.copysign(np.ceil(np.sqrt(abs(end) / _FINEST)), end) for end in apart]
        self._least = int(ends[0])
        steps = np.arange(ends[0], ends[1] + 1.0)
        over = _FINEST * steps * np.abs(steps)
        self._width = np.diff(over)[:, None]
        coldest, warmest = (np.atleast_1d(end) for end in rooms)
        self._rooms = np.linspace(coldest, np.maximum(warmest, coldest + 1.0), _ROOMS)
        room = self._rooms[:, None, :]
        shape = (_ROOMS, len(over), tanks)
        self._turn = np.broadcast_to(_turn(losses, self._rooms), (_ROOMS, tanks))
        water = room + self._turn[:, None, :] + over[None, :, None]
        walls = floats(losses.walls(water, room))
        self._walls = np.broadcast_to(walls, shape)
        self._rest = np.broadcast_to(np.asarray(losses(water, room)) - walls, shape)
        self._tanks = np.arange(tanks)

    def about(self, room: Floats, wetted: Num = 1.0) -> ByDegree:
        """The loss for rooms near one temperature.

        Args:
            room [degC]: of each tank, as a mean over the steps to come
            wetted: height of the water over the height the losses were asked for
        """
        weights, slopes = _through(self._rooms, room)
        whole = self._rest + self._walls * wetted
        at = np.einsum("rn,rcn->cn", weights, whole)
        by_room = np.einsum("rn,rcn->cn", slopes, whole)
        return ByDegree(
            self._least,
            room,
            (weights * self._turn).sum(axis=0),
            (slopes * self._turn).sum(axis=0),
            at.ravel(),
            (np.diff(at, axis=0) / self._width).ravel(),
            (0.5 * (by_room[1:] + by_room[:-1])).ravel(),
            len(at) - 2,
            self._tanks,
        )


def _turn(losses: Losses, room: Floats) -> Num:
    """Water over room at which the air over it is as heavy as the room's [K]; 0 under a lid."""
    if isinstance(losses, SideBySide):
        return np.concatenate(
            [
                np.broadcast_to(_turn(one, room[:, rows]), (len(room), rows.stop - rows.start))
                for one, rows in losses.parts
            ],
            axis=1,
        )
    if not isinstance(losses, TankLoss) or losses.cover_water in SHEETS:
        return 0.0
    least, most = (room + end for end in _STILL)
    sides = (losses.inside_length, losses.inside_width)
    found = solve_rising(
        lambda water: surface_grashof(water, room, losses.room_humidity, *sides), least, most
    )
    return np.asarray(found - room)


def _through(nodes: Floats, at: Floats) -> tuple[Floats, Floats]:
    """Weights of the cubic through four nodes, for its value and for its slope."""
    away = at - nodes
    weights, slopes = np.empty_like(away), np.empty_like(away)
    for here, node in enumerate(nodes):
        first, second, third = (n for n in range(_ROOMS) if n != here)
        apart = (node - nodes[first]) * (node - nodes[second]) * (node - nodes[third])
        one, two, three = away[first], away[second], away[third]
        pair, scale = one * two, 1.0 / apart
        weights[here] = scale * pair * three
        slopes[here] = scale * (pair + (one + two) * three)
    return weights, slopes
