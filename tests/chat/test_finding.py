"""Which question a keeper means after “change”, after “why” and in a recheck."""

from __future__ import annotations

import pytest
from every import every
from fakes import demo, talk, up_to

from interview.chat.hearing.references import answers_behind, matches

LAMPS = "heat_lamp_height uvb_lamp_height"
CHANGES = "water_change_share water_change_interval"
DOCK = "platform_height_above_water platform_wall_gap"
TESTS = "ph ammonia nitrite nitrate"
FEEDING = "feed_mass feeds_per_week"
KINDS = "heat_lamp_kind heat_lamp_power uvb_lamp_kind uvb_lamp_age"

# What is said, and every question that is offered for it; one alone is gone to at once.
SAID = {
    "lamp distance": LAMPS,
    "lamp height": LAMPS,
    "I raised the lamp": LAMPS,
    "raised lamp": LAMPS,
    "lamp moved up 5 cm": LAMPS,
    "the lamp is 3 cm higher": LAMPS,
    "we lowered the lamp by 2 inches": LAMPS,
    "brought the lamp closer": LAMPS,
    "hung the bulb lower": LAMPS,
    "moved the uvb lamp": "uvb_lamp_height",
    "hung the uv lamp lower": "uvb_lamp_height",
    "uv distance": "uvb_lamp_height",
    "heat lamp distance": "heat_lamp_height",
    "dock": f"platform_kind {DOCK}",
    "moved the dock": DOCK,
    "raised the dock": "platform_height_above_water",
    "the dock is higher now": "platform_height_above_water",
    "platform height": "platform_height_above_water",
    "new dock": "platform_kind",
    "wattage": "heater_power heat_lamp_power",
    "watts": "heater_power heat_lamp_power",
    "bulb wattage": "heat_lamp_power",
    "stronger bulb": "heat_lamp_power",
    "75 watt bulb": "heat_lamp_power",
    "swapped the 50 w bulb for a 75 w": "heat_lamp_power",
    "new bulb": KINDS,
    "I put in a new lamp": KINDS,
    "new uvb bulb": "uvb_lamp_kind uvb_lamp_age",
    "basking temp": "basking_temperature",
    "basking temps": "basking_temperature",
    "hot spot": "basking_temperature",
    "surface temperature": "basking_temperature",
    "water temp": "water_temperature",
    "tank temp": "water_temperature",
    "room temp": "room_temperature_low room_temperature_high",
    "cold nights": "room_temperature_low",
    "water level": "water_line_below_rim",
    "the water level": "water_line_below_rim",
    "raised the water": "water_line_below_rim",
    "water is 2 inches lower": "water_line_below_rim",
    "topped up the water": "water_line_below_rim",
    "water depth": "water_line_below_rim",
    "changed the water": CHANGES,
    "water changes": CHANGES,
    "bigger water changes": CHANGES,
    "how often I change the water": "water_change_interval",
    "conditioner": "water_treatment",
    "tested the water": TESTS,
    "test kit": TESTS,
    "nitrates": "nitrate",
    "food": FEEDING,
    "we feed less": FEEDING,
    "how often i feed": "feeds_per_week",
    "turtle grew": "carapace_length",
    "another turtle": "animal_count",
    "new turtle": "animal_count species",
    "new tank": "tank_size tank_origin",
    "moved the tank": "floor_position",
    "lid": "cover_basking cover_water",
    "took the lid off": "cover_basking cover_water",
    "new filter": "filter_kind filter_rated_flow filter_age",
    "I replaced the filter": "filter_kind filter_rated_flow filter_age",
    "flow": "filter_rated_flow filter_measured_flow",
    "cleaned the filter": "media filter_age",
    "new heater": "heater_mount heater_power",
    "heater wattage": "heater_power",
    "heater cage": "heater_guard",
    "gravel": "substrate",
    "added sand": "substrate",
    "plants": "live_plants",
    "gfci": "rcd",
    "extension lead": "strip_raised",
    "photoperiod": "day_length",
    "timer": "lamp_timer",
    "dimmer": "lamp_control",
    "chain": "lamp_fixings",
    "curtain": "lamp_plastic_gap",
    "uvi": "uvb_reading",
    "kitchen": "kitchen_used",
    "electricity price": "electricity_price",
}


@every("said", SAID)
def test_what_is_meant(said: str) -> None:
    interview = demo("musk_turtle")
    interview.finer = True
    found = [place.id for place in matches(interview, said)]
    assert set(found) == set(SAID[said].split())


def test_there_are_enough_phrases() -> None:
    assert len(SAID) >= 60


@every("said", [said for said in SAID if " " in SAID[said]])
def test_where_several_fit_a_numbered_choice_is_offered(said: str) -> None:
    held = talk([f"change {said}", "1"], demo("musk_turtle"))
    assert held.face.asked[1].label == "Which of these do you mean?"
    assert len(held.face.asked[1].choices) == len(SAID[said].split())
    assert held.face.asked[2].place is not None


@pytest.mark.parametrize(
    ("typed", "help_of"),
    [
        ("why heater power", "heater_power"),
        ("why the water level", "water_line_below_rim"),
        ("why basking temp", "basking_temperature"),
        ("why", "ph"),
        ("why do you ask?", "ph"),
        ("why is that", "ph"),
    ],
)
def test_why_takes_a_name(typed: str, help_of: str) -> None:
    held = talk([typed], up_to("ph"))
    assert held.interview.questionnaire.by_id[help_of].help in held.face.tones("help")
    assert held.face.ids == ["ph", "ph"]


def test_how_takes_a_name() -> None:
    held = talk(["how do i measure this", "how shell length"], up_to("ph"))
    by_id = held.interview.questionnaire.by_id
    assert by_id["ph"].hint in held.face.tones("help")
    assert by_id["carapace_length"].hint in held.face.tones("help")


def test_why_asks_which_where_several_fit() -> None:
    held = talk(["why lamp distance", "2"], up_to("kitchen_used"))
    assert held.face.asked[1].label == "Which of these do you mean?"
    help_ = held.interview.questionnaire.by_id["uvb_lamp_height"].help
    assert help_ in held.face.tones("help")


def test_what_is_worked_out_leads_to_its_answers() -> None:
    interview = demo("musk_turtle")
    assert {place.id for place in answers_behind(interview, "water change share needed")}
    held = talk(["change turnover", ""], interview)
    assert "“turnover” is worked out. These answers lead to it." in held.face.tones("note")
    assert held.face.asked[1].label == "Which of these do you mean?"
