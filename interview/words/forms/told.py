"""Amounts in a story: numbers with their units, ranges, lists of lengths, sizes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from interview.words.amounts.amount import match_unit, unit_after
from interview.words.amounts.numbers import Number, read_number
from interview.words.amounts.spellings import TOLD, Unit, dimension_of, smaller, spellings
from interview.words.lexicon.files import known_words, meant_by, words
from interview.words.text.tokens import Text

__all__ = ["AmountAt", "Side", "amount_at", "lengths_at", "range_at", "size_at", "two_ends"]

_TIMES = ("x", "by", "/", "op", "mal")
_LEAST_BY_SLASH = 10
"""A slash parts the sides of a size only between numbers as large: 160/60/60 cm, but 3/4 in."""
_CLOSE = 1.21
""""6 or 7" is a range; "60 or 75" is a choice that nobody made."""
_MOST_SIDES, _MOST_BETWEEN = 3, 4
_MOST_LENGTHS = 8
_BARE_SMALLER: Mapping[Unit, tuple[int, int]] = {"foot": (1, 12), "m": (10, 100)}
"""Of which numbers behind a unit the smaller one is meant: 2 foot 6, one metre twenty."""
_SIGNS: Mapping[str, Unit] = {"v": "V", "a": "A", "k": "?degree"}


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a size: 18 in wide."""

    said: str
    value: float
    unit: Unit | None
    label: str = ""


@dataclass(frozen=True, slots=True)
class AmountAt:
    """A number with its unit, and where it stands."""

    start: int
    end: int
    kind: str
    unit: Unit | None
    number: Number

    @property
    def value(self) -> float:
        """The number by itself."""
        return float(self.number.value)

    @property
    def may_be_side(self) -> bool:
        """Whether it can be the side of a size."""
        return self.kind in ("length", "number")


def _unit_after(text: Text, at: int, number: Number) -> tuple[Unit | None, int]:
    """The unit of a number and its end; "in" is none in 2 in a 40 breeder, 50 x 50 in glass."""
    if "ish" in (text.word(number.end), text.word(number.end + 1)):
        ish = number.end + (text.word(number.end) == "-") + 1  # eight-ish inches
        if found := match_unit(text.tokens, ish, TOLD):
            return found
    unit, end = unit_after(text.tokens, number, TOLD) or _sign(text, number.end)
    loose = text.word(end - 1) == "in" and not text.tokens[end - 1].glued
    following = text.tokens[end].raw if end < len(text.tokens) else ""
    is_name = following[:1].isupper() and following[1:].islower()  # a couple in Lyon
    made_of = known_words("told", "made_of") if text.word(at - 1) in _TIMES else frozenset()
    no_inches = known_words("told", "not_inches") | made_of
    is_none = loose and (is_name or text.word(end) in no_inches)
    return (None, number.end) if is_none else (unit, end)


def _sign(text: Text, at: int) -> tuple[Unit | None, int]:
    """A unit that is else a word, where it is written as a sign: 240 V, 16A."""
    token = text.tokens[at] if at < len(text.tokens) else None
    is_sign = token is not None and (token.glued or token.raw.isupper())
    unit = _SIGNS.get(token.text) if token and is_sign else None
    return (unit, at + 1) if unit else (None, at)


def amount_at(text: Text, at: int) -> AmountAt | None:
    """A number with its unit, if it has one; "a" counts only before a whole unit."""
    number = read_number(text.tokens, at)
    if number is None:
        return None
    unit, end = _unit_after(text, at, number)
    article = text.word(at) in ("a", "an") and number.end == at + 1
    named = known_words("told", "whole") | known_words("told", "small")
    if article and not (unit and text.word(number.end) in named):
        return None
    if unit is None:
        in_words = text.tokens[at].kind == "word" or number.end > at + 1  # 1/4, but not 0.25
        kind = "part" if number.is_part and in_words else "number"
        return AmountAt(at, number.end, kind, None, number)
    kind = "degrees" if unit == "?degree" else dimension_of(unit)
    return AmountAt(at, _with_smaller(text, end, unit), kind, unit, number)


def _with_smaller(text: Text, at: int, unit: Unit) -> int:
    """Where an amount of two terms ends: 4 ft 2 in, a foot and a half."""
    joined = text.word(at) in ("and", "&") or (unit == "foot" and text.word(at) == "-")
    number = read_number(text.tokens, at + joined)
    if number is None:
        return at
    below, end = _unit_after(text, at, number)
    if below is None:
        halved = joined and number.is_part and (unit == "m" or unit in known_words("told", "whole"))
        low, high = _BARE_SMALLER.get(unit, (0, 0))
        smaller_too = not joined and low <= number.value < high and _is_closed(text, end)
        return end if halved or smaller_too else at
    return end if below == smaller(unit) and text.word(at + joined) != "a" else at


def _is_closed(text: Text, at: int) -> bool:
    """Whether what follows a number can't be what it counts: 2 foot 6 long, 12 foot 6, and."""
    return text.word(at) in {"", "and", *_TIMES, *meant_by("side_labels")} or (
        text.tokens[at].kind == "mark" and text.word(at) not in ("-", "%", '"', "'")
    )


