"""The page on a colour terminal; colour repeats what the words say, never replaces them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from rich.console import Console, Group, RenderableType
from rich.padding import Padding
from rich.table import Table as RichTable
from rich.text import Text

from interview.report.blocks import Block, Drawing, Heading, Items, Labelled, Paragraph, Table
from interview.report.fitting import to_ascii, wrapped
from interview.report.formats.interface import Format, Page

__all__ = ["DRESS", "block_view"]

_WIDEST = 88
_COLOURS = {
    "DANGER": "bold red",
    "wrong": "red",
    "close": "yellow",
    "good": "green",
    "not judged": "dim",
}
_WAVE = "≈"
_FULL = 5
_MARGIN = 13
"""Columns that hold the label beside which something stands."""
_LEVELS = {
    "A": (5, "green"),
    "B": (4, "green"),
    "C": (3, "yellow"),
    "D": (2, "red"),
    "E": (1, "red"),
}


def block_view(
    blocks: Iterable[Block], *, width: int = 80, plain_letters: bool = False
) -> RenderableType:
    """Any blocks, ready for a rich console."""
    screen = _Screen(width, plain_letters)
    return Group(*(part for block in blocks for part in screen.parts(block)))


class _Terminal(Format):
    suffix = ".txt"

    def dress(self, page: Page) -> str:
        """What fits a few screens, or the whole, for the terminal this program writes to."""
        console = Console(highlight=False)
        width = min(console.width, _WIDEST)
        plain_letters = "utf" not in (console.encoding or "").lower()
        blocks = (*page.compared(), *page.blocks(whole=page.whole))
        with console.capture() as caught:
            console.print(block_view(blocks, width=width, plain_letters=plain_letters), width=width)
        return caught.get()


DRESS = _Terminal()


@dataclass(frozen=True)
class _Screen:
    """How blocks are put on one screen."""

    width: int
    plain_letters: bool

    def fit(self, text: str) -> str:
        return to_ascii(text) if self.plain_letters else text

    def lines(self, text: str, indent: int, style: str = "") -> Text:
        """A wrapped paragraph, set in."""
        margin = " " * indent
        fitted = wrapped(self.fit(text), self.width - indent)
        return Text("\n".join(margin + line for line in fitted), style)

    def parts(self, block: Block) -> Iterator[RenderableType]:
        if isinstance(block, Heading):
            yield Text()
            yield self.heading(block)
        elif isinstance(block, Paragraph):
            yield self.lines(block.text, 2, "bold" if block.strong else "")
        elif isinstance(block, Drawing):
            yield self.drawn(block)
        elif isinstance(block, Items):
            for number, row in enumerate(block.rows, block.start):
                yield self.item(f"{number}. " if block.numbered else "", row)
        elif isinstance(block, Labelled):
            yield self.labelled(block)
        else:
            yield Padding(self.table(block), (0, 0, 0, 2))

    def heading(self, block: Heading) -> Text:
        if block.level == 1:
            return self.lines(f"{_WAVE * 3} {block.text} {_WAVE * 3}", 0, "bold cyan")
        if block.level == 2:
            return self.lines(f"{_WAVE} {block.text}", 0, "bold cyan")
        return self.lines(block.text, 2, "bold")

    def drawn(self, block: Drawing) -> Text:
        """The picture, or its words on a screen too narrow for it."""
        lines = block.lines
        if block.picture:
            lines = block.picture.lines(self.width - 2, plain_letters=self.plain_letters)
        if max(map(len, lines), default=self.width) + 2 > self.width:
            return self.lines(block.words, 2)
        text = Text()
        for line in lines:
            text.append(f"  {self.fit(line)}\n", "cyan" if _WAVE in line else "")
        return text

    def labelled(self, block: Labelled) -> Text:
        """The label in the margin, what there is to say beside it."""
        text = Text("\n").join(self.beside(block))
        first = self.fit(block.label).ljust(_MARGIN - 2)
        return Text.assemble("  ", (first, "bold cyan"), text[_MARGIN:])

    def beside(self, block: Labelled) -> Iterator[Text]:
        for number, (lead, said) in enumerate(block.rows, block.start or 0):
            mark = "" if block.start is None else f"{number}. "
            told = f"{lead}: {said}" if lead else said
            fitted = wrapped(self.fit(told), self.width - _MARGIN - len(mark))
            lines = [" " * (_MARGIN + len(mark)) + line for line in fitted]
            lines[0] = " " * _MARGIN + mark + fitted[0]
            text = Text("\n".join(lines))
            text.stylize("bold", _MARGIN, _MARGIN + len(mark) + len(self.fit(lead)))
            yield text

    def table(self, block: Table) -> RichTable:
        table = RichTable(box=None, padding=(0, 2, 0, 0), header_style="dim", pad_edge=False)
        for column in block.columns:
            table.add_column(self.fit(column), overflow="fold", no_wrap=column == "Grade")
        for row in block.rows:
            table.add_row(*map(self.cell, block.columns, row))
        return table

    def cell(self, column: str, text: str) -> Text:
        """A grade is a tank that is so full, with its letter; all else is text."""
        level, colour = _LEVELS.get(text, (0, ""))
        if column != "Grade" or not level:
            return Text(self.fit(text))
        full, empty = self.fit(_WAVE * level), self.fit("·" * (_FULL - level))
        return Text.assemble((full, "cyan"), (empty, "dim"), (f" {text}", f"bold {colour}"))

    def item(self, mark: str, row: tuple[str, tuple[str, ...]]) -> Text:
        """The lead in bold, what there is to say set in under it."""
        lead, sentences = row
        word, dot, rest = lead.partition(" · ")
        judged = bool(dot) and word in _COLOURS
        text = Text(f"  {mark}")
        if judged:
            text.append(f"{word:<11}", _COLOURS[word])
        text.append_text(self.hung(rest if judged else lead, len(text), "bold"))
        for number, sentence in enumerate(s for s in sentences if s):
            text.append("\n")
            text.append_text(self.lines(sentence, 5, "dim" if judged and number else ""))
        return text

    def hung(self, words: str, indent: int, style: str) -> Text:
        """Words whose first line stands already set in; the next ones go under it."""
        fitted = wrapped(self.fit(words), self.width - indent)
        return Text(("\n" + " " * indent).join(fitted), style)
