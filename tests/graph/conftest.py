"""Interviews to start from: a plain living tank, as a keeper would type it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

import pytest

from interview import assembly
from interview.graph.interview import Interview, Place

# One slider in a bought aquarium on a slab: nothing altered, nothing on the bottom. In the order
# of the questions: a first look round the tank, what decides most after it, then the rest.
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
    "water_line_below_rim": "12 cm",
    "stand": "aquarium stand",
    "floor": "slab",
    "heater_mount": "horizontal",
    "filter_kind": "canister",
    "platform_kind": "floating",
    "heat_lamp_kind": "halogen",
    "heat_lamp_height": "30 cm",
    "heat_lamp_power": "75 W",
    "basking_temperature": "33 °C",
    "lamp_fixings": "2",
    "platform_wall_gap": "0 cm",
    "uvb_lamp_kind": "T5 tube",
    "cover_water": "none",
    "rcd": "yes",
    "cover_basking": "none",
    "decor_hazards": "none",
    "platform_height_above_water": "3 cm",
    "lamp_holder": "ceramic",
    "lamp_holder_rating": "100 W",
    "lamp_plastic_gap": "30 cm",
    "tank_origin": "aquarium",
    "kitchen_used": "no",
    "heater_power": "200 W",
    "heater_guard": "yes",
    "uvb_lamp_height": "30 cm",
    "uvb_path": "open",
    "uvb_strength": "low",
    "uvb_lamp_age": "2000 hours",
    "substrate": "none",
    "stand_level": "yes",
    "water_temperature": "25 °C",
    "filter_age": "1 year",
    "filter_rated_flow": "1200 L/h",
    "feed_mass": "4 g",
    "feeds_per_week": "5 times a week",
    "water_change_share": "40 %",
    "ph": "7.4",
    "water_change_interval": "every 7 days",
    "water_treatment": "conditioner",
    "ammonia": "0 mg/L",
    "nitrite": "0 mg/L",
    "nitrate": "20 mg/L",
    "platform_size": "40 x 25 cm",
    "drip_loops": "yes",
    "strip_raised": "yes",
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
