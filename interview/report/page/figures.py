"""The tank in numbers: the side view, the values people know by name, the answers as given."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache
from typing import TYPE_CHECKING, Any

import numpy as np

from interview.report.blocks import Block, Drawing, Heading, Paragraph, Table
from interview.report.cited import Cited, keys_of
from interview.report.naming import capital
from interview.report.page.origins import NO_ERROR, formula_origin, readings_error
from interview.report.pictures.tank_picture import TankPicture, tank_picture
from interview.vocabulary.phrases import ranged, rounded
from interview.vocabulary.vocabulary import in_table

if TYPE_CHECKING:
    from interview.audit.audit import Audit, Figure, GivenLike
    from interview.report.first_page.page import FirstPage

__all__ = ["drawings", "numbers", "readings"]

_WORDS = ("choice", "yes/no")
_SAME = "–"
_IN_NAME = re.compile(r"(?<=\w)_(?=\w)")
_PAPER = 78
"""Columns of a picture on one side of paper, or on a screen with a margin."""


def numbers(audit: Audit) -> Iterator[Block]:
    """What this tank measures, each with its likely range and where it comes from."""
    names = in_table("whole")
    found = [_row(audit, audit.figures[n]) for n in names if n in audit.figures]
    rows = [row for row in found if row]
    if rows:
        yield Heading(2, "The tank in numbers")
        columns = ("What", "Value", "Likely range", "From")
        cells = tuple((*shown, origin.text) for shown, origin in rows)
        yield Table(columns, cells, sources=keys_of(origin for _, origin in rows))


def drawings(audit: Audit, page: FirstPage) -> Callable[[int, int], Drawing | None]:
    """Draws the tank to scale, the same but once; None where there is nothing to draw.

    A page is tried in one room after another until it fits, and many draw alike.

    Args:
        audit: the tank and what was found
        page: what the first page says of it

    Returns:
        what takes the lines it should take (more where the marks need them) and the number of
        the last step that is marked
    """

    @cache
    def marked(*numbers: int) -> TankPicture:
        marks = [mark for mark in page.marks if mark.number in numbers]
        return tank_picture(audit, page.after, marks, listed=page.listed, from_above=False)

    @cache
    def drawn(most: int, *numbers: int) -> Drawing | None:
        picture = replace(marked(*numbers), most_lines=most)
        lines = picture.lines(_PAPER)
        return Drawing(lines, picture.brief, picture) if lines else None

    return lambda most, last: drawn(most, *(m.number for m in page.marks if m.number <= last))


def _row(audit: Audit, figure: Figure) -> tuple[tuple[str, ...], Cited] | None:
    """What, value and likely range; and where it comes from."""
    if figure.value is None:
        return None

    def shown(value: Any) -> str:
        below = figure.unit == "m" and np.ndim(value) == 0 and value is not None and value < 0
        said = rounded(-value if below else value, figure.unit, audit.system, figure.name)
        return f"{said} below" if below else said

    likely = _SAME
    if " below" in shown(figure.low):
        likely = f"{shown(figure.low)} to {shown(figure.high)}"
    elif shown(figure.low) != shown(figure.high):
        ends = figure.low, figure.high
        likely = ranged(*ends, figure.unit, audit.system, figure.name, spoken=True)
    origin = formula_origin(audit, figure.name)
    return (capital(audit.label_of(figure.name)), shown(figure.value), likely), origin


def readings(audit: Audit) -> Iterator[Block]:
    """Every answer in words: what was said or chosen, and what was assumed for the rest."""
    yield Heading(2, "The answers as given")
    yield Paragraph(
        "The usual error is how far off such a reading often is, by our own estimate where nothing "
        "is named: two in three are nearer; a factor of 1.2 is up to 1.2 times as much, or as "
        "little. “About”, a range or “not sure” make it wider. All that follows was worked out for "
        "2,048 values a reading may have."
    )
    rows: dict[str, list[GivenLike]] = {}
    for item in audit.readings:
        rows.setdefault(item.question, []).append(item)
    errors = {question: readings_error(audit, parts) for question, parts in rows.items()}
    said = {q: (capital(audit.label_of(q)), _answer(audit, parts)) for q, parts in rows.items()}
    told = [q for q in rows if errors[q].text != NO_ERROR]
    if told:
        yield Table(
            ("Question", "Answer", "Usual error"),
            tuple((*said[q], errors[q].text) for q in told),
            sources=keys_of(errors[q] for q in told),
        )
    if words := [": ".join(said[q]) for q in rows if q not in told]:
        yield Paragraph(f"{'Besides: ' if told else ''}{'; '.join(words)}.")


def _answer(audit: Audit, parts: list[GivenLike]) -> str:
    """A choice by its name, numbers and lists as typed; an assumption with its stand-in."""
    first = parts[0]
    value = " × ".join(
        rounded(_best(item.value), item.unit, audit.system, item.name) for item in parts
    )
    if first.how == "assumed":
        return f"{value} (assumed: {first.said})"
    listed = isinstance(first.value, tuple) and any(map(str.isalpha, first.said))
    return value if first.unit in _WORDS and not listed else _IN_NAME.sub(" ", first.said)


def _best(value: Any) -> Any:
    if isinstance(value, tuple | list):
        return tuple(map(_best, value))
    return getattr(value, "best", value)
