"""A sheet of character cells, twice as high as wide, on which things are drawn to scale."""

from __future__ import annotations

from interview.report.pictures.scene.things import Span

__all__ = ["Grid", "in_ascii"]

_SIGNS = {
    "≈": "~", "░": ":", "▒": "%", "▀": "=", "│": "|", "└": "+", "┘": "+", "─": "-", "┌": "+",
    "┐": "+", "▼": "v", "▽": "V", "━": "#", "┉": "-", "═": "=", "╱": "/", "╲": "\\", "▟": "(",
    "▙": ")", "█": "@", "▗": "(", "▖": ")", "◌": "o", "┊": ":", "╌": "-", "╺": "-", "▬": "&",
    "▮": "&", "║": "!", "╨": "o", "▂": "_", "·": ".",
}  # fmt: skip
"""What is drawn where there is nothing but ASCII: one sign for one."""


def in_ascii(line: str) -> str:
    """A drawn line with an ASCII sign for each of its signs."""
    return "".join(_SIGNS.get(sign, sign) for sign in line)


class Grid:
    """Cells from the lower left; `step` metres for each column, twice that for each row."""

    def __init__(self, columns: int, rows: int, step: float) -> None:
        self.step = step
        self._cells = [[" "] * columns for _ in range(rows)]

    @property
    def rows(self) -> int:
        """How many rows there are."""
        return len(self._cells)

    def column(self, x: float) -> int:
        """The boundary of columns that is nearest to a place [m]."""
        return round(x / self.step)

    def row(self, y: float) -> int:
        """The boundary of rows that is nearest to a height [m]."""
        return round(y / (2 * self.step))

    def columns_of(self, x: Span) -> range:
        """The columns that a stretch takes, at least one."""
        start, end = self.column(x[0]), self.column(x[1])
        return range(start, max(end, start + 1))

    def rows_of(self, y: Span) -> range:
        """The rows that a stretch takes, at least one."""
        start, end = self.row(y[0]), self.row(y[1])
        return range(start, max(end, start + 1))

    def put(self, column: int, row: int, sign: str, *, over: bool = True) -> None:
        """Draw one sign; what lies off the sheet is left out. Not `over`: only where nothing is."""
        there = 0 <= row < len(self._cells) and 0 <= column < len(self._cells[row])
        if there and (over or self._cells[row][column] == " "):
            self._cells[row][column] = sign

    def fill(self, x: Span, y: Span, sign: str, *, over: bool = True) -> None:
        """Draw a rectangle."""
        for row in self.rows_of(y):
            for column in self.columns_of(x):
                self.put(column, row, sign, over=over)

    def write(self, column: int, row: int, text: str) -> None:
        """Write along a row."""
        for place, letter in enumerate(text):
            self.put(column + place, row, letter)

    def lines(self, *, plain_letters: bool = False) -> tuple[str, ...]:
        """The sheet from the top down."""
        lines = ("".join(row).rstrip() for row in reversed(self._cells))
        if plain_letters:
            return tuple(map(in_ascii, lines))
        return tuple(lines)
