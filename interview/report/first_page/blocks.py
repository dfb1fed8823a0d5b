"""The first page as blocks, with as much on it as one side of paper or one screen holds."""

from __future__ import annotations

import itertools
import re
import textwrap
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, TypeAlias

from interview.audit.grades import NO_GRADE
from interview.audit.gravity import gravity
from interview.report.blocks import Block, Drawing, Heading, Labelled, Paragraph
from interview.report.first_page.sentences import beginning, enumerated, named
from interview.report.naming import capital, fault_of, inside, spoken

if TYPE_CHECKING:
    from interview.advice.plans.plan import Plan
    from interview.report.first_page.page import FirstPage
    from interview.report.first_page.step import Step

__all__ = ["LINES", "beginning_blocks", "in_short", "page_blocks"]

LINES = 45
"""Lines of 80 columns that the page takes at most; one side of paper holds as many."""
_MOST_WORDS = 446
"""Words to be read on it at most, our own choice."""
_WIDTH, _MARGIN = 79, 14  # a little less room than there is: a number is not parted from its unit
_NAMED = 2
_MOST_STAYING = 3
"""Faults that are named of what a plan leaves."""
_MOST_LEFT = 5
"""Names of what no step mends that are told in one line or two."""
_TIGHT, _SHORT, _FIRST = 14, 17, 26
"""Characters of a word or two of a specification that are told even of a thing in short; of those
that begin it, where there is room."""
_LEAD = 24
"""Characters before a size that it can do without; after more of them it is the size of another."""
_NUMBER = re.compile(r"“?\d")
_PARTS = re.compile(r"[;,] ")
_SIZE = re.compile(r"\d\s?(?:[cm]?m|in|m?[WAL]|gal|[kl][gb]|ml|×|litre)\b|\d [×x] ")


_FORBIDDEN = "Don't buy it. “buy” tells what such a tank would take."
Draw: TypeAlias = Callable[[int, int], Drawing | None]
"""Draws the tank in about so many lines, marked with the steps up to a number; None where it
can't."""


@dataclass(frozen=True)
class _Room:
    """How many steps of the week, things to get and lines of the picture there is room for.

    `marked` of the week's steps are marked in the picture, none of today's either where it is None;
    `reasons` says whether each step tells what it is for, `sizes` how many measures are told of
    what there is no line for, `left` how much is told of what no step mends, `brief` that notes are
    told by their first sentence.
    """

    week: int
    buy: int
    drawn: int
    marked: int | None
    reasons: bool = False
    sizes: int = 1
    left: int = 4
    brief: bool = False


_NOTHING = {
    "A": "Nothing to change.",
    NO_GRADE: "No danger in what was answered; what is open may hold one.",
}
"""What there is to do today where there is no danger, by grade."""

_ROOMS = (
    _Room(14, 14, 14, 14, reasons=True), _Room(14, 14, 12, 14, reasons=True),
    _Room(14, 14, 12, 14), _Room(14, 8, 10, 8, sizes=2), _Room(14, 5, 10, 5, sizes=2),
    _Room(14, 3, 10, 5, sizes=2), _Room(12, 1, 9, 4, sizes=2), _Room(10, 0, 8, 3, sizes=2),
    *(_Room(week, 0, 8, marked, sizes=2) for week, marked in ((8, 2), (7, 1), (6, 0), (5, 0))),
    *(_Room(week, 0, 7, 0, sizes=2) for week in (5, 4)),
    *(_Room(week, 0, 8, 0, left=0) for week in (6, 5, 4)),
    *(_Room(week, 0, 7, 0, left=0) for week in (5, 4, 3, 2)),
    *(_Room(week, 0, 6, 0, left=0) for week in (3, 2, 1)),
)  # fmt: skip
"""What is tried in turn until the page is short enough."""

_TIGHTER = (
    *(_Room(week, 0, 6, 0, left=0, brief=True) for week in (4, 3, 2, 1, 0)),
    *(_Room(week, 0, 6, None, left=0, brief=True) for week in (3, 2, 1, 0)),
    *(_Room(week, 0, 0, 0, left=0) for week in (5, 4, 3, 2, 1)),
    *(_Room(week, 0, 0, 0, sizes=0, left=0) for week in (3, 2, 1, 0)),
)
"""What is tried next, where plans that aren't told have given way: brief notes, then no picture."""


def page_blocks(page: FirstPage, plans: Sequence[Plan], draw: Draw) -> list[Block]:
    """The whole first page; the last steps and things to get are counted where it would be long.

    Args:
        page: what it says
        plans: each plan there is, the cheapest first
        draw: draws the tank
    """
    top = list(beginning_blocks(page))
    if page.plan is None:
        return _fitted(page, draw, top, (*_ROOMS, *_TIGHTER))
    told = [*itertools.takewhile(lambda plan: plan is not page.plan, plans), page.plan]
    blocks: list[Block] = []
    for shown, rooms in ((told, _ROOMS), (told[-1:], (*_ROOMS, *_TIGHTER))):
        rows = _plan_rows(shown, page)
        name, said = rows[-1]
        where = "below" if page.week else "above"
        known = [*top, Labelled("Plans", (*rows[:-1], (f"{name} ({where})", said)))]
        blocks = _fitted(page, draw, known, rooms)
        if _fits(blocks):
            break  # picture and steps come before the plans that aren't told
    return blocks


