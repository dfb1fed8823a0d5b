"""What to get for a planned tank, as blocks of the page."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.advice.shopping import to_buy
from interview.report.blocks import Block, Heading, Items, Paragraph, Table
from interview.report.naming import capital, spoken

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.advice.purchase.planning import Specification
    from interview.advice.shopping import Item
    from interview.audit.audit import Audit

__all__ = ["shopping_blocks", "specification_blocks"]


def _graded(specification: Specification) -> str:
    """The grade of the very tank that the list describes, and what holds it down."""
    grades = specification.grades
    if grades is None:
        return ""
    letter = "STOP" if grades.stop else grades.overall
    off = [f for f in specification.findings if f.applies and f.verdict != "good"]
    open_ = "can't be judged yet"
    why = [
        f"{spoken(f.check)} {open_ if f.verdict == 'unmeasured' else f'is {f.verdict}'}"
        for f in off
    ]
    held = f" ({'; '.join(why)})" if why and letter != "A" else ""
    return (
        f"Built as listed, with the lamp moved until the shell reads as it should, this tank is "
        f"graded {letter}{held}."
    )


def specification_blocks(advice: Advice) -> Iterator[Block]:
    """The least that serves, in which order, and what can't be kept."""
    specification = advice.specification
    if specification is None:
        return
    yield Heading(2, "What to buy, by specification")
    if specification.impossible:
        yield Paragraph(specification.impossible, True)
    if not specification.rows:
        return
    turtle = "turtles" if specification.tank.several else "turtle"
    serves = "for the years until then" if specification.impossible else "now and grown"
    own = (
        f"The grade above is that of what you have decided, for the {turtle} of today; where the "
        "list parts from it, the reason stands below."
        if specification.refused
        else "The grade above is that of your own decisions, with the list's for all that you have "
        "left open."
    )
    yield Paragraph(f"The least that serves the {turtle} {serves}. {_graded(specification)} {own}")
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


def shopping_blocks(audit: Audit, advice: Advice) -> Iterator[Block]:
    """What the plans of a tank in use take, and what to measure with, each thing once."""
    items = to_buy(audit, advice.plans)
    if items:
        yield Heading(2, "What to buy, by specification")
        rows = tuple((i.what, i.specification, _for(audit, i)) for i in items)
        yield Table(("What", "Specification", "For"), rows)


def _for(audit: Audit, item: Item) -> str:
    """What a thing mends or reads; else the step it is for."""
    if item.measures:
        return ", ".join(audit.label_of(name) for name in item.measures)
    return ", ".join(map(spoken, item.checks)) or item.step.rstrip(".")
