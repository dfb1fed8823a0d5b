"""The condition language: what holds, what does not, what nobody knows yet."""

from __future__ import annotations

from typing import Any

import pytest
from every import every

from interview.base.conditions import Condition, ConditionError

KNOWN: dict[str, Any] = {
    "platform_kind": "floating",
    "ph": 7.8,
    "tank_height": 0.4,
    "water_line_below_rim": 0.11,
    "rcd": False,
    "decor_hazards": ("sharp", "tippable"),
    "live_plants": ("two small dumb canes", "devil’s ivy (in a pot)", "peace-lilies", "moss"),
    "species": ("chrysemys_picta", "emys_orbicularis"),
}


@every(
    ("text", "holds"),
    [
        ("platform_kind is floating", True),
        ("platform_kind is not floating", False),
        ("platform_kind is any of fixed, floating", True),
        ("platform_kind is none of fixed, pile", True),
        ("ramp_slope is given", False),
        ("ramp_slope is not given", True),
        ("ph is given", True),
        ("ramp_slope at most 30", None),
        ("ph at least 7.8", True),
        ("ph above 7.8", False),
        ("ph from 6 to 8", True),
        ("ph below 7", False),
        ("water_line_below_rim below tank_height", True),
        ("water_line_below_rim below unknown_height", None),
        ("rcd is no", True),
        ("rcd is yes", False),
        ("decor_hazards includes sharp", True),
        ("decor_hazards includes trap_gap", False),
        ("species is any of emys_orbicularis, apalone_spinifera", True),
        ("species is none of apalone_spinifera", True),
        ("live_plants names any of fern, dumb cane", True),
        ("live_plants names any of devil's ivy", True),
        ("live_plants names any of peace lily", True),
        ("live_plants names any of dumb", True),
        ("live_plants names any of um, cane dumb, lily of the valley", False),
        ("live_plants names none of mo, fern", True),
        ("live_plants names none of moss", False),
        ("plants_to_come names none of moss", None),
        ("ramp_slope at most 30 or rcd is no", True),
        ("ramp_slope at most 30 or rcd is yes", None),
        ("ramp_slope at most 30 and rcd is yes", False),
        ("ramp_slope at most 30 and rcd is no", None),
        # `or` joins first: (yes or no) and no
        ("rcd is no or ph above 9 and platform_kind is pile", False),
    ],
)
def test_what_holds(text: str, holds: bool | None) -> None:
    assert Condition.read(text).holds(KNOWN.get) is holds


def test_a_list_must_hold_whole() -> None:
    assert Condition.read(["rcd is no", "ph above 7"]).holds(KNOWN.get) is True
    assert Condition.read(["rcd is no", "ph above 8"]).holds(KNOWN.get) is False


def test_numbers_are_in_the_unit_of_what_they_bound() -> None:
    condition = Condition.read("from 5 cm to 1 m", subject="water_line_below_rim")
    assert condition.holds(KNOWN.get, lambda _: "m") is True
    assert condition.holds({"water_line_below_rim": 0.04}.get, lambda _: "m") is False


def test_unknown_names_are_told() -> None:
    condition = Condition.read("ramp_slope at most 30 and light_power above 5 and rcd is no")
    assert condition.unknown(KNOWN.get) == ("light_power", "ramp_slope")


@pytest.mark.parametrize(
    "text", ["", "__import__('os')", "ph", "ph is", "ph at least", "ph at least __import__('os')",
             "ph ** 9 above 3", "PH is 3 4"],
)  # fmt: skip
def test_what_is_no_condition_is_refused(text: str) -> None:
    with pytest.raises(ConditionError, match=r"read the condition|neither a name nor a number"):
        Condition.read(text)
