"""What a change moves along and which readings it makes worthless, on bare numbers."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from interview.advice.what_if.coupling import coupled, outdated


@pytest.mark.parametrize(
    ("known", "changes", "gone"),
    [
        ({"heat_lamp_power": 50.0}, {"heat_lamp_power": 75.0}, ()),
        ({"heat_lamp_beam": "flood"}, {"heat_lamp_beam": "spot"}, ("basking_temperature",)),
        ({}, {"heat_lamp_kind": "halogen"}, ("basking_temperature",)),
        ({}, {"uvb_lamp_length": 0.6}, ("uvb_reading",)),
        ({"uvb_lamp_length": 0.6}, {"uvb_lamp_length": 0.6}, ()),
        ({"uvb_lamp_length": 0.6}, {"uvb_lamp_length": 0.9}, ("uvb_reading",)),
        ({"uvb_lamp_age": 3.6e6}, {"uvb_lamp_age": 3.6e6}, ()),
        ({"uvb_lamp_age": 3.6e6}, {"uvb_lamp_age": 3.5e6}, ("uvb_reading",)),
        ({"uvb_lamp_age": 3.6e6}, {"uvb_lamp_age": 3.7e6}, ()),
        ({"uvb_lamp_age": 3.6e6}, {"uvb_lamp_age": np.array([3.7e6, 0.0])}, ("uvb_reading",)),
        ({"uvb_reflector": True}, {"uvb_reflector": True}, ()),
        ({"uvb_reflector": True}, {"uvb_reflector": False}, ("uvb_reading",)),
        ({"water_temperature": 24.0}, {"water_temperature": 26.0}, ()),
    ],
)
def test_another_lamp_forgets_its_reading(
    known: dict[str, Any], changes: dict[str, Any], gone: tuple[str, ...]
) -> None:
    assert outdated(known, changes)[0] == gone


TANK = {"water_line_below_rim": 0.1, "heat_lamp_height": 0.25, "uvb_lamp_height": 0.3}


@pytest.mark.parametrize("kind", ["fixed", "pile", "above_tank"])
def test_a_standing_platform_of_unknown_height_keeps_its_lamps(kind: str) -> None:
    lower = {"water_line_below_rim": 0.13}
    assert coupled({**TANK, "platform_kind": kind}, lower) == lower


def test_a_floating_platform_of_unknown_height_rides() -> None:
    moved = coupled({**TANK, "platform_kind": "floating"}, {"water_line_below_rim": 0.13})
    assert moved["heat_lamp_height"] == pytest.approx(0.28)
    assert moved["uvb_lamp_height"] == pytest.approx(0.33)


BULB = {"heat_lamp_kind": "mercury_vapour", "uvb_lamp_kind": "mercury_vapour"}


@pytest.mark.parametrize("lamp", ["heat_lamp_height", "uvb_lamp_height"])
def test_one_bulb_for_heat_and_uvb_hangs_at_one_height(lamp: str) -> None:
    moved = coupled({**TANK, **BULB}, {lamp: 0.4})
    assert moved["heat_lamp_height"] == moved["uvb_lamp_height"] == 0.4
    two = coupled({**TANK, **BULB, "uvb_lamp_kind": "tube_t5"}, {lamp: 0.4})
    assert two == {lamp: 0.4}
