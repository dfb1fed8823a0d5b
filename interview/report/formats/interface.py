"""What an output format is: a dress for a page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from interview.report.blocks import Block, Drawing
from interview.report.page.before_and_after import comparison_blocks
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
    its limits; `file` names the setup where it is one of several.
    """

    audit: Audit
    advice: Advice | None = None
    before: Audit | None = None
    date: str = ""
    whole: bool = False
    file: str = ""
    beside: str = ""

    def pictures(self) -> Iterator[tuple[str, Picture]]:
        """The pictures of the whole page, each with the name of its file."""
        for block in self.blocks(whole=True, date=self.date):
            if isinstance(block, Drawing) and block.picture:
                yield picture_file(self.beside, block.picture.name), block.picture

    def blocks(self, *, whole: bool, date: str = "") -> Iterator[Block]:
        """The page in short or whole, from grade to sources."""
        return page_of(self.audit, date, advice=self.advice, whole=whole)

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

    Where something stands after them they are one document, which is written at the end.
    """

    def dress(self, page: Page) -> str:
        """The page as text that ends with a line's end."""

    def missing(self, file: str, why: str) -> str:
        """What stands in the place of a page of several that there is none of; mostly nothing."""
        return ""
