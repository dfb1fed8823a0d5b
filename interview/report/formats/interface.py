"""What an output format is: a dress for a page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Protocol

from interview.report.before_and_after import comparison_blocks
from interview.report.blocks import Block, Drawing, Paragraph
from interview.report.page.layers import layer_blocks, why_blocks
from interview.report.page.whole import page_of

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.report.pictures.picture import Picture

__all__ = ["Format", "Page", "picture_file"]


@dataclass(frozen=True)
class Page:
    """What there is to show of one tank.

    `before` is the tank as it is where changes were supposed; `whole` asks for every check with
    its limits; `file` names the setup; `beside` is the stem of a file that its pictures lie beside.
    `layers` are asked for in place of the page, and so is what `why` names.
    """

    audit: Audit
    advice: Advice | None = None
    before: Audit | None = None
    date: str = ""
    whole: bool = False
    file: str = ""
    beside: str = ""
    layers: tuple[str, ...] = ()
    why: str = ""

    def pictures(self) -> Iterator[tuple[str, Picture]]:
        """The pictures of the whole page, each with the name of its file."""
        for block in self._everything:
            if isinstance(block, Drawing) and block.picture:
                yield picture_file(self.beside, block.picture.name), block.picture

    @cached_property
    def _everything(self) -> tuple[Block, ...]:
        """The whole page: made once for its pictures and its text, as it runs all mishaps."""
        return tuple(self._made(whole=True, date=self.date))

    def blocks(self, *, whole: bool, date: str = "") -> Iterator[Block]:
        """The first page or the whole, from grade to sources; or the layers asked for."""
        if whole and date == self.date:
            yield from self._everything
        else:
            yield from self._made(whole=whole, date=date)

    def _made(self, *, whole: bool, date: str) -> Iterator[Block]:
        if not (self.layers or self.why):
            yield from page_of(self.audit, date, advice=self.advice, whole=whole)
            return
        for name in self.layers:
            if self.advice:
                yield from layer_blocks(name, self.audit, self.advice)
        if self.why:
            nothing = [Paragraph(f"Nothing that was judged goes by “{self.why}”.")]
            yield from why_blocks(self.audit, self.why) or nothing

    def compared(self) -> Iterator[Block]:
        """What the supposed changes would do, where there are any."""
        if self.before:
            yield from comparison_blocks(self.before, self.audit)


def picture_file(beside: str, name: str) -> str:
    """The name of the file that holds a picture of a page."""
    return f"{beside}.{name}.svg"


class Format(Protocol):
    """A dress: it decides how things look, never what is said."""

    suffix: str
    """How the name of a file in this format ends, as “.md”."""
    around: tuple[str, str, str] = ("", "", "")
    """What stands before, between and after the pages of several tanks.

    Where something stands after them they are one document, written page by page.
    """

    def dress(self, page: Page) -> str:
        """The page as text that ends with a line's end."""

    def alone(self, page: Page) -> str:
        """The page where it is the only one that is asked for."""
        return self.dress(page)

    def missing(self, file: str, why: str) -> str:
        """What stands in the place of a page of several that there is none of; mostly nothing."""
        return ""
