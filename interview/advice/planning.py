"""Planning before buying: everything the tank needs, by specification.

Starts from the animals, the room and whatever the keeper has decided; takes the smallest
that serves now and grown, and lets the search mend what does not fit together.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.advice.larger_tank import RIM, larger_tank, least_size, needed
from interview.advice.listing import Row, rows, sequence
from interview.advice.search import Search, merged
from interview.advice.settings import settable, sold_here
from interview.advice.suppose import changed, changed_working
from interview.audit.checks import all_checks
from interview.audit.judge import Tank
from interview.care.facts import limits
from interview.care.tank_sizes import TradeSize
from interview.core.laws.animal import foam_volume_needed, mass_from_length
from interview.phrases import in_words

__all__ = ["Row", "Specification", "specify"]

_SPARE_FLOW = 1.25  # a filter clogs between cleanings
_PIPES = 0.6  # share of the rated flow that hoses and media leave
_RESERVE = 1.15  # beyond the least heater: the room's coldest night is a guess
_HEATERS = (25, 50, 75, 100, 150, 200, 250, 300)
_COSTS = frozenset({"free", "cheap", "buy"})
_WEEK = 7 * 86400.0
_SOONER = 1.1  # the filter runs this much longer than a slow start takes


@dataclass(frozen=True)
class Specification:
    """The list, the order of setting up, and the tank it describes.

    `settings` are the answers of that tank in core units; `impossible` says why no tank of
    the trade serves, if none does. The list is empty for animals no indoor tank serves.
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
    if tank.lookup("too_large_indoors"):
        return Specification((), (), {}, tank, _too_large(tank))
    size = least_size(tank, needed(tank))
    seeded = tank.best.known.get("filter_seeded")
    settings: dict[str, Any] = _fixed() | ({"filter_seeded": seeded} if seeded else {})
    settings |= _tank_settings(tank, size or sold_here(tank.system)[-1])
    for more in (_sized, _lamp_settings, _mended, _filter_start):
        settings |= more(changed(tank, settings))
    planned = changed(tank, settings)
    impossible = "" if size else larger_tank(tank)
    return Specification(
        tuple(rows(planned)), tuple(sequence(planned)), settings, planned, impossible
    )


