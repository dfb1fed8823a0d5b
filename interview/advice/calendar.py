"""What to do when: computed from this tank's own figures."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.advice.purchase.housing import SIDES
from interview.advice.purchase.in_shops import in_shops
from interview.advice.purchase.larger_tank import grown_tank, least_size, needed
from interview.advice.purchase.parting import must_part
from interview.advice.what_if.suppose import changed_working, same
from interview.audit.checks.findings import Finding
from interview.audit.tank import Tank
from interview.base.templates import by_number
from interview.core.water.properties import nitrate_after_changes
from interview.vocabulary.phrases import fill, rounded

__all__ = ["Duty", "calendar"]

_DAY = 86400.0
_NITRATE = (
    "nitrate_rise", "water_change_interval", "water_change_share", "tap_nitrate", "nitrate",
)  # fmt: skip
_SEASON = 91  # days
_DAILY = 7.0  # times a week
_MONTH = 30.4375 * _DAY
_TEST = (
    "Press the GFCI's or RCD's test button; weigh [the turtle and measure its shell|the turtles "
    "and measure their shells]."
)
_NOW = "now"
_BY = "by "
_LAMP_STEPS = 200
_THIS = "this one is outgrown"
_NOTICED = 0.1
"""Of the zone's low edge: less no keeper's meter tells apart, our own choice."""
_FAR = 4 * 365.25 * _DAY  # beyond that nobody keeps a calendar


@dataclass(frozen=True)
class Duty:
    """One thing to do: how often or by when, and what; `every` so many seconds, if again."""

    when: str
    what: str
    every: float | None = None

    @property
    def due(self) -> datetime.date | None:
        """The day by which it is to be done; None for what is due now or comes again."""
        day = self.when.removeprefix(_BY)
        return None if day == self.when else datetime.date.fromisoformat(day)


def calendar(
    tank: Tank,
    today: datetime.date,
    *,
    dangers: Iterable[Finding] = (),
    before: Tank | None = None,
) -> tuple[Duty, ...]:
    """The tank's duties: what is due now, what comes again, the most frequent first, then dates.

    Those whose figures are unknown are left out.

    Args:
        tank: the tank, as it will be after the plan where there is one
        today: from when dates count
        dangers: what has to be ended now, the gravest first
        before: the tank as it is, where the plan changes it
    """
    duties = [duty for make in _DUTIES for duty in make(tank, today)]
    duties += _water_change(tank, before or tank)
    duties += (*_lamp(tank, today, before or tank), *_outgrown(tank, today, before or tank))
    ended = [Duty(_NOW, finding.do) for finding in dangers if finding.do]
    now = [*ended, *(duty for duty in duties if duty.when == _NOW)]
    again = [duty for duty in duties if duty.every is not None]
    dated = [duty for duty in duties if duty not in now and duty.every is None]
    return (
        *now,
        *sorted(again, key=lambda duty: duty.every or 0.0),
        *sorted(dated, key=lambda duty: duty.when),
    )


def _said(tank: Tank, text: str) -> str | None:
    return fill(text, tank.lookup, tank.unit_of, tank.system)


def _has(tank: Tank, kind: str) -> bool:
    return tank.lookup(kind) not in (None, "none")


def _daily(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    look = "Look at animal, filter, heater and lamps; read the water's warmth."
    yield Duty("every day", look, _DAY)
    if said := _said(tank, "Top up about {evaporation_rate}, what evaporates."):
        yield Duty("every day", said, _DAY)


def _feeding(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    """The portion given; where that is far from the need, the portion needed."""
    if _not_ripe(tank) and tank.lookup("stage") == "set_up":
        pinch = "Drop in a pinch of food: the filter's bacteria live on what it gives off."
        yield Duty("every day", pinch, _DAY)
        return
    times, often = _said(tank, "{feeds_per_week}"), tank.lookup("feeds_per_week")
    share, need = tank.lookup("feed_share"), tank.lookup("feed_need")
    if not (times and often):
        return
    portion, than_now = tank.lookup("feed_mass"), ""
    if share is not None and need is not None:
        low, high = tank.lookup("feed_share_close_low"), tank.lookup("feed_share_close_high")
        if not low <= float(share) <= high:
            portion = float(need) * 7 * _DAY / float(often)
            than_now = " (less than now)" if float(share) > high else " (more than now)"
    if portion is not None:
        amount = rounded(portion, "kg", tank.system, "feed_mass")
        said = f"Feed {amount}{than_now}; take out what is left after a quarter of an hour."
        yield Duty("every day" if often == _DAILY else times, said, 7 * _DAY / float(often))


def _weekly(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    test = "Test nitrate." if _settled(tank) else "Test ammonia, nitrite and nitrate."
    yield Duty("every week", test, 7 * _DAY)


def _settled(tank: Tank) -> bool:
    """Whether the filter is known to be ripe, and the kit found nothing that it has to clear."""
    ripe, read = tank.lookup("cycling_time_left"), [tank.lookup(n) for n in ("ammonia", "nitrite")]
    return ripe is not None and float(ripe) <= 0 and read == [0.0, 0.0]


def _not_ripe(tank: Tank) -> bool:
    left = tank.lookup("cycling_time_left")
    return left is not None and float(left) > 0


def _stocked(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    """No animal goes into a tank whose filter is not ripe; who is in it gets clean water."""
    if _not_ripe(tank) and tank.lookup("stage") == "set_up":
        text = (
            "Put no [turtle|turtles] in yet, or keep [it|them] in a tub of clean, warm water "
            "changed daily, until ammonia and nitrite have read zero for a week."
        )
        yield Duty(_NOW, by_number(text, tank.several))


def _water_change(tank: Tank, before: Tank) -> Iterator[Duty]:
    share, volume = tank.lookup("water_change_share"), tank.lookup("water_volume")
    interval = _said(tank, "{water_change_interval}")
    if share is None or volume is None or interval is None:
        return
    litres = {"litres": float(share) * float(volume)}

    def look(name: str) -> Any:
        return litres.get(name) or tank.lookup(name)

    unplug = "; unplug the heater first" if _has(tank, "heater_mount") else ""
    peak, limit = tank.lookup("nitrate_peak"), tank.lookup("nitrate_close")
    short = " (more often, or more: nitrate climbs too high)"
    more = short if peak is not None and limit is not None and float(peak) > limit else ""
    text = f"Change {{litres}} of water{more}, mixed to {{{_warmth(tank, before)}}}{unplug}."
    said = fill(text, look, lambda n: "m**3" if n == "litres" else tank.unit_of(n), tank.system)
    if said:
        yield Duty(f"every {interval}", said, float(tank.lookup("water_change_interval")))


def _warmth(tank: Tank, before: Tank) -> str:
    """How warm new water is to be: as the plan has it mixed, else as the tank's own."""
    if not same(before.best.known.get("tap_temperature"), tank.best.known.get("tap_temperature")):
        return "tap_temperature"
    known = tank.lookup("water_temperature") is not None and _has(tank, "heater_mount")
    return "water_temperature" if known else "target_water_temperature"


