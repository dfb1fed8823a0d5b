"""A mug of hot water that cools in still air: open data, on which a constant loss fails.

Series: `CoolingWater` of the R package mosaicData (222 readings, one a minute, in degC), eleven
of them here. Mass, room and humidity are not told, so the room is taken at 22.25 degC, where its
late readings tend to, and the heat stored for each area is fitted once, at 40 degC. What is tested
is the shape: how the loss for each degree falls as the water cools, which no constant loss can
follow.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from scipy.optimize import brentq
from vessels import Constant, cooled

from interview.core.heat.losses import TankLoss

MINUTES, READ = np.loadtxt(
    Path(__file__).with_name("cooling_water.csv"), delimiter=",", skiprows=1
).T
ROOM = 22.25
MUG = TankLoss(50.0, 0.072, 0.072, 0.085, 0.004 / 1.2 + 1 / 200.0, 0.02, "none", 1.0)
"""As much surface as a mug of 8 cm across and 9 cm high, walls of 4 mm stoneware, on a table."""


def _run(loss: object, stores: float) -> np.ndarray:
    time, water = cooled(loss, lambda t: np.full(np.shape(t), ROOM), stores, READ[0], 220 / 60, 60)
    return np.interp(MINUTES, 60 * time, water)


def _fitted(loss: object) -> float:
    """The heat stored with which the water is at 40.0 degC after 80 minutes [J/K]."""
    return float(brentq(lambda s: _run(loss, s)[6] - READ[6], 100.0, 6000.0, rtol=1e-4))


def test_local_time_constants_grow_as_those_of_the_series() -> None:
    """35, 77 and 94 minutes at 80.7, 39.9 and 27.9 degC, 2.7-fold from first to last.

    The laws give 37, 77 and 84: 2.2-fold. A room a kelvin cooler would make it 3.2-fold.
    """
    lags = np.array([(at - ROOM) / float(MUG(at, ROOM)) for at in (80.7, 39.9, 27.9)])
    assert lags[2] / lags[0] > 2.0
    assert 77.0 * lags / lags[1] == pytest.approx([35.0, 77.0, 94.0], rel=0.12)


def test_the_laws_follow_the_series_and_a_constant_loss_does_not() -> None:
    by_laws = _run(MUG, _fitted(MUG)) - READ
    constant = Constant(0.3)
    by_degree = _run(constant, _fitted(constant)) - READ
    assert np.abs(by_laws).max() < 2.0
    assert np.abs(by_degree).max() > 7.0
    rms = [float(np.sqrt(np.mean(np.square(off)))) for off in (by_laws, by_degree)]
    assert rms[0] < 0.2 * rms[1]


def test_what_was_fitted_is_a_mug() -> None:
    """0.45 L of water and its mug store 2.2 kJ/K."""
    assert _fitted(MUG) == pytest.approx(2200.0, rel=0.25)