def range_at(text: Text, first: AmountAt) -> AmountAt | None:
    """The second amount of a range: 6-7 in, 65F to 78F, between 18 and 27 °C."""
    mark = text.word(first.end)
    between = text.word(first.start - 1) == "between"
    slash = mark == "/" and first.unit is None
    if mark not in ("-", "to", "or") and not slash and not (mark == "and" and between):
        return None
    second = amount_at(text, first.end + 1)
    if second is None or second.number.value <= first.number.value:
        return None
    if first.unit is not None and second.unit != first.unit:
        return None
    close = second.number.value <= _CLOSE * first.number.value
    if mark == "or" and not close and second.number.value - first.number.value != 1:
        return None
    return second


_AND = ("and", "&", "+")


def lengths_at(text: Text, first: AmountAt) -> tuple[int, tuple[Side, ...]] | None:
    """Several lengths with one unit at the end: 3, 4 and 5 inches."""
    amounts = [first]
    while amounts[-1].unit is None and len(amounts) < _MOST_LENGTHS:
        after = amounts[-1].end
        while text.word(after) in (",", *_AND):
            after += 1
        following = amount_at(text, after) if after > amounts[-1].end else None
        if following is None:
            return None
        amounts.append(following)
    last = amounts[-1]
    if last is first or last.kind != "length" or text.word(last.start - 1) not in _AND:
        return None
    unit = text.said(last.number.end, last.end)
    numbers = ((text.said(one.start, one.number.end), one.value) for one in amounts)
    sides = (Side(f"{n} {unit}".replace(" -", " "), value, last.unit) for n, value in numbers)
    return last.end, tuple(sides)


def size_at(text: Text, at: int) -> tuple[int, tuple[Side, ...]] | None:
    """36 x 18 x 16 in: two sides or three; 48 in long, 18 wide and 21 tall: three of them."""
    if at > 1 and text.word(at - 1) in _TIMES and text.tokens[at - 2].kind == "number":
        return None  # the rest of more than three sides
    if text.word(at - 1) in words().numbers.ones and text.word(at) in words().numbers.tens:
        return None  # one fifty by fifty: a hundred and fifty
    sides: list[Side] = []
    here: int | None = at
    end, least = at, 2
    while here is not None and len(sides) <= _MOST_SIDES:
        amount = amount_at(text, here)
        if amount is None or not amount.may_be_side:
            return None
        slashed = "/" in (text.word(here - 1), text.word(amount.end))
        if slashed and (amount.value < _LEAST_BY_SLASH or len(sides) == _MOST_SIDES):
            return None
        least = _MOST_SIDES if slashed else least
        label, end = _label_at(text, amount, first=not sides)
        sides.append(Side(text.said(here, amount.end), amount.value, amount.unit, label))
        here = _side_after(text, end, label)
        if here is not None and text.word(end) not in _TIMES:
            least = _MOST_SIDES
    if not least <= len(sides) <= _MOST_SIDES:
        return None
    stop, unit = _unit_of_all(text, end)
    if unit and not any(side.unit for side in sides):
        return stop, tuple(replace(one, said=f"{one.said} {unit}", unit=unit) for one in sides)
    return end, tuple(sides)


def _unit_of_all(text: Text, at: int) -> tuple[int, Unit | None]:
    """The unit that follows a size: 130 by 50 by 60, all in cm."""
    while text.word(at) in (",", "(", "all", "everything"):
        at += 1
    unit = spellings("length").get(text.word(at + 1)) if text.word(at) == "in" else None
    return at + 2, unit


def _label_at(text: Text, amount: AmountAt, *, first: bool = False) -> tuple[str, int]:
    """Which side it is, and where that ends: 18 wide, 0.5 m of width, a 3 foot tank."""
    at = amount.end
    after = at + (text.word(at) in ("of", "in"))
    word = text.word(after)
    label = meant_by("side_labels").get(word)
    if label and (after == at or len(word) > 1):
        return label, after + 1
    glass = at + (text.word(at) == "glass")
    is_tank = first and amount.unit and text.word(glass) in ("tank", "aquarium")
    return "long" if is_tank else "", at


def _side_after(text: Text, at: int, label: str) -> int | None:
    """Where the next side starts; without a mark between them both have labels."""
    if text.word(at) in _TIMES:
        return at + 1
    here = at
    between = known_words("told", "between_sides")
    while label and here < at + _MOST_BETWEEN and text.word(here) in between:
        here += 1
    amount = amount_at(text, here) if label else None
    return here if amount and amount.may_be_side and _label_at(text, amount)[0] else None


def two_ends(text: Text, first: AmountAt, last: AmountAt) -> tuple[Side, ...]:
    """Both ends of a range, each with the unit."""
    unit = text.said(last.number.end, last.end) if last.end > last.number.end else ""
    low = text.said(first.start, first.end)
    low = low if first.unit else f"{low} {unit}".strip()
    high = text.said(last.start, last.end)
    return Side(low, first.value, last.unit), Side(high, last.value, last.unit)
