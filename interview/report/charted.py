"""The tank to scale and the charts that matter, as blocks of the page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.report.blocks import Block, Drawing, Heading
from interview.report.first_page.page import first_page
from interview.report.pictures.chosen_charts import charts_that_matter
from interview.report.pictures.picture import Picture
from interview.report.pictures.tank_picture import tank_picture

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["chart_blocks", "drawing_of"]

_COLUMNS = 78
"""Of a chart in a file."""


def chart_blocks(audit: Audit, advice: Advice) -> Iterator[Block]:
    """The tank from the side and from above, and at most three charts of what wants a change."""
    page = first_page(audit, advice)
    pictures: list[Picture] = [tank_picture(audit, page.after, page.marks, listed=page.listed)]
    pictures += charts_that_matter(audit, page.after)
    for picture in pictures:
        yield Heading(2, picture.title)
        yield drawing_of(picture)


def drawing_of(picture: Picture) -> Drawing:
    """A picture as a block."""
    return Drawing(picture.lines(_COLUMNS), picture.words, picture)
