"""Steps a tank through a plan and keeps its books: temperature, level, nitrogen, oxygen.

The water's temperature goes in short steps. What changes slowly (level, nitrogen, oxygen, rounds
of care) is worked out after each `rest`; in between it stands.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.core.constants import NITRATE_MASS, NITROGEN_MASS
from interview.core.heat.losses import mixed_temperature
from interview.core.time.dissolved.chemistry import Water, diluted, stepped, with_oxygen
from interview.core.time.heating import Averaged, Cycling, Fluxes, Heater
from interview.core.time.loss_table import LossTable
from interview.core.time.plan import DAY, Happenings, Plan, happenings
from interview.core.time.tank import Filter, TankInTime
from interview.core.water.nitrifiers import FIRST_DOSE, NITRITE_SHARE
from interview.core.water.properties import oxygen_saturation, water_density

__all__ = ["NITRATE_PER_NITROGEN", "Books", "Course", "started", "through"]

Floats: TypeAlias = NDArray[np.float64]
NITRATE_PER_NITROGEN = NITRATE_MASS / NITROGEN_MASS
_APART, _STUCK = (-8.0, 25.0), (-8.0, 50.0)
"""Water over room [K] that the table covers; beyond it goes on straight."""
_CHEMISTRY = DAY / 4  # s, longest step of nitrogen and oxygen
_LEAST_WATER = 0.02  # m; nothing evaporates from less
_OLD = 150 * DAY  # s, age from which a filter counts as full grown, our own choice
_SETTLING = 20 * DAY  # s, in which a full-grown one comes into balance with its food


@dataclass
class Books:
    """Everything that came in and went out since the start, tank by tank.

    Heat in J, counted from water at 0 degC; nitrogen in mg/L N of the usual volume.
    """

    heater: Floats
    free: Floats
    lost: Floats
    """Through walls, floor and top, vapour's latent heat included: what each step's heat leaves
    over, so that the residual holds the rounds of care to account, and the laws this."""
    brought: Floats
    """By tap water, less what old water and vapour carried off as liquid."""
    stored_first: Floats
    stored: Floats
    evaporated: Floats
    """[kg]"""
    poured: Floats
    """Top-ups [kg]."""
    fed: Floats
    swapped: Floats
    """Nitrogen that water changes and top-ups brought, less what they took."""
    otherwise: Floats
    """Nitrogen that food alone doesn't tell of, by a kit; below 0 what plants and mud took."""
    nitrogen_first: Floats

    @classmethod
    def opened(cls, stored: Floats, nitrogen: Floats) -> Books:
        """Books with nothing booked yet, from the heat and the nitrogen there are."""
        empty = {item.name: np.zeros_like(stored) for item in fields(cls)}
        return cls(
            **{**empty, "stored_first": stored, "stored": stored, "nitrogen_first": nitrogen}
        )

    @property
    def residual(self) -> Floats:
        """Heat that nothing accounts for, over all that passed through."""
        came = self.heater + self.free - self.lost + self.brought
        through = np.abs(self.heater) + np.abs(self.free) + np.abs(self.lost)
        missing: Floats = came - (self.stored - self.stored_first)
        share: Floats = missing / np.maximum(through, 1.0)
        return share


