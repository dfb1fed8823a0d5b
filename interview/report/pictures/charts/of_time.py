"""What time does: nitrate between changes, a new filter's start, an animal that grows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from interview.audit.tank import Tank
from interview.base.show import magnitude
from interview.core.animal.growth_curves import (
    projected_length,
    projected_length_high,
    projected_length_low,
)
from interview.core.errors import CannotWorkOut
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.charts.numbers import number_of
from interview.report.pictures.plot import (
    Area,
    Axis,
    Limit,
    Plot,
    Series,
    Spot,
    in_keepers_units,
)
from interview.vocabulary.phrases import rounded

__all__ = ["growth_chart", "nitrate_chart", "start_up_chart"]

_DAY = 86400.0
_YEAR = 365.25 * _DAY
_LONGEST = 150  # days of nitrate
_CHANGES = 8
_YEARS = 10.0
_POINTS = 41


def nitrate_chart(tank: Tank, after: Tank | None) -> Iterator[Chart]:
    """Nitrate from today on with the changes as they are, and as the plan has them."""
    limit, interval = number_of(tank, "nitrate_limit"), number_of(tank, "water_change_interval")
    if limit is None or interval is None or number_of(tank, "nitrate_peak") is None:
        return
    days = min(max(_CHANGES * interval / _DAY, 30.0), _LONGEST)
    start = number_of(tank, "nitrate") or number_of(tank, "tap_nitrate") or 0.0
    series = [_sawtooth("changes as they are", tank, start, days)]
    peak = rounded(number_of(tank, "nitrate_peak"), "mg/L", tank.system, "nitrate_peak")
    words = f"With the changes as they are nitrate climbs to {peak} before each change."
    if after and (then := number_of(after, "nitrate_peak")) is not None:
        shown = rounded(then, "mg/L", tank.system, "nitrate_peak")
        if shown != peak:
            series.append(_sawtooth("after the plan", after, start, days, second=True))
            words += f" After the plan to {shown}."
    most = max(limit, start, *(max(one.y) for one in series))
    said = rounded(limit, "mg/L", tank.system, "nitrate")
    plot = Plot(
        Axis("from today on", "days", 0.0, days),
        Axis("nitrate", "mg/L", 0.0, most * 1.08),
        tuple(series),
        limits=(Limit(f"not over {said}", limit),),
    )
    yield Chart(
        "nitrate", "Nitrate between water changes", words, plot, ("nitrate", "nitrate_today")
    )


def _sawtooth(name: str, tank: Tank, start: float, days: float, *, second: bool = False) -> Series:
    """Up with the food, down with each change, the first an interval from now."""
    rise = (number_of(tank, "nitrate_rise") or 0.0) * _DAY
    every = max((number_of(tank, "water_change_interval") or _DAY) / _DAY, 0.5)
    share, tap = (number_of(tank, n) or 0.0 for n in ("water_change_share", "tap_nitrate"))
    x, y = [0.0], [start]
    while x[-1] + every < days:
        x += [x[-1] + every] * 2
        y.append(y[-1] + rise * every)
        y.append(y[-1] * (1 - share) + tap * share)
    rest = days - x[-1]
    return Series(name, (*x, days), (*y, y[-1] + rise * rest), second)


def start_up_chart(tank: Tank, after: Tank | None) -> Iterator[Chart]:
    """How many filters of a hundred like this one are ripe by which day; none for a ripe one."""
    times = [number_of(tank, f"cycling_time{edge}") for edge in ("_low", "", "_high")]
    left = number_of(tank, "cycling_time_left")
    low, middle, high = times
    if not left or low is None or middle is None or high is None or not low < middle < high:
        return
    age = number_of(tank, "filter_age") or 0.0
    end = high * high / middle
    when = np.linspace(0.0, end, _POINTS)[1:]
    spread = np.where(when < middle, math.log(middle / low), math.log(high / middle))
    ripe = [50 * (1 + math.erf(z / math.sqrt(2))) for z in np.log(when / middle) / spread]
    x = (0.0, *(float(t / _DAY) for t in when))
    from_to = (low / _DAY, high / _DAY)
    days = f"day {from_to[0]:.0f} to {from_to[1]:.0f}"
    spots = (Spot(f"today, day {age / _DAY:.0f}", age / _DAY, 0.0),) if age < end else ()
    words = (
        f"Of a hundred new filters like this one half are ripe by day {middle / _DAY:.0f}, "
        f"16 by day {from_to[0]:.0f}, 84 by day {from_to[1]:.0f}. Test before trusting it."
    )
    plot = Plot(
        Axis("after the filter was started", "days", 0.0, end / _DAY),
        Axis("ripe, of a hundred", "", 0.0, 100.0),
        (Series("filters that are ripe", x, (0.0, *ripe)),),
        (Area(f"most, {days}", from_to, (0.0,) * 2, (100.0,) * 2),),
        spots=spots,
    )
    yield Chart("start_up", "When the new filter is ripe", words, plot, ("cycling",))


def growth_chart(tank: Tank, after: Tank | None) -> Iterator[Chart]:
    """The shell of the animal that outgrows the tank first, and how long a shell fits it."""
    fits, when = number_of(tank, "fitting_carapace_length"), number_of(tank, "outgrow_time")
    animal = _first_to_outgrow(tank)
    if fits is None or when is None or animal is None:
        return
    species, sex, length, factor = animal
    years = min(max(2.0 * when / _YEAR, 3.0), _YEARS)
    after_years = np.linspace(0.0, years, _POINTS)
    try:
        when_s = after_years * _YEAR
        low, high = (
            np.ravel(law(species, sex, length, when_s))
            for law in (projected_length_low, projected_length_high)
        )
        middle = np.ravel(projected_length(species, sex, length, when_s, factor))
        soonest = number_of(tank, "outgrow_time_low")
        if 0 < when < years * _YEAR and soonest and middle.max() < fits:
            # As its time was worked out: towards the end of the adult range, at this one's pace.
            pace = soonest / when
            middle = np.ravel(projected_length_high(species, sex, length, when_s * pace))
    except CannotWorkOut:
        return
    to_y, label = in_keepers_units("m", tank.system, "carapace_length", [float(high.max())])
    x = tuple(map(float, after_years))
    lines = [tuple(to_y(float(v)) for v in line) for line in (low, middle, high)]
    limit = rounded(fits, "m", tank.system, "carapace_length")
    said = _in_time(when)
    most = max(to_y(fits), *lines[2]) * 1.05
    plot = Plot(
        Axis("from today on", "years", 0.0, years),
        Axis("shell length", label, 0.0, most),
        (Series("shell, by the likely growth", x, lines[1]),),
        (Area("slow as in the wild to fast and large", x, lines[0], lines[2], "doubt"),),
        (Limit(f"fits this tank: {limit}", to_y(fits)),),
        (Spot(f"outgrown {said}", when / _YEAR, to_y(fits)),) if when <= years * _YEAR else (),
    )
    words = (
        f"A shell up to {limit} long fits this tank; by the likely growth it is outgrown {said}."
    )
    yield Chart("growth", "When the tank is outgrown", words, plot, ("outgrow",))


def _in_time(seconds: float) -> str:
    if seconds <= 0:
        return "already"
    amount, label = magnitude(seconds, "s", "metric")
    return f"in {amount:.1f} {label}" if amount < 10 else f"in {amount:.0f} {label}"


def _first_to_outgrow(tank: Tank) -> tuple[str, str, float, float | None] | None:
    """Kind, sex, length and pace of the longest of the animals."""
    known = tank.best.known
    rows: Sequence[int] = [animal.row for animal in tank.animals]
    lengths, sexes = known.get("carapace_length"), known.get("sex")
    if lengths is None or not rows:
        return None
    row = max(rows, key=lambda n: float(lengths[n]))
    factors = tank.best.get("each_growth_factor")
    factor = None if factors is None else float(np.atleast_1d(factors)[row])
    sex = str(sexes[row]) if sexes else "unknown"
    return str(known["species"][row]), sex, float(lengths[row]), factor
