"""A page that comes in parts, on a terminal: blocks in colour, and a line on what goes on."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from rich.console import Console
from rich.text import Text

from interview.report.fitting import to_ascii

if TYPE_CHECKING:
    from interview.report.blocks import Block

__all__ = ["WIDEST", "ScreenPage"]

WIDEST = 88
_ERASE = "\r\x1b[2K"


class ScreenPage:
    """A terminal that shows and is not talked with."""

    def __init__(self, console: Console | None = None) -> None:
        """Show on the given console, or on standard output."""
        self._console = console or Console(highlight=False)
        self._ascii = "utf" not in (self._console.encoding or "").lower()

    def _fit(self, text: str) -> str:
        """The text as the output can show it: ° may become deg."""
        return to_ascii(text) if self._ascii else text

    def blocks(self, blocks: Iterable[Block]) -> None:
        """Show each block as soon as it is there."""
        from interview.report.formats.terminal import block_view

        width = min(self._console.width, WIDEST)
        for block in blocks:
            view = block_view([block], width=width, plain_letters=self._ascii)
            self._console.print(view, width=width)
            sys.stdout.flush()

    @contextmanager
    def working(self, text: str) -> Iterator[None]:
        """A line that stands while something is worked out; nothing where none can be erased."""
        console = self._console
        if not console.is_terminal:
            yield
            return
        shown = Text(f"  {self._fit(text)}", "dim", no_wrap=True, overflow="ellipsis")
        shown.truncate(max(console.width - 1, 1), overflow="ellipsis")
        console.print(shown, end="", soft_wrap=True)
        console.file.flush()
        try:
            yield
        finally:
            console.file.write(_ERASE)
            console.file.flush()