@dataclass(frozen=True)
class Course:
    """What a run found; times on the first axis, tanks on the last."""

    time: Floats
    """[s]; 0 where the faults begin, the start of the run before it."""
    room: Floats
    """[degC]"""
    water: Floats
    """[degC]"""
    heater: Floats
    """Share of the heaters' power that was used in each step; one less than there are times."""
    lit: Floats
    """Share of each step that the lamps burnt."""
    slow_time: Floats
    """When what changes slowly was worked out [s]."""
    level: Floats
    """Height of the water at each slow time [m]."""
    before_care: Floats
    """Water's temperature at the end of each rest, before what is done to it then [degC]."""
    dissolved: tuple[Water, ...]
    """At each slow time; () where there is no filter to follow."""
    books: Books
    poured: Floats
    """Top-ups so far, at each slow time [kg]."""
    evaporated: Floats
    """So far, at each slow time [kg]."""

    def of_tank(self, number: int, until: float) -> Course:
        """That of one tank of many, up to a time [s]; its books are left with all."""
        one = slice(number, number + 1)
        rows, slow = self.time <= until, self.slow_time <= until
        steps, rests = rows[1:], slow[1:]
        held = [water.of_tank(one) for water, now in zip(self.dissolved, slow, strict=False) if now]
        return Course(
            self.time[rows], self.room[rows, one], self.water[rows, one],
            self.heater[steps, one], self.lit[steps, one], self.slow_time[slow],
            self.level[slow, one], self.before_care[rests, one], tuple(held), self.books,
            self.poured[slow, one], self.evaporated[slow, one],
        )  # fmt: skip


def started(tank: TankInTime, fed: Filter, nitrate: Floats) -> Water:
    """What is dissolved at first: a filter of its age, in well aerated water.

    Args:
        tank: the tank
        fed: its filter
        nitrate [mg/L]: as the ion
    """
    held = np.full(tank.count, 1e-3)
    oxygen = np.asarray(oxygen_saturation(tank.setting))
    if not np.isfinite(fed.age) or fed.age > _OLD:
        water = Water(held, held, held, fed.mature, fed.mature / 3.0, oxygen)
        water = _let_live(water, tank, fed, _SETTLING)
        return replace(water, nitrate=nitrate / NITRATE_PER_NITROGEN)
    first = FIRST_DOSE * np.ones(tank.count)
    water = Water(first, 0 * held, 0 * held, fed.seed, NITRITE_SHARE * fed.seed, oxygen)
    water = _let_live(water, tank, fed, fed.age)
    return replace(water, nitrate=nitrate / NITRATE_PER_NITROGEN)


def _let_live(water: Water, tank: TankInTime, fed: Filter, time: float) -> Water:
    for _ in range(int(np.ceil(time / _CHEMISTRY))):
        water, _ = stepped(water, fed.supply, tank.setting, fed.pace, _CHEMISTRY)
    return water


def through(
    tank: TankInTime,
    plan: Plan | Sequence[Plan],
    water: Floats,
    dissolved: Water | None = None,
) -> Course:
    """Step the tank through the plan.

    Args:
        tank: one or many draws of it
        plan: what happens; or one for each draw, all with the same steps and start
        water [degC]: temperature at the start
        dissolved: what is in the water then; None where that isn't followed
    """
    plans = (plan,) if isinstance(plan, Plan) else tuple(plan)
    return _Run(tank, plans, water, dissolved).course()


