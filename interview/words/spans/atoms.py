"""Numbers of a told text with the units behind them, each with its place."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache

from interview.base.units import convert
from interview.words.amounts.amount import match_unit
from interview.words.amounts.dimensions import dimensions
from interview.words.amounts.numbers import number_words, read_number
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.spellings import TOLD, Unit, dimension_of, regional, spellings
from interview.words.forms.spoken import spoken_at
from interview.words.forms.told import AmountAt, amount_at
from interview.words.lexicon.files import spans
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import Text

__all__ = ["Atom", "atoms_in", "told_text"]

_BEGINS = frozenset({"point", "hundred", "thousand"})
_ARTICLES = frozenset({"a", "an"})
_LOOSE = frozenset({"in", "w"})
"""Behind a number and a space these may be no unit: 31 in feb, 86 w the room at 70."""
_NO_UNITS = (("second", "hand"), ("year", "round"))
_NEVER_INCHES = ("depth", "width", "length", "height", "breadth")
_BEHIND_INCHES = ("tank", "aquarium", "x", "by", "and", "terrarium", "outside", "or", "to", "thick")
_ONE_OF = frozenset({"foot", "inch", "metre", "meter", "pound", "kilo", "year", "yard", "month"})
_PARTS: Mapping[tuple[str, ...], float] = {("and", "a", "half"): 0.5, ("and", "a", "quarter"): 0.25}
_LEAST_NAME = 3
_NEAR = 5
_MOST = 400
"""Words looked at for a number: more than any story has."""


@dataclass(frozen=True, slots=True)
class Atom:
    """A number, with its unit if one stands behind it, by tokens."""

    first: int
    end: int
    number_end: int
    value: float
    kind: str
    """A dimension, part, number, degrees, or count for what is no number elsewhere."""
    unit: Unit | None = None
    said: str = ""
    """As it was told, if it can be typed so; of a number without a unit, the number."""
    thousands: float = 0.0
    """The value if its mark groups thousands, where that may be."""
    loose: bool = False
    """Whether its unit is rather a word: 140 by 60 by 50 in glass."""


def told_text(text: str) -> Text:
    """The text cut into tokens, with numbers and units of other languages in English."""
    return Text(text, spans().translated)


@cache
def _counts() -> dict[str, float]:
    return {word: float(many) for many, said in spans().counts.items() for word in said}


@cache
def _also_units() -> dict[str, Unit]:
    return {word: unit for unit, said in spans().also_units.items() for word in said}


def atoms_in(text: Text) -> list[Atom]:
    """Every number, in order; “one fifty watt” is both of its readings."""
    return sorted((*_counted(text), *_numbers(text)), key=lambda atom: atom.first)


def _counted(text: Text) -> Iterator[Atom]:
    for at, token in enumerate(text.tokens):
        if token.text in _counts():
            yield Atom(at, at + 1, at + 1, _counts()[token.text], "count")


def _numbers(text: Text) -> Iterator[Atom]:
    begins, tries, at = number_words() | _BEGINS, 0, 0
    while at < len(text.tokens) and tries < _MOST:
        token = text.tokens[at]
        if token.text in _ONE_OF and text.words(at + 1, at + 4) in _PARTS:
            yield _one_and(text, at)
            at += 4
            continue
        if token.kind != "number" and token.text not in begins:
            at += 1
            continue
        if _is_marker(text, at):
            at += 2
            continue
        tries += 1
        spoken = spoken_at(text.tokens, at) if token.kind == "word" else None
        if spoken is not None:
            yield _bare(text, at, float(spoken.value), spoken.end, spoken=True)
        if token.text in _ARTICLES and text.word(at + 1) in spans().heavy:
            yield Atom(at, at + 2, at + 1, spans().heavy[text.word(at + 1)], "mass", "kg")
        found = amount_at(text, at) or _of_one(text, at)
        if found is not None:
            yield from _told(text, at, found)
            at = found.end
        else:
            at += 1


def _is_marker(text: Text, at: int) -> bool:
    """Whether a number only counts the lines of a list: 3/ 80x40x40 tank."""
    behind = text.tokens[at + 1 : at + 3]
    return len(behind) > 1 and behind[0].text == "/" and behind[0].glued and not behind[1].glued


def _one_and(text: Text, at: int) -> Atom:
    """Pound and a half, inch and a quarter: one, without a word for it."""
    unit, end = spellings(TOLD)[text.word(at)], at + 4
    value = 1 + _PARTS[text.words(at + 1, end)]
    return Atom(at, end, at, value, dimension_of(unit), unit)


def _of_one(text: Text, at: int) -> AmountAt | None:
    """A kilo, a whole part per million, a degree and a half."""
    here = at + 1 + (text.word(at + 1) in spans().whole)
    number = read_number(text.tokens, at) if text.word(at) in _ARTICLES else None
    unit = match_unit(text.tokens, here, TOLD) if len(text.word(here)) >= _LEAST_NAME else None
    if number is None or unit is None or number.end != at + 1:
        return None
    return AmountAt(at, unit[1], _kind(unit[0]), unit[0], number)


def _kind(unit: Unit) -> str:
    return "degrees" if unit == "?degree" else dimension_of(unit)


def _told(text: Text, at: int, found: AmountAt) -> Iterator[Atom]:
    number_end, said = found.number.end, text.said(at, found.end)
    thousands = float(found.number.thousands or 0)
    if found.unit is None:
        yield replace(_bare(text, at, found.value, number_end, found.kind), thousands=thousands)
        return
    is_loose = text.word(number_end) in _LOOSE and not text.tokens[number_end].glued
    nights = not {"night", "nights"}.isdisjoint(text.words(max(0, at - _NEAR), at))
    is_loose |= nights and text.word(number_end) in ("day", "days")  # 64 nights, 70 days
    is_loose |= text.text[text.tokens[number_end].start] in "oO"  # 16 oc, on centre
    behind = text.words(number_end, number_end + 2)
    if is_loose or behind in _NO_UNITS:
        number = text.said(at, number_end)
        yield Atom(at, number_end, number_end, found.value, "number", None, number, thousands)
    if behind in _NO_UNITS:
        return
    value, end = found.value, found.end
    if text.words(end, end + 3) == ("and", "a", "half"):
        value, end, said = value + 0.5, end + 3, ""
    elif _is_compound(text, number_end, end):
        value = _whole(said, found)
    is_word = is_loose and not _is_unit(text, number_end)
    yield Atom(at, end, number_end, value, found.kind, found.unit, said, thousands, is_word)


def _is_unit(text: Text, at: int) -> bool:
    """Whether a loose "in" is rather inches, by what follows it."""
    token = text.tokens[at + 1] if at + 1 < len(text.tokens) else None
    return token is None or token.kind != "word" or token.text in _behind_inches()


@cache
def _behind_inches() -> frozenset[str]:
    labels = (word for said in spans().side_labels.values() for word in said)
    return frozenset({*_BEHIND_INCHES, *labels} - {*_NEVER_INCHES})


def _is_compound(text: Text, first: int, end: int) -> bool:
    """Whether an amount has a second term: 4 ft 2 in, a foot and a half."""
    inside, names = text.tokens[first + 1 : end], number_words() - _ARTICLES
    return any(one.kind == "number" or one.text in names for one in inside)


def _whole(said: str, found: AmountAt) -> float:
    """All terms of an amount, in the first one's unit."""
    if found.kind not in dimensions() or not found.unit:
        return found.value
    try:
        best = read_quantity(said, found.kind).best
    except NotUnderstood:
        return found.value
    return convert(best, dimensions()[found.kind].core_unit, regional(found.unit, ""))


def _bare(
    text: Text, at: int, value: float, end: int, kind: str = "number", *, spoken: bool = False
) -> Atom:
    """A number with a unit only stories have, or behind a word: 10 mil, 3 whole cm, 0.6 t."""
    here = end + (text.word(end) == "-")
    here += value < 1 and text.word(here) == "of"
    here += value < 1 and text.word(here) in _ARTICLES
    here += text.word(here) in spans().whole
    if text.word(here) in spans().heavy:
        return Atom(at, here + 1, end, value * spans().heavy[text.word(here)], "mass", "kg")
    unit, stop = _also_units().get(text.word(here)), here + 1
    may_follow = spoken or text.word(here - 1) in spans().whole
    if unit is None and may_follow and (found := match_unit(text.tokens, here, TOLD)):
        unit, stop = found
    if unit is not None and stop > end:
        return Atom(at, stop, end, value, _kind(unit), unit)
    return Atom(at, end, end, value, kind, None, text.said(at, end))
