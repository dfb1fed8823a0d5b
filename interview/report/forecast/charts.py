"""The charts of a day, a year and of mishaps: temperatures over time, with what is wanted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.forecast.day import Day
from interview.advice.forecast.mishaps import Outcome, Passed
from interview.advice.forecast.year import Year
from interview.report.blocks import Drawing, Heading
from interview.report.forecast.said import Band, reach
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.plot import Area, Axis, Limit, Plot, Series, in_keepers_units
from interview.vocabulary.phrases import ranged, rounded

__all__ = ["day_drawings", "mishap_drawings", "year_drawing"]

Floats: TypeAlias = NDArray[np.float64]
_HOUR = 3600.0
_WIDTH = 60
_POINTS = 145
_ROOM = 0.06  # of the span, above and below


def day_drawings(day: Day, bands: dict[str, Band], system: str) -> Iterator[Drawing]:
    """Water and room through a day; under a lamp shell and platform too.

    Args:
        day: the day
        bands: what is wanted of the water and of the shell [degC], where it is known
        system: units
    """
    hours = day.time / _HOUR
    words = f"Through the day the water goes from {reach(day.water, 'degC', system)}."
    lines = (("water", day.curves["water"]), ("room", day.curves["room"]))
    x = Axis("since midnight", "h", 0.0, 24.0)
    yield _drawn(Chart("day", "Water and room through the day", words,
                       _plot(x, hours, lines, bands.get("water"), system)))  # fmt: skip
    if "shell" in day.curves and day.shell is not None:
        words = f"Under the lamp the shell reaches {rounded(day.shell.best, 'degC', system)}."
        lines = (("shell", day.curves["shell"]), ("platform", day.curves["platform"]))
        yield _drawn(Chart("day_basking", "Shell and platform through the day", words,
                           _plot(x, hours, lines, bands.get("shell"), system)))  # fmt: skip


def year_drawing(year: Year, band: Band, system: str) -> Drawing:
    """Water and room week by week."""
    water = year.weeks["water"]
    low, high = (rounded(end, "degC", system) for end in (water.min(), water.max()))
    words = f"Week by week the water is between {low} and {high}."
    words = f"Week by week the water stays near {low}." if low == high else words
    weeks = (np.arange(len(water)) + 0.5) / len(water) * 12.0
    lines = (("water", water), ("room", year.weeks["room"]))
    plot = _plot(Axis("from January on", "months", 0.0, 12.0), weeks, lines, band, system)
    return _drawn(Chart("year", "Water and room through the year", words, plot))


def mishap_drawings(outcomes: Sequence[Outcome], system: str) -> Iterator[Heading | Drawing]:
    """Water and room through the mishap that cools the tank most, and the one that warms it most.

    Only where the water passes a limit that it had not passed before; with the doubt of the water.
    """
    told = [one for one in outcomes if _heat_limit(one)]
    cold = min((one for one in told if one.lowest), key=lambda one: one.water.best, default=None)
    hot = max((one for one in told if not one.lowest), key=lambda o: o.water.best, default=None)
    for outcome in (cold, hot):
        if outcome is not None:
            yield Heading(3, outcome.mishap.title)
            yield _mishap_drawing(outcome, system)


def _heat_limit(outcome: Outcome) -> Passed | None:
    """The limit of the water that is passed first after it began; None where none is."""
    passed = (one for one in outcome.passed if one.watched.of == "water")
    return next((one for one in passed if 0 < one.when.best < np.inf), None)


def _mishap_drawing(outcome: Outcome, system: str) -> Drawing:
    curves, first = outcome.curves, _heat_limit(outcome)
    hours = curves["time"] / _HOUR
    x = Axis("since it began", "h", 0.0, float(hours[-1]))
    lines = (("water", curves["water"]), ("room", curves["room"]))
    doubt = (curves["water_low"], curves["water_high"])
    end = rounded(outcome.water.best, "degC", system)
    words = f"The water {'falls to' if outcome.lowest else 'reaches'} {end}."
    plot = _plot(x, hours, lines, None, system, doubt, first.value if first else None)
    name, title = f"mishap_{outcome.mishap.mishap}", outcome.mishap.title
    return _drawn(Chart(name, title, words, plot))


def _plot(
    x: Axis,
    time: Floats,
    lines: tuple[tuple[str, Floats], ...],
    band: Band,
    system: str,
    doubt: tuple[Floats, Floats] | None = None,
    limit: float | None = None,
) -> Plot:
    ends = [float(end) for _, values in lines for end in (values.min(), values.max())]
    ends += [*(band or ()), *([] if limit is None else [limit])]
    ends += [float(doubt[0].min()), float(doubt[1].max())] if doubt else []
    to_y, label = in_keepers_units("degC", system, "", ends)
    few = np.linspace(0, len(time) - 1, min(_POINTS, len(time))).round().astype(int)
    low, high = to_y(min(ends)), to_y(max(ends))
    spare = _ROOM * max(high - low, 1.0)
    series = tuple(
        Series(
            name, tuple(map(float, time[few])), tuple(to_y(float(v)) for v in values[few]), n > 0
        )
        for n, (name, values) in enumerate(lines)
    )
    areas: tuple[Area, ...] = ()
    if band:
        said = ranged(*band, "degC", system, spoken=True)
        wanted = [(to_y(end),) * 2 for end in band]
        areas = (Area(f"wanted: {said}", (x.low, x.high), wanted[0], wanted[1]),)
    if doubt:
        low_edge, high_edge = (tuple(to_y(float(v)) for v in values[few]) for values in doubt)
        at = tuple(map(float, time[few]))
        areas += (Area("where the water may be", at, low_edge, high_edge, "doubt"),)
    limits = () if limit is None else (Limit(rounded(limit, "degC", system), to_y(limit)),)
    return Plot(x, Axis("temperature", label, low - spare, high + spare), series, areas, limits)


def _drawn(chart: Chart) -> Drawing:
    return Drawing(chart.lines(_WIDTH), chart.words, chart)
