"""Planning before buying: everything the tank needs, by specification, and in which order.

Starts from the animals, the room and whatever the keeper has decided; fills the rest with
the smallest that serves now and grown, lets the search mend what does not fit together,
and gives the result as a list without a single brand.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.advice.levels import levels
from interview.advice.search import Search, merged
from interview.advice.suppose import changed
from interview.audit.checks import all_checks
from interview.audit.judge import Tank
from interview.care.tank_sizes import TradeSize, known_sizes
from interview.core.laws.animal import required_depth, required_swim_area
from interview.phrases import fill

__all__ = ["Row", "Specification", "specify"]

_RIM = 0.09  # m of dry wall over the water, under a cover
_SPARE_DEPTH = 1.1
_SPARE_FLOW = 1.5
_COSTS = frozenset({"free", "cheap", "buy"})
_LAMP_OVER_PLATFORM = 0.30


@dataclass(frozen=True)
class Row:
    """One thing to buy or set: what, by specification, and why so much."""

    what: str
    specification: str


@dataclass(frozen=True)
class Specification:
    """The list, the order of setting up, and the tank it describes.

    `settings` are the answers of that tank in core units; `impossible` says why no tank of
    the trade serves, if none does.
    """

    rows: tuple[Row, ...]
    sequence: tuple[str, ...]
    settings: Mapping[str, Any]
    tank: Tank
    impossible: str = ""


def specify(tank: Tank) -> Specification | None:
    """The specification for the tank's animals; None while the animals aren't known.

    Args:
        tank: a tank in planning: at least species, carapace_length and the room's warmth
    """
    if tank.lookup("adult_carapace_length") is None or tank.lookup("room_temperature_low") is None:
        return None
    size, impossible = _least_tank(tank)
    settings = {**_fixed(), **_tank_settings(tank, size)}
    planned = changed(tank, settings)
    settings |= _sized(planned)
    planned = changed(tank, settings)
    settings |= _lamp_settings(planned)
    planned = changed(tank, settings)
    checks = [check for check in all_checks() if check.id != "cycling"]
    mend = Search(planned, checks).mend(_COSTS)
    settings |= merged(mend.options)
    planned = changed(tank, settings)
    return Specification(
        tuple(_rows(planned, size)), tuple(_sequence(planned)), settings, planned, impossible
    )


def _least_tank(tank: Tank) -> tuple[TradeSize, str]:
    """The smallest tank sold in which the grown animals have surface and depth enough."""
    grown, count = float(tank.best.value("adult_carapace_length")), tank.lookup("animal_count") or 1
    area = max(
        float(required_swim_area(grown, count)),
        12.5 * grown**2 * (1 + 0.1 * max(float(count) - 2, 0)),
    )
    depth = max(float(required_depth(grown)), 1.5 * grown) * _SPARE_DEPTH
    fitting = [
        size
        for size in known_sizes()
        if (size.length - 2 * size.wall_thickness) * (size.width - 2 * size.wall_thickness) >= area
        and size.width - 2 * size.wall_thickness >= 1.5 * grown
        and size.height - size.wall_thickness - _RIM >= depth
    ]
    if fitting:
        return min(fitting, key=lambda s: s.length * s.width * s.height), ""
    largest = max(known_sizes(), key=lambda s: s.length * s.width)
    return largest, (
        f"No tank sold under a trade name gives {grown * 100:.0f} cm of grown turtle its surface "
        f"of {area:.2f} m² and {depth * 100:.0f} cm of depth: plan a custom tank, a stock tank or "
        "an indoor pond, or choose a smaller species."
    )


def _fixed() -> dict[str, Any]:
    """What is the same for every tank."""
    return {
        "stage": "set_up",
        "tank_origin": "aquarium",
        "substrate": "none",
        "substrate_depth": 0.0,
        "stand": "aquarium_stand",
        "stand_level": True,
        "heater_mount": "horizontal",
        "heater_count": 1.0,
        "heater_guard": True,
        "heater_body": "metal",
        "heater_cutout": True,
        "heater_height": 0.05,
        "filter_kind": "canister",
        "filter_count": 1.0,
        "intake_guard": True,
        "media": "foam_coarse",
        "filter_seeded": "well",
        "water_change_share": 0.3,
        "water_change_interval": 7 * 86400.0,
        "water_treatment": "conditioner",
        "platform_kind": "floating",
        "platform_height_above_water": 0.04,
        "platform_wall_gap": 0.0,
        "heat_lamp_kind": "halogen",
        "heat_lamp_power": 50.0,
        "heat_lamp_height": _LAMP_OVER_PLATFORM,
        "lamp_control": "thermostat",
        "lamp_holder": "ceramic",
        "lamp_holder_rating": 150.0,
        "lamp_fixings": 2.0,
        "lamp_plastic_gap": 0.25,
        "lamp_timer": True,
        "night_light": False,
        "day_length": 12 * 3600.0,
        "uvb_lamp_kind": "tube_t5",
        "uvb_strength": "high",
        "uvb_lamp_length": 0.55,
        "uvb_lamp_age": 0.0,
        "uvb_path": "open",
        "cover_basking": "mesh",
        "cover_water": "mesh",
        "rcd": True,
        "drip_loops": True,
        "strip_raised": True,
        "decor_hazards": (),
        "kitchen_used": False,
    }


def _tank_settings(tank: Tank, size: TradeSize) -> dict[str, Any]:
    grown = float(tank.best.value("adult_carapace_length"))
    return {
        "tank_length": size.length,
        "tank_width": size.width,
        "tank_height": size.height,
        "wall_thickness": size.wall_thickness,
        "water_line_below_rim": _RIM,
        "platform_length": max(0.25, 2.0 * grown),
        "platform_width": min(max(0.18, 1.2 * grown), size.width - 0.06),
    }


def _sized(planned: Tank) -> dict[str, Any]:
    """Heater, filter, media and food, from what the filled tank loses and the animals eat."""
    volume = float(planned.best.value("water_volume"))
    loss = max(float(planned.best.value("heat_loss")), 1.0)
    need = float(planned.best.value("feed_need"))
    return {
        "heater_power": _next_sold(1.6 * loss, (25, 50, 75, 100, 150, 200, 250, 300)),
        "filter_rated_flow": _rounded_up(2 * _SPARE_FLOW * volume / 3600 / 0.6, 100e-3 / 3600),
        "media_volume": max(3e-3, 0.03 * volume),
        "feeds_per_week": 5.0,
        "feed_mass": need * 7 * 86400 / 5.0,
        "feed_protein": 0.38,
        "water_temperature": float(planned.best.value("target_water_temperature")),
        "tap_temperature": float(planned.best.value("target_water_temperature")),
    }


def _next_sold(needed: float, sold: tuple[int, ...]) -> float:
    return float(next((size for size in sold if size >= needed), sold[-1]))


def _rounded_up(value: float, step: float) -> float:
    return float(np.ceil(value / step) * step)


def _lamp_settings(planned: Tank) -> dict[str, Any]:
    """Strength and height of the UVB tube that put the shell in the middle of its zone."""
    wanted = float(np.sqrt(planned.best.value("uv_zone_low") * planned.best.value("uv_zone_high")))
    best: tuple[float, dict[str, Any]] = (np.inf, {})
    for strength in ("low", "high"):
        for height in np.arange(0.20, 0.61, 0.01):
            setting = {"uvb_strength": strength, "uvb_lamp_height": float(height)}
            index = changed(planned, setting).best.value("uv_index_shell")
            miss = abs(np.log(max(float(index), 1e-6) / wanted))
            if miss < best[0]:
                best = float(miss), setting
    return best[1]


_LIST = (
    ("Tank", "at least {tank_length} × {tank_width} × {tank_height} outside, glass, with its rim"),
    ("Stand", "made for a tank of that footprint, level, for {filled_mass} in all"),
    ("Water line", "{water_line_below_rim} below the rim: {water_volume}, {water_depth} deep"),
    (
        "Heater",
        "{heater_count} of {heater_power}, metal or guarded, on an over-temperature controller, "
        "set to {target_water_temperature}; the tank loses {heat_loss} when the room is coldest",
    ),
    (
        "Filter",
        "canister rated {filter_rated_flow} or more, {media_volume} of coarse foam, guarded intake",
    ),
    (
        "Platform",
        "floating, dry area {platform_length} × {platform_width}, carrying {foam_volume_required} "
        "of closed-cell foam, close to the glass, with a ramp",
    ),
    (
        "Heat lamp",
        "halogen of about {heat_lamp_power} on a thermostat, porcelain holder marked "
        "{lamp_holder_rating} or more, two fixings, {heat_lamp_height} over the platform to begin "
        "with: the shell's top should read {basking_band_low} to {basking_band_high}",
    ),
    (
        "UVB lamp",
        "T5 tube of {uvb_strength} strength, {uvb_lamp_length} long, {uvb_lamp_height} over the "
        "platform, nothing between: UV index {uv_zone_low} to {uv_zone_high} at the shell",
    ),
    ("Covers", "metal mesh over water and platform, the UVB lamp under it"),
    ("Timer", "lamps on for {day_length}, dark nights"),
    (
        "Electricity",
        "{connected_load} in all behind a GFCI or RCD; about {energy_per_month} a month",
    ),
    (
        "Water changes",
        "{water_change_share} of the water every {water_change_interval}, conditioner, mixed to "
        "{target_water_temperature}",
    ),
)


def _rows(planned: Tank, size: TradeSize) -> Iterator[Row]:
    for what, text in _LIST:
        said = fill(text, planned.lookup, planned.unit_of, planned.system)
        if said:
            known = f"; sold as {size.name}" if what == "Tank" else ""
            yield Row(what, said + known)


def _sequence(planned: Tank) -> Iterator[str]:
    steps = (
        "Rinse everything in plain water; no soap.",
        "Put the empty tank on its level stand where it will stay; check the floor first.",
        "Fill it, and watch for leaks for two days before anything is plugged in.",
        "Plug in behind the GFCI or RCD, every cord with a drip loop; heater under water first.",
        "Run heater and lamps for two days. Measure water, basking surface and UV index, and "
        "move the lamps until they fit.",
        "Start the filter, best with media from a running one. It takes about {cycling_time} "
        "({cycling_time_low} to {cycling_time_high}); the test kit decides, not the calendar.",
        "Run the audit on what you measured. Then the turtle.",
    )
    for step in steps:
        if said := fill(step, planned.lookup, planned.unit_of, planned.system):
            yield said


def still_open(specification: Specification) -> tuple[str, ...]:
    """Checks that the planned tank does not yet meet at best values."""
    checks = all_checks()
    rows = levels(specification.tank, checks, [{}])[0]
    return tuple(c.id for c, level in zip(checks, rows, strict=True) if level > 1)
