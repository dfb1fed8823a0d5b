"""Tanks for pictures: plates from plain values, and values at random."""

from __future__ import annotations

import random
from collections.abc import Mapping
from typing import Any

from interview.report.pictures.scene.arranging import scene_of
from interview.report.pictures.scene.notes import Teller, key_of, measures_of, notes_of
from interview.report.pictures.scene.plate import Pin, Plate, place_of

CHOICES = {
    "platform_kind": ("floating", "fixed", "above_tank", "pile", "none"),
    "heat_lamp_kind": ("halogen", "none"),
    "uvb_lamp_kind": ("tube_t5", "coil", "none"),
    "heater_mount": ("horizontal", "vertical", "angled", "none"),
    "filter_kind": ("canister", "internal", "none"),
    "cover_basking": ("mesh", "glass", "none"),
    "cover_water": ("mesh", "glass", "none"),
    "substrate": ("sand", "gravel", "none"),
}
LENGTHS = {
    "tank_length": (0.3, 2.5),
    "tank_width": (0.2, 0.9),
    "tank_height": (0.2, 0.9),
    "pane_thickness": (0.003, 0.02),
    "water_line_below_rim": (0.0, 0.5),
    "substrate_depth": (0.0, 0.1),
    "platform_length": (0.1, 0.8),
    "platform_width": (0.1, 0.5),
    "platform_height_above_water": (0.0, 0.2),
    "platform_wall_gap": (0.0, 0.3),
    "heat_lamp_height": (0.1, 0.9),
    "uvb_lamp_height": (0.1, 0.9),
    "uvb_lamp_length": (0.2, 1.5),
    "heater_length": (0.1, 0.4),
    "heater_height": (0.0, 0.3),
    "heater_cover": (0.0, 0.4),
    "intake_height": (0.0, 0.3),
    "water_depth": (0.05, 0.7),
    "water_volume": (0.01, 1.0),
    "escape_height": (-0.1, 0.4),
    "largest_carapace_length": (0.03, 0.35),
    "platform_temperature": (15.0, 60.0),
    "shell_temperature": (15.0, 60.0),
    "water_temperature": (10.0, 35.0),
    "uv_index_shell": (0.0, 12.0),
    "ramp_slope": (5.0, 60.0),
}
PLACES = (
    *("rim", "water", "platform", "basking_animal", "heat_lamp", "heater", "intake"),
    *("heat_lamp", "heat_lamp", "heat_lamp", "water", "uvb_lamp", "platform"),
)

TANK: dict[str, Any] = {
    "tank_length": 1.0,
    "tank_width": 0.4,
    "tank_height": 0.4,
    "pane_thickness": 0.006,
    "water_line_below_rim": 0.11,
    "water_depth": 0.254,
    "water_volume": 0.1,
    "substrate": "sand",
    "substrate_depth": 0.03,
    "platform_kind": "floating",
    "platform_height_above_water": 0.025,
    "platform_length": 0.3,
    "platform_width": 0.2,
    "platform_temperature": 31.0,
    "heat_lamp_height": 0.22,
    "uvb_lamp_height": 0.30,
    "carapace_length": [0.095],
}


def random_tank(number: int) -> dict[str, Any]:
    """One tank of many: each value known in four cases of five, none made to fit the others."""
    rng = random.Random(number)
    tank: dict[str, Any] = {name: rng.uniform(*ends) for name, ends in LENGTHS.items()}
    tank |= {name: rng.choice(choices) for name, choices in CHOICES.items()}
    tank["carapace_length"] = [rng.uniform(0.03, 0.35) for _ in range(rng.randint(1, 8))]
    return {name: value for name, value in tank.items() if rng.random() < 0.8}


def plate_of(
    values: Mapping[str, Any],
    system: str = "metric",
    after: Mapping[str, Any] | None = None,
    pins: tuple[Pin, ...] = (),
) -> Plate:
    """The plate of a tank that nobody audited."""
    scene = scene_of(values.get)
    teller = Teller(system, values.get, lambda _: "measured", after.get if after else None)
    pins = tuple(pin for pin in pins if place_of(scene, pin.at))
    notes = notes_of(scene, teller, pins)
    later = scene_of(after.get) if after else None
    key = tuple(key_of(scene, notes))
    return Plate(scene, notes, pins, measures_of(teller), later, key)


def random_plate(number: int) -> Plate:
    """A tank at random, with findings at every place, beside the same tank changed at random."""
    values = random_tank(number)
    pins = tuple(
        Pin(n, at, f"finding of {at}", (f"measure_{n}",), "wrong", "27 to 32 °C")
        for n, at in enumerate(PLACES, 1)
    )
    after = {**values, **random_tank(number + 1000)} if number % 2 else None
    return plate_of(values, "us" if number % 3 else "metric", after, pins)
