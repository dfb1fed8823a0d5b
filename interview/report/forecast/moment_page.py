"""One point of a curve as a page: its value, the terms that hold there, their laws and answers."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from interview.advice.forecast.balance import Term
from interview.advice.forecast.moment import Point
from interview.base.show import in_figures, magnitude
from interview.care.facts import assumptions
from interview.core.formula import Formula
from interview.core.sheet_lines import Citation
from interview.core.wiring import laws, quantities
from interview.core.working import Working
from interview.report.blocks import Block, Heading, Items, Paragraph
from interview.report.forecast.said import CAUTION, with_doubt
from interview.report.naming import capital
from interview.vocabulary.phrases import exactly, in_words, rounded

__all__ = ["inputs_of", "law_of", "moment_blocks"]

_HOUR = 3600.0
_WHOLE = 100.0  # from here on in whole numbers
_STILL = 0.005  # K or mg/L in an hour, by which a curve is said to stand


def moment_blocks(
    title: str, point: Point, working: Working, origin_of: Callable[[str], str], system: str
) -> Iterator[Block]:
    """The page of one point.

    Args:
        title: what the keeper calls the tank
        point: the curve at a moment
        working: the tank's quantities at their best values
        origin_of: how an answer was got, "" for what is none
        system: units
    """
    value = with_doubt(point.value, point.unit, system, point.curve)
    yield Heading(1, f"{point.curve} {point.when.said}: {title}")
    yield Paragraph(f"{point.curve} = {value}")
    if said := _moves(point, system):
        yield Paragraph(said)
    rows = ((capital(_term(one, system)), _rests(one, working, origin_of, system))
            for one in point.terms)  # fmt: skip
    yield Items(tuple(rows), sources=tuple(dict.fromkeys(_keys(point))), nested=True)
    yield Paragraph("“tankside explain SETUP NAME” goes on from each name, down to the answers.")
    yield Paragraph(CAUTION)


def law_of(term: Term) -> Formula | None:
    """The formula that gives a term, a quantity or a single sum; None where the run's plan does."""
    return quantities().formulas.get(term.law) or laws().get(term.law)


def inputs_of(term: Term, working: Working) -> dict[str, Any]:
    """What a term takes, with its best values; what this tank has none of is left out."""
    found = {name: working.get(name) for name in term.inputs}
    return {name: value for name, value in found.items() if value is not None}


def _moves(point: Point, system: str) -> str:
    pace = point.pace
    if pace is None:
        return ""
    step = pace * _HOUR
    if point.stores is None:
        how = f"{_signed(step)} mg/L an hour"
        how = how if abs(step) >= _STILL else "it stands nearly still"
        return f"All of it together: {how}."
    net = sum(term.amount for term in point.terms)
    way = "rises" if net > 0 else "falls"
    by, unit = magnitude(1.0, "K", system)
    moved = f"it {way} by {in_figures(abs(step) * by, 2)} {unit} an hour"
    moved = "it stands nearly still" if abs(step) < _STILL else moved
    stores = f"{in_figures(point.stores / 3.6e6 / by, 2)} kWh warm all of it by 1 {unit}"
    return f"In and out together {_signed(net)} W: {moved}, as {stores}."


def _term(term: Term, system: str) -> str:
    if term.unit == "W":
        return f"{term.say} {_signed(term.amount, tenths=True)} W"
    if term.unit == "mg/L/s":
        return f"{term.say} {_signed(term.amount * _HOUR)} mg/L an hour"
    if term.unit in ("kg/s", "kg"):
        many = term.amount * (_HOUR if term.unit == "kg/s" else 1.0)
        each = " an hour" if term.unit == "kg/s" else ""
        return f"{term.say} {_signed(many)} kg{each}"
    if term.unit == "K":
        many, unit = magnitude(term.amount, "K", system)
        return f"{term.say} {_signed(many, tenths=True)} {unit}"
    return f"{term.say} {rounded(term.amount, term.unit, system)}"


def _signed(number: float, *, tenths: bool = False) -> str:
    """With + or a true minus and no exponent; 0 with neither."""
    size = abs(number)
    fine = f"{size:.1f}" if tenths else in_figures(size, 2)
    text = f"{size:.0f}" if size >= _WHOLE else fine
    if not float(text):
        return "0"
    return f"{'+' if number > 0 else '−'}{text}"


def _rests(
    term: Term, working: Working, origin_of: Callable[[str], str], system: str
) -> tuple[str, ...]:
    law = law_of(term)
    said = [f"Law: {term.law}, {'; '.join(map(_cited, law.sources))}."] if law else []
    taken = [
        _input(name, value, working, origin_of, system)
        for name, value in inputs_of(term, working).items()
    ]
    return (*said, *([f"From {'; '.join(taken)}."] if taken else []))


def _input(
    name: str, value: Any, working: Working, origin_of: Callable[[str], str], system: str
) -> str:
    unit = working.unit_of(name)
    if said := origin_of(name):
        return f"{name} = {exactly(value, unit, system, name)} ({said})"
    fact = assumptions().get(name)
    how = f"assumed, {fact.source} [{fact.status}]" if fact else "worked out"
    return f"{name} = {in_words(value, unit, system, name)} ({how})"


def _cited(citation: Citation) -> str:
    place = f", {citation.place}" if citation.place else ""
    return f"{citation.key}{place} [{citation.status}]"


def _keys(point: Point) -> Iterator[str]:
    for term in point.terms:
        law = law_of(term)
        yield from (citation.key for citation in law.sources) if law else ()
