"""A cooling tank by the program's steps against a second model, and against a measured night.

The second model takes its films from the libraries ht, PsychroLib and CoolProp, as `test_heat`
does for single fluxes, and goes through time by scipy's solve_ivp: laws, table and steps together.

The night: an open uninsulated tank of 1 m² and 0.5 m on hot arid nights, of whose cooling 38.7 to
57.4 % was evaporation (Energy Conversion and Management 2007, abstract, published). Air, humidity
and wind aren't told there, so only that share is held against ours, in air that falls from 20 to
14 and from 24 to 16 degC at 25 to 50 % humidity (assumption); how far the water fell isn't, as a
night sky takes heat that no room does.

The pond: on an average summer night a pond of 0.7 m in a town gave 39 % of its heat as vapour and
11 % to the air (Solcerova, van de Ven and van de Giesen 2019, Frontiers in Earth Science 7:156,
abstract, published; 43 % was long waves to a night sky). The share of the two doesn't hang on wind
or sky; water of 18 to 24 degC, air that is 2 to 8 K colder and 80 to 90 % humidity are assumptions.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp
from test_heat import second_lid_flux, second_open_flux, second_wall_flux
from vessels import HOUR, cooled

from interview.core.heat.air import latent_heat
from interview.core.heat.evaporation import evaporation_flux, surface_convection_flux
from interview.core.heat.losses import TankLoss

LONG, WIDE, HIGH, RESISTANCE = 1.0, 0.4, 0.3, 0.017
AREA, WALLS = LONG * WIDE, 2 * (LONG + WIDE) * HIGH
OVER_PERIMETER = AREA / (2 * (LONG + WIDE))


@pytest.mark.parametrize("cover", ["none", "glass"])
def test_a_tank_cools_as_by_films_of_other_libraries(cover: str) -> None:
    """Within 0.1 K over a day in which the water falls by more than 4 K."""
    share = 1.0 if cover == "none" else 0.0
    loss = TankLoss(50.0, LONG, WIDE, HIGH, RESISTANCE, 0.0, cover, share)
    stores = 4.18e6 * AREA * HIGH

    def second(water: float) -> float:
        if cover == "none":
            top = second_open_flux(water, 18.0, 50.0, OVER_PERIMETER)
        else:
            top = second_lid_flux(water, 18.0, OVER_PERIMETER)
        return WALLS * second_wall_flux(water, 18.0, HIGH, RESISTANCE) + AREA * top

    def rate(_: float, y: Any) -> list[float]:
        return [-second(float(y[0])) * HOUR / stores]

    time, water = cooled(loss, lambda t: np.full(np.shape(t), 18.0), stores, 27.0, 24.0, 600.0)
    other = solve_ivp(rate, (0, 24), [27.0], rtol=1e-5, t_eval=time[::36])
    assert water[0] - water[-1] > 4.0
    assert water[::36] == pytest.approx(other.y[0], abs=0.1)


@pytest.mark.parametrize(("first", "last"), [(20.0, 14.0), (24.0, 16.0)])
@pytest.mark.parametrize("humidity", [25.0, 50.0])
def test_as_much_of_a_nights_cooling_is_evaporation_as_was_measured(
    first: float, last: float, humidity: float
) -> None:
    loss = TankLoss(humidity, 1.0, 1.0, 0.5, 1 / 200.0, 1.7, "none", 1.0)

    def air(hours: Any) -> Any:
        return last + (first - last) * np.exp(-np.asarray(hours) / 5.0)

    time, water = cooled(loss, air, 500 * 4180.0, 25.5, 12.0, 600.0)
    room = air(time)
    vapour = evaporation_flux(water, room, humidity, 1.0, 1.0) * latent_heat(water)
    share = float(np.sum(vapour) / np.sum(loss(water, room)))
    assert 0.387 < share < 0.574
    assert np.all(np.diff(water) < 0)


def test_air_takes_as_little_beside_vapour_as_over_a_measured_pond_at_night() -> None:
    measured = 11.0 / 39.0

    def ratio(water: float, colder: float, humidity: float) -> float:
        air = water - colder
        vapour = float(evaporation_flux(water, air, humidity, 50.0, 50.0) * latent_heat(water))
        dry = float(surface_convection_flux(water, air, humidity, 50.0, 50.0))
        return dry / vapour

    nearer = [ratio(water, 2.0, 80.0) for water in (18.0, 20.0, 22.0, 24.0)]
    colder = [ratio(water, 8.0, 90.0) for water in (18.0, 20.0, 22.0, 24.0)]
    assert max(nearer) < measured < min(colder)
    assert ratio(21.0, 4.0, 85.0) == pytest.approx(measured, rel=0.25)
