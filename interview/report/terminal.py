"""The page on a colour terminal; colour repeats what the words say, never replaces them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.table import Table as RichTable
from rich.text import Text

from interview.report.page import (
    Block,
    Drawing,
    Heading,
    Items,
    Paragraph,
    page_of,
)

if TYPE_CHECKING:
    from interview.audit.audit import Audit

__all__ = ["audit_view"]

_COLOURS = {
    "DANGER": "bold red",
    "wrong": "red",
    "close": "yellow",
    "good": "green",
    "not judged": "dim",
}
_WAVE = "≈"


def audit_view(audit: Audit, *, whole: bool) -> RenderableType:
    """The audit, in short or whole, ready for a rich console."""
    return Group(*(part for block in page_of(audit, whole=whole) for part in _parts(block)))


def _parts(block: Block) -> Iterator[RenderableType]:
    if isinstance(block, Heading):
        yield Text()
        yield _heading(block)
    elif isinstance(block, Paragraph):
        yield Padding(Text(block.text, "bold" if block.strong else ""), (0, 0, 0, 2))
    elif isinstance(block, Drawing):
        yield Padding(_drawn(block), (0, 0, 1, 2))
    elif isinstance(block, Items):
        yield from (_item(number, row, block) for number, row in enumerate(block.rows, start=1))
    else:
        table = RichTable(box=None, padding=(0, 2, 0, 2), header_style="dim", pad_edge=False)
        for column in block.columns:
            table.add_column(column, overflow="fold")
        for row in block.rows:
            table.add_row(*(Text(cell) for cell in row))
        yield Padding(table, (0, 0, 0, 2))


def _heading(block: Heading) -> Text:
    if block.level == 1:
        return Text(f"{_WAVE * 3} {block.text} {_WAVE * 3}", "bold cyan")
    if block.level == 2:
        return Text(f"{_WAVE} {block.text}", "bold cyan")
    return Text(f"  {block.text}", "bold")


def _drawn(block: Drawing) -> Text:
    text = Text()
    for line in block.lines:
        text.append(line + "\n", "cyan" if _WAVE in line else "")
    return text


def _item(number: int, row: tuple[str, tuple[str, ...]], block: Items) -> RenderableType:
    lead, sentences = row
    word, dot, rest = lead.partition(" · ")
    text = Text()
    if block.numbered:
        text.append(f"{number}. ")
    if dot and word in _COLOURS:
        text.append(f"{word:<11}", _COLOURS[word])
        text.append(rest, "bold")
    else:
        text.append(lead, "bold")
    body = [s for s in sentences if s]
    if body:
        text.append("\n" + body[0])
        for sentence in body[1:]:
            text.append("\n" + sentence, "dim")
    return Padding(text, (0, 0, 0, 4))
