"""Vessels for the tests of time: with a constant loss a degree, and the demo tanks."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

from interview import assembly
from interview.commands.filled import filled
from interview.core.time.heating import Averaged, Fluxes
from interview.core.time.loss_table import LossTable
from interview.core.time.tank import TankInTime
from interview.core.working import Working

DEMOS = Path(__file__).parents[3] / "transcripts_demo"
HOUR = 3600.0


@dataclass(frozen=True)
class Constant:
    """A loss that is in proportion to the difference [W/K]."""

    by_degree: float

    def walls(self, water: Any, room: Any) -> Any:
        return 0.0 * (water - room)

    floor = walls

    def __call__(self, water: Any, room: Any) -> Any:
        return self.by_degree * (water - room)


def cooled(
    losses: Any, room: Callable[[Any], Any], stores: float, start: float, hours: float, step: float
) -> tuple[Any, Any]:
    """Times [h] and temperatures of a vessel without a heater, by the program's own steps."""
    count = round(hours * HOUR / step)
    time = step / HOUR * np.arange(count + 1)
    rooms = np.atleast_1d(room(time))
    middles = np.broadcast_to(room(time[:-1] + 0.5 * step / HOUR), (count,))
    table = LossTable(losses, (rooms.min(), rooms.max()), (-14.0, 80.0), 1)
    dead = Averaged(np.zeros(1), np.zeros(1))
    water, off = np.array([start]), np.array([False])
    found = [start]
    for now in middles:
        by = table.about(np.array([now]))
        given = Fluxes(np.zeros(1), np.array([stores]), np.array([now]), step)
        water = dead.after(water, off, by, given).water
        found.append(float(water[0]))
    return time, np.array(found)


def demo(name: str) -> Working:
    interview, _ = filled(DEMOS / f"{name}.yaml")
    return assembly.tank_of(interview, drawn=False).best


def steady(name: str, room: float | None = None, **known: Any) -> Working:
    """A demo tank in a room that never swings, or at its mean."""
    best = demo(name)
    if room is not None:
        known |= {"room_temperature_low": room, "room_temperature_high": room}
    return best.with_known({**best.known, **known})


def in_time(working: Working) -> TankInTime:
    return TankInTime.of(working, 1)
