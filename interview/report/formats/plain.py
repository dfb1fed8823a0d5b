"""The page as plain lines: no boxes, every cell with its label."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from interview.report.blocks import Block, Drawing, Heading, Items, Labelled, Paragraph
from interview.report.formats.interface import Format, Page
from interview.report.naming import capital

__all__ = ["DRESS", "block_lines"]

_WIDTH = 78


def block_lines(blocks: Iterable[Block]) -> Iterator[str]:
    """Any blocks line by line."""
    for block in blocks:
        yield from _lines(block)


class _Plain(Format):
    suffix = ".txt"

    def dress(self, page: Page) -> str:
        """What fits a few screens, or the whole."""
        blocks = (*page.compared(), *page.blocks(whole=page.whole))
        return "".join(f"{line}\n" for line in block_lines(blocks))


DRESS = _Plain()


def _wrap(text: str, indent: str = "", mark: str = "") -> list[str]:
    hung = indent + " " * len(mark)
    return textwrap.wrap(
        text, _WIDTH, initial_indent=indent + mark, subsequent_indent=hung, break_on_hyphens=False
    ) or [""]


def _lines(block: Block) -> Iterator[str]:
    if isinstance(block, Heading):
        yield ""
        yield from _wrap(block.text)
    elif isinstance(block, Paragraph):
        yield from _wrap(block.text)
    elif isinstance(block, Drawing):
        yield from _wrap(block.words)
    elif isinstance(block, Items):
        for number, (lead, sentences) in enumerate(block.rows, block.start):
            mark = f"{number}. " if block.numbered else ""
            text = " ".join(s for s in sentences if s)
            yield from _wrap(f"{lead}{': ' + text if text else ''}", "  ", mark)
    elif isinstance(block, Labelled):
        yield from _labelled(block)
    else:
        for row in block.rows:
            yield from _wrap(_sentence(block.columns, row), "  ")


def _labelled(block: Labelled) -> Iterator[str]:
    """One thing on the line of its label; several under it."""
    said = [f"{lead}: {text}" if lead else text for lead, text in block.rows]
    if block.label and len(said) == 1 and block.start is None:
        yield from _wrap(f"{block.label}: {said[0]}")
        return
    if block.label:
        yield f"{block.label}:"
    for number, text in enumerate(said, block.start or 0):
        yield from _wrap(text, "  ", "" if block.start is None else f"{number}. ")


_JOINED = {
    "Value": " {}",
    "Likely range": ", likely {}",
    "Before": ": {} before",
    "Now": ", {} now",
    "Grade": ": {}",
    "Worst finding": ", worst {}",
    "Next date": ", next {}",
    "File": " ({})",
    "How": ", {}",
    "From": " ({})",
    "Taken as": ": {}",
    "Usual error": ", usual error {}",
    "Coldest day": ": coldest day {}",
    "Mean day": "; mean day {}",
    "Warmest day": "; warmest day {}",
    "Room": ": room {}",
    "Water": ", water {}",
    "Heater on": ", heater on {}",
    "Energy": ", {}",
    "Cost": ", cost {}",
    "Topped up": ", topped up {}",
    "Nitrate": ", nitrate {}",
    "UVB lamp": ", UVB lamp {}",
}
"""How a cell of a column goes on from the cell before it; any other after a colon."""


def _sentence(columns: tuple[str, ...], row: tuple[str, ...]) -> str:
    """A row as one sentence, as “Water volume 32.3 gal, likely 30 to 34 gal” and a full stop."""
    said = row[0]
    for column, cell in zip(columns[1:], row[1:], strict=True):
        if cell and cell != "–":
            said = said.rstrip(".") + _JOINED.get(column, ": {}").format(cell)
    return capital(said).rstrip(".") + "."
