"""Numbers as they are spoken: one fifty, fourteen hundred, two three zero, zero comma four."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from interview.words.amounts.numbers import read_number
from interview.words.lexicon.files import words
from interview.words.text.tokens import Token

__all__ = ["Spoken", "spoken_at"]

_POINTS = frozenset({"point", "comma"})
_WHOLE = frozenset({"round", "good", "full", "whole", "solid", "cool"})
"""Between "a" and a hundred."""
_THOUSAND, _HUNDRED, _TEN = 1000, 100, 10


class Spoken(NamedTuple):
    """A number, and where it ends."""

    value: float
    end: int


def spoken_at(tokens: Sequence[Token], at: int) -> Spoken | None:
    """A number in words that only speech has, where it goes beyond what is written so."""
    found = max(
        filter(None, (_digits(tokens, at), _thousands(tokens, at), _pair(tokens, at))),
        key=lambda one: one.end,
        default=None,
    )
    if found is None:
        return None
    plain = read_number(list(tokens[at : found.end + 2]))
    return found if plain is None or at + plain.end < found.end else None


def _word(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].text if 0 <= at < len(tokens) else ""


def _digits(tokens: Sequence[Token], at: int) -> Spoken | None:
    """Two three zero; zero comma four; point three."""
    ones, said, here = words().numbers.ones, "", at
    while here < len(tokens):
        digit = ones.get(_word(tokens, here), _TEN)
        is_point = _word(tokens, here) in _POINTS and "." not in said
        if digit >= _TEN and not (is_point and ones.get(_word(tokens, here + 1), _TEN) < _TEN):
            break
        said += "." if is_point else str(digit)
        here += 1
    is_decimal = "." in said and len(said) > 1
    spelled = "." not in said and len(said) > 1
    begins = is_decimal and _word(tokens, at) != "comma"
    return Spoken(float(said), here) if begins or spelled else None


def _below_hundred(tokens: Sequence[Token], at: int) -> Spoken | None:
    numbers, word = words().numbers, _word(tokens, at)
    if word in numbers.ones:
        return Spoken(numbers.ones[word], at + 1)
    if word not in numbers.tens:
        return None
    after = at + 1 + (_word(tokens, at + 1) == "-")
    one = numbers.ones.get(_word(tokens, after), 0)
    if 1 <= one < _TEN:
        return Spoken(numbers.tens[word] + one, after + 1)
    return Spoken(numbers.tens[word], at + 1)


def _pair(tokens: Sequence[Token], at: int) -> Spoken | None:
    """One fifty, two forty three."""
    first = words().numbers.ones.get(_word(tokens, at), 0)
    if not 1 <= first < _TEN:
        return None
    rest = _below_hundred(tokens, at + 1 + (_word(tokens, at + 1) == "-"))
    return Spoken(_HUNDRED * first + rest.value, rest.end) if rest and rest.value >= _TEN else None


def _hundreds(tokens: Sequence[Token], at: int) -> Spoken | None:
    """Hundred, a round hundred, fourteen hundred, two hundred and five."""
    here = at
    if _word(tokens, here) in ("a", "the"):
        here += 1 + (_word(tokens, here + 1) in _WHOLE)
    small = _below_hundred(tokens, here)
    if small is None or _word(tokens, small.end) != "hundred":
        return small if _word(tokens, here) != "hundred" else _rest(tokens, _HUNDRED, here + 1)
    return _rest(tokens, _HUNDRED * small.value, small.end + 1)


def _rest(tokens: Sequence[Token], whole: float, at: int) -> Spoken:
    rest = _below_hundred(tokens, at + (_word(tokens, at) == "and"))
    return Spoken(whole + rest.value, rest.end) if rest else Spoken(whole, at)


def _thousands(tokens: Sequence[Token], at: int) -> Spoken | None:
    """A thousand, two thousand five hundred, and all below."""
    here = at + (_word(tokens, at) in ("a", "the"))
    here += here > at and _word(tokens, here) in _WHOLE
    small = _hundreds(tokens, at)
    if _word(tokens, here) == "thousand":
        small = Spoken(1, here)
    if small is None or _word(tokens, small.end) != "thousand":
        return small
    whole, end = _THOUSAND * small.value, small.end + 1
    rest = _hundreds(tokens, end + (_word(tokens, end) == "and"))
    return Spoken(whole + rest.value, rest.end) if rest else Spoken(whole, end)
