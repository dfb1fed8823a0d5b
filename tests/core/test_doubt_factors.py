"""Factors of doubt multiply what they doubt, and without one the best value stands."""

from __future__ import annotations

from typing import Any

import pytest

from interview.core.errors import Missing
from interview.core.wiring import quantities

QUANTITIES = quantities().formulas


@pytest.mark.parametrize(
    ("name", "given", "factor"),
    [
        (
            "uvb_lamp_time_left",
            {"uvb_lamp_kind": "tube_t5", "uvb_lamp_age": 0.0, "day_length": 43200.0},
            "uvb_life_factor",
        ),
        (
            "uv_index_ceiling",
            {"uv_index_shell_uncovered": 2.0, "uv_calibration": 1.5, "uvb_transmission": 0.5},
            "uvb_geometry_factor",
        ),
    ],
)
def test_twice_the_factor_is_twice_the_value(name: str, given: dict[str, Any], factor: str) -> None:
    plain = QUANTITIES[name](given)
    assert QUANTITIES[name]({**given, factor: 1.0}) == plain > 0
    assert QUANTITIES[name]({**given, factor: 2.0}) == pytest.approx(2 * plain, rel=1e-12)


def test_media_area_is_volume_times_area_times_factor() -> None:
    given = {"filter_kind": "canister", "media": "foam_fine", "media_volume": 0.004}
    typical, doubted = (
        QUANTITIES["media_area"]({**given, "media_area_factor": factor}) for factor in (1.0, 0.5)
    )
    assert doubted == pytest.approx(0.5 * typical, rel=1e-12)


@pytest.mark.parametrize("day", ["hot", "cold"])
def test_a_darker_shell_is_a_stronger_lamp(day: str) -> None:
    room = {"hot": "room_temperature_high", "cold": "room_temperature_low"}[day]
    given = {"heat_lamp_height": 0.25, "shell_height": 0.05, "source_offset": 0.05, room: 20.0}
    sum_of = QUANTITIES[f"shell_temperature_{day}_day"]
    plain = sum_of({**given, "lamp_heat": 5.0})
    assert sum_of({**given, "lamp_heat": 5.0, "shell_absorption": 1.0}) == plain
    darker = sum_of({**given, "lamp_heat": 5.0, "shell_absorption": 1.5})
    assert darker == pytest.approx(sum_of({**given, "lamp_heat": 7.5}), rel=1e-12)
    assert darker > plain > 20


@pytest.mark.parametrize(
    ("name", "given", "lacking"),
    [
        (
            "media_area",
            {"filter_kind": "canister", "media_area_factor": 1.0, "media": "gravel"},
            ("media_volume",),
        ),
        (
            "media_area",
            {"filter_kind": "canister", "media_area_factor": 1.0, "media_volume": 0.01},
            ("media",),
        ),
        (
            "platform_area",
            {"platform_kind": "floating", "platform_length": 0.3},
            ("platform_length", "platform_width"),
        ),
    ],
)
def test_what_is_missing_is_named(
    name: str, given: dict[str, Any], lacking: tuple[str, ...]
) -> None:
    with pytest.raises(Missing) as missing:
        QUANTITIES[name](given)
    assert tuple(missing.value.names) == lacking
