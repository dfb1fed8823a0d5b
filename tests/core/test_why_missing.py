"""Why a quantity has no value: each reason that comes up is a clause as a keeper reads it."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from interview import assembly
from interview.commands.filled import filled
from interview.core.errors import NotApplicable
from interview.core.heat.heater import smaller_heaters_power
from interview.core.wiring import quantities

DEMOS = Path(__file__).parents[2] / "transcripts_demo"
CHANGED: tuple[tuple[str, dict[str, Any]], ...] = (
    ("map_turtle_hatchling", {}),
    ("reeves_turtle_planned", {}),
    ("painted_turtles_classroom", {"tank_material": "acrylic"}),
    ("musk_turtle", {"heater_mount": "none", "heater_power": None}),
    ("musk_turtle", {"filter_kind": "none"}),
    ("musk_turtle", {"heat_lamp_kind": "none"}),
    ("musk_turtle", {"uvb_lamp_kind": "none"}),
    ("musk_turtle", {"uvb_lamp_kind": "gas"}),
    ("musk_turtle", {"platform_kind": "none"}),
    ("musk_turtle", {"platform_kind": "above_tank"}),
    ("musk_turtle", {"lamp_guard": "cage"}),
    ("musk_turtle", {"stand": "legs"}),
    ("musk_turtle", {"heat_lamp_height": 0.05, "cover_basking": "glass"}),
)
REASONS = {
    "a filter turns ammonia into nitrate",
    "a guard keeps the animals off the lamp",
    "a heater warms the water",
    "no UVB lamp is called gas; known: tube_t5, tube_t8, coil, mercury_vapour, metal_halide",
    "no filter of a tank in use makes nitrate",
    "no glass covers the basking place",
    "no growth curve is known for the female Reeves' turtle",
    "no heater is strong enough in winter and weak enough in summer",
    "nobody changes water so often",
    "only one turtle lives here",
    "the floor is a slab on the ground: there are no joists to check",
    "the lamp hangs below the glass cover",
    "the pane sum holds for glass, and this tank is acrylic",
    "the platform does not float",
    "the platform stands above the rim, in a box with walls of its own",
    "the platform stands above the tank",
    "the tank doesn't stand on legs",
    "there is no UVB lamp",
    "there is no filter",
    "there is no heat lamp",
    "there is no heater",
    "there is no platform",
    "there is no sand or gravel to draw in",
}


@cache
def _known(name: str) -> dict[str, Any]:
    interview, _ = filled(DEMOS / f"{name}.yaml")
    return dict(assembly.tank_of(interview, drawn=False).best.known)


def test_every_reason_that_comes_up_is_one_of_these_clauses() -> None:
    found: set[str] = set()
    for name, changes in CHANGED:
        known = {n: v for n, v in {**_known(name), **changes}.items() if v is not None}
        tank = quantities().working(known)
        reasons = (tank.why_not(formula) for formula in tank.wiring.formulas)
        found |= {str(reason) for reason in reasons if isinstance(reason, NotApplicable)}
    assert found == REASONS


def test_smaller_heaters_are_those_that_neither_chill_nor_cook() -> None:
    """The limit of a stuck heater, where it is warm enough and less than what hangs there."""
    assert smaller_heaters_power(80.0, 50.0, 100.0) == 80.0
    for limit, needed, installed in (
        (40.0, 50.0, 100.0),
        (120.0, 50.0, 100.0),
        (100.0, 50.0, 100.0),
    ):
        with pytest.raises(NotApplicable, match=r"^no heater is strong enough"):
            smaller_heaters_power(limit, needed, installed)
    some = smaller_heaters_power(np.array([40.0, 80.0]), 50.0, 100.0)
    assert np.array_equal(some, [40.0, 80.0]), "of candidates those that will do are seen"
