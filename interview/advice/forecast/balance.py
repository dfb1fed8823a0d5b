"""Which terms hold at one moment of a run: what comes in and goes out of the water."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.forecast.lanes import Lanes
from interview.core.errors import CannotWorkOut, NotApplicable
from interview.core.heat.air import latent_heat
from interview.core.heat.losses import SHEETS
from interview.core.time.dissolved.chemistry import stepped
from interview.core.time.plan import Plan
from interview.core.time.run import NITRATE_PER_NITROGEN, Course
from interview.core.water.properties import ammonia_free_share, oxygen_saturation

__all__ = ["CURVES", "Moment", "Term", "terms_at"]

Floats: TypeAlias = NDArray[np.float64]
_SPAN = 60.0  # s, over which what bacteria do is looked at
_SURFACE = ("inside_length", "inside_width", "room_humidity", "open_top_share")


@dataclass(frozen=True)
class Term:
    """One part of a balance, or one thing that a curve tends to."""

    say: str
    amount: float
    unit: str
    law: str = ""
    """The quantity or the single sum that gives it; "" where the plan of the run does."""
    inputs: tuple[str, ...] = ()
    """Answers and quantities it takes."""


@dataclass(frozen=True)
class Moment:
    """A place in a course: its row among the steps, and among what changes slowly."""

    lanes: Lanes
    plan: Plan
    course: Course
    row: int

    @property
    def time(self) -> float:
        """[s] since time 0 of the run."""
        return float(self.course.time[self.row])

    @property
    def step(self) -> int:
        """The step that begins there; the last one at the end."""
        return min(self.row, len(self.course.lit) - 1)

    @property
    def slow(self) -> int:
        """The last time before it at which what changes slowly was worked out."""
        return int(np.searchsorted(self.course.slow_time, self.time, side="right")) - 1

    def holds(self, fault: str) -> bool:
        """Whether something fails then."""
        middle = np.array([self.time + 0.5 * self.plan.step])
        return bool(getattr(self.plan.faults, fault).holds(middle)[0])


def _water(at: Moment) -> tuple[Term, ...]:
    """Heat in and out at the best values [W]; what goes out is below 0."""
    tank, course = at.lanes.tank, at.course
    water, room = course.water[at.row], course.room[at.row]
    wetted = course.level[at.slow] / tank.level
    walls, floor = tank.losses.walls(water, room), tank.losses.floor(water, room)
    top = np.asarray(tank.losses(water, room)) - walls - floor
    vapour = tank.evaporation(water, room) * latent_heat(water)
    plate = "usual_pump_power" if at.lanes.working.get("pump_power") is None else "pump_power"
    pumps = not (at.holds("power_cut") or at.holds("filter_stopped"))
    lidded = at.lanes.working.value("cover_water") in SHEETS
    rest = "through the lid" if lidded else "from the surface, to air and room"
    law = "lid_flux" if lidded else "open_surface_flux"
    sides = ("inside_length", "inside_width", "water_level")
    rows = (
        ("heater", course.heater[at.step] * tank.heater, "installed_heater_power",
         ("heater_setting", "heater_band")),
        ("pump", tank.pump_heat * pumps, "pump_heat_to_water",
         ("filter_kind", plate, "pump_heat_share")),
        ("lamps", tank.lamp_heat * course.lit[at.step], "lamp_heat_while_lit",
         ("heat_lamp_power", "light_power", "lamp_heat_to_water", "day_length")),
        ("through the glass", -walls * wetted, "wall_flux", (*sides, "wall_resistance")),
        ("through the floor", -floor, "board_conductance", ("floor_conductance",)),
        ("by evaporation", -vapour, "evaporation_rate", (*_SURFACE, "evaporation_factor")),
        (rest, vapour - top, law, _SURFACE),
    )  # fmt: skip
    return tuple(Term(say, _best(amount), "W", law, inputs) for say, amount, law, inputs in rows)


def _room(at: Moment) -> tuple[Term, ...]:
    """Mean, season, hour, and what a heat wave or a cold house adds [K]."""
    weather, plan = at.lanes.tank.weather, at.plan
    season = {"coldest": -1.0, "mean": 0.0, "warmest": 1.0}.get(plan.season)
    if season is None:
        season = float(weather.season(plan.year_from + at.time))
    mean, by_season = _best(weather.mean), _best(weather.yearly * season)
    clock = np.array([plan.clock + at.time])
    usual = _best(weather.usual(clock, season)[0])
    ends = ("room_temperature_low", "room_temperature_high")
    rows = (
        Term("mean of the year", mean, "degC", "", ends),
        Term("season", by_season, "K", "room_yearly_swing", (*ends, "room_daily_swing")),
        Term("hour", usual - mean - by_season, "K", "room_daily_swing",
             (*ends, "room_daily_share", "room_swing")),
    )  # fmt: skip
    more = _best(at.course.room[at.row]) - usual
    if abs(more) < 1e-6:
        return rows
    name = "heat_wave_room" if more > 0 else "room_after_power_cut"
    inputs = ("outdoor_temperature_winter", "room_time_constant") if more < 0 else ()
    say = "a house that cools" if more < 0 else "heat wave"
    return (*rows, Term(say, more, "K", name, inputs or ("heat_wave_rise",)))


def _air(at: Moment) -> tuple[Term, ...]:
    """Air over the water is between water and room."""
    water, room = _best(at.course.water[at.row]), _best(at.course.room[at.row])
    return (
        Term("water", water, "degC"),
        Term("room", room, "degC"),
        Term("share of the way to the water", _best(at.lanes.limit("air_warmth_share")), "1",
             "breathing_air", ("air_warmth_share", "cover_water")),
    )  # fmt: skip


def _follows(at: Moment, part: str) -> tuple[Term, ...]:
    """Platform or shell: what it tends to and how fast."""
    basking = at.lanes.tank.basking
    if basking is None:
        raise at.lanes.tank.lacking["basking"]
    course, room = at.course, at.course.room[min(at.row + 1, len(at.course.room) - 1)]
    burns = float(course.lit[at.step][0]) > 0.5
    lamp = ("lamp_heat", "heat_lamp_height", "source_offset")
    if part == "platform":
        steady = basking.platform(room) if burns else room
        return (
            _tends(steady, "platform_temperature_cold_day", lamp if burns else (), "lamp off"),
            Term("with a time constant of", _best(basking.platform_lag), "s", "",
                 ("platform_time_constant",)),
        )  # fmt: skip
    steady = basking.shell(room) if burns else course.water[at.row]
    given = (*lamp, "shell_height", "shell_absorption") if burns else ()
    lag = basking.shell_warming if burns else basking.shell_cooling
    timed = "shell_warming_time" if burns else "shell_cooling_time"
    return (
        _tends(steady, "shell_temperature_cold_day", given, "lamp off, in the water"),
        Term("with a time constant of", _best(lag), "s", timed,
             ("largest_animal_mass", "shell_lag_factor")),
    )  # fmt: skip


def _tends(steady: Floats, law: str, inputs: tuple[str, ...], dark: str) -> Term:
    """What a surface tends to: by its law under the lamp, where inputs are named, else without."""
    where = "under the lamp" if inputs else dark
    return Term(f"tends to ({where})", _best(steady), "degC", law if inputs else "", inputs)


def _uv(at: Moment) -> tuple[Term, ...]:
    if at.lanes.tank.uv_index is None:
        raise at.lanes.tank.lacking["uv"]
    lit = float(at.course.lit[at.step][0])
    inputs = ("uvb_lamp_kind", "uvb_lamp_height", "uvb_lamp_age", "uvb_transmission")
    return (
        Term("at the shell while the lamps burn", _best(at.lanes.tank.uv_index), "1",
             "uv_index_shell", inputs),
        Term("share of this step that they burn", lit, "1", "", ("day_length",)),
    )  # fmt: skip


def _dissolved(at: Moment, what: str) -> tuple[Term, ...]:
    """What oxygen, ammonia or nitrate gain and lose [mg/L/s]."""
    tank, fed = at.lanes.tank, at.lanes.tank.filter
    if fed is None or not at.course.dissolved:
        raise tank.lacking.get("filter", NotApplicable("there is no filter"))
    now = at.course.dissolved[at.slow]
    ratio = tank.volume_ratio(at.course.level[at.slow])
    stopped = at.holds("filter_stopped") or at.holds("power_cut")
    water = at.course.water[at.row]
    after, used = stepped(now, fed.supply * ratio, water, fed.pace, _SPAN, 0.0 if stopped else 1.0)
    made = (after.nitrate - now.nitrate) / _SPAN * ratio * fed.nitrate_share
    eaten = fed.supply * ratio - (after.ammonia - now.ammonia) / _SPAN * ratio
    films = ("nitrifier_pace", "seed_film", "filter_age")
    food = ("feed_mass", "feeds_per_week", "feed_protein", "water_volume")
    if what == "nitrate":
        return (
            Term("made by the filter", _best(made * NITRATE_PER_NITROGEN), "mg/L/s",
                 "nitrate_rise", (*food, *films, "nitrate_calibration")),
        )  # fmt: skip
    if what == "ammonia_free":
        share = _best(ammonia_free_share(at.lanes.limit("ph"), water))
        return (
            Term("ammonia nitrogen in the food", _best(fed.supply * ratio), "mg/L/s",
                 "ammonia_supply", food),
            Term("taken up by the filter", -_best(eaten), "mg/L/s", "mature_film", films),
            Term("share of it that is free", share, "1", "ammonia_free_share",
                 ("ph", "water_temperature")),
        )  # fmt: skip
    still = stopped and not at.plan.faults.air_kept
    exchange = (fed.exchange_still if still else fed.exchange) * ratio
    name = "oxygen_exchange_still" if still else "oxygen_exchange"
    flow = "oxygen_transfer_still" if still else "oxygen_transfer_moving"
    lacking = oxygen_saturation(water) - now.oxygen
    return (
        Term("through the surface", _best(exchange * lacking), "mg/L/s", name,
             (flow, "inside_length", "inside_width", "water_volume")),
        Term("used by the filter's bacteria", -_best(used / _SPAN), "mg/L/s", "oxygen_uptake",
             (*food, *films)),
        Term("used by leftovers and droppings", -_best(fed.decay * ratio), "mg/L/s",
             "oxygen_uptake", ("feed_rate", "droppings_oxygen", "water_volume")),
    )  # fmt: skip


def _level(at: Moment) -> tuple[Term, ...]:
    rate = at.lanes.tank.evaporation(at.course.water[at.row], at.course.room[at.row])
    gone = at.course.evaporated[at.slow] - at.course.poured[at.slow]
    return (
        Term("evaporates", -_best(rate), "kg/s", "evaporation_rate",
             (*_SURFACE, "evaporation_factor")),
        Term("gone since the start and not yet topped up", -_best(gone), "kg", "top_up_volume",
             ("top_up_interval",)),
    )  # fmt: skip


CURVES: dict[str, tuple[str, Callable[[Moment], tuple[Term, ...]]]] = {
    "water_temperature": ("degC", _water),
    "room_temperature": ("degC", _room),
    "breathing_air": ("degC", _air),
    "platform_temperature": ("degC", lambda at: _follows(at, "platform")),
    "shell_temperature": ("degC", lambda at: _follows(at, "shell")),
    "uv_index_shell": ("1", _uv),
    "oxygen": ("mg/L", lambda at: _dissolved(at, "oxygen")),
    "ammonia_free": ("mg/L", lambda at: _dissolved(at, "ammonia_free")),
    "nitrate": ("mg/L", lambda at: _dissolved(at, "nitrate")),
    "water_level": ("m", _level),
}
"""Each curve of a run by name: its unit, and its terms at a moment."""


def terms_at(curve: str, at: Moment) -> tuple[Term, ...]:
    """What holds of a curve at a moment; CannotWorkOut where the tank has no such curve."""
    if curve not in CURVES:
        raise CannotWorkOut(f"no run has a curve called “{curve}”")
    return CURVES[curve][1](at)


def _best(lanes: Floats | float) -> float:
    return float(np.ravel(lanes)[0])
