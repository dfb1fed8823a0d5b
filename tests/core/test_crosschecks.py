"""Readings held against each other, worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from interview.core import crosschecks


def test_how_much_warmer_one_thing_was_read_than_another() -> None:
    assert crosschecks.basking_over_room(33.0, 21.0) == pytest.approx(12.0)
    assert crosschecks.water_over_room(25.0, 27.5) == pytest.approx(-2.5)
    assert crosschecks.water_over_heater(30.0, 26.0) == pytest.approx(4.0)


def test_one_flow_or_volume_over_another() -> None:
    assert crosschecks.flow_over_label(9e-5, 3e-4) == pytest.approx(0.3)
    assert crosschecks.fill_share(0.06, 0.08) == pytest.approx(0.75)


def test_they_take_whole_clouds() -> None:
    spots = crosschecks.basking_over_room(np.array([30.0, 34.0]), np.array([20.0, 21.0]))
    assert list(spots) == [10.0, 13.0]
    assert list(crosschecks.fill_share(np.array([1.0, 2.0]), 4.0)) == [0.25, 0.5]


@pytest.mark.parametrize(
    ("stand", "line", "above", "room"),
    [
        (None, 0.10, 0.05, 2.4 - 0.7 - (0.5 - 0.10 + 0.05)),
        ("aquarium_stand", 0.10, -0.02, 2.4 - 0.7 - (0.5 - 0.10 - 0.02)),
        ("floor", 0.10, 0.05, 2.4 - (0.5 - 0.10 + 0.05)),
        ("furniture", None, 0.05, 2.4 - 0.7 - 0.05),
        ("floor", None, 0.05, 2.4 - 0.05),
    ],
)
def test_the_room_for_a_lamp_under_the_ceiling(
    stand: str | None, line: float | None, above: float, room: float
) -> None:
    """Ceiling less stand less platform; on the floor nothing stands below the tank."""
    found = crosschecks.room_over_platform(2.4, 0.7, 0.5, stand, line, above)
    assert found == pytest.approx(room)


def test_a_platform_level_with_the_water_is_the_usual_guess() -> None:
    assert crosschecks.room_over_platform(2.4, 0.7, 0.5, water_line_below_rim=0.1) == pytest.approx(
        1.3
    )
