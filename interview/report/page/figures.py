"""The tank in numbers: the side view, the values people know by name, the answers as given."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from interview.report.blocks import Block, Drawing, Heading, Paragraph, Table
from interview.report.cited import Cited, keys_of
from interview.report.naming import capital
from interview.report.page.origins import formula_origin, readings_error
from interview.report.pictures.tank_picture import tank_picture
from interview.vocabulary.phrases import in_words, ranged
from interview.vocabulary.vocabulary import in_table

if TYPE_CHECKING:
    from interview.audit.audit import Audit, Figure, GivenLike

__all__ = ["drawn", "numbers", "readings"]

_WORDS = ("choice", "yes/no")
_SAME = "–"
_MARKDOWN = 88
"""Columns of a picture in a file."""


def numbers(audit: Audit, *, whole: bool) -> Iterator[Block]:
    """What this tank measures, each with its likely range; not `whole`: the first things asked."""
    names = in_table("whole" if whole else "brief")
    found = [_row(audit, audit.figures[n]) for n in names if n in audit.figures]
    rows = [row for row in found if row]
    if rows:
        yield Heading(2, "The tank in numbers")
        columns = ("What", "Value", "Likely range", "From")
        cells = tuple((*shown, origin.text) for shown, origin in rows)
        if whole:
            yield Table(columns, cells, sources=keys_of(origin for _, origin in rows))
        else:
            yield Table(columns[:-1], tuple(row[:-1] for row in cells))


def drawn(audit: Audit) -> Iterator[Block]:
    """The tank to scale."""
    picture = tank_picture(audit)
    yield Heading(2, picture.title)
    yield Drawing(picture.lines(_MARKDOWN), picture.words, picture)


def _row(audit: Audit, figure: Figure) -> tuple[tuple[str, ...], Cited] | None:
    """What, value and likely range; and where it comes from."""
    if figure.value is None:
        return None

    def shown(value: Any) -> str:
        return in_words(value, figure.unit, audit.system, figure.name)

    likely = _SAME
    if shown(figure.low) != shown(figure.high):
        likely = ranged(figure.low, figure.high, figure.unit, audit.system, figure.name)
    origin = formula_origin(audit, figure.name)
    return (capital(audit.label_of(figure.name)), shown(figure.value), likely), origin


def readings(audit: Audit) -> Iterator[Block]:
    """Every answer in words: what was said or chosen, and what was assumed for the rest."""
    yield Heading(2, "The answers as given")
    yield Paragraph(
        "The usual error is how far off such a reading often is: two in three are nearer. Words "
        "such as “about”, a range or “not sure” make it wider. All that follows from a reading "
        "was worked out for 2,048 values it may have."
    )
    rows: dict[str, list[GivenLike]] = {}
    for item in audit.readings:
        rows.setdefault(item.question, []).append(item)
    errors = {question: readings_error(audit, parts) for question, parts in rows.items()}
    yield Table(
        ("Question", "Answer", "How", "Usual error"),
        tuple(
            (
                capital(audit.label_of(question)),
                _answer(audit, parts),
                parts[0].how,
                errors[question].text,
            )
            for question, parts in rows.items()
        ),
        sources=keys_of(errors.values()),
    )


def _answer(audit: Audit, parts: list[GivenLike]) -> str:
    """A choice by its name, numbers and lists as typed; an assumption with its stand-in."""
    first = parts[0]
    value = " × ".join(
        in_words(_best(item.value), item.unit, audit.system, item.name) for item in parts
    )
    if first.how == "assumed":
        return f"{value} ({first.said})"
    listed = isinstance(first.value, tuple) and any(map(str.isalpha, first.said))
    return value if first.unit in _WORDS and not listed else first.said


def _best(value: Any) -> Any:
    if isinstance(value, tuple | list):
        return tuple(map(_best, value))
    return getattr(value, "best", value)
