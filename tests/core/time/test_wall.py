"""Whether the wall has to be a node of its own: the run's one node against a pane in layers.

The wall's heat stands in `heat_capacity` at the water's temperature. In truth its inner face is
near the water and its outer face near the room. A pane of 10 mm of glass under a film of 9 W/m²/K
has a Biot number of 0.09 and follows the water in three minutes, where the water takes a day, and
it holds 3 to 4 % of the heat. How much that is in the water is measured here: conduction through
the pane in layers (finite volumes, Incropera 2007, section 5.10, from memory), by scipy's
solve_ivp, against one node. At most 0.04 K in a night on which the water falls by 8 to 14 K, and
acrylic is the worst.
"""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from vessels import HOUR, cooled

from interview.core.heat.losses import TankLoss, wall_flux

_LAYERS = 4
_FILM = 500.0  # W/m²/K, water along the pane, from memory
_PANES = {"glass": (1.0, 2500.0 * 840.0), "acrylic": (0.2, 1190.0 * 1470.0)}
"""Conductivity [W/m/K] and heat by volume [J/m³/K], from memory."""


def _room(hours: Any) -> Any:
    return 12.0 + 5.0 * np.exp(-np.asarray(hours) / 10.0)


@pytest.mark.parametrize(
    ("sides", "pane", "material", "cover", "most"),
    [
        ((0.9, 0.45, 0.35), 0.010, "glass", "none", 0.015),
        ((0.4, 0.25, 0.12), 0.006, "glass", "glass", 0.015),
        ((1.2, 0.5, 0.4), 0.012, "acrylic", "none", 0.04),
    ],
)
def test_one_node_is_within_a_twentieth_of_a_degree_of_a_pane_in_layers(
    sides: tuple[float, float, float], pane: float, material: str, cover: str, most: float
) -> None:
    long, wide, high = sides
    conductivity, heat = _PANES[material]
    loss = TankLoss(
        50.0, long, wide, high, 1 / _FILM + pane / conductivity, 0.0, cover, float(cover == "none")
    )
    walls, water = 2 * (long + wide) * high, 4.18e6 * long * wide * high
    layer = pane / _LAYERS
    across = conductivity / layer

    def rate(hours: float, y: Any) -> Any:
        room = float(_room(hours))
        inner = (y[0] - y[1]) / (1 / _FILM + 0.5 / across)
        outer = float(wall_flux(y[-1], room, high, 0.5 / across))
        flow = np.concatenate([[inner], across * (y[1:-1] - y[2:]), [outer]])
        lost = walls * inner + float(loss.top(y[0], room))
        return HOUR * np.concatenate([[-lost / water], (flow[:-1] - flow[1:]) / (layer * heat)])

    still = [26.0] * (_LAYERS + 1)
    settled = solve_ivp(
        lambda _, y: np.concatenate([[0.0], rate(0.0, y)[1:]]), (0, 2), still, method="LSODA"
    ).y[:, -1]
    time, one = cooled(loss, _room, water + walls * pane * heat, 26.0, 24.0, 600.0)
    layered = solve_ivp(
        rate, (0, 24), settled, method="LSODA", t_eval=time[::6], rtol=1e-5, atol=1e-5
    ).y[0]
    missed = np.abs(one[::6] - layered).max()
    assert 1e-3 < missed < most
    assert one[0] - one[-1] > 8.0


def test_a_pane_is_thin_to_heat() -> None:
    """Biot number, time and share of the heat, as the text above says."""
    conductivity, heat = _PANES["glass"]
    film, pane = 9.0, 0.010
    assert film * pane / conductivity == pytest.approx(0.09)
    resistance = 1 / _FILM + 0.5 * pane / conductivity
    minutes = pane * heat * resistance / 60.0
    assert 2.0 < minutes < 3.5
    held = 2 * (0.9 + 0.45) * 0.35 * pane * heat
    assert math.isclose(held / (held + 4.18e6 * 0.9 * 0.45 * 0.35), 0.032, abs_tol=1e-3)
