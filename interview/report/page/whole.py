"""One audit as a page: what stands where. The formats only dress it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.report.blocks import Block, Heading, Items, Paragraph
from interview.report.page.caps import held_down_blocks
from interview.report.page.closing import calendar_blocks, how_to_read, safety_notes
from interview.report.page.figures import drawn, numbers, readings
from interview.report.page.origins import assumption_blocks
from interview.report.page.plan_steps import plan_blocks
from interview.report.page.purchase import specification_blocks
from interview.report.page.sections import section_blocks, section_blocks_in_short
from interview.report.page.to_do import inconsistency_blocks, to_do_blocks
from interview.report.page.windows import window_blocks
from interview.vocabulary.vocabulary import in_table

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["details", "middle", "opening", "page_of", "with_sources"]


_LAWS = ("invasive_law", "small_turtle_law")
_FINE = ("good", "unmeasured")


def page_of(
    audit: Audit, date: str = "", *, advice: Advice | None = None, whole: bool = True
) -> Iterator[Block]:
    """The audit's page from grade to sources; not `whole`: what fits a few screens."""
    blocks = _page(audit, date, advice, whole)
    yield from with_sources(audit, blocks) if whole else blocks


def with_sources(audit: Audit, blocks: Iterator[Block]) -> Iterator[Block]:
    """The blocks, and in the end the full citations of what they name."""
    keys: set[str] = set()
    for block in blocks:
        keys.update(block.sources)
        yield block
    yield from _sources(audit, keys)


def _page(audit: Audit, date: str, advice: Advice | None, whole: bool) -> Iterator[Block]:
    yield from opening(audit, date, whole)
    if advice:
        yield from specification_blocks(advice)
        yield from plan_blocks(audit, advice)
    yield from middle(audit, advice, whole)
    if whole:
        yield from details(audit)
        if advice:
            yield from window_blocks(audit, advice)
        yield from how_to_read(audit)


def opening(audit: Audit, date: str, whole: bool) -> Iterator[Block]:
    """The grade, answers to confirm, what to mend and what to measure."""
    yield Heading(1, audit.title)
    yield from _law_first(audit)
    yield Paragraph(f"{audit.grades.headline}{f' Audited on {date}.' if date else ''}", True)
    yield Paragraph(audit.grades.say)
    yield from held_down_blocks(audit, "")
    yield from inconsistency_blocks(audit)
    yield from to_do_blocks(audit, whole)


def middle(audit: Audit, advice: Advice | None, whole: bool) -> Iterator[Block]:
    """Numbers, sections, calendar and safety notes."""
    yield from numbers(audit, whole=whole)
    yield from section_blocks(audit) if whole else section_blocks_in_short(audit)
    if advice:
        yield from calendar_blocks(advice)
    yield from safety_notes(audit, whole)


def details(audit: Audit) -> Iterator[Block]:
    """What was answered, what was assumed and the side view."""
    yield from readings(audit)
    measured = [finding.measures for finding in audit.findings if finding.applies]
    yield from assumption_blocks(audit, dict.fromkeys((*in_table("whole"), *measured)))
    yield from drawn(audit)


def _law_first(audit: Audit) -> Iterator[Block]:
    """What the law says of an animal nobody has bought yet stands over everything else."""
    if audit.tank.lookup("stage") != "planning":
        return
    for finding in audit.findings:
        if finding.check in _LAWS and finding.applies and finding.verdict not in _FINE:
            yield Paragraph(f"The law first: {finding.say} {finding.do}".rstrip(), True)


def _sources(audit: Audit, keys: set[str]) -> Iterator[Block]:
    """The full citations of the sources that the page's blocks carry."""
    yield Heading(2, "Sources")
    named = ((key, (text,)) for key, text in audit.sources.items() if key in keys)
    yield Items(tuple(named))
