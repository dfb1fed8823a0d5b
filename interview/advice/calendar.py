"""What to do when: computed from this tank's own figures."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.audit.judge import Tank
from interview.core.laws.water import nitrate_after_changes
from interview.phrases import fill

__all__ = ["Duty", "calendar"]

_DAY = 86400.0
_NITRATE = (
    "nitrate_rise", "water_change_interval", "water_change_share", "tap_nitrate", "nitrate",
)  # fmt: skip
_SEASON = 91  # days
_FAR = 4 * 365.25 * _DAY  # beyond that nobody keeps a calendar


@dataclass(frozen=True)
class Duty:
    """One thing to do: how often or by when, and what."""

    when: str
    what: str


def calendar(tank: Tank, today: datetime.date) -> tuple[Duty, ...]:
    """The tank's duties, the most frequent first; those whose figures are unknown are left out."""
    return tuple(duty for make in _DUTIES for duty in make(tank, today))


def _said(tank: Tank, text: str) -> str | None:
    return fill(text, tank.lookup, tank.unit_of, tank.system)


def _has(tank: Tank, kind: str) -> bool:
    return tank.lookup(kind) not in (None, "none")


def _daily(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    yield Duty("every day", "Look at animal, filter, heater and lamps; read the water's warmth.")
    if said := _said(tank, "Top up about {evaporation_rate}, what evaporates."):
        yield Duty("every day", said)


def _feeding(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    if said := _said(tank, "Feed {feed_mass}; take out what is left after a quarter of an hour."):
        times = _said(tank, "{feeds_per_week}")
        if times:
            yield Duty(times, said)


def _weekly(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    yield Duty("every week", "Test ammonia and nitrite while the filter is young, nitrate always.")


def _water_change(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    share, volume = tank.lookup("water_change_share"), tank.lookup("water_volume")
    interval = _said(tank, "{water_change_interval}")
    if share is None or volume is None or interval is None:
        return
    litres = {"litres": float(share) * float(volume)}

    def look(name: str) -> Any:
        return litres.get(name) or tank.lookup(name)

    unplug = "; unplug the heater first" if _has(tank, "heater_mount") else ""
    text = f"Change {{litres}} of water, mixed to {{target_water_temperature}}{unplug}."
    said = fill(text, look, lambda n: "m**3" if n == "litres" else tank.unit_of(n), tank.system)
    if said:
        yield Duty(f"every {interval}", said)


def _monthly(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    if _has(tank, "filter_kind"):
        yield Duty("every month", "Rinse half of the filter's foam in tank water.")
    yield Duty(
        "every month",
        "Press the GFCI's or RCD's test button; weigh the turtle and measure its shell.",
    )


def _again(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    """When to measure and to audit again: the seasons change the room, and lamps fade."""
    due = (today + datetime.timedelta(days=_SEASON)).isoformat()
    lamp = "the basking surface and " if _has(tank, "heat_lamp_kind") else ""
    yield Duty(f"by {due}", f"Measure {lamp}the room again and go through a recheck; each season.")


def _nitrate(tank: Tank, today: datetime.date) -> Iterator[Duty]:
    """When the kit's reading will pass the limit in spite of the changes."""
    known = {name: tank.lookup(name) for name in _NITRATE}
    limit, interval = tank.lookup("nitrate_limit"), known["water_change_interval"]
    if any(value is None for value in known.values()) or not interval or limit is None:
        return
    if float(known["nitrate"]) > limit:
        if said := _said(tank, "Nitrate is over {nitrate_limit}: change water."):
            yield Duty("now", said)
        return
    changes = np.arange(1.0, int(_FAR / float(interval)) + 2)
    over = np.flatnonzero(nitrate_after_changes(**known, changes=changes) > limit)
    said = _said(tank, "Nitrate passes {nitrate_limit} about then: change more before it does.")
    if len(over) and said:
        due = today + datetime.timedelta(seconds=float(interval) * int(changes[over[0]]))
        yield Duty(f"by {due.isoformat()}", said)


def _dated(
    name: str, text: str, *, overdue: bool = True
) -> Callable[[Tank, datetime.date], Iterator[Duty]]:
    """A duty due when a quantity of time runs out; `overdue` ones are due now."""

    def make(tank: Tank, today: datetime.date) -> Iterator[Duty]:
        left = tank.lookup(name)
        if left is None or not np.isfinite(left) or left >= _FAR or (left <= 0 and not overdue):
            return
        due = today + datetime.timedelta(seconds=float(left))
        yield Duty("now" if left <= 0 else f"by {due.isoformat()}", text)

    return make


_DUTIES: tuple[Callable[[Tank, datetime.date], Iterator[Duty]], ...] = (
    _daily,
    _feeding,
    _weekly,
    _water_change,
    _monthly,
    _again,
    _dated(
        "cycling_time_left",
        "Expect the filter to be ripe; test before trusting it.",
        overdue=False,
    ),
    _nitrate,
    _dated("uvb_lamp_time_left", "Renew the UVB lamp, then watch the turtle's eyes for two weeks."),
    _dated("outgrow_time", "Move to a larger tank: this one is outgrown."),
)
