"""Numbers of a told text with the units behind them, each with its place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from interview.words.amounts.numbers import Number, number_words, read_number
from interview.words.amounts.spellings import Unit
from interview.words.lexicon.files import words
from interview.words.mentions.amounts import AmountAt, amount_at
from interview.words.text.tokens import Text

__all__ = ["Atom", "atoms_in"]

_BEGINS = frozenset({"point", "nought", "no", "none", "nothing", "pair", "couple", "dozen"})
_ALONE = {
    **dict.fromkeys(("pair", "couple", "both", "twin", "twins", "double", "doubled"), 2),
    **dict.fromkeys(("single", "lone", "solitary", "sole", "once", "ein", "eine", "un", "une"), 1),
    **{"trio": 3, "triple": 3, "second": 2, "third": 3, "dozen": 12, "none": 0, "nothing": 0},
    **{"zwei": 2, "drei": 3, "vier": 4, "deux": 2, "trois": 3, "dos": 2, "tres": 3, "quatre": 4},
}
"""Counts that are no numbers elsewhere."""
_MIL = {"mil": "mm", "mils": "mm", "mill": "mm", "kelvins": "?degree"}
_MOST = 300
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
    terms: int = 1


def atoms_in(text: Text) -> list[Atom]:
    """Every number, in order; “one fifty watt” is both of its readings."""
    return list(_atoms(text))


def _atoms(text: Text) -> Iterator[Atom]:
    begins, tries, at = number_words(), 0, 0
    while at < len(text.tokens):
        token = text.tokens[at]
        if token.kind != "number" and token.text not in begins:
            if token.text in _ALONE or token.text == "point":
                yield from _odd(text, at)
            at += 1
            continue
        tries += 1
        if tries > _MOST:
            return
        yield from _spoken(text, at)
        atom = _atom(text, at)
        if atom is None:
            if token.text in _ALONE:
                yield from _odd(text, at)
            at += 1
            continue
        yield atom
        at = atom.end


def _odd(text: Text, at: int) -> Iterator[Atom]:
    """A pair, both; point three four."""
    if text.word(at) != "point":
        yield Atom(at, at + 1, at + 1, float(_ALONE[text.word(at)]), "count")
        return
    digits, here = "", at + 1
    while (one := words().numbers.ones.get(text.word(here))) is not None and one <= 9:
        digits, here = f"{digits}{one}", here + 1
    is_first = text.word(at - 1) not in number_words() and text.tokens[at - 1].kind != "number"
    if digits and is_first:
        yield _with_unit(text, at, Number(Fraction(f"0.{digits}"), here))


def _atom(text: Text, at: int) -> Atom | None:
    found = amount_at(text, at)
    if found is None:
        return None
    if found.unit is None:
        return _with_unit(text, at, found.number, found.kind)
    return _of(found, at)


def _of(found: AmountAt, at: int) -> Atom:
    terms = 1 + (found.end > found.number.end + 2)
    return Atom(at, found.end, found.number.end, found.value, found.kind, found.unit, terms)


def _with_unit(text: Text, at: int, number: Number, kind: str = "number") -> Atom:
    """The number with a unit that only stories have: 10 mil."""
    end = number.end + (text.word(number.end) == "-")
    if unit := _MIL.get(text.word(end)):
        dimension = "length" if unit == "mm" else "degrees"
        return Atom(at, end + 1, number.end, float(number.value), dimension, unit)
    return Atom(at, number.end, number.end, float(number.value), kind)


def _spoken(text: Text, at: int) -> Iterator[Atom]:
    """One fifty for 150, two thirty for 230, with the unit behind it."""
    numbers = words().numbers
    one, after = numbers.ones.get(text.word(at), 0), at + 1 + (text.word(at + 1) == "-")
    if not 1 <= one <= 9:
        return
    rest = read_number(text.tokens, after) if text.word(after) not in ("a", "an") else None
    spoken = text.word(after) in numbers.tens or numbers.ones.get(text.word(after), 0) >= 10
    if rest is None or not spoken or not 10 <= rest.value < 100:
        return
    value = 100 * one + float(rest.value)
    unit = amount_at(text, after)
    if unit is None or unit.unit is None:
        yield Atom(at, rest.end, rest.end, value, "number")
    else:
        yield replace(_of(unit, at), value=value)
