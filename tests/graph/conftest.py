"""Interviews to start from: a plain living tank, as a keeper would type it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

import pytest

from interview import assembly
from interview.graph.interview import Interview, Place

# One slider in a bought aquarium on a slab: nothing altered, nothing on the bottom.
PLAIN_TANK: Mapping[str, str] = {
    "stage": "living",
    "region": "europe",
    "room_temperature_low": "17 °C",
    "room_temperature_high": "26 °C",
    "vulnerable_person": "no",
    "animal_count": "1",
    "species": "red-eared slider",
    "carapace_length": "15 cm",
    "tank_size": "120 x 50 x 50 cm",
    "tank_origin": "aquarium",
    "water_line_below_rim": "12 cm",
    "substrate": "none",
    "stand": "aquarium stand",
    "stand_level": "yes",
    "floor": "slab",
    "water_temperature": "25 °C",
    "heater_mount": "horizontal",
    "heater_power": "200 W",
    "heater_guard": "yes",
    "filter_kind": "canister",
    "filter_rated_flow": "1200 L/h",
    "filter_age": "1 year",
    "feed_mass": "4 g",
    "feeds_per_week": "5 times a week",
    "water_change_share": "40 %",
    "water_change_interval": "every 7 days",
    "water_treatment": "conditioner",
    "ph": "7.4",
    "ammonia": "0 mg/L",
    "nitrite": "0 mg/L",
    "nitrate": "20 mg/L",
    "platform_kind": "floating",
    "platform_size": "40 x 25 cm",
    "platform_height_above_water": "3 cm",
    "platform_wall_gap": "0 cm",
    "heat_lamp_kind": "halogen",
    "heat_lamp_power": "75 W",
    "heat_lamp_height": "30 cm",
    "basking_temperature": "33 °C",
    "lamp_holder_rating": "100 W",
    "lamp_holder": "ceramic",
    "lamp_fixings": "2",
    "lamp_plastic_gap": "30 cm",
    "uvb_lamp_kind": "T5 tube",
    "uvb_strength": "low",
    "uvb_lamp_height": "30 cm",
    "uvb_lamp_age": "2000 hours",
    "uvb_path": "open",
    "cover_basking": "none",
    "cover_water": "none",
    "rcd": "yes",
    "drip_loops": "yes",
    "strip_raised": "yes",
    "decor_hazards": "none",
    "kitchen_used": "no",
}


def ask_all(interview: Interview, answers: Mapping[str, str]) -> list[Place]:
    """Answer whatever is asked from a table ("not sure" where it has nothing), in order."""
    asked: list[Place] = []
    while (place := interview.next()) is not None:
        asked.append(place)
        assert len(asked) < 400, f"asked again and again: {place}"
        interview.record(place, answers.get(place.id, "not sure"))
    return asked


@pytest.fixture
def empty() -> Interview:
    """No answers yet."""
    return assembly.new_interview()


@cache
def _answered() -> Interview:
    interview = assembly.new_interview()
    ask_all(interview, PLAIN_TANK)
    return interview


@pytest.fixture
def plain_tank(empty: Interview) -> Interview:
    """The plain tank, answered to the end."""
    empty.answers = dict(_answered().answers)
    return empty
