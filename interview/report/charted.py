"""The charts that matter, as blocks of the page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.advice.what_if.suppose import changed
from interview.report.blocks import Block, Drawing, Heading
from interview.report.pictures.chosen_charts import charts_that_matter
from interview.report.pictures.picture import Picture

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.audit.tank import Tank

__all__ = ["after_the_plan", "chart_blocks", "drawing_of"]

_COLUMNS = 78
"""Of a chart in a file."""


def chart_blocks(audit: Audit, advice: Advice) -> Iterator[Block]:
    """At most three charts, of what most wants a change."""
    for chart in charts_that_matter(audit, after_the_plan(audit, advice)):
        yield Heading(2, chart.title)
        yield drawing_of(chart)


def drawing_of(picture: Picture) -> Drawing:
    """A picture as a block."""
    return Drawing(picture.lines(_COLUMNS), picture.words, picture)


def after_the_plan(audit: Audit, advice: Advice) -> Tank | None:
    """The tank after the plan that does the most; None where there is none."""
    if not advice.plans:
        return None
    changes = {change.quantity: change.after for change in advice.plans[-1].changes}
    return changed(audit.tank, changes)
