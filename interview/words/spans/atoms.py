"""Numbers of a told text with the units behind them, each with its place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from interview.base.units import convert
from interview.words.amounts.amount import match_unit
from interview.words.amounts.dimensions import dimensions
from interview.words.amounts.numbers import number_words, read_number
from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.spellings import TOLD, Unit, dimension_of, regional
from interview.words.mentions.amounts import AmountAt, amount_at
from interview.words.spans.numbers import spoken_at
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import Text

__all__ = ["Atom", "atoms_in"]

_BEGINS = frozenset({"point", "hundred", "thousand"})
_ALONE = {
    **dict.fromkeys(("pair", "couple", "both", "twin", "twins", "double", "doubled"), 2),
    **dict.fromkeys(("single", "lone", "solitary", "sole", "once", "ein", "eine", "un", "une"), 1),
    **{"trio": 3, "triple": 3, "second": 2, "third": 3, "dozen": 12, "none": 0, "nothing": 0},
    **{"zwei": 2, "drei": 3, "vier": 4, "deux": 2, "trois": 3, "dos": 2, "tres": 3, "quatre": 4},
}
"""Counts that are no numbers elsewhere."""
_MIL = {"mil": "mm", "mils": "mm", "mill": "mm", "kelvins": "?degree", "pc": "%", "procent": "%"}
_WHOLE = frozenset({"whole", "full", "good", "bare", "solid", "clear", "generous", "scant"})
"""Between a number and its unit."""
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
    """As it was told; of a number without a unit, the number; "" for one that is only spoken."""


def atoms_in(text: Text) -> list[Atom]:
    """Every number, in order; “one fifty watt” is both of its readings."""
    return list(_atoms(text))


def _atoms(text: Text) -> Iterator[Atom]:
    begins, tries, at = number_words() | _BEGINS, 0, 0
    while at < len(text.tokens):
        token = text.tokens[at]
        if token.text in _ALONE:
            yield Atom(at, at + 1, at + 1, float(_ALONE[token.text]), "count")
        if token.kind != "number" and token.text not in begins:
            at += 1
            continue
        tries += 1
        if tries > _MOST:
            return
        spoken = spoken_at(text.tokens, at) if token.kind == "word" else None
        if spoken is not None:
            yield _spoken(text, at, float(spoken.value), spoken.end)
        found = amount_at(text, at) or _of_one(text, at)
        if found is None:
            at = max(at + 1, spoken.end if spoken and token.text not in ("a", "an") else 0)
            continue
        atom = _atom(text, at, found)
        if found.unit and found.unit == "inch" and text.word(found.end - 1) == "in":
            yield from _loose(text, at, found)
        yield atom
        at = atom.end


def _of_one(text: Text, at: int) -> AmountAt | None:
    """A kilo, a whole part per million, a degree and a half."""
    if text.word(at) not in ("a", "an"):
        return None
    here = at + 1 + (text.word(at + 1) in _WHOLE)
    found = match_unit(text.tokens, here, TOLD)
    if found is None or len(text.word(here)) < 3:
        return None
    number = read_number(text.tokens, at)
    if number is None or number.end != at + 1:
        return None
    unit, end = found
    kind = "degrees" if unit == "?degree" else dimension_of(unit)
    return AmountAt(at, end, kind, unit, number)


def _loose(text: Text, at: int, found: AmountAt) -> Iterator[Atom]:
    """The number alone, where "in" may be no inches: 31 in feb."""
    if not text.tokens[found.end - 1].glued:
        end = found.number.end
        yield Atom(at, end, end, found.value, "number", None, text.said(at, end))


def _atom(text: Text, at: int, found: AmountAt) -> Atom:
    number_end = found.number.end
    if found.unit is None:
        return _with_unit(text, at, found)
    said = text.said(at, found.end)
    value = found.value
    if found.end > number_end + 1 and _is_compound(text, number_end, found.end):
        value = _in_unit(said, found)
    elif end := _halved(text, found.end):
        return Atom(at, end, number_end, value + 0.5, found.kind, found.unit)
    return Atom(at, found.end, number_end, value, found.kind, found.unit, said)


def _halved(text: Text, at: int) -> int:
    """Where "and a half" ends behind a unit; 0 where it doesn't stand."""
    return at + 3 if text.words(at, at + 3) == ("and", "a", "half") else 0


def _is_compound(text: Text, first: int, end: int) -> bool:
    """Whether an amount has a second term: 4 ft 2 in, a foot and a half."""
    inside = text.tokens[first:end]
    return any(one.kind == "number" or one.text in number_words() - {"a", "an"} for one in inside)


def _in_unit(said: str, found: AmountAt) -> float:
    if found.kind not in dimensions() or not found.unit:
        return found.value
    try:
        best = read_quantity(said, found.kind).best
    except NotUnderstood:
        return found.value
    return convert(best, dimensions()[found.kind].core_unit, regional(found.unit, ""))


def _with_unit(text: Text, at: int, found: AmountAt) -> Atom:
    """A number with a unit that only stories have, or with a word before it: 10 mil, 3 whole cm."""
    number_end = found.number.end
    end = number_end + (text.word(number_end) == "-")
    if unit := _MIL.get(text.word(end)):
        kind = "degrees" if unit == "?degree" else dimension_of(unit)
        return Atom(at, end + 1, number_end, found.value, kind, unit)
    if text.word(number_end) in _WHOLE and (whole := match_unit(text.tokens, number_end + 1, TOLD)):
        kind = "degrees" if whole[0] == "?degree" else dimension_of(whole[0])
        return Atom(at, whole[1], number_end, found.value, kind, whole[0])
    said = text.said(at, number_end)
    return Atom(at, number_end, number_end, found.value, found.kind, None, said)


def _spoken(text: Text, at: int, value: float, end: int) -> Atom:
    after = end + (text.word(end) == "-")
    unit = match_unit(text.tokens, after, TOLD)
    if unit is None:
        return Atom(at, end, end, value, "number")
    kind = "degrees" if unit[0] == "?degree" else dimension_of(unit[0])
    return Atom(at, unit[1], end, value, kind, unit[0])
