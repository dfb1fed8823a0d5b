"""A chart in characters: bands shaded, lines as signs, points by their marks, a key below."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from interview.report.fitting import to_ascii, wrapped
from interview.report.pictures.plot import Area, Axis, Plot, Series

__all__ = ["chart_lines"]

_LEAST = 40
_WIDEST = 76
_ROWS = 11
_SIGNS = {"band": "░", "doubt": "·"}
_ASCII = {
    "░": ":", "·": ".", "•": "*", "╌": "=", "◆": "X", "◇": "O",
    "┤": "|", "└": "+", "─": "-", "┴": "+",
}  # fmt: skip
_FIRST, _SECOND, _LIMIT, _NOW, _WISHED = "•", "+", "╌", "◆", "◇"


def chart_lines(plot: Plot, width: int, *, plain_letters: bool = False) -> tuple[str, ...]:
    """The chart and its key, no line longer than `width`; () where that is under 40."""
    if width < _LEAST:
        return ()
    ticks = {_row(plot.y, tick): f"{tick:g}" for tick in plot.y.ticks(4)}
    margin = max(map(len, ticks.values()), default=0)
    columns = min(width, _WIDEST) - margin - 1
    cells = [[" "] * columns for _ in range(_ROWS)]
    for area in plot.areas:
        _shade(cells, plot, area)
    for limit in plot.limits:
        if plot.y.low <= limit.y <= plot.y.high:
            cells[_row(plot.y, limit.y)] = [_LIMIT] * columns
    for series in plot.series:
        _trace(cells, plot, series)
    for spot in plot.spots:
        if _inside(plot.x, spot.x) and _inside(plot.y, spot.y):
            row, column = _row(plot.y, spot.y), _column(plot.x, spot.x, columns)
            cells[row][column] = _WISHED if spot.wished else _NOW
    drawn = [f"{ticks.get(n, ''):>{margin}}┤{''.join(cells[n])}" for n in range(_ROWS - 1, -1, -1)]
    lines = [*wrapped(plot.y.titled, width), *drawn, *_foot(plot.x, margin, columns)]
    if plain_letters:
        lines = ["".join(_ASCII.get(sign, sign) for sign in line) for line in lines]
    key = "; ".join(f"{sign} {name}" for sign, name in _key(plot))
    if plain_letters:
        key = "".join(_ASCII.get(sign, sign) for sign in key)
    lines += wrapped(key, width) if key else []
    return tuple((to_ascii(line) if plain_letters else line).rstrip() for line in lines)


def _inside(axis: Axis, value: float) -> bool:
    return axis.low <= value <= axis.high


def _row(axis: Axis, value: float) -> int:
    share = (value - axis.low) / (axis.high - axis.low)
    return min(max(round(share * (_ROWS - 1)), 0), _ROWS - 1)


def _column(axis: Axis, value: float, columns: int) -> int:
    share = (value - axis.low) / (axis.high - axis.low)
    return min(max(round(share * (columns - 1)), 0), columns - 1)


def _value(axis: Axis, column: int, columns: int) -> float:
    return axis.low + (axis.high - axis.low) * column / (columns - 1)


def _at(x: tuple[float, ...], y: tuple[float, ...], value: float) -> float | None:
    """The line's height at a place, between its points; None beyond its ends."""
    for (x0, x1), (y0, y1) in zip(pairwise(x), pairwise(y), strict=True):
        if x0 <= value <= x1:
            return y0 if x1 == x0 else y0 + (y1 - y0) * (value - x0) / (x1 - x0)
    return None


def _shade(cells: list[list[str]], plot: Plot, area: Area) -> None:
    columns = len(cells[0])
    for column in range(columns):
        value = _value(plot.x, column, columns)
        low, high = _at(area.x, area.low, value), _at(area.x, area.high, value)
        if low is None or high is None or high < plot.y.low or low > plot.y.high:
            continue
        for row in range(_row(plot.y, low), _row(plot.y, high) + 1):
            if area.kind == "band" or cells[row][column] == " ":
                cells[row][column] = _SIGNS[area.kind]


def _trace(cells: list[list[str]], plot: Plot, series: Series) -> None:
    """A sign in each column; where the line is steep the rows between are filled."""
    columns, before = len(cells[0]), None
    for column in range(columns):
        height = _at(series.x, series.y, _value(plot.x, column, columns))
        if height is None or not _inside(plot.y, height):
            before = None
            continue
        row = _row(plot.y, height)
        start = row if before is None else before + (row > before) - (row < before)
        for each in range(min(start, row), max(start, row) + 1):
            cells[each][column] = _SECOND if series.second else _FIRST
        before = row


def _foot(axis: Axis, margin: int, columns: int) -> tuple[str, str, str]:
    """The axis below with its numbers, none over another, and its name."""
    line, numbers = [*"─" * columns], [" "] * columns
    free = 0
    for tick in axis.ticks(6):
        text, place = f"{tick:g}", _column(axis, tick, columns)
        start = max(min(place - len(text) // 2, columns - len(text)), 0)
        if start < free:
            continue
        line[place] = "┴"
        numbers[start : start + len(text)] = text
        free = start + len(text) + 1
    wide = margin + 1 + columns
    foot = f"{'└':>{margin + 1}}{''.join(line)}"
    return foot, f"{''.join(numbers):>{wide}}", f"{axis.titled[:wide]:>{wide}}"


def _key(plot: Plot) -> Iterator[tuple[str, str]]:
    yield from ((_SECOND if s.second else _FIRST, s.name) for s in plot.series)
    yield from ((_SIGNS[area.kind], area.name) for area in plot.areas)
    yield from ((_LIMIT, limit.name) for limit in plot.limits)
    yield from ((_WISHED if spot.wished else _NOW, spot.name) for spot in plot.spots)
