"""The first page as blocks, with as much on it as one side of paper or one screen holds."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeAlias

from interview.report.blocks import Block, Drawing, Heading, Labelled, Paragraph
from interview.report.first_page.sentences import enumerated
from interview.report.naming import spoken

if TYPE_CHECKING:
    from interview.advice.plans.plans import Plan
    from interview.report.first_page.page import FirstPage
    from interview.report.first_page.steps import Step

__all__ = ["LINES", "beginning_blocks", "page_blocks", "plan_block", "rest_blocks"]

LINES = 45
"""Lines of 80 columns that the page takes at most; one side of paper holds as many."""
_WIDTH, _MARGIN = 79, 14  # a little less room than there is: a number is not parted from its unit
_NAMED = 2


Draw: TypeAlias = Callable[[int, int], Drawing | None]
"""Draws the tank in about so many lines, marked with the steps up to a number; None where it
can't."""


@dataclass(frozen=True)
class _Room:
    """How many steps of the week, things to get and lines of the picture there is room for.

    `marks` says whether the picture is marked with the steps of the week too.
    """

    week: int
    buy: int
    drawn: int
    marks: bool = True


_ROOMS = (
    _Room(8, 6, 14), _Room(6, 5, 13), _Room(5, 4, 12), _Room(4, 3, 11), _Room(4, 3, 10),
    _Room(3, 2, 9), _Room(4, 3, 9, marks=False), _Room(3, 2, 8, marks=False),
    _Room(2, 1, 8, marks=False), _Room(4, 3, 0), _Room(2, 1, 0),
)  # fmt: skip
"""What is tried in turn until the page is short enough."""


def page_blocks(page: FirstPage, plans: Sequence[Plan], draw: Draw) -> list[Block]:
    """The whole first page; the last steps and things to get are counted where it would be long.

    Args:
        page: what it says
        plans: each plan there is, the cheapest first
        draw: draws the tank
    """
    top = list(beginning_blocks(page))
    if plans:
        top.append(Labelled("Plans", tuple(map(_plan_row, plans))))
    return [*top, *rest_blocks(page, draw, top)]


def beginning_blocks(page: FirstPage) -> Iterator[Block]:
    """What is known with the grade: why, what doesn't fit together, what can't wait."""
    yield Heading(1, page.title)
    yield Paragraph(f"{page.headline}{f' Audited on {page.date}.' if page.date else ''}", True)
    yield Paragraph(page.why)
    if page.law and page.planned:
        yield _each("The law", page.law)  # before anything is bought
    if page.confirm:
        yield _each("Confirm", page.confirm)
    if page.today:
        yield Labelled("Today", tuple((s.lead, s.do) for s in page.today), page.today[0].number)
    elif not page.planned:
        nothing = "Nothing to change." if page.grade == "A" else "Nothing that can't wait."
        yield _each("Today", (nothing,))


def plan_block(plan: Plan, before: int) -> Block:
    """One plan in a line: how many steps, and where they lead.

    Args:
        plan: the plan
        before: how many plans stand before it
    """
    return Labelled("" if before else "Plans", (_plan_row(plan),))


def _plan_row(plan: Plan) -> tuple[str, str]:
    steps = len(plan.steps)
    grade = "STOP still" if plan.grades.stop else f"grade {plan.grades.overall}"
    return plan.name, f"{steps} step{'s' if steps > 1 else ''}, {grade} afterwards."


def rest_blocks(page: FirstPage, draw: Draw, taken: Sequence[Block]) -> list[Block]:
    """What follows the plans, in the room that what stands before it leaves."""
    before = sum(map(_height, taken))
    for room in _ROOMS:
        blocks = list(_rest(page, draw, room))
        if before + sum(map(_height, blocks)) <= LINES:
            break
    return blocks


def _rest(page: FirstPage, draw: Draw, room: _Room) -> Iterator[Block]:
    last = len(page.today) + (room.week if room.marks else 0)
    if room.drawn and (drawing := draw(room.drawn, last)):
        yield drawing
    yield from _week(page, room.week)
    yield from _buy(page.buy, room.buy)
    if page.measure:
        yield _each("Measure", ("; ".join(page.measure) + ".",))
    if page.again:
        yield _each("Look again", (" ".join(page.again),))
    if page.law and not page.planned:
        yield _each("The law", page.law)
    yield _each("The vet", (page.vet,))
    yield _each("Always", (page.always,))


def _week(page: FirstPage, most: int) -> Iterator[Block]:
    told = page.week[:most]
    if told:
        label = "Decide" if page.planned else "This week"
        yield Labelled(label, tuple(map(_step, told)), told[0].number)
    if more := len(page.week) - len(told):
        yield Labelled("", (("", f"and {more} more: see “plans”"),))


def _step(step: Step) -> tuple[str, str]:
    """A step with what it is for, as far as that isn't said."""
    names = [spoken(check) for check in step.about]
    if step.lead or all(_says(step.do, name) for name in names):
        return step.lead, step.do
    if len(names) > _NAMED:
        names = [*names[:_NAMED], f"{len(names) - _NAMED} more"]
    return "", f"{step.do} (For {enumerated(names)}.)"


def _says(sentence: str, name: str) -> bool:
    """Whether a sentence holds every word of a name, or a plural of it."""
    said = sentence.casefold()
    return all(word.removesuffix("s") in said for word in name.casefold().split() if word != "or")


def _buy(buy: Sequence[str], most: int) -> Iterator[Block]:
    told = buy[:most]
    if told:
        yield _each("Buy", told)
    if more := [text.partition(":")[0] for text in buy[most:]]:
        yield Labelled("", (("", f"Also {'; '.join(more)}: see “buy”"),))


def _each(label: str, said: Sequence[str]) -> Labelled:
    return Labelled(label, tuple(("", text) for text in said))


def _height(block: Block) -> int:
    """Lines it takes on a screen of 80 columns, or a few more."""
    if isinstance(block, Heading):
        return 1 + len(textwrap.wrap(block.text, _WIDTH - 8))
    if isinstance(block, Paragraph):
        return len(textwrap.wrap(block.text, _WIDTH - 2))
    if isinstance(block, Drawing):
        return len(block.lines) + 1
    if isinstance(block, Labelled):
        mark = 0 if block.start is None else 4
        said = (f"{lead}: {text}" if lead else text for lead, text in block.rows)
        return sum(len(textwrap.wrap(text, _WIDTH - _MARGIN - mark)) for text in said)
    raise TypeError(f"{type(block).__name__} has no place on the first page")
