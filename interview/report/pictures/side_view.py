"""A side view of the tank in characters, to scale in height and in the platform's length."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from typing import Any

from interview.vocabulary.phrases import rounded

__all__ = ["side_view"]

_ROWS = 10
_WIDTH = 20
_PLATFORM_AT = 2
_MOST_ABOVE = 6
_LOWEST = 0.01  # m; what is lower is no tank, and rows of no height can't be drawn
_NOTHING = {"m": 1e-4, "m**3": 1e-6}  # what is less is what the sums left over, or no length
_LAMPS = (("heat_lamp_height", "▼", "heat lamp"), ("uvb_lamp_height", "━━━", "UVB lamp"))
_LAMP_CELLS = {mark[0] for _, mark, _ in _LAMPS}


def side_view(figures: Mapping[str, Any], system: str) -> tuple[tuple[str, ...], str] | None:
    """Lines of the picture and the same facts in a sentence; None if the tank isn't known.

    Drawn from inside_height, water_level, substrate_depth, the platform and the lamps over
    it; whatever is unknown is left out.
    """
    height, level = figures.get("inside_height"), figures.get("water_level")
    if height is None or level is None or not 0 < level <= height or height < _LOWEST:
        return None
    facts = _facts(figures, system)
    step = height / _ROWS
    highest = max((at for at, _, _ in facts), default=0.0)
    above = min(_MOST_ABOVE, max(0, ceil((highest - height) / step)))
    rows = [_Row(step * (n + 0.5), height) for n in range(_ROWS + above)]
    _draw(rows, step, figures)
    for at, mark, text in reversed(facts):
        row = min(len(rows) - 1, _row_under(at, step))
        _lamp_mark(rows[row], mark, figures)
        _nearest_free(rows, row).note = text
    lines = [str(row).rstrip() for row in reversed(rows)]
    while not lines[0]:
        del lines[0]
    return (*lines, f"└{'─' * _WIDTH}┘"), "; ".join(text for _, _, text in facts)


class _Row:
    """One line of the picture: its height over the bottom, the cells, a note beside it."""

    def __init__(self, at: float, rim: float) -> None:
        self.at = at
        self.wall = "│" if at < rim else " "
        self.cells = [" "] * _WIDTH
        self.note = ""

    def fill(self, mark: str, start: int = 0, length: int = _WIDTH) -> None:
        self.cells[start : start + length] = mark * length

    def __str__(self) -> str:
        note = f"  {self.note}" if self.note else ""
        return f"{self.wall}{''.join(self.cells)}{self.wall}{note}"


def _draw(rows: list[_Row], step: float, figures: Mapping[str, Any]) -> None:
    """The bed, the water line and the platform."""
    for row in rows:
        if row.at < (figures.get("substrate_depth") or 0.0):
            row.fill(".")
    rows[_row_under(figures["water_level"], step)].fill("≈")
    top = _platform_top(figures)
    if top is not None:
        row = rows[min(len(rows) - 1, _row_under(top, step))]
        row.fill("▂", _PLATFORM_AT, _platform_cells(figures))


def _row_under(at: float, step: float) -> int:
    """The row whose upper edge is nearest to a height."""
    return max(0, round(at / step) - 1)


def _platform_top(figures: Mapping[str, Any]) -> float | None:
    above = figures.get("platform_height_above_water")
    return None if above is None else float(figures["water_level"] + max(above, 0.0))


def _platform_cells(figures: Mapping[str, Any]) -> int:
    """How many cells long the platform is, by the tank's length where both are known."""
    platform, tank = figures.get("platform_length") or 0.0, figures.get("inside_length") or 0.0
    share = min(1.0, platform / tank) if min(platform, tank) > 0 else 0.4
    return min(_WIDTH - _PLATFORM_AT, max(3, round(share * _WIDTH)))


def _lamp_mark(row: _Row, mark: str, figures: Mapping[str, Any]) -> None:
    """A lamp over the platform's middle; beside another lamp that hangs there already.

    What stands in the row, water or platform, is drawn over: such a lamp hangs that low.
    """
    if not mark:
        return
    start = _PLATFORM_AT + (_platform_cells(figures) - len(mark)) // 2
    while _LAMP_CELLS & set(row.cells[start : start + len(mark)]):
        start += 1
    row.fill(mark[0], start, len(mark))


def _nearest_free(rows: list[_Row], wanted: int) -> _Row:
    """The row without a note that is nearest, the upper one first."""
    free = [n for n, row in enumerate(rows) if not row.note]
    return rows[min(free, key=lambda n: (abs(n - wanted), -n))]


def _facts(figures: Mapping[str, Any], system: str) -> list[tuple[float, str, str]]:
    """Height, mark of its own and words of what is worth a note, from the top down."""
    level = figures["water_level"]
    top = _platform_top(figures)
    facts: list[tuple[float, str, str]] = []
    for name, mark, what in _LAMPS:
        height = figures.get(name)
        if height is not None and top is not None:
            over = _said(height, "m", system)
            facts.append((top + height, mark, f"{what}, {over} over the platform"))
    surface = figures.get("platform_temperature")
    if surface is not None and top is not None:
        facts.append((top, "", f"basking surface {rounded(surface, 'degC', system)}"))
    below = figures.get("water_line_below_rim")
    if below is not None:
        rim = _said(below, "m", system)
        facts.append((level, "", f"water line, {rim} below the rim"))
    depth, volume = figures.get("water_depth"), figures.get("water_volume")
    if depth is not None and volume is not None:
        deep, much = _said(depth, "m", system), _said(volume, "m**3", system)
        facts.append((level / 2, "", f"{deep} of water, {much}"))
    return sorted(facts, key=lambda fact: -fact[0])


def _said(value: float, unit: str, system: str) -> str:
    """An amount as people speak of it, nothing at all for what nobody could measure."""
    return rounded(0.0 if abs(value) < _NOTHING[unit] else value, unit, system)
