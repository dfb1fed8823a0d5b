"""One audit as a page: the first side, then everything else in layers. The formats dress it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.report.blocks import Block, Heading, Items
from interview.report.cited import source_name
from interview.report.first_page.blocks import page_blocks
from interview.report.first_page.page import first_page
from interview.report.page.closing import calendar_blocks, how_to_read, safety_notes
from interview.report.page.figures import drawings, numbers, readings
from interview.report.page.layers import buy_layer, checks_layer, mishap_layer
from interview.report.page.origins import assumption_blocks
from interview.report.page.plan_steps import plan_blocks
from interview.report.page.to_measure import measure_blocks
from interview.report.page.windows import window_blocks
from interview.report.regional import Worded
from interview.vocabulary.vocabulary import in_table

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["layers_of", "page_of", "with_sources"]


def page_of(
    audit: Audit, date: str = "", *, advice: Advice | None = None, whole: bool = True
) -> Iterator[Block]:
    """The audit's first page; if `whole` everything else after it, from numbers to sources."""
    page = first_page(audit, advice, date)
    plans = advice.plans if advice else ()
    yield from page_blocks(page, plans, drawings(audit, page))
    if whole:
        yield from with_sources(audit, layers_of(audit, advice))


def layers_of(audit: Audit, advice: Advice | None) -> Iterator[Block]:
    """All that the first page has no room for, each thing once, in the words of the region."""
    yield from Worded(audit.tank.lookup("region")).blocks(_layers(audit, advice))


def _layers(audit: Audit, advice: Advice | None) -> Iterator[Block]:
    yield from numbers(audit)
    if advice:
        yield from plan_blocks(audit, advice)
        yield from buy_layer(audit, advice)
    yield from measure_blocks(audit)
    yield from checks_layer(audit)
    if advice:
        yield from calendar_blocks(audit, advice)
        yield from window_blocks(audit, advice)
    yield from mishap_layer(audit)
    yield from safety_notes(audit, whole=True)
    yield from readings(audit)
    measured = [finding.measures for finding in audit.findings if finding.applies]
    yield from assumption_blocks(audit, dict.fromkeys((*in_table("whole"), *measured)))
    yield from how_to_read(audit)


def with_sources(audit: Audit, blocks: Iterator[Block]) -> Iterator[Block]:
    """The blocks, and in the end the full citations of what they name."""
    keys: set[str] = set()
    for block in blocks:
        keys.update(block.sources)
        yield block
    yield Heading(2, "Sources")
    named = ((source_name(key), (text,)) for key, text in audit.sources.items() if key in keys)
    yield Items(tuple(sorted(named)))