def beginning_blocks(page: FirstPage) -> Iterator[Block]:
    """What is known with the grade: why, what doesn't fit together, what can't wait."""
    yield Heading(1, page.title)
    date = f" Audited on {page.date}." if page.date else ""
    yield Paragraph(f"{page.headline}{date}", True)
    yield Paragraph(page.why)
    if page.forbidden:
        yield Paragraph(_FORBIDDEN, True)
    if page.law and page.planned:
        yield _each("The law", page.law)  # before anything is bought
    if page.confirm:
        yield _each("Confirm", page.confirm)
    if page.today:
        yield Labelled("Today", tuple((s.lead, s.do) for s in page.today), page.today[0].number)
    elif not page.planned:
        yield _each("Today", (_NOTHING.get(page.grade, "Nothing dangerous."),))


def _plan_rows(plans: Sequence[Plan], page: FirstPage) -> list[tuple[str, str]]:
    """Where each plan leads; of two that lead to the same, the cheaper alone, or the last."""
    rows = [_plan_row(plan, page) for plan in plans]
    ends = [said for _, said in rows]
    told: dict[str, str] = {}
    for plan, (name, said) in zip(plans, rows, strict=True):
        end = f"{said[:-1]}, {_left_by(plan)}." if ends.count(said) > 1 else said
        if plan is plans[-1]:
            told.pop(end, None)
        told.setdefault(end, name)
    return [(name, end) for end, name in told.items()]


def _left_by(plan: Plan) -> str:
    wrong = sum(f.applies and f.verdict in ("wrong", "danger") for f in plan.findings)
    return f"{wrong or 'nothing'} left wrong"


def _plan_row(plan: Plan, page: FirstPage) -> tuple[str, str]:
    if plan.grades.stop:
        return plan.name, f"then still STOP; {_staying(plan, 'danger')}."
    if page.stop:
        return plan.name, f"then no danger left, {plan.grades.reached}."
    if plan.grades.overall != page.grade:
        return plan.name, f"then {plan.grades.reached}."
    stays = _staying(plan, "wrong") if plan is page.plan else ""
    same = f"{plan.grades.reached}; {stays}" if stays else _grade_left(plan)
    return plan.name, f"then still {same}."


def _staying(plan: Plan, verdict: str) -> str:
    """What the plan leaves so, the gravest first."""
    left = sorted((n.finding for n in plan.rest if n.finding.verdict == verdict), key=gravity)
    names = [fault_of(finding) for finding in left]
    still = "dangerous" if verdict == "danger" else verdict
    return f"still {still}: {named(names, _MOST_STAYING)}" if names else ""


def _grade_left(plan: Plan) -> str:
    return f"{plan.grades.reached}, {_left_by(plan)}"


def _fitted(
    page: FirstPage, draw: Draw, taken: Sequence[Block], rooms: Sequence[_Room]
) -> list[Block]:
    """What is taken and what follows it, in the first of these rooms that it fits, or the last."""
    blocks: list[Block] = []
    for room in rooms:
        blocks = [*taken, *_rest(page, draw, room)]
        if _fits(blocks):
            break
    return blocks


def _rest(page: FirstPage, draw: Draw, room: _Room) -> Iterator[Block]:
    last = 0 if room.marked is None else len(page.today) + room.marked
    if room.drawn and (drawing := draw(room.drawn, last)):
        yield drawing
    if notes := [beginning(note, 0) if room.brief else note for note in page.notes]:
        yield _each("Note", notes)
    yield from _week(page, room)
    yield from _left(page, room)
    yield from _buy(page.buy, room.buy, room.sizes)
    if page.measure:
        yield _each("Find out", ("; ".join(page.measure) + ".",))
    if page.again:
        yield _each("Look again", (" ".join(page.again),))
    if page.law and not page.planned:
        yield _each("The law", page.law)
    if page.vet:
        yield _each("The vet", (page.vet,))
    yield _each("Always", (page.always,))


def _week(page: FirstPage, room: _Room) -> Iterator[Block]:
    told = page.week[: room.week]
    if told:
        rows = tuple(_step(step, reasons=room.reasons) for step in told)
        yield Labelled(page.later, rows, told[0].number)
    if more := len(page.week) - len(told):
        said = f"and {more} more" if told else f"{more} step{'s' if more > 1 else ''}"
        yield Labelled("" if told else page.later, (("", f"{said}: under “plans”"),))


