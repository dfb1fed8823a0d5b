"""All that a run through time needs to know of a tank, taken from its quantities.

The walls have no temperature of their own: their heat is part of `stores`, at the water's. A pane
follows the water in minutes and holds 3 to 4 % of the heat, so one node is within 0.04 K of a pane
in layers on a cold night (`tests/core/time/test_wall.py`).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.basking.basking import platform_temperature_cold_day, shell_temperature_cold_day
from interview.core.constants import WATER_SPECIFIC_HEAT
from interview.core.errors import CannotWorkOut, Missing, NotApplicable
from interview.core.heat.losses import TankLoss
from interview.core.numeric import floats
from interview.core.time.dissolved.oxygen import OXYGEN_TO_NITRATE, OXYGEN_TO_NITRITE
from interview.core.time.loss_table import Losses
from interview.core.time.plan import Weather
from interview.core.water.nitrification import mature_film
from interview.core.water.properties import water_density
from interview.core.working import Working

__all__ = ["Basking", "Evaporation", "Filter", "TankInTime"]

Floats: TypeAlias = NDArray[np.float64]
_LAMP_NOW_AND_THEN = (
    "heat_lamp_power",
    "heat_lamp_power_when_measured",
    "cover_heat_share",
    "cover_heat_share_when_measured",
)


@dataclass(frozen=True)
class Basking:
    """The spot under the heat lamp, with its steady laws of the room temperature."""

    platform: Callable[[Floats], Floats]
    """Of the room, both [degC]; so is the shell's."""
    shell: Callable[[Floats], Floats]
    platform_lag: Floats
    """Time constant [s]; so are the shell's."""
    shell_warming: Floats
    shell_cooling: Floats


@dataclass(frozen=True)
class Filter:
    """What is fed to the filter, how it lives, and what its water is changed for."""

    supply: Floats
    """Ammonia nitrogen [mg/L/s]."""
    decay: Floats
    """Oxygen that droppings use [mg/L/s]."""
    pace: Floats
    """Of the bacteria against the handbook's [1]."""
    seed: Floats
    """The film at the start, as oxygen demand for each tank water [mg/L]."""
    age: float
    """[s]; infinite where it runs since long."""
    mature: Floats
    """The film that the food feeds once it is full grown, as oxygen demand in tank water [mg/L]."""
    exchange: Floats
    """With the air, filter running [1/s]."""
    exchange_still: Floats
    """With nothing that stirs the water [1/s]."""
    tap_nitrate: Floats
    """As the ion [mg/L]."""
    nitrate_share: Floats
    """Nitrate there truly is over what food tells, by a kit [1]."""
    change_share: Floats
    change_interval: Floats
    """[s]"""


@dataclass(frozen=True)
class Evaporation:
    """Water that tanks lose to the air of the room."""

    law: Callable[..., Any]
    given: dict[str, Floats]
    """What it takes beside the temperatures, tank by tank."""

    def __call__(self, water: Floats, room: Floats) -> Floats:
        """By the temperature of water and room [kg/s]."""
        rooms = {"room_temperature_low": room, "room_temperature_high": room}
        return floats(self.law(**rooms, water_temperature=water, **self.given))


@dataclass(frozen=True)
class TankInTime:
    """A tank, or many draws of one side by side."""

    count: int
    losses: Losses
    evaporation: Evaporation
    stores: Floats
    """Heat that warms all by one degree, at the usual level [J/K]."""
    volume: Floats
    """At the usual level [m³]."""
    area: Floats
    """Of the surface [m²]."""
    level: Floats
    """The usual height of the water [m]."""
    heater: Floats
    """[W]; 0 where there is none."""
    setting: Floats
    """Of the thermostat [degC]."""
    band: Floats
    """To either side of it [K]."""
    pump_heat: Floats
    """What the water gets of it [W]."""
    lamp_heat: Floats
    """What the water gets of the lamps while they burn [W]."""
    day_length: Floats
    """How long they burn a day [s]."""
    weather: Weather
    tap_temperature: Floats
    """Of the water that is poured in [degC]."""
    top_up_interval: Floats
    """[s]"""
    basking: Basking | None
    filter: Filter | None
    uv_index: Floats | None
    lacking: dict[str, CannotWorkOut]
    """Why basking, filter or UV can't be followed, by their names."""

    @classmethod
    def of(cls, working: Working, count: int) -> TankInTime:
        """Gather what is known; Missing names what a run can't do without.

        Args:
            working: the quantities, at their best values or as draws on the first axis
            count: how many draws there are; 1 for best values
        """
        known = _Known(working, count)
        lacking: dict[str, CannotWorkOut] = {}

        def where_known(name: str, gather: Callable[[_Known], Any]) -> Any:
            try:
                return gather(known)
            except CannotWorkOut as problem:
                lacking[name] = problem
                return None

        known.require(*_NEEDED)
        losses = _losses(known)
        return cls(
            count=count,
            losses=losses,
            evaporation=_evaporation(known),
            stores=known("heat_capacity"),
            volume=known("water_volume"),
            area=known("inside_length") * known("inside_width"),
            level=known("water_level"),
            heater=known("installed_heater_power"),
            setting=known("heater_setting"),
            band=known("heater_band"),
            pump_heat=known("pump_heat_to_water"),
            lamp_heat=known("lamp_heat_while_lit"),
            day_length=known("day_length"),
            weather=_weather(known),
            tap_temperature=known("tap_temperature"),
            top_up_interval=known("top_up_interval"),
            basking=where_known("basking", _basking),
            filter=where_known("filter", _filter),
            uv_index=where_known("uv", _uv_index),
            lacking=lacking,
        )

    def heat_of_water(self, height: Floats) -> Floats:
        """Heat that warms a layer of water by one degree [J/K]; height in m."""
        return height * self.area * water_density(self.setting) * WATER_SPECIFIC_HEAT

    def volume_ratio(self, level: Floats) -> Floats:
        """The usual volume over the volume at a water level [1]; level in m."""
        return self.volume / (self.volume - (self.level - level) * self.area)