def _too_large(tank: Tank) -> str:
    grown = settable(float(tank.best.value("adult_carapace_length")), "m", tank.system)
    return (
        f"Please don't plan a tank for this animal: a female of its kind grows to "
        f"{in_words(grown, 'm', tank.system)} and lives for decades, and no indoor tank serves "
        "her grown. If a male is certain, name him as male; else a musk, mud or map turtle male "
        "stays small, and a reptile rescue knows of places with a pond."
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
        "heater_guard": True,
        "heater_body": "metal",
        "heater_cutout": True,
        "heater_height": 0.05,
        "filter_kind": "canister",
        "filter_count": 1.0,
        "intake_guard": True,
        "intake_height": 0.08,
        "media": "foam_coarse",
        "filter_seeded": "well",
        "water_change_share": 0.3,
        "water_change_interval": _WEEK,
        "water_treatment": "conditioner",
        "platform_kind": "floating",
        "platform_height_above_water": 0.04,
        "platform_wall_gap": 0.0,
        "ramp_slope": 20.0,
        "heat_lamp_kind": "halogen",
        "heat_lamp_power": 50.0,
        "heat_lamp_height": 0.30,
        "lamp_control": "thermostat",
        "lamp_holder": "ceramic",
        "lamp_holder_rating": 150.0,
        "lamp_fixings": 2.0,
        "lamp_plastic_gap": 0.30,
        "lamp_timer": True,
        "night_light": False,
        "day_length": 12 * 3600.0,
        "uvb_lamp_kind": "tube_t5",
        "uvb_strength": "high",
        "uvb_lamp_length": 0.55,
        "uvb_lamp_age": 100 * 3600.0,
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
    """The tank, and a platform that carries the grown animals."""
    grown = float(tank.best.value("adult_carapace_length"))
    count = float(tank.lookup("animal_count") or 1)
    species = tank.best.known["species"]
    foam = float(foam_volume_needed(mass_from_length(species, grown).sum()))
    width = min(_up(max(0.18, 1.2 * grown), 0.01), size.width - 0.06)
    return {
        "tank_length": size.length,
        "tank_width": size.width,
        "tank_height": size.height,
        "wall_thickness": size.wall_thickness,
        "water_line_below_rim": RIM,
        "platform_length": _up(max(0.25, 2.0 * grown, 1.6 * count * grown**2 / width), 0.01),
        "platform_width": width,
        "platform_foam_volume": _up(foam, 0.1e-3),
    }


def _sized(planned: Tank) -> dict[str, Any]:
    """Heater, filter, media and food, from what the filled tank loses and the animals eat."""
    volume = float(planned.best.value("water_volume"))
    water = round(float(planned.best.value("target_water_temperature")))
    loss = max(
        float(changed(planned, {"water_temperature": float(water)}).lookup("heat_loss")), 1.0
    )
    count, power = _least_heater(loss)
    turnover = float(limits()["turnover_good"].value or 0.0)
    return {
        "heater_count": float(count),
        "heater_power": float(power),
        "filter_rated_flow": _up(turnover * _SPARE_FLOW * volume / _PIPES, 100e-3 / 3600),
        "media_volume": _up(max(3e-3, 0.03 * volume), 0.5e-3),
        "feeds_per_week": 5.0,
        "feed_mass": _portion(float(planned.best.value("feed_need")) * _WEEK / 5.0),
        "feed_protein": 0.38,
        "water_temperature": float(water),
        "tap_temperature": float(water),
    }


def _least_heater(loss: float) -> tuple[int, int]:
    """Count and size of the heaters sold that hold the tank with a reserve and no more."""
    wanted = float(limits()["heater_margin_good"].value or 1.0) * _RESERVE * loss
    choices = [(n * size, n, size) for n in (1, 2) for size in _HEATERS if n * size >= wanted]
    _, count, size = min(choices, default=(0, int(np.ceil(wanted / _HEATERS[-1])), _HEATERS[-1]))
    return count, size


def _portion(mass: float) -> float:
    return float(f"{mass:.2g}")


def _up(value: float, step: float) -> float:
    return float(round(np.ceil(value / step - 1e-9) * step, 12))


def _lamp_settings(planned: Tank) -> dict[str, Any]:
    """Strength and height of the UVB tube that put the shell in the middle of its zone."""
    wanted = float(np.sqrt(planned.best.value("uv_zone_low") * planned.best.value("uv_zone_high")))
    heights = np.unique([settable(h, "m", planned.system) for h in np.arange(0.20, 0.61, 0.01)])
    best: tuple[float, dict[str, Any]] = (np.inf, {})
    for strength in ("low", "high"):
        change = {"uvb_strength": strength, "uvb_lamp_height": heights}
        lit = changed_working(planned.best, planned.best, change, reread=False)
        index = np.maximum(lit.value("uv_index_shell"), 1e-6)
        miss = np.abs(np.log(index / wanted))
        at = int(np.argmin(miss))
        setting = {"uvb_strength": strength, "uvb_lamp_height": float(heights[at])}
        best = min(best, (float(miss[at]), setting), key=lambda pair: pair[0])
    return best[1]


def _mended(planned: Tank) -> dict[str, Any]:
    """What the search changes so that every check that can be judged is good."""
    checks = [check for check in all_checks() if check.id != "cycling"]
    return merged(Search(planned, checks).mend(_COSTS).options)


def _filter_start(planned: Tank) -> dict[str, Any]:
    """How long the filter runs before the animal comes."""
    slowest = planned.lookup("cycling_time_high")
    return {} if slowest is None else {"filter_age": _up(_SOONER * float(slowest), _WEEK)}
