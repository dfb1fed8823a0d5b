"""What ends a page: the calendar, safety notes, how to read it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.report.blocks import Block, Heading, Items, Paragraph, Table
from interview.report.cited import cited, keys_of
from interview.report.naming import capital

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit

__all__ = ["calendar_blocks", "how_to_read", "safety_notes"]

_NOW, _TODAY = "now", "What stands under Today on the first page."


def calendar_blocks(audit: Audit, advice: Advice) -> Iterator[Block]:
    """What is due when; what ends a danger stands under Today."""
    orders = {finding.do for finding in audit.findings}
    rows = [(d.when, d.what) for d in advice.duties if d.what not in orders]
    if len(rows) < len(advice.duties):
        rows.insert(0, (_NOW, _TODAY))
    if rows:
        yield Heading(2, "Calendar")
        yield Table(("When", "What"), tuple(rows))


def safety_notes(audit: Audit, whole: bool) -> Iterator[Block]:
    """The safety notes with their sources; in short what is so and what to do first."""
    yield Heading(2, "Safety notes" if whole else "Safety notes, in short")
    if not whole:
        yield Items(tuple((note.title, (_beginning(note.say),)) for note in audit.notes))
        return
    origins = [cited(note.status, note.sources) for note in audit.notes]
    rows = (
        (note.title, (note.say, f"({capital(origin.text)}.)"))
        for note, origin in zip(audit.notes, origins, strict=True)
    )
    yield Items(tuple(rows), sources=keys_of(origins))


def _beginning(text: str, sentences: int = 2) -> str:
    parts = text.split(". ")
    return ". ".join(parts[:sentences]).rstrip(".") + "."


def how_to_read(audit: Audit) -> Iterator[Block]:
    """What grades, verdicts and chances mean."""
    yield Heading(2, "How to read this")
    yield Items(tuple((letter, (say,)) for letter, say in audit.grades.meanings))
    yield Paragraph(
        "Nothing is measured exactly, so every answer counts as a range. A chance of 80% means: in "
        "80 of 100 tanks that would give your answers it is so. A verdict follows your best "
        "readings and what a mistake would cost: past the tolerated range is wrong however unsure, "
        "and a danger is called well before it is more likely than not. It is sure when nine in "
        "ten of the likely values say the same, likely from two in three, open below. Limits of "
        "what is good stand by their values; “why” and the check's name tells what they mean, and "
        "which other rules there are."
    )
