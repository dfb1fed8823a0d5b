"""Air over the water: the share against a balance of the air, by hand."""

from __future__ import annotations

import pytest

from interview.core.heat import breathing_air as air

FILM, SURFACE, WALLS, VOLUME = 3.8, 0.30, 2.5, 0.050
"""W/m²K, m², W/K, m³ of one tank [computed apart from the program]."""


@pytest.mark.parametrize(("changes", "printed"), [(1, 21.6), (5, 21.5), (15, 21.5), (40, 21.3)])
def test_the_share_is_near_that_of_a_balance(changes: float, printed: float) -> None:
    """Water at 25, room at 20 degC; air changes an hour."""
    exchanged = changes * VOLUME * 1.2 * 1005 / 3600
    warmed = FILM * SURFACE
    balance = (warmed * 25 + (WALLS + exchanged) * 20) / (warmed + WALLS + exchanged)
    assert balance == pytest.approx(printed, abs=0.06)
    assert air.breathing_air(25.0, 20.0, 0.3, "mesh") == pytest.approx(balance, abs=0.25)


def test_without_a_heater_the_water_is_as_cold_as_the_night() -> None:
    assert air.night_water_temperature(25.0, 18.0) == 18.0
    assert air.night_water_temperature(25.0, 27.0) == 25.0, "no warmer than wanted"
    assert air.night_water_temperature(25.0) == 25.0, "a heater holds it"


def test_a_lid_keeps_twice_as_much_and_never_more_than_all() -> None:
    assert air.breathing_air(25.0, 20.0, 0.3, "glass") == pytest.approx(23.0)
    assert air.breathing_air(25.0, 20.0, 0.8, "plastic") == pytest.approx(25.0)
    assert air.breathing_air_drop(25.0, 21.5) == pytest.approx(3.5)
    assert air.breathing_air_drop(20.0, 21.5) == 0.0
