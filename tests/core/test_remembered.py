"""What a formula came to is found again where the same goes in, and forgotten when it is much."""

from __future__ import annotations

import gc
import weakref
from itertools import product
from typing import Any

import numpy as np
import pytest

from interview.core import remembered, wiring
from interview.core.errors import NotApplicable, OutOfRange
from interview.core.formula import Formula
from interview.core.remembered import Remembered, RememberedDear
from interview.core.sheet_lines import Input

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
SETTLED = ("cooling_time", "hot_room_water", "unheated_water_coldest", "unheated_water_temperature")


class _Counted:
    """A formula that counts how often it is worked out."""

    def __init__(self, *, dear: bool = False) -> None:
        self.times = 0
        inputs = tuple(Input(name, "m", "") for name in ("length", "width"))
        self.formula = Formula("area", "m**2", "", inputs, (), self._area, 0.0, dear=dear)

    def _area(self, length: Any, width: Any = 1.0) -> Any:
        self.times += 1
        if np.all(np.greater(width, 9.0)):
            raise NotApplicable("too wide")
        return length * width


def test_one_animal_shares_what_is_done_for_the_tank_and_no_ring_keeps_either() -> None:
    """So a changed tank goes with its arrays as soon as nobody looks at it."""
    known = {"species": ("chrysemys_picta",) * 2, "carapace_length": np.array([0.1, 0.2])}
    tank = wiring.quantities().working({**known, "water_level": 0.3, "substrate_depth": 0.02})
    alone = tank.of_animal(1)
    assert alone.value("carapace_length").tolist() == [0.2] and tank.of_animal(1) is alone
    assert alone.value("water_depth") == pytest.approx(0.28)
    assert "water_depth" in tank._done and "water_depth" not in alone._done
    gone = weakref.ref(tank)
    gc.disable()
    try:
        del tank
        assert gone() is None
        assert alone.value("water_depth") == pytest.approx(0.28)
    finally:
        gc.enable()


def test_the_same_objects_are_worked_out_once() -> None:
    memory, area = Remembered(), _Counted()
    lengths, width = np.array([1.0, 2.0]), memory.one(2.0)
    first = memory(area.formula, {"length": lengths, "width": width})
    again = memory(area.formula, {"width": width, "length": lengths})
    assert first is again and first.tolist() == [2.0, 4.0] and area.times == 1
    assert memory(area.formula, {"length": lengths}).tolist() == [1.0, 2.0]
    assert memory(area.formula, {"length": lengths, "width": 3.0}).tolist() == [3.0, 6.0]
    assert area.times == 3


def test_what_is_alike_becomes_one_object() -> None:
    memory = Remembered()
    one = memory.one(np.array([1.0, 2.0]))
    assert memory.one(np.array([1.0, 2.0])) is one
    assert memory.one(np.array([[1.0, 2.0]])) is not one
    assert memory.one(np.array([1, 2])) is not one
    assert memory.one("glass") == "glass" and memory.one(True) is True and memory.one(1) == 1
    assert type(memory.one(1.0)) is float and type(memory.one(1)) is int
    reason = memory.one(NotApplicable("there is no heater"))
    assert memory.one(NotApplicable("there is no heater")) is reason
    assert memory.one(NotApplicable("there is no lamp")) is not reason
    long = np.zeros(remembered._SHORT + 1)
    assert memory.one(long) is long and memory.one(long.copy()) is not long


@pytest.mark.parametrize("memory", [Remembered(), RememberedDear(draws=True)])
def test_what_is_refused_is_refused_again(memory: Any) -> None:
    area = _Counted(dear=True)
    given = {"length": memory.one(2.0), "width": memory.one(np.array([10.0, 11.0]))}
    reasons = []
    for _ in range(3):
        with pytest.raises(NotApplicable, match="too wide") as found:
            memory(area.formula, given)
        reasons.append(found.value)
    assert area.times == 1 and reasons[0] is reasons[2]


def test_too_much_is_forgotten_and_found_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remembered, "_MOST_RESULTS", 3)
    memory, area = Remembered(), _Counted()
    for round_ in range(2):
        for length in (1.0, 2.0, 3.0, 4.0, 5.0):
            assert memory(area.formula, {"length": memory.one(length)}) == length
        assert area.times == 5 * (round_ + 1)
    monkeypatch.setattr(remembered, "_MOST_NUMBERS", 5)
    many = np.arange(6.0)
    assert memory(area.formula, {"length": many}) is memory(area.formula, {"length": many})
    memory(area.formula, {"length": 7.0})
    times = area.times
    memory(area.formula, {"length": many})
    assert area.times == times + 1


def test_draws_are_known_by_their_numbers(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(remembered, "_MOST_DEAR", 2)
    memory, cheap, dear = RememberedDear(draws=True), _Counted(), _Counted(dear=True)
    cloud = np.linspace(1.0, 2.0, 9)
    for _ in range(2):
        assert memory(cheap.formula, {"length": cloud.copy()}).tolist() == cloud.tolist()
        assert memory(dear.formula, {"length": cloud.copy()}).tolist() == cloud.tolist()
    assert cheap.times == 2 and dear.times == 1
    unlike = [
        {"length": cloud[::-1]},
        {"length": cloud, "width": 2.0},
        {"length": cloud, "width": "2.0"[:1] == "2"},
        {"width": cloud, "length": 1.0},
        {"length": cloud.reshape(3, 3)},
    ]
    for times, given in enumerate(unlike, start=2):
        memory(dear.formula, given)
        assert dear.times == times
    memory(dear.formula, {"length": cloud})
    assert dear.times == len(unlike) + 2, "only the last ones are kept"


def test_draws_beyond_a_formula_are_held_at_its_end() -> None:
    narrow = Input("length", "m", "", low=0.0, high=2.0)
    formula = Formula("double", "m", "", (narrow,), (), lambda length: 2.0 * length, dear=True)
    cloud = np.array([0.5, 1.0, 1.5, 1.8, 2.5])
    assert RememberedDear(draws=True)(formula, {"length": cloud}).max() == 4.0
    with pytest.raises(OutOfRange):
        Remembered()(formula, {"length": cloud})


@pytest.mark.parametrize("name", SETTLED)
def test_a_row_is_the_same_solved_alone_in_company_or_before(name: str) -> None:
    levels, lids = np.array([0.1, 0.2, 0.3, 0.2]), (0.2, 1.0)
    tank = wiring.quantities().working(ROOM).remembering()
    together = tank.with_known({**ROOM, "water_level": levels}).value(name)
    again = tank.with_known({**ROOM, "water_level": levels[::-1]}).value(name)
    assert again.tolist() == together[::-1].tolist() and together.shape == (4,)
    for level, share in product(levels, lids):
        known = {**ROOM, "water_level": level, "open_top_share": share}
        found = tank.with_known(known).value(name)
        assert found == pytest.approx(wiring.quantities().working(known).value(name))
        assert np.ndim(found) == 0


def test_those_that_settle_the_water_are_dear() -> None:
    assert all(wiring.quantities().formulas[name].dear for name in SETTLED)


def test_a_tank_refuses_again_and_ranges_hold() -> None:
    tank = wiring.quantities().working(ROOM).remembering()
    for _ in range(2):
        heated = tank.with_known({**ROOM, "heater_mount": "vertical", "heater_power": 50.0})
        with pytest.raises(NotApplicable):
            heated.value("unheated_water_coldest")
        hot = tank.with_known({**ROOM, "room_temperature_high": np.array([20.0, 70.0])})
        with pytest.raises(OutOfRange):
            hot.value("hot_room_water")
