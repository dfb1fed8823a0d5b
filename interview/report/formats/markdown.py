"""The page as Markdown, readable as it stands and in any viewer."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING
from urllib.parse import quote

from interview.report.blocks import Block, Drawing, Heading, Items, Labelled, Paragraph, Table
from interview.report.formats.interface import Format, Page, picture_file

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["DRESS", "markdown"]

_SPECIAL = re.compile(r"([\\`*_<>\[\]|#~]|&(?=#?\w+;))")


def markdown(audit: Audit, date: str = "", advice: Advice | None = None) -> str:
    """The whole audit; the same audit gives the same text."""
    return DRESS.dress(Page(audit, advice, date=date))


class _Markdown(Format):
    suffix = ".md"

    def dress(self, page: Page) -> str:
        """The whole page, however much was asked for: it is to be kept."""
        blocks = page.blocks(whole=True, date=page.date)
        lines = [line for block in blocks for line in _lines(block, page.beside)]
        return "\n".join(lines).rstrip() + "\n"


DRESS = _Markdown()


def _lines(block: Block, beside: str) -> Iterator[str]:
    if isinstance(block, Heading):
        yield f"{'#' * block.level} {_safe(block.text)}"
    elif isinstance(block, Paragraph):
        yield f"**{_safe(block.text)}**" if block.strong else _safe(block.text)
    elif isinstance(block, Items):
        yield from _items(block)
    elif isinstance(block, Labelled):
        yield from _labelled(block)
    elif isinstance(block, Table):
        yield _row(block.columns)
        yield _row(("---",) * len(block.columns))
        yield from (_row(tuple(map(_safe, row))) for row in block.rows)
    elif isinstance(block, Drawing) and block.picture and beside:
        file = quote(picture_file(beside, block.picture.name))
        yield f"![{_safe(block.words)}]({file})"
    elif isinstance(block, Drawing):
        yield from ("```text", *block.lines, "```")
    yield ""


def _items(block: Items) -> Iterator[str]:
    for number, (lead, sentences) in enumerate(block.rows, block.start):
        mark = f"{number}." if block.numbered else "-"
        said = [_safe(sentence) for sentence in sentences if sentence]
        first = said[:1] if block.nested else [" ".join(said)] if said else []
        yield f"{mark} **{_safe(lead)}**{': ' + first[0] if first else ''}"
        if block.nested:
            yield from (f"    - {sentence}" for sentence in said[1:])


def _labelled(block: Labelled) -> Iterator[str]:
    """One thing on the line of its label; several as a list under it."""
    said = [_led(lead, text) for lead, text in block.rows]
    if len(said) == 1 and block.start is None:
        yield f"**{_safe(block.label)}**: {said[0]}" if block.label else said[0]
        return
    if block.label:
        yield from (f"**{_safe(block.label)}**", "")
    for number, text in enumerate(said, block.start or 0):
        yield f"{'-' if block.start is None else f'{number}.'} {text}"


def _led(lead: str, text: str) -> str:
    return f"**{_safe(lead)}**: {_safe(text)}" if lead else _safe(text)


def _row(cells: tuple[str, ...]) -> str:
    return f"| {' | '.join(cells)} |"


def _safe(text: str) -> str:
    """What people typed stays text: no Markdown in it takes effect."""
    return _SPECIAL.sub(r"\\\1", " ".join(text.split()))
