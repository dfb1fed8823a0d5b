"""The charts of a day and of a year: temperatures over time, with the band that is wanted."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from interview.advice.forecast.day import Day
from interview.advice.forecast.year import Year
from interview.report.blocks import Drawing
from interview.report.forecast.said import Band, reach
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.plot import Area, Axis, Plot, Series, in_keepers_units
from interview.vocabulary.phrases import ranged, rounded

__all__ = ["day_drawings", "year_drawing"]

Floats: TypeAlias = NDArray[np.float64]
_HOUR = 3600.0
_WIDTH = 60
_POINTS = 97
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
    weeks = np.arange(len(water)) / len(water) * 12.0
    lines = (("water", water), ("room", year.weeks["room"]))
    plot = _plot(Axis("from January on", "months", 0.0, 12.0), weeks, lines, band, system)
    return _drawn(Chart("year", "Water and room through the year", words, plot))


def _plot(
    x: Axis, time: Floats, lines: tuple[tuple[str, Floats], ...], band: Band, system: str
) -> Plot:
    ends = [float(end) for _, values in lines for end in (values.min(), values.max())]
    ends += list(band or ())
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
    return Plot(x, Axis("temperature", label, low - spare, high + spare), series, areas)


def _drawn(chart: Chart) -> Drawing:
    return Drawing(chart.lines(_WIDTH), chart.words, chart)
