"""What to get for a planned tank, as blocks of the page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.report.blocks import Block, Heading, Items, Paragraph, Table
from interview.report.naming import capital

if TYPE_CHECKING:
    from interview.advice.advise import Advice

__all__ = ["specification_blocks"]


def specification_blocks(advice: Advice) -> Iterator[Block]:
    """The least that serves, in which order, and what can't be kept."""
    specification = advice.specification
    if specification is None:
        return
    yield Heading(2, "What to get, by specification")
    if specification.impossible:
        yield Paragraph(specification.impossible, True)
    if not specification.rows:
        return
    turtle = "turtles" if specification.tank.several else "turtle"
    serves = "for the years until then" if specification.impossible else "now and grown"
    yield Paragraph(
        f"The least that serves the {turtle} {serves}. The audit of what you have decided so far "
        "stands by itself."
    )
    yield Table(
        ("What", "Specification"), tuple((r.what, r.specification) for r in specification.rows)
    )
    if specification.kept:
        yield Paragraph(f"Kept as you decided: {'; '.join(specification.kept)}.")
    if specification.refused:
        yield Heading(3, "What you decided and the list can't keep")
        yield Items(tuple((capital(r.what), (r.why,)) for r in specification.refused))
    yield Heading(3, "In this order")
    yield Items(tuple((step, ()) for step in specification.sequence), numbered=True)
