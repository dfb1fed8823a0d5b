"""A search solves no row of a dear formula twice, and gets what solving it anew would give."""

from __future__ import annotations

from itertools import product
from typing import Any

import numpy as np
import pytest

from interview.core import solved_rows, wiring
from interview.core.errors import NotApplicable, OutOfRange
from interview.core.solved_rows import SolvedRows

ROOM = {
    "heater_mount": "none",
    "room_temperature_low": 19.0,
    "room_temperature_high": 27.0,
    "room_humidity": 50.0,
    "inside_length": 0.9,
    "inside_width": 0.4,
    "water_level": 0.3,
    "wall_resistance": 0.012,
    "floor_conductance": 0.8,
    "cover_water": "none",
    "open_top_share": 1.0,
    "target_water_temperature": 25.0,
    "heat_capacity": 5e5,
    "stray_heat": 6.0,
    "lamp_heat_while_lit": 8.0,
    "day_length": 43200.0,
    "room_daily_swing": 2.0,
}
DEAR = sorted(name for name, formula in wiring.quantities().formulas.items() if formula.row_by_row)


def test_those_that_settle_the_water_are_remembered() -> None:
    assert {"hot_room_water", "unheated_water_coldest", "unheated_water_temperature"} <= {*DEAR}


@pytest.mark.parametrize("name", DEAR)
def test_a_row_is_the_same_solved_alone_in_company_or_before(name: str) -> None:
    levels, lids = np.array([0.1, 0.2, 0.3, 0.2]), (0.2, 1.0)
    tank = wiring.quantities().working(ROOM).remembering()
    together = tank.with_known({**ROOM, "water_level": levels}).value(name)
    again = tank.with_known({**ROOM, "water_level": levels[::-1]}).value(name)
    assert again.tolist() == together[::-1].tolist() and together.shape == (4,)
    for level, share in product(levels, lids):
        known = {**ROOM, "water_level": level, "open_top_share": share}
        remembered = tank.with_known(known).value(name)
        assert remembered == pytest.approx(wiring.quantities().working(known).value(name))
        assert np.ndim(remembered) == 0


def test_only_new_rows_are_worked_out() -> None:
    solved, given = SolvedRows(), []

    def doubled(length: Any, width: Any = 1.0, kind: str = "") -> Any:
        given.append(np.size(length))
        return 2.0 * length * width

    lengths = np.array([1.0, 2.0, 1.0])
    assert solved("area", doubled, {"length": lengths}).tolist() == [2.0, 4.0, 2.0]
    assert solved("area", doubled, {"length": np.array([[2.0, 3.0]])}).tolist() == [[4.0, 6.0]]
    assert solved("area", doubled, {"length": 3.0}) == 6.0
    assert given == [2, 1], "each row once"
    assert solved("area", doubled, {"length": 3.0, "width": 2.0}) == 12.0
    assert solved("area", doubled, {"width": 3.0, "length": 2.0}) == 12.0
    assert solved("area", doubled, {"length": 3.0, "kind": "round"}) == 6.0
    assert solved("volume", doubled, {"length": 3.0}) == 6.0
    assert given == [2, 1, 1, 1, 1, 1], "other inputs, words or formulas are other rows"


def test_what_is_refused_is_refused_again_and_ranges_hold() -> None:
    tank = wiring.quantities().working(ROOM).remembering()
    for _ in range(2):
        heated = tank.with_known({**ROOM, "heater_mount": "vertical", "heater_power": 50.0})
        with pytest.raises(NotApplicable):
            heated.value("unheated_water_coldest")
        hot = tank.with_known({**ROOM, "room_temperature_high": np.array([20.0, 70.0])})
        with pytest.raises(OutOfRange):
            hot.value("hot_room_water")


def test_no_more_rows_are_kept_than_fit(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solved_rows, "_MOST", 5)
    solved, given = SolvedRows(), []

    def same(x: Any) -> Any:
        given.append(len(x))
        return x

    for _ in range(2):
        assert solved("same", same, {"x": np.arange(4.0)}).tolist() == [0.0, 1.0, 2.0, 3.0]
    assert solved("same", same, {"x": np.arange(8.0)}).tolist() == list(range(8))
    assert solved("same", same, {"x": np.arange(4.0)}).tolist() == [0.0, 1.0, 2.0, 3.0]
    assert given == [4, 4, 4], "when it is full it starts anew"