def _monthly(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    if _has(tank, "filter_kind"):
        yield Duty("every month", "Rinse half of the filter's foam in tank water.", _MONTH)
    yield Duty(
        "every month",
        by_number(_TEST, tank.several),
        _MONTH,
    )


def _again(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    """When to measure and to audit again: the seasons change the room, and lamps fade."""
    due = (today + datetime.timedelta(days=_SEASON)).isoformat()
    what = "spot and room" if _has(tank, "heat_lamp_kind") else "the room"
    yield Duty(f"{_BY}{due}", f"Measure {what} again; as a recheck, each season.")


def _nitrate(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    """When the kit's reading will pass the limit in spite of the changes."""
    known = {name: tank.lookup(name) for name in _NITRATE}
    limit, interval = tank.lookup("nitrate_limit"), known["water_change_interval"]
    if any(value is None for value in known.values()) or not interval or limit is None:
        return
    if float(known["nitrate"]) > limit:
        if said := _said(tank, "Nitrate is over {nitrate_limit}: change water."):
            yield Duty(_NOW, said)
        return
    changes = np.arange(1.0, int(_FAR / float(interval)) + 2)
    before = np.asarray(nitrate_after_changes(**known, changes=changes))
    over = np.flatnonzero(before > limit)
    said = _said(tank, "Nitrate passes {nitrate_limit} about then: change more before it does.")
    if len(over) and said:
        rise = float(known["nitrate_rise"])
        late = (float(before[over[0]]) - limit) / rise if rise > 0 else 0.0
        left = float(interval) * float(changes[over[0]]) - late
        if today + datetime.timedelta(seconds=left) > today:
            yield from _due(left, said, today)
        elif now := _said(tank, "Nitrate is about to pass {nitrate_limit}: change water."):
            yield Duty(_NOW, now)


def _lamp(tank: Tank, today: datetime.date, before: Tank) -> Iterator[Duty]:
    """When the UVB lamp is spent: its output gone, or the index at the shell below its zone.

    One that is good for longer than until then is hung lower first.
    """
    left = tank.lookup("uvb_lamp_time_left")
    if left is None:
        return
    below = _time_to_leave_zone(tank, float(left))
    why = ""
    if below is not None:
        moved = not same(before.lookup("uv_index_shell"), tank.lookup("uv_index_shell"))
        hung = "as it hangs after the plan, " if moved else ""
        why = (
            _said(tank, f" ({hung}its index at the shell falls a tenth under {{uv_zone_low}})")
            or ""
        )
    early = below is not None and below < float(left) / 2
    do = "Hang the UVB lamp a little lower, or renew it" if early else "Renew the UVB lamp"
    text = f"{do}{why}, then watch the [turtle's|turtles'] eyes for two weeks."
    text = by_number(text, tank.several)
    yield from _due(float(left) if below is None else below, text, today)


def _time_to_leave_zone(tank: Tank, left: float) -> float | None:
    """Seconds until the ageing lamp is a tenth under the zone; None if not before `left`."""
    age, edge = tank.best.known.get("uvb_lamp_age"), tank.lookup("uv_zone_low")
    low = None if edge is None else (1.0 - _NOTICED) * edge
    index, lit = tank.lookup("uv_index_shell"), tank.lookup("day_length")
    if None in (age, low, index, lit) or index < low or not np.isfinite(left) or left <= 0:
        return None
    times = np.linspace(0.0, left, _LAMP_STEPS)
    ages = float(age) + times * float(lit) / _DAY  # type: ignore[arg-type]
    later = changed_working(tank.best, tank.best, {"uvb_lamp_age": ages}, reread=False)
    out = np.flatnonzero(np.asarray(later.value("uv_index_shell")) < low)
    return float(times[out[0]]) if len(out) else None


def _due(left: float, text: str, today: datetime.date) -> Iterator[Duty]:
    if np.isfinite(left) and left < _FAR:
        due = today + datetime.timedelta(seconds=left)
        yield Duty(_NOW if due <= today else f"{_BY}{due.isoformat()}", text)


def _dated(
    name: str, text: str, *, overdue: bool = True
) -> Callable[[Tank, datetime.date], Iterator[Duty]]:
    """A duty due when a quantity of time runs out; `overdue` ones are due now."""

    def make(tank: Tank, today: datetime.date) -> Iterator[Duty]:
        left = tank.lookup(name)
        if left is not None and (left > 0 or overdue):
            yield from _due(float(left), text, today)

    return make


def _outgrown(tank: Tank, today: datetime.date, before: Tank) -> Iterator[Duty]:
    """When another tank is due; a pond or a rescue's place where none is sold that does.

    Of animals that must be parted each has a tank of its own by then, which nobody knows yet.
    """
    left = tank.lookup("outgrow_time")
    if left is None or must_part(tank):
        return
    sold = least_size(tank, needed(tank))
    move = f"Move to a tank of {grown_tank(tank)}"
    where = move if sold else "Have a pond, or a place found by a rescue"
    larger = any(not same(before.lookup(side), tank.lookup(side)) for side in SIDES)
    which = f"the one of {in_shops(tank)['outside']} is outgrown too" if larger else _THIS
    yield from _due(float(left), f"{where}: {which}.", today)


_DUTIES: tuple[Callable[[Tank, datetime.date], Iterator[Duty]], ...] = (
    _stocked,
    _daily,
    _feeding,
    _weekly,
    _monthly,
    _again,
    _dated(
        "cycling_time_left",
        "Expect the filter to be ripe; test before trusting it.",
        overdue=False,
    ),
    _nitrate,
)
