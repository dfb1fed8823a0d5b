"""A side view of the tank in characters, to scale in height and in the platform's length."""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from typing import Any

from interview.base.templates import filled_in, names_in
from interview.vocabulary.entries import SideView
from interview.vocabulary.phrases import rounded
from interview.vocabulary.vocabulary import notes_beside, vocabulary

__all__ = ["side_view"]

_ROWS = 10
_WIDTH = 20
_PLATFORM_AT = 2
_MOST_ABOVE = 6
_LOWEST = 0.01  # m; what is lower is no tank, and rows of no height can't be drawn
_NOTHING = {"m": 1e-4, "m**3": 1e-6}  # what is less is what the sums left over, or no length


def side_view(figures: Mapping[str, Any], system: str) -> tuple[tuple[str, ...], str] | None:
    """Lines of the picture and the same facts in a sentence; None if the tank isn't known.

    Drawn from inside_height, water_level, substrate_depth and the platform; what hangs over it
    and the notes are what the vocabulary says of names. Whatever is unknown is left out.
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
    while _marks() & set(row.cells[start : start + len(mark)]):
        start += 1
    row.fill(mark[0], start, len(mark))


def _marks() -> set[str]:
    """What lamps are drawn with."""
    return {note.mark[0] for _, note in notes_beside() if note.mark}


def _nearest_free(rows: list[_Row], wanted: int) -> _Row:
    """The row without a note that is nearest, the upper one first."""
    free = [n for n, row in enumerate(rows) if not row.note]
    return rows[min(free, key=lambda n: (abs(n - wanted), -n))]


def _facts(figures: Mapping[str, Any], system: str) -> list[tuple[float, str, str]]:
    """Height, mark of its own and words of what is worth a note, from the top down."""
    facts: list[tuple[float, str, str]] = []
    for name, note in notes_beside():
        at, said = _height(note.at, figures, figures.get(name)), _said(note, figures, system)
        if at is not None and said:
            facts.append((at, note.mark, said))
    return sorted(facts, key=lambda fact: -fact[0])


def _height(at: str, figures: Mapping[str, Any], value: Any) -> float | None:
    """How high over the bottom a note stands; None where that isn't known."""
    level, top = float(figures["water_level"]), _platform_top(figures)
    if at in ("water", "water_line"):
        return level / 2 if at == "water" else level
    if at == "platform" or top is None or value is None:
        return top
    return top + float(value)


def _said(note: SideView, figures: Mapping[str, Any], system: str) -> str:
    """The note in this keeper's units; "" where a name in it is not known."""
    values = {name: figures.get(name) for name in names_in(note.say)}
    if any(value is None for value in values.values()):
        return ""
    return filled_in(note.say, {n: _amount(v, n, system) for n, v in values.items()})


def _amount(value: Any, name: str, system: str) -> str:
    """An amount as people speak of it, nothing at all for what nobody could measure."""
    unit = vocabulary()[name].unit
    nothing = abs(value) < _NOTHING.get(unit, 0.0)
    return rounded(0.0 if nothing else value, unit, system, name)