def _left(page: FirstPage, room: _Room) -> Iterator[Block]:
    """What neither today nor the plan mends, the gravest first."""
    told = page.left[: room.left]
    if told:
        rows = tuple((step.lead, beginning(step.do, 0)) for step in told)
        yield Labelled("Also wrong", rows, told[0].number)
    if more := [inside(step.lead) for step in page.left[len(told) :]]:
        kept = more if len(more) <= _MOST_LEFT else more[: _MOST_LEFT - 1]
        others = len(more) - len(kept)
        rest = "; ".join(kept) + (f" and {others} more" if others else "")
        label, said = ("", rest) if told else ("Also wrong", capital(rest))
        yield Labelled(label, (("", f"{said}: under “more”."),))


def _step(step: Step, *, reasons: bool) -> tuple[str, str]:
    """A step with what it is for, as far as that isn't said and there is room."""
    names = [spoken(check) for check in step.about]
    if step.lead or not reasons or all(_says(step.do, name) for name in names):
        return step.lead, step.do
    return "", f"{step.do} (For {enumerated(names[:_NAMED])}.)"


def _says(sentence: str, name: str) -> bool:
    """Whether a sentence holds every word of a name, or a plural of it."""
    said = sentence.casefold()
    return all(word.removesuffix("s") in said for word in name.casefold().split() if word != "or")


def _buy(buy: Sequence[str], most: int, sizes: int) -> Iterator[Block]:
    told = buy[:most]
    if told:
        yield _each("Buy", told)
    if more := [in_short(text, sizes) for text in buy[most:]]:
        yield Labelled(
            "" if told else "Buy", (("", f"{'Also ' if told else ''}{'; '.join(more)}."),)
        )


def in_short(text: str, most: int) -> str:
    """A thing to get with its sizes, as far as it has any."""
    what, _, specification = text.partition(": ")
    parts = _PARTS.split(specification)
    sizes = [part for part in parts if _SIZE.search(part) and _begins(part) <= _LEAD][:most]
    begins = [part.partition(", ")[0] for part in specification.split("; ")]
    first, later = (_FIRST, _SHORT) if most > 1 else (_TIGHT, _TIGHT)
    room = (first, *itertools.repeat(later, len(begins)))
    short = [p for p, least in zip(begins, room, strict=False) if 0 < len(p) <= least]
    short = [part for part in short if "(" not in part]
    told = [p if p in short else _bare(p) for p in parts if p in sizes or p in short]
    return f"{what} ({', '.join(told)})" if told else what


def _bare(part: str) -> str:
    """A size from its number on, as “30 in × 12 in” of “made for a tank of 30 in × 12 in”."""
    return part[_begins(part) :]


def _begins(part: str) -> int:
    """Where its first number stands."""
    found = _NUMBER.search(part)
    return found.start() if found else 0


def _each(label: str, said: Sequence[str]) -> Labelled:
    return Labelled(label, tuple(("", text) for text in said))


def _fits(blocks: Sequence[Block]) -> bool:
    """Whether the page is short enough: as a screen of 80 columns, as plain lines, to read."""
    short = all(sum(map(height, blocks)) <= LINES for height in (_height, _plain_height))
    return short and sum(map(_words, blocks)) <= _MOST_WORDS


def _words(block: Block) -> int:
    """Words to be read beside the picture, with numbers and labels."""
    if isinstance(block, Heading | Paragraph):
        return len(block.text.split()) + 1
    if isinstance(block, Labelled):
        return len(block.label.split()) + sum(1 + len(text.split()) for text in _said(block))
    return 0


def _height(block: Block) -> int:
    """Lines it takes on a screen of 80 columns, or a few more."""
    if isinstance(block, Heading):
        return 1 + _lines(block.text, _WIDTH - 8)
    if isinstance(block, Paragraph):
        return _lines(block.text, _WIDTH - 2)
    if isinstance(block, Drawing):
        return len(block.lines) + 1
    if isinstance(block, Labelled):
        mark = 0 if block.start is None else 4
        return sum(_lines(text, _WIDTH - _MARGIN - mark) for text in _said(block))
    raise TypeError(f"{type(block).__name__} has no place on the first page")


def _plain_height(block: Block) -> int:
    """Lines it takes without pictures, labels and margins, or a few more."""
    if isinstance(block, Drawing):
        return _lines(block.words, _WIDTH - 2)
    if isinstance(block, Labelled):
        alone = len(block.rows) == 1 and block.start is None
        label = f"{block.label}: " if alone and block.label else ""
        lines = sum(_lines(label + text, _WIDTH - 8) for text in _said(block))
        return lines + bool(block.label and not alone)
    return _height(block)


def _said(block: Labelled) -> Iterator[str]:
    return (f"{lead}: {text}" if lead else text for lead, text in block.rows)


@lru_cache(512)
def _lines(text: str, width: int) -> int:
    """Lines a text takes; most are asked about again in each room that is tried."""
    return len(textwrap.wrap(text, width))