class _Run:
    """One run on its way."""

    def __init__(
        self, tank: TankInTime, plans: Sequence[Plan], water: Floats, dissolved: Water | None
    ) -> None:
        self.tank, self.plans, self.plan = tank, plans, plans[0]
        self.water = np.array(np.broadcast_to(water, tank.count), dtype=float)
        self.on = self.water < tank.setting
        self.level = tank.level.copy()
        self.dissolved = dissolved if tank.filter else None
        self.share = np.zeros(tank.count)
        nothing = np.zeros(tank.count)
        nitrogen = dissolved.nitrogen if dissolved else nothing
        self.books = Books.opened(tank.stores * self.water, nitrogen)

    @property
    def stores(self) -> Floats:
        """Heat that warms all by one degree at the level there is [J/K]."""
        return self.tank.stores - self.tank.heat_of_water(self.tank.level - self.level)

    @property
    def ratio(self) -> Floats:
        """The usual volume over the volume there is."""
        return self.tank.volume_ratio(self.level)

    def course(self) -> Course:
        """Go through it all."""
        plan, tank = self.plan, self.tank
        length = max(one.length for one in self.plans)
        steps = max(round(plan.rest / plan.step), 1)
        rests = int(np.ceil((length + plan.settling) / (steps * plan.step) - 1e-9))
        count = np.arange(rests * steps + 1, dtype=np.float64)
        time: Floats = -plan.settling + plan.step * count
        given = happenings(self.plans, tank.weather, tank.day_length, time, steps)
        room = given.middle_room
        alone = None if len(self.plans) == 1 else 0
        ends = (room.min(axis=alone), room.max(axis=alone))
        apart = _STUCK if given.stuck.any() else _APART
        table = LossTable(tank.losses, ends, apart, tank.count)
        shape = (len(time), tank.count)
        waters, heater = np.empty(shape), np.empty(given.lit.shape)
        waters[0] = self.water
        before_care = []
        slow = [(self.level, self.dissolved, self.books.poured, self.books.evaporated)]
        for rest in range(rests):
            rows = slice(rest * steps, (rest + 1) * steps)
            self._short_steps(rows, given, table, waters, heater)
            before_care.append(self.water)
            mean = waters[rest * steps : rows.stop + 1].mean(axis=0)
            around = room[rows].mean(axis=0)
            self._slow_step(rest, given, (time[rows.start], time[rows.stop]), mean, around)
            waters[rows.stop] = self.water
            slow.append((self.level, self.dissolved, self.books.poured, self.books.evaporated))
        levels, held, poured, gone = zip(*slow, strict=True)
        return Course(
            time, given.room, waters, heater, given.lit, time[::steps],
            np.stack(levels), np.stack(before_care),
            tuple(one for one in held if one is not None), self.books,
            np.stack(poured), np.stack(gone),
        )  # fmt: skip

    def _short_steps(
        self, rows: slice, given: Happenings, table: LossTable, waters: Floats, heater: Floats
    ) -> None:
        tank, step = self.tank, self.plan.step
        room = given.middle_room
        by = table.about(room[rows].mean(axis=0), self.level / tank.level)
        free = tank.lamp_heat * given.lit[rows] + tank.pump_heat * given.pumping[rows]
        stuck = tank.heater * given.stuck[rows]
        stores = self.stores
        for n, row in enumerate(range(rows.start, rows.stop)):
            now = self._heater(tank.heater * given.obeying[row])
            fluxes = Fluxes(free[n] + stuck[n], stores, room[row], step)
            after = now.after(self.water, self.on, by, fluxes)
            self.water, self.on = after.water, after.on
            waters[row + 1] = after.water
            heater[row] = after.energy + stuck[n] * step
        used, given_free = heater[rows].sum(axis=0), free.sum(axis=0) * step
        gained = stores * (self.water - waters[rows.start])
        self.books.heater += used
        self.books.free += given_free
        self.books.lost += used + given_free - gained
        heater[rows] /= np.maximum(tank.heater, 1e-9) * step

    def _heater(self, power: Floats) -> Heater:
        if self.plan.averaged:
            return Averaged(power, self.tank.setting)
        return Cycling(power, self.tank.setting, self.tank.band)

    def _slow_step(
        self, rest: int, given: Happenings, over: tuple[float, float], water: Floats, room: Floats
    ) -> None:
        """Evaporation, nitrogen and oxygen, then the rounds of care that fall into the rest."""
        start, end = over
        tank, books = self.tank, self.books
        density = np.asarray(water_density(tank.setting))
        before = self.stores
        gone = np.maximum(tank.evaporation(water, room), 0.0) * (end - start)
        dry = np.maximum(tank.level - tank.volume / tank.area, 0.0)  # stones and sand hold none
        least = np.minimum(self.level, dry + _LEAST_WATER)
        left = np.maximum(self.level - gone / density / tank.area, least)
        books.evaporated = books.evaporated + (self.level - left) * tank.area * density
        self.level = left
        books.brought = books.brought - (before - self.stores) * self.water
        if self.dissolved is not None and tank.filter is not None:
            runs, stirred = given.filtered[rest], given.stirred[rest]
            self._live(tank.filter, self.dissolved, end - start, water, runs, stirred)
        if given.cared[rest].any():
            self._care(start, end, given.cared[rest])
        books.stored = self.stores * self.water

    def _live(
        self, fed: Filter, dissolved: Water, lasts: float, temperature: Floats,
        runs: NDArray[np.bool_], stirred: NDArray[np.bool_],
    ) -> None:  # fmt: skip
        exchange = np.where(stirred, fed.exchange, fed.exchange_still)
        works, ratio = np.where(runs, 1.0, 0.0), self.ratio
        parts = max(int(np.ceil(lasts / _CHEMISTRY)), 1)
        step = lasts / parts
        now = _scaled(dissolved, ratio)
        for _ in range(parts):
            after, used = stepped(now, fed.supply * ratio, temperature, fed.pace, step, works)
            made = (after.nitrate - now.nitrate) * (fed.nitrate_share - 1.0)
            after = replace(after, nitrate=after.nitrate + made)
            self.books.otherwise = self.books.otherwise + made / ratio
            uptake = used / step + fed.decay * ratio
            oxygen = with_oxygen(now.oxygen, temperature, exchange * ratio, uptake, step)
            now = replace(after, oxygen=oxygen)
        self.books.fed = self.books.fed + fed.supply * lasts
        self.dissolved = _scaled(now, 1.0 / ratio)

    def _care(self, start: float, end: float, cared: NDArray[np.bool_]) -> None:
        """A water change or a top-up, for the tanks whose time it is."""
        fed = self.tank.filter
        interval, share = (fed.change_interval, fed.change_share) if fed else (np.inf, 0.0)
        changed = _due(start, end, interval) & (np.asarray(share) > 0) & cared
        topped = (_due(start, end, self.tank.top_up_interval) & cared) | changed
        if not topped.any():
            return
        tank, before = self.tank, self.stores
        held = self.water * before
        full = tank.level
        kept = np.where(changed, 1.0 - np.asarray(share), 1.0) / self.ratio
        new = np.where(topped, 1.0 - kept, 0.0)
        deficit = np.where(topped, full - self.level, 0.0)
        self.level = np.where(topped, full, self.level)
        water_share = tank.heat_of_water(tank.volume / tank.area) / tank.stores
        self.water = np.asarray(
            mixed_temperature(self.water, tank.tap_temperature, new, 1.0 - water_share)
        )
        self.books.brought = self.books.brought + self.stores * self.water - held
        density = np.asarray(water_density(tank.setting))
        self.books.poured = self.books.poured + deficit * tank.area * density
        if self.dissolved is not None and fed is not None:
            self._swap(fed, self.dissolved, np.where(changed, share, 0.0), new)

    def _swap(self, fed: Filter, held: Water, taken: Floats, new: Floats) -> None:
        """Nitrogen carried out with old water and in with new, per usual volume."""
        first = held.nitrogen
        tap = fed.tap_nitrate / NITRATE_PER_NITROGEN
        self.dissolved = replace(
            held,
            ammonia=diluted(held.ammonia, taken),
            nitrite=diluted(held.nitrite, taken),
            nitrate=diluted(held.nitrate, taken) + new * tap,
        )
        self.books.swapped = self.books.swapped + self.dissolved.nitrogen - first


def _scaled(water: Water, ratio: Floats) -> Water:
    """Per volume there is, from per usual volume; oxygen is told per volume there is anyway."""
    return Water(
        water.ammonia * ratio, water.nitrite * ratio, water.nitrate * ratio,
        water.eaters * ratio, water.finishers * ratio, water.oxygen,
    )  # fmt: skip


def _due(start: float, end: float, interval: Floats | float) -> NDArray[np.bool_]:
    """Whether a round that comes at every interval falls between two moments."""
    due: NDArray[np.bool_] = np.floor(end / interval) > np.floor(start / interval)
    return due
