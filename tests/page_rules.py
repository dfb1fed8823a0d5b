"""What may not stand on a page before a keeper, and how long its first side may be."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from textwrap import wrap

from rich.console import Console

from interview.advice.advise import Advice
from interview.audit.audit import Audit
from interview.report.blocks import Block, Drawing, Heading, Items, Labelled, Paragraph, Table
from interview.report.formats.plain import block_lines
from interview.report.formats.terminal import block_view
from interview.report.page.whole import layers_of, page_of, with_sources

__all__ = ["faults_of_first_page", "faults_of_page"]

_LINES = 45
_WORDS = 450
"""Words before the first table of numbers, pictures apart; the first page is all there is."""
_INTERNAL = re.compile(r"_|\*\*|\bNone\b|\bnan\b|\{|\}|\bm3\b|\bdeg[CF]\b")
"""Names of quantities and sources, raw units, values as a program writes them."""
_SIGNED = re.compile(r"(?<![\w.])-\d[\d.]* ?(?:cm|mm|m|in|ft|L|gal|kg|lb|g)\b")
_MADE = re.compile(r"\d+\.\d{4,} (?:cm|m|in|ft|°C|°F|L|gal|kg|lb|W)\b")
"""More digits than anybody measures, or than tell a value from its limit."""
_SIZED = ("Heater", "Stand", "UVB lamp", "Heat lamp", "Filter", "Tank", "Lamp holder", "Glass lid")
_TWO_UNITS = (
    ("°C", "°F"), ("cm", "in"), ("L", "gal"), ("kg", "lb"),
)  # fmt: skip
_NUMBER = r"\d ?{}(?![\w²/])"
_TWICE = re.compile(r"\([^()]*\)")
"""What stands in brackets may say the same in another unit."""


def faults_of_page(audit: Audit, advice: Advice) -> list[str]:
    """What is wrong with the pages of one tank; nothing if all is well."""
    layers = [*with_sources(audit, layers_of(audit, advice))]
    texts = [text for block in _before_sources(layers) for text in _texts(block)]
    return [*faults_of_first_page(audit, advice), *_internal(texts)]


def faults_of_first_page(audit: Audit, advice: Advice) -> list[str]:
    """What is wrong with the first page of one tank; nothing if all is well."""
    first = list(page_of(audit, advice=advice, whole=False))
    texts = [text for block in first for text in _texts(block)]
    return [
        *(*_too_long(first), *_internal(texts), *_mixed(audit, first), *_twice(first)),
        *(*_bare(audit, first), *_long_today(first)),
    ]


_DOUBTED = 3
"""Answers to confirm from which on a page may lack its picture: of a tank that can hardly be."""


def _bare(audit: Audit, blocks: list[Block]) -> Iterator[str]:
    """The first page has a picture; what is bought by size has it, if it has one by the tank."""
    doubted = [b for b in blocks if isinstance(b, Labelled) and b.label == "Confirm"]
    if not any(isinstance(block, Drawing) for block in blocks) and (
        sum(len(block.rows) for block in doubted) < _DOUBTED
    ):
        yield "no picture"
    labels = {block.label: " ".join(t for _, t in block.rows) for block in blocks
              if isinstance(block, Labelled)}  # fmt: skip
    known = all(audit.tank.lookup(f"tank_{side}") for side in ("length", "width", "height"))
    planned = audit.tank.lookup("stage") == "planning"
    bought = labels.get("Buy", "") if known and not planned else ""
    yield from (
        f"{what} without its size: {bought}"
        for what in _SIZED
        if re.search(rf"(?:^|[;.] |Also ){what}(?:;|\.|$)", bought)
    )


def _long_today(blocks: list[Block]) -> Iterator[str]:
    """Today is at most three steps of two lines; of three where a danger would be left out."""
    for block in blocks:
        if isinstance(block, Labelled) and block.label == "Today" and block.start:
            rows = [f"{lead}: {said}" if lead else said for lead, said in block.rows]
            if len(rows) > 3:
                yield f"{len(rows)} steps today"
            yield from (f"long today: {row}" for row in rows if len(wrap(row, 61)) > 3)


def _too_long(blocks: list[Block]) -> Iterator[str]:
    console = Console(width=80, color_system=None, force_terminal=False)
    with console.capture() as shown:
        console.print(block_view(blocks, width=80), width=80)
    for name, lines in (
        ("terminal", shown.get().strip().splitlines()),
        ("plain", "\n".join(block_lines(blocks)).strip().splitlines()),
    ):
        if len(lines) > _LINES:
            yield f"{name}: {len(lines)} lines"
        yield from (f"{name}: too wide: {line}" for line in lines if len(line) > 80)
    told = [text for block in blocks if not isinstance(block, Drawing) for text in _texts(block)]
    labels = [block.label for block in blocks if isinstance(block, Labelled)]
    words = sum(len(text.split()) for text in (*told, *labels))
    if words >= _WORDS:
        yield f"{words} words"


def _internal(texts: Iterable[str]) -> Iterator[str]:
    for text in texts:
        for rule in (_INTERNAL, _SIGNED, _MADE):
            if found := rule.search(text):
                yield f"{found[0]!r} in {text[:120]!r}"


def _mixed(audit: Audit, first: list[Block]) -> Iterator[str]:
    """The first page tells each kind of quantity in one system's units."""
    text = _TWICE.sub("", " ".join(t for block in first for t in _texts(block)))
    if audit.system == "uk_inches":
        return
    for pair in _TWO_UNITS:
        if all(re.search(_NUMBER.format(unit), text) for unit in pair):
            yield f"both {pair[0]} and {pair[1]} on the first page"


def _twice(first: list[Block]) -> Iterator[str]:
    """No step and nothing to buy stands on it twice."""
    rows = [row for block in first if isinstance(block, Labelled) for row in block.rows]
    yield from (f"told twice: {row}" for row in {*rows} if rows.count(row) > 1)


def _before_sources(blocks: list[Block]) -> list[Block]:
    titles = [block.text if isinstance(block, Heading) else "" for block in blocks]
    return blocks[: titles.index("Sources")]


def _texts(block: Block) -> Iterator[str]:
    if isinstance(block, Heading | Paragraph):
        yield block.text
    elif isinstance(block, Items):
        yield from (part for lead, said in block.rows for part in (lead, *said))
    elif isinstance(block, Labelled):
        yield from (part for row in block.rows for part in row)
    elif isinstance(block, Table):
        yield from (cell for row in (block.columns, *block.rows) for cell in row)
    elif isinstance(block, Drawing):
        yield block.words
