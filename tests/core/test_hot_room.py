"""The water in a hot room: against an unheated and a stuck tank, and its stray heat by hand.

Outside values: an unheated tank of 40 to 450 L in a room of 22 °C at 50 % humidity settles 1.25
to 1.7 K below it when open and 0.1 to 0.3 K below it under a lid (an independent computation from
published laws, as in `test_heat`).
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from test_heat import tank

from interview.core.heat.hot_room import (
    hot_water_watch,
    lamp_heat_while_lit,
    pump_heat_to_water,
    stray_heat,
)
from interview.core.wiring import quantities


def _water(cover: str = "none", litres: int = 150, **changes: Any) -> Any:
    known = {**tank(litres, cover), "target_water_temperature": 0.0, **changes}
    return quantities().working(known).value("hot_room_water")


@pytest.mark.parametrize(("cover", "low", "high"), [("none", -1.7, -1.25), ("glass", -0.3, -0.1)])
def test_without_pump_and_lamp_it_settles_like_an_unheated_tank(
    cover: str, low: float, high: float
) -> None:
    for litres in (40, 150, 450):
        cold_heater = {"target_water_temperature": 0.0, "stray_heat": 0.0}
        known = {**tank(litres, cover), **cold_heater, "room_temperature_high": 22.0}
        assert low < quantities().working(known).value("hot_room_water") - 22.0 < high


@pytest.mark.parametrize("cover", ["none", "mesh", "glass"])
def test_as_much_heat_as_a_stuck_heater_gives_the_same_water(cover: str) -> None:
    room = {"room_temperature_high": 24.0}
    stuck = quantities().working({**tank(150, cover), "installed_heater_power": 100.0, **room})
    wanted = stuck.value("stuck_heater_temperature")
    assert _water(cover, stray_heat=100.0, **room) == pytest.approx(wanted, abs=1e-6)


def test_a_lid_and_heat_make_it_warmer_than_the_room() -> None:
    hot = {"room_temperature_high": 36.0, "stray_heat": 30.0}
    open_, lidded = _water("none", **hot), _water("glass", **hot)
    assert open_ < 36.0 < lidded < 38.5
    assert _water("glass", **{**hot, "stray_heat": 60.0}) > lidded


def test_the_heater_holds_it_up_in_a_cool_room() -> None:
    cool = {"room_temperature_high": 20.0, "stray_heat": 10.0, "target_water_temperature": 25.0}
    assert _water(**cool) == 25.0


def test_stray_heat_by_hand() -> None:
    lamps = {"heat_lamp_kind": "halogen", "heat_lamp_power": 75.0, "light_power": 24.0}
    assert lamp_heat_while_lit(0.15, **lamps) == pytest.approx(14.85)
    assert lamp_heat_while_lit(0.15, "none", 75.0) == 0.0
    assert pump_heat_to_water("canister", 0.8, 15.0, 20.0) == pytest.approx(16.0)
    assert pump_heat_to_water("canister", 0.8, 15.0) == pytest.approx(12.0)
    assert (
        pump_heat_to_water("none", 0.8, 15.0) == pump_heat_to_water("none", 0.8, 15.0, 20.0) == 0.0
    )
    assert stray_heat(16.0, 14.85, 43200.0) == pytest.approx(0.8 * 20 + 0.15 * 99 * 0.5)
    assert stray_heat(0.0, 14.85, 86400.0) == pytest.approx(14.85)


def test_the_coolest_kind_is_watched_first() -> None:
    assert hot_water_watch(("trachemys_scripta_elegans",)) == 29.0
    assert hot_water_watch(("trachemys_scripta_elegans", "emys_orbicularis")) == 28.0
    assert hot_water_watch(("sternotherus_carinatus",)) == 29.0, "not what its sister has"


def test_many_draws_at_once() -> None:
    rooms = np.array([24.0, 30.0, 36.0])
    water = _water("glass", stray_heat=25.0, room_temperature_high=rooms)
    alone = [_water("glass", stray_heat=25.0, room_temperature_high=float(r)) for r in rooms]
    assert water == pytest.approx(alone, abs=1e-6)
