"""The page as plain lines: no boxes, every cell with its label."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from interview.report.blocks import Block, Drawing, Heading, Items, Paragraph
from interview.report.page import page_of

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["audit_lines", "block_lines"]

_WIDTH = 78


def audit_lines(audit: Audit, advice: Advice | None = None, *, whole: bool) -> Iterator[str]:
    """The audit line by line, in short or whole."""
    yield from block_lines(page_of(audit, advice=advice, whole=whole))


def block_lines(blocks: Iterable[Block]) -> Iterator[str]:
    """Any blocks line by line."""
    for block in blocks:
        yield from _lines(block)


def _wrap(text: str, indent: str = "") -> list[str]:
    return textwrap.wrap(text, _WIDTH, initial_indent=indent, subsequent_indent=indent) or [""]


def _lines(block: Block) -> Iterator[str]:
    if isinstance(block, Heading):
        yield ""
        yield from _wrap(block.text)
    elif isinstance(block, Paragraph):
        yield from _wrap(block.text)
    elif isinstance(block, Drawing):
        yield from _wrap(block.words)
    elif isinstance(block, Items):
        for number, (lead, sentences) in enumerate(block.rows, start=1):
            mark = f"{number}. " if block.numbered else ""
            text = " ".join(s for s in sentences if s)
            yield from _wrap(f"{mark}{lead}{': ' + text if text else ''}", "  ")
    else:
        for row in block.rows:
            cells = [f"{column}: {cell}" for column, cell in zip(block.columns, row, strict=True)]
            said = ". ".join(cell.rstrip(".") for cell in cells)
            yield from _wrap(f"{said}.", "  ")
