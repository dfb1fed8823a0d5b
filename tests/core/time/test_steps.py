"""The steps of the water's temperature against closed forms, tables and scipy's solve_ivp.

Worked check: 100 L of water and glass (416.8 kJ/K) at 24 °C, heater off at t = 0, room
17 + 3 cos(2πt/24 h); first passing of 18 °C from the closed form, by scipy's brentq. Damping and
lag of a daily swing, and room and tank in series, are closed forms of linear systems too.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from scipy.optimize import brentq
from vessels import HOUR, Constant, cooled, demo

from interview.core.heat.losses import TankLoss, cooling_time_to
from interview.core.time.crossing import crossings, first_crossing
from interview.core.time.heating import Averaged, Cycling, Fluxes
from interview.core.time.loss_table import LossTable

STORES = 416.8e3
DAILY = 2 * math.pi / 24


def _room(hours: object) -> object:
    return 17.0 + 3.0 * np.cos(DAILY * np.asarray(hours))


def _held(hours: object) -> object:
    return np.where(np.asarray(hours) < 12.0, _room(hours), 14.0)


CHECK = [
    (6, 19.30, 20.6159, 16.9651, 10.1454, 10.1454),
    (12, 9.649, 21.9454, 19.1976, 15.4658, 15.1429),
    (24, 4.825, 22.8596, 21.1266, 38.8636, 25.8611),
]


@pytest.mark.parametrize(("lag", "by_degree", "at_6", "at_12", "swinging", "held"), CHECK)
def test_worked_check_of_a_cooling_tank(
    lag: float, by_degree: float, at_6: float, at_12: float, swinging: float, held: float
) -> None:
    loss = Constant(STORES / (lag * HOUR))
    assert loss.by_degree == pytest.approx(by_degree, rel=1e-3)
    time, water = cooled(loss, _room, STORES, 24.0, 60.0, 600.0)
    assert water[36] == pytest.approx(at_6, abs=3e-4)
    assert water[72] == pytest.approx(at_12, abs=3e-4)
    first = first_crossing(time, water[:, None], 18.0, falling=True)
    assert first[0] == pytest.approx(swinging, abs=3e-3)
    time, water = cooled(loss, _held, STORES, 24.0, 60.0, 600.0)
    first = first_crossing(time, water[:, None], 18.0, falling=True)
    assert first[0] == pytest.approx(held, abs=3e-3)


def test_a_limit_passed_three_times_is_found_three_times() -> None:
    """The trap: solve_ivp with its own long steps reports 56.3 h only, and misses 38.9 h."""
    time, water = cooled(Constant(STORES / (24 * HOUR)), _room, STORES, 24.0, 60.0, 600.0)
    assert crossings(time, water, 18.0) == pytest.approx([38.864, 47.863, 56.345], abs=4e-3)

    def rate(t: float, y: list[float]) -> list[float]:
        return [(17 + 3 * math.cos(DAILY * t) - y[0]) / 24.0]

    def below(t: float, y: list[float]) -> float:
        return y[0] - 18.0

    loose = solve_ivp(rate, (0, 60), [24.0], events=below)
    tight = solve_ivp(rate, (0, 60), [24.0], events=below, max_step=1.0)
    assert loose.t_events[0][0] > 50
    assert tight.t_events[0][0] == pytest.approx(38.8636, abs=1e-3)


def test_lumped_cooling_is_the_exponential() -> None:
    loss = Constant(8.0)
    time, water = cooled(loss, lambda t: np.full(np.shape(t), 15.0), 4e5, 25.0, 48.0, 3600.0)
    assert np.allclose(water, 15 + 10 * np.exp(-8.0 * time * HOUR / 4e5), atol=1e-9)
    exact = cooling_time_to(4e5, 8.0, 25.0, 15.0, 20.0)
    first = first_crossing(time * HOUR, water[:, None], 20.0, falling=True)
    assert first[0] == pytest.approx(exact, rel=3e-3)  # straight lines between the hours


@pytest.mark.parametrize(
    ("lag", "gain", "late"), [(6, 0.537, 3.8), (12, 0.303, 4.8), (24, 0.157, 5.4), (48, 0.079, 5.7)]
)
def test_a_tank_damps_the_rooms_daily_swing(lag: float, gain: float, late: float) -> None:
    loss = Constant(STORES / (lag * HOUR))
    time, water = cooled(loss, _room, STORES, 17.0, 24.0 * (3 + lag // 3), 600.0)
    last = water[-145:]
    assert (last.max() - last.min()) / 6.0 == pytest.approx(gain, abs=1.5e-3)
    assert (time[-145:][last.argmax()] % 24.0) == pytest.approx(late, abs=0.15)


SERIES = {
    15: (7.0, 10.5, 15.9),
    35: (10.2, 15.0, 22.3),
    55: (12.7, 18.3, 27.0),
}


@pytest.mark.parametrize("house", SERIES)
def test_room_and_tank_in_series(house: int) -> None:
    """Water of 24 °C in a room of 20 °C that cools towards 0 °C outdoors: hours to 18 °C."""
    for lag, expected in zip((6.0, 12.0, 24.0), SERIES[house], strict=True):
        loss = Constant(STORES / (lag * HOUR))
        time, water = cooled(
            loss, lambda t: 20 * np.exp(-np.asarray(t) / house), STORES, 24.0, 40.0, 600.0
        )
        first = first_crossing(time, water[:, None], 18.0, falling=True)
        assert first[0] == pytest.approx(expected, abs=0.06)


def _tank() -> TankLoss:
    best = demo("musk_turtle")
    names = ("room_humidity", "inside_length", "inside_width", "water_level", "wall_resistance")
    more = ("floor_conductance", "cover_water", "open_top_share", "evaporation_factor")
    return TankLoss(*(best.value(name) for name in (*names, *more)))


def test_the_scheme_is_of_second_order() -> None:
    """Halving the step divides the error by four, on a loss that bends, in a room that swings."""

    class Bent(Constant):
        def __call__(self, water: object, room: object) -> object:
            apart = np.asarray(water) - np.asarray(room)
            return self.by_degree * apart * np.abs(apart) ** 0.25

    class Exact:
        """The loss itself where the program has a table, so that the step alone is tried."""

        def __call__(self, water: object, room: object) -> tuple[object, object]:
            bent, near = Bent(14.0), 1e-5
            slope = (bent(water + near, room) - bent(water - near, room)) / (2 * near)  # type: ignore[operator]
            return bent(water, room), slope

    def end(step: float) -> float:
        water, dead = np.array([26.0]), Averaged(np.zeros(1), np.zeros(1))
        for n in range(round(12 * HOUR / step)):
            room = np.atleast_1d(_room((n + 0.5) * step / HOUR))
            given = Fluxes(np.zeros(1), np.array([STORES]), room, step)
            water = dead.after(water, np.array([False]), Exact(), given).water  # type: ignore[arg-type]
        return float(water[0])

    def rate(t: float, y: list[float]) -> list[float]:
        return [-float(Bent(14.0)(y[0], _room(t))) * HOUR / STORES]  # type: ignore[arg-type]

    exact = solve_ivp(rate, (0, 12), [26.0], rtol=1e-12, atol=1e-12).y[0, -1]
    errors = [abs(end(step) - exact) for step in (7200.0, 3600.0, 1800.0, 900.0)]
    orders = np.log2(np.array(errors[:-1]) / errors[1:])
    assert np.all(orders > 1.8) and np.all(orders < 2.3)
    assert errors[2] < 2e-3


def test_a_tank_cools_as_by_solve_ivp_with_the_laws_themselves() -> None:
    loss = _tank()
    time, water = cooled(loss, _room, STORES, 26.0, 36.0, 600.0)

    def rate(t: float, y: list[float]) -> list[float]:
        return [-float(loss(y[0], _room(t))) * HOUR / STORES]

    exact = solve_ivp(rate, (0, 36), [26.0], rtol=1e-9, atol=1e-9, t_eval=time).y[0]
    assert np.max(np.abs(water - exact)) < 0.01


def test_a_thermostat_switches_where_the_closed_form_does() -> None:
    """100 L, band 1 K, 100 W against a loss of 40 W: 1.93 h on, 2.89 h off, 5.0 cycles a day."""

    class Level(Constant):
        def __call__(self, water: object, room: object) -> object:
            return 40.0 + 0.0 * (np.asarray(water) - np.asarray(room))

    table = LossTable(Level(0.0), (20.0, 20.0), (-5.0, 20.0), 1).about(np.array([20.0]))
    one = np.ones(1)
    heater = Cycling(100.0 * one, 24.5 * one, 0.5 * one)
    water, on, step = np.array([24.0]), np.array([True]), 300.0
    turned, energy = [], 0.0
    for n in range(round(10 * 24 * HOUR / step)):
        given = Fluxes(0 * one, 416.8e3 * one, 20.0 * one, step)
        after = heater.after(water, on, table, given)
        if after.on[0] != on[0]:
            used = float(after.energy[0]) / 100.0
            turned.append(n * step + (used if on[0] else step - used))
        water, on, energy = after.water, after.on, energy + float(after.energy[0])
        assert 24.0 - 1e-9 <= water[0] <= 25.0 + 1e-9
    spans = np.diff(turned) / HOUR
    assert spans[1::2] == pytest.approx(1.93, abs=5e-3)
    assert spans[::2] == pytest.approx(2.894, abs=5e-3)
    assert energy / (10 * 24 * HOUR) == pytest.approx(40.0, rel=0.02)


def test_where_the_room_is_passed_agrees_with_brentq() -> None:
    def closed(t: float) -> float:
        k, w = 1 / 12, DAILY
        particular = 17 + 3 * k * (k * math.cos(w * t) + w * math.sin(w * t)) / (k * k + w * w)
        return particular + (24 - 17 - 3 * k * k / (k * k + w * w)) * math.exp(-k * t)

    exact = brentq(lambda t: closed(t) - 18.0, 10, 20)
    assert exact == pytest.approx(15.4658, abs=1e-4)