_LOSS = (
    *("room_humidity", "inside_length", "inside_width", "water_level", "wall_resistance"),
    *("floor_conductance", "cover_water", "open_top_share", "evaporation_factor"),
)
_NEEDED = (
    *(name for name in _LOSS if name != "evaporation_factor"),
    *("heat_capacity", "water_volume", "installed_heater_power", "heater_setting"),
    *(
        "room_temperature_low",
        "room_temperature_high",
        "day_length",
        "pump_heat_to_water",
        "lamp_heat_while_lit",
    ),
)


class _Known:
    """Quantities by name, spread to one value a draw."""

    def __init__(self, working: Working, count: int) -> None:
        self.working, self._count = working, count

    def __call__(self, name: str) -> Floats:
        return np.array(np.broadcast_to(self.working.value(name), self._count), dtype=float)

    def require(self, *names: str) -> None:
        """Missing that names everything which would have to be told."""
        reasons = [self.working.why_not(name) for name in names]
        missing = [reason for reason in reasons if isinstance(reason, Missing)]
        if missing:
            raise Missing.union(missing)


def _losses(known: _Known) -> TankLoss:
    given: dict[str, Any] = {name: known(name) for name in _LOSS if name != "cover_water"}
    return TankLoss(cover_water=known.working.value("cover_water"), **given)


def _evaporation(known: _Known) -> Evaporation:
    law = known.working.wiring.formulas["evaporation_rate"].function
    names = ("room_humidity", "inside_length", "inside_width", "open_top_share")
    return Evaporation(law, {name: known(name) for name in (*names, "evaporation_factor")})


def _weather(known: _Known) -> Weather:
    low, high = known("room_temperature_low"), known("room_temperature_high")
    return Weather(
        mean=0.5 * (low + high),
        yearly=known("room_yearly_swing"),
        daily=known("room_daily_swing"),
        rise=known("heat_wave_room") - high,
        outdoors=known("outdoor_temperature_winter"),
        lag=known("room_time_constant"),
    )


def _basking(known: _Known) -> Basking:
    value, get = known.working.value, known.working.get
    if get("heat_lamp_kind") == "none" and get("lamp_heat") is None:
        raise NotApplicable("there is no heat lamp")
    known.require("lamp_heat", "shell_temperature")
    value("shell_temperature")
    lamp = {name: known(name) for name in ("lamp_heat", "heat_lamp_height", "source_offset")}
    for name in _LAMP_NOW_AND_THEN:
        if known.working.get(name) is not None:
            lamp[name] = known(name)
    shell = {name: known(name) for name in ("shell_height", "shell_absorption")}
    return Basking(
        lambda room: np.asarray(platform_temperature_cold_day(room_temperature_low=room, **lamp)),
        lambda room: np.asarray(
            shell_temperature_cold_day(room_temperature_low=room, **lamp, **shell)
        ),
        known("platform_time_constant"),
        known("shell_warming_time"),
        known("shell_cooling_time"),
    )


def _uv_index(known: _Known) -> Floats:
    if known.working.get("uvb_lamp_kind") == "none":
        raise NotApplicable("there is no UVB lamp")
    return known("uv_index_shell")


def _filter(known: _Known) -> Filter:
    if known.working.get("filter_kind") == "none":
        raise NotApplicable("there is no filter")
    known.require("ammonia_supply", "seed_film", "water_change_share", "water_change_interval")
    supply, pace = known("ammonia_supply"), known("nitrifier_pace")
    age = known.working.get("filter_age")
    living = known.working.get("stage") not in ("planning", "set_up")
    by_kit = known.working.get("nitrate_calibration")
    nitrified = supply * (OXYGEN_TO_NITRITE + OXYGEN_TO_NITRATE)
    return Filter(
        supply=supply,
        decay=known("oxygen_uptake") - nitrified,
        pace=pace,
        seed=known("seed_film"),
        age=(np.inf if living else 0.0) if age is None else float(np.median(age)),
        mature=np.asarray(mature_film(supply, known("filter_temperature"), pace)),
        exchange=known("oxygen_exchange"),
        exchange_still=known("oxygen_exchange_still"),
        tap_nitrate=known("tap_nitrate"),
        nitrate_share=np.ones_like(supply) if by_kit is None else known("nitrate_calibration"),
        change_share=known("water_change_share"),
        change_interval=known("water_change_interval"),
    )
