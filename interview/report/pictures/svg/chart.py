"""A chart as SVG: bands, lines, points; each named in the key beside it."""

from __future__ import annotations

from collections.abc import Iterator

from interview.report.fitting import wrapped
from interview.report.pictures.plot import Area, Axis, Plot, Series
from interview.report.pictures.svg.sheet import LINE, Sheet, text_width

__all__ = ["chart_svg"]

_WIDE, _HIGH = 460.0, 240.0
_TOP, _BOTTOM, _RIGHT, _GAP = 40.0, 46.0, 250.0, 22.0
_LETTERS = 30  # of a line of the key
_SWATCH = 22.0


class _Frame:
    """Places of numbers on the sheet."""

    def __init__(self, plot: Plot) -> None:
        self.plot = plot
        widest = max((text_width(f"{tick:g}", 11) for tick in plot.y.ticks()), default=0.0)
        self.left = 18.0 + widest

    def x(self, value: float) -> float:
        return self.left + _WIDE * _share(self.plot.x, value)

    def y(self, value: float) -> float:
        return _TOP + _HIGH * (1.0 - _share(self.plot.y, value))


def _share(axis: Axis, value: float) -> float:
    return min(max((value - axis.low) / (axis.high - axis.low), 0.0), 1.0)


def chart_svg(plot: Plot, name: str, title: str, words: str) -> str:
    """The chart as the text of a file."""
    frame = _Frame(plot)
    key = [(kind, wrapped(text, _LETTERS)) for kind, text in _key(plot)]
    high = max(_HIGH, LINE * sum(len(lines) + 0.4 for _, lines in key))
    width = frame.left + _WIDE + _GAP + _SWATCH + _RIGHT
    sheet = Sheet(name, title, words, width, _TOP + high + _BOTTOM)
    sheet.text(frame.left, 18, title)
    sheet.text(frame.left, 33, plot.y.titled, "small")
    _axes(sheet, frame)
    for area in plot.areas:
        _area(sheet, frame, area)
    for limit in plot.limits:
        if plot.y.low <= limit.y <= plot.y.high:
            y = frame.y(limit.y)
            sheet.line("limit", (frame.left, y), (frame.left + _WIDE, y), name="limit")
    for series in plot.series:
        _series(sheet, frame, series)
    for spot in plot.spots:
        if plot.x.low <= spot.x <= plot.x.high and plot.y.low <= spot.y <= plot.y.high:
            kind = "wish" if spot.wished else "spot"
            sheet.circle(kind, frame.x(spot.x), frame.y(spot.y), 5.5, name=kind)
    _write_key(sheet, frame.left + _WIDE + _GAP, key)
    return sheet.written()


def _axes(sheet: Sheet, frame: _Frame) -> None:
    plot, foot = frame.plot, _TOP + _HIGH
    for tick in plot.y.ticks():
        y = frame.y(tick)
        sheet.line("grid", (frame.left, y), (frame.left + _WIDE, y))
        sheet.text(frame.left - 6, y + 4, f"{tick:g}", "small", end="end")
    for tick in plot.x.ticks(6):
        x = frame.x(tick)
        sheet.line("line", (x, foot), (x, foot + 4))
        sheet.text(x, foot + 16, f"{tick:g}", "small", end="middle")
    sheet.line("line", (frame.left, _TOP), (frame.left, foot), (frame.left + _WIDE, foot))
    sheet.text(frame.left + _WIDE, foot + 34, plot.x.titled, "small", end="end")


def _area(sheet: Sheet, frame: _Frame, area: Area) -> None:
    forth = [(frame.x(x), frame.y(y)) for x, y in zip(area.x, area.high, strict=True)]
    back = [(frame.x(x), frame.y(y)) for x, y in zip(area.x, area.low, strict=True)]
    path = "L".join(f"{x:.2f} {y:.2f}" for x, y in [*forth, *reversed(back)])
    sheet.path(area.kind, f"M{path}Z", area.kind)


def _series(sheet: Sheet, frame: _Frame, series: Series) -> None:
    """The line as far as it lies between the axes."""
    kind, axis = ("second" if series.second else "first"), frame.plot.y
    run: list[tuple[float, float]] = []
    for x, y in zip(series.x, series.y, strict=True):
        if axis.low <= y <= axis.high:
            run.append((frame.x(x), frame.y(y)))
        elif len(run) > 1:
            sheet.line(kind, *run, name=kind)
            run = []
        else:
            run = []
    if len(run) > 1:
        sheet.line(kind, *run, name=kind)


def _key(plot: Plot) -> Iterator[tuple[str, str]]:
    yield from (("second" if s.second else "first", s.name) for s in plot.series)
    yield from ((area.kind, area.name) for area in plot.areas)
    yield from (("limit", limit.name) for limit in plot.limits)
    yield from (("wish" if spot.wished else "spot", spot.name) for spot in plot.spots)


def _write_key(sheet: Sheet, x: float, key: list[tuple[str, list[str]]]) -> None:
    y = _TOP + LINE / 2
    for kind, lines in key:
        if kind in ("band", "doubt"):
            sheet.box(kind, x, y - 6, _SWATCH - 6, 12)
        elif kind in ("spot", "wish"):
            sheet.circle(kind, x + 8, y, 5.5)
        else:
            sheet.line(kind, (x, y), (x + _SWATCH - 6, y))
        for number, line in enumerate(lines):
            sheet.text(x + _SWATCH, y + 4 + LINE * number, line)
        y += LINE * (len(lines) + 0.4)
