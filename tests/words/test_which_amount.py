"""What a network is taught of an amount is told by that amount, not by another that is as large."""

from __future__ import annotations

import pytest
from learning.which_amount import which

from interview.words.learned.candidates import Candidate
from interview.words.learned.readings import NONE

BARE = {"carapace_length": "", "water_temperature": "", "heat_lamp_height": ""}
LENGTH = {"carapace_length": "", "heat_lamp_height": ""}
COUNT = {"filter_count": ""}


@pytest.mark.parametrize(
    ("text", "amounts", "right"),
    [
        pytest.param(
            "a ledge 50 by 35, the halogen 35 cm above it",
            [("35", BARE, ["heat_lamp_height"]), ("35 cm", LENGTH, ["heat_lamp_height"])],
            [[NONE], ["heat_lamp_height"]],
            id="the one with a unit",
        ),
        pytest.param(
            "I have just one turtle, who is quite a handful, a really greedy beast; one canister",
            [("one", COUNT, ["filter_count"]), ("one c", COUNT, ["filter_count"])],
            [[NONE], ["filter_count"]],
            id="beside what is counted",
        ),
        pytest.param(
            "The old lamp hung at 30 cm. The new one hangs at 30 cm too",
            [("30 cm.", LENGTH, ["heat_lamp_height"]), ("30 cm t", LENGTH, ["heat_lamp_height"])],
            [["heat_lamp_height", NONE]] * 2,
            id="nobody knows which",
        ),
        pytest.param(
            "he is 12 cm and she 12 cm or so; 75 W",
            [("12 cm a", LENGTH, ["carapace_length"]), ("75 W", {"heat_lamp_power": ""}, [NONE])],
            [["carapace_length"], [NONE]],
            id="told once",
        ),
        pytest.param(
            "both are 12 cm",
            [("12 cm", LENGTH, ["carapace_length", "carapace_length@2"])],
            [["carapace_length", "carapace_length@2"]],
            id="of two turtles at once",
        ),
    ],
)
def test_an_amount_is_taught_where_it_is_told(
    text: str, amounts: list[tuple[str, dict[str, str], list[str]]], right: list[list[str]]
) -> None:
    found = []
    for words, says, names in amounts:
        start = text.index(words)
        found.append((Candidate(start, start + len(words), says), names))
    assert [[*names] for _, names in which(text, found)] == right
