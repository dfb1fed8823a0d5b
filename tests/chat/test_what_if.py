"""“what if …” in words: which answers become what; what can't be read is said."""

from __future__ import annotations

from typing import Any

import pytest

from interview import assembly, setups
from interview.chat.what_if import NotAnIf, read_what_if
from interview.graph.interview import Interview
from interview.places import demo_folder


@pytest.fixture(scope="module")
def musk() -> Interview:
    """The demo tank: water line 11 cm, heat lamp 22 cm, UVB lamp 30 cm, floating platform."""
    interview = assembly.new_interview()
    path = demo_folder() / "musk_turtle.yaml"
    setups.fill(interview, setups.read(path, interview.questionnaire))
    return interview


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
    ],
)
def test_what_it_means(musk: Interview, said: str, changes: dict[str, Any]) -> None:
    assert read_what_if(musk, said) == pytest.approx(changes)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ("what if", "water is 3 cm lower"),
        ("what if pigs fly", "don't see what would change"),
        ("what if the lamp is 5 kg higher", "kg"),
        ("what if the water is lower", "In “the water is lower”"),
    ],
)
def test_what_cant_be_read_is_said(musk: Interview, said: str, words: str) -> None:
    with pytest.raises(NotAnIf, match=words):
        read_what_if(musk, said)


def test_nothing_is_recorded(musk: Interview) -> None:
    before = dict(musk.answers)
    read_what_if(musk, "what if the water is 3 cm lower")
    assert musk.answers == before


def test_a_tank_that_cannot_be_is_no_if() -> None:
    interview = assembly.new_interview()
    path = demo_folder() / "musk_turtle.yaml"
    setups.fill(interview, setups.read(path, interview.questionnaire))
    with pytest.raises(NotAnIf, match="so it would be dry"):
        read_what_if(interview, "what if the water line is 60 cm")
