"""“what if …” in words: which answers become what; what can't be read is said."""

from __future__ import annotations

from typing import Any

import pytest

from interview import assembly
from interview.chat.hearing.what_if import NotAnIf, read_what_if, said_back
from interview.graph.interview import Interview


@pytest.mark.parametrize(
    ("said", "changes"),
    [
        ("what if the water is 3 cm lower", {"water_line_below_rim": 0.14}),
        ("what if I raise the water by 5 cm?", {"water_line_below_rim": 0.06}),
        ("what if the lamp is 5 cm higher", {"heat_lamp_height": 0.27}),
        # the raft sinks 3 cm with the water, and the lamp goes up 5 cm as well
        (
            "what if the water is 3 cm lower and the lamp 5 cm higher",
            {"water_line_below_rim": 0.14, "heat_lamp_height": 0.30},
        ),
        ("what if the heat lamp is at 30 cm", {"heat_lamp_height": 0.30}),
        ("what if the uvb lamp is 10 cm lower", {"uvb_lamp_height": 0.20}),
        ("what if the heater is 100 W", {"heater_power": 100.0}),
        ("what if cover over the water is mesh", {"cover_water": "mesh"}),
        ("what if rcd is no", {"rcd": False}),
        ("what if lamp_to_platform=9in", {"heat_lamp_height": 0.2286}),
        ("what if Lamp to platform is 30 cm", {"heat_lamp_height": 0.30}),
        ("what if heat_lamp_height=30cm", {"heat_lamp_height": 0.30}),
        ("what if it was 3 cm deeper", {"water_line_below_rim": 0.08}),
        ("what if 3 cm deeper", {"water_line_below_rim": 0.08}),
        ("what if the water was 2 inches shallower", {"water_line_below_rim": 0.1608}),
        ("what if water 1 inch lower", {"water_line_below_rim": 0.1354}),
        ("what if I drop the water 2 inches", {"water_line_below_rim": 0.1608}),
        ("what if I fill it up by 3 cm", {"water_line_below_rim": 0.08}),
        ("what if the water is 4 inches below the rim", {"water_line_below_rim": 0.1016}),
        ("what if I raise the lamp 2 inches", {"heat_lamp_height": 0.2708}),
        ("what if the lamp is 2 inches closer", {"heat_lamp_height": 0.1692}),
        ("what if the lamp is 25 cm away", {"heat_lamp_height": 0.25}),
        ("what if I raise the lamp to 30 cm", {"heat_lamp_height": 0.30}),
        ("what if the lamp is 2 to 3 cm higher", {"heat_lamp_height": 0.245}),
        ("what if I move the lamp to 25 cm", {"heat_lamp_height": 0.25}),
        ("what if both lamps 5 cm higher", {"heat_lamp_height": 0.27, "uvb_lamp_height": 0.35}),
        ("what if a 75 watt bulb", {"heat_lamp_power": 75.0}),
        ("what if I swap the bulb for a 50 watt one", {"heat_lamp_power": 50.0}),
        ("what if I used a 100 watt heater", {"heater_power": 100.0}),
        ("what if two heaters", {"heater_count": 2.0}),
        ("what if without the lid", {"cover_water": "none"}),
        ("what if I take the lid off", {"cover_water": "none"}),
        ("what if a glass lid", {"cover_basking": "glass"}),  # the water has one already
        ("what if I lower the lamp 2 cm more", {"heat_lamp_height": 0.20}),
        ("what if the tank was 10 cm longer", {"tank_length": 1.1}),
        ("what if I swap the bulb for a 50", {"heat_lamp_power": 50.0}),
        ("what if I got rid of the sand", {"substrate": "none"}),
        (
            "what if I swapped the 50 W bulb for a 75 W flood",
            {"heat_lamp_power": 75.0, "heat_lamp_beam": "flood"},
        ),
        ("what if no uvb", {"uvb_lamp_kind": "none"}),
        ("what if without a heater", {"heater_mount": "none"}),
        ("what if I add an rcd", {"rcd": True}),
        ("what if I got a second heater", {"heater_count": 2.0}),
        ("what if the vet said to feed 2 g", {"feed_mass": 0.002}),
        ("what if the vet told us to fast her", {"feeding_pause": "vet_fast"}),
        ("what if the vet said no food today", {"feeding_pause": "vet_fast"}),
        ("what if I filled the tank 5 cm higher", {"water_line_below_rim": 0.06}),
        ("what if the tank was 5 cm higher", {"tank_height": 0.45}),
        ("what if with a heater guard", {"heater_guard": True}),
        ("what if I change half the water", {"water_change_share": 0.5}),
        (
            "what if I change a third of the water every week",
            {"water_change_share": 1 / 3, "water_change_interval": 604800.0},
        ),
        ("what if I feed twice a week", {"feeds_per_week": 2.0}),
        ("what if the room is 15 C at night", {"room_temperature_low": 15.0}),
        ("what if the water is 78 F", {"water_temperature": (78 - 32) / 1.8}),
        ("what if the water is 2 C warmer", {"water_temperature": 26.5}),
        ("what if the water is 2 F warmer", {"water_temperature": 24.5 + 2 / 1.8}),
        ("what if sand on the bottom", {"substrate": "sand"}),
        ("what if a canister filter", {"filter_kind": "canister"}),
        ("what if the filter does 1000 l/h", {"filter_rated_flow": 1 / 3600}),
        ("what if the platform is 2 cm higher", {"platform_height_above_water": 0.045}),
        # numbers in words, as in a told paragraph
        (
            "what if the water line is two and three quarter inches below the rim",
            {"water_line_below_rim": 0.06985},
        ),
        ("what if I raise the lamp by two and three quarter inches", {"heat_lamp_height": 0.28985}),
        ("what if the halogen is one hundred watts", {"heat_lamp_power": 100.0}),
        ("what if the water is a couple of inches lower", {"water_line_below_rim": 0.1608}),
        ("what if the lamp hung two and a half inches higher", {"heat_lamp_height": 0.2835}),
        ("what if I drop the water a couple of inches", {"water_line_below_rim": 0.1608}),
        ("what if the lamp is half a foot closer", {"heat_lamp_height": 0.0676}),
        ("what if the heater is one hundred and fifty wats", {"heater_power": 150.0}),
        ("what if a seventy-five watt buld", {"heat_lamp_power": 75.0}),
        ("what if I raise the lamp from 22 cm to 30 cm", {"heat_lamp_height": 0.30}),
        ("what if the uvb lamp is 36 W", {"light_power": 36.0}),
        ("what if the lamps are on 14 hours", {"day_length": 50400.0}),
        (
            "what if the tank was 120 x 50 x 50 cm",
            {"tank_length": 1.2, "tank_width": 0.5, "tank_height": 0.5},
        ),
    ],
)
def test_what_it_means(musk: Interview, said: str, changes: dict[str, Any]) -> None:
    assert read_what_if(musk, said) == pytest.approx(changes)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("what if", "water is 3 cm lower"),
        ("what if my friend says her tank is 120 gallons", "don't see what would change"),
        ("what if I lower the lamp 30 cm", "can't be"),
        ("what if I used two 50 watt halogens", "can be about"),
        ("what if the halogen is at 25 cm and the tube is 10", "“the tube is 10” can be about"),
        ("what if pigs fly", "don't see what would change"),
        ("what if the lamp is 5 kg higher", "kg"),
        (
            "what if the water is lower",
            "“the water is lower” doesn't say how much. Say it as “what",
        ),
        ("what if a bigger heater", "doesn't say how much"),
        ("what if 75 watts", "can be about “Heater power” or “Heat lamp power”"),
        ("what if the lamp is not 5 cm higher", "not how it would not be"),
        ("what if the lamp is 10% higher", "10%"),
        ("what if the turtle is 15 cm", "about the tank"),
        ("what if without the lamp shade", "I don't see"),
        ("what if the water line is 3 inches above the rim", "measured down from the rim"),
        ("what if the lamp is 5 cm up", "I can't tell what"),
        ("what if I moved the filter 10 cm to the left", "I can't tell what"),
        ("what if the water line is 2 inches higher than the intake", "I can't tell what"),
        ("what if the uvb is 10 cm longer", "can be about"),
        ("what if the tank was a foot bigger", "I can't tell what"),
        ("what if the platform is 5 cm wider", "can be about"),
        ("what if the lamp 30 cm up", "I can't tell what"),
        ("what if I raise the water 12 cm", "“Water below rim” is 11 cm, so it can't be 12 cm"),
        ("what if glass is no longer under the uvb", "UVB"),
        ("what if he chewed the intake guard off", "or “what if Intake guarded is no”"),
        ("what if I stopped using a dimmer", "Lamp control"),
        ("what if I replaced the second heater", "Number of heaters"),
        ("what if the cover over basking is gone", "doesn't say how much"),
    ],
)
def test_what_cant_be_read_is_said(musk: Interview, said: str, words: str) -> None:
    with pytest.raises(NotAnIf, match=words):
        read_what_if(musk, said)


def test_what_it_was_taken_for_is_said(musk: Interview) -> None:
    changes = read_what_if(musk, "what if I raise the lamp 5 cm")
    assert said_back(musk, changes) == "As if: Lamp to platform 27 cm (now 22 cm)."


def test_a_turtle_that_is_not_counted_yet_is_not_followed() -> None:
    with pytest.raises(NotAnIf, match="don't see what would change"):
        read_what_if(assembly.new_interview(), "what if shell to 12 cm")


def test_nothing_is_recorded(musk: Interview) -> None:
    before = dict(musk.answers)
    read_what_if(musk, "what if the water is 3 cm lower")
    assert musk.answers == before


def test_a_tank_that_cannot_be_is_no_if(musk: Interview) -> None:
    with pytest.raises(NotAnIf, match="so it would be dry"):
        read_what_if(musk, "what if the water line is 60 cm")
