"""A page that comes in parts, on a terminal: blocks in colour, and a line on what goes on."""

from __future__ import annotations

import sys
from collections.abc import Iterable, Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import TYPE_CHECKING

from rich.console import Console
from rich.text import Text

if TYPE_CHECKING:
    from interview.report.blocks import Block

__all__ = ["WIDEST", "ScreenPage", "live_line", "show_blocks"]

WIDEST = 88
_ERASE = "\r\x1b[2K"


def show_blocks(console: Console, blocks: Iterable[Block]) -> None:
    """Show each block as soon as it is there."""
    from interview.report.formats.terminal import block_view

    width = min(console.width, WIDEST)
    plain_letters = "utf" not in (console.encoding or "").lower()
    for block in blocks:
        console.print(block_view([block], width=width, plain_letters=plain_letters), width=width)
        sys.stdout.flush()


@contextmanager
def live_line(console: Console, text: str) -> Iterator[None]:
    """A line that stands while something is worked out; nothing where no line can be erased."""
    if not console.is_terminal:
        yield
        return
    shown = Text(f"  {text}", "dim", no_wrap=True, overflow="ellipsis")
    shown.truncate(max(console.width - 1, 1), overflow="ellipsis")
    console.print(shown, end="", soft_wrap=True)
    console.file.flush()
    try:
        yield
    finally:
        console.file.write(_ERASE)
        console.file.flush()


class ScreenPage:
    """A terminal that shows and is not talked with."""

    def __init__(self, console: Console | None = None) -> None:
        """Show on the given console, or on standard output."""
        self._console = console or Console(highlight=False)

    def blocks(self, blocks: Iterable[Block]) -> None:
        """Show each block as soon as it is there."""
        show_blocks(self._console, blocks)

    def working(self, text: str) -> AbstractContextManager[None]:
        """A line that is gone once the work is done."""
        return live_line(self._console, text)
