"""Numbers as people write them: digits, marks, fractions and words, as exact fractions."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache

from interview.words.lexicon.files import words
from interview.words.text.tokens import Token

__all__ = ["Number", "number_words", "read_number"]

_ARTICLES = frozenset({"a", "an"})
_AND = frozenset({"and", "&", "+"})
_MOST_DIGITS = 12
_MOST_EXPONENT_DIGITS = 2
_LARGEST_DENOMINATOR = 128
_LARGEST_TOP = 9
_INCH_PARTS = (16, 32, 64, 128)


@dataclass(frozen=True, slots=True)
class Number:
    """A number read from tokens, and where it ended.

    `thousands` is set when a lone comma or point before three digits leaves open
    whether it groups thousands; `value` then takes it for the decimal mark.
    """

    value: Fraction
    end: int
    thousands: Fraction | None = None
    mark: str = ""
    text: str = ""
    over: int = 0
    """The lower number of a fraction that may be two numbers: 4 of 3/4 days, 0 elsewhere."""

    @property
    def is_part(self) -> bool:
        """Between 0 and 1, as in "and a half"."""
        return 0 < self.value < 1


@cache
def number_words() -> frozenset[str]:
    """What a number in words may begin with."""
    return frozenset(
        {*_ARTICLES, *words().numbers.ones, *words().numbers.tens, "half", "quarter", "third"}
    )


def read_number(tokens: list[Token], at: int = 0) -> Number | None:
    """The longest number that starts at a token, or None."""
    first = _fraction(tokens, at) or _digits(tokens, at) or _words(tokens, at)
    if first is None:
        return None
    grown = _with_scale(tokens, _with_point(tokens, first))
    return _with_part(tokens, grown)


def _text(tokens: list[Token], at: int) -> str:
    return tokens[at].text if at < len(tokens) else ""


def _marked(text: str) -> tuple[Fraction, Fraction | None] | None:
    """A digit string's decimal reading and, if it is as likely, its thousands reading."""
    mantissa, power, exponent = text.partition("e")
    if power:
        read = _marked(mantissa)
        if read is None or len(exponent.lstrip("+-")) > _MOST_EXPONENT_DIGITS:
            return None
        return read[0] * Fraction(10) ** int(exponent), None
    if sum(letter.isdecimal() for letter in text) > _MOST_DIGITS:
        return None
    commas, points = text.count(","), text.count(".")
    if commas and points:
        last = max(text.rfind(","), text.rfind("."))
        whole, rest = text[:last], text[last + 1 :]
        grouped = _grouped(whole)
        fits = grouped is not None and rest.isdecimal()
        return (Fraction(f"{grouped}.{rest}"), None) if fits else None
    if commas + points > 1:
        whole_only = _grouped(text)
        return None if whole_only is None else (Fraction(whole_only), None)
    head, _, tail = text.replace(",", ".").partition(".")
    value = Fraction(f"{head or '0'}.{tail}" if tail else head)
    doubtful = len(tail) == 3 and 1 <= len(head) <= 3 and not head.startswith("0")
    return value, Fraction(head + tail) if doubtful else None


def _grouped(text: str) -> str | None:
    """Digits of a number grouped by one kind of mark in threes, or None."""
    if "," in text and "." in text:
        return None
    head, *groups = text.replace(",", ".").split(".")
    if len(head) > 3 or any(len(group) != 3 for group in groups):
        return None
    return head + "".join(groups)


def _digits(tokens: list[Token], at: int) -> Number | None:
    if at >= len(tokens) or tokens[at].kind != "number":
        return None
    text, end = tokens[at].text, at + 1
    spaced = _spaced_groups(tokens, at)
    if spaced > end:
        text = "".join(token.text for token in tokens[at:spaced]).replace(",", ".")
        end = spaced
        if len(text) > _MOST_DIGITS or text.count(".") > 1:
            return None
        return _with_fraction(tokens, Number(Fraction(text), end, mark=" ", text=text))
    read = _marked(text)
    if read is None:
        return None
    mark = "" if read[1] is None else "," if "," in text else "."
    return _with_fraction(tokens, Number(read[0], end, read[1], mark, text))


def _spaced_groups(tokens: list[Token], at: int) -> int:
    """Where thousands grouped by spaces end: 1 000 and 12 500,5 but not 18 125/128."""
    first = tokens[at].text
    end = at + 1
    if not first.isdecimal() or len(first) > 3 or first.startswith("0"):
        return end
    while end < len(tokens) and tokens[end].kind == "number" and not tokens[end].glued:
        whole, mark, _ = tokens[end].text.replace(",", ".").partition(".")
        if len(whole) != 3 or not whole.isdecimal() or _text(tokens, end + 1) == "/":
            break
        end += 1
        if mark:
            break
    return end


def _fraction(tokens: list[Token], at: int) -> Number | None:
    """A proper fraction in digits: 3/4. What is no part of an inch or a pie, as 18/20, is none."""
    if at + 2 >= len(tokens) or tokens[at + 1].text != "/":
        return None
    top, bottom = tokens[at].text, tokens[at + 2].text
    if not (top.isdecimal() and bottom.isdecimal() and len(top) < 4 and len(bottom) < 4):
        return None
    if not 0 < int(top) < int(bottom) <= _LARGEST_DENOMINATOR:
        return None
    if int(top) > _LARGEST_TOP and int(bottom) not in _INCH_PARTS:
        return None
    return Number(Fraction(int(top), int(bottom)), at + 3, over=int(bottom) if top != "1" else 0)


def _with_fraction(tokens: list[Token], number: Number) -> Number:
    """18 1/2 and the carpenter's 18-1/2 or 18 - 1/2; 0-1/2 stays a range."""
    if number.value.denominator != 1 or number.value == 0:
        return number
    at = number.end
    if _text(tokens, at) == "-":
        at += 1
    part = _fraction(tokens, at)
    return number if part is None else Number(number.value + part.value, part.end)


def _below_hundred(tokens: list[Token], at: int) -> Number | None:
    word = _text(tokens, at)
    if word in words().numbers.ones:
        return Number(Fraction(words().numbers.ones[word]), at + 1)
    if word not in words().numbers.tens:
        return None
    after = at + 2 if _text(tokens, at + 1) == "-" else at + 1
    one = words().numbers.ones.get(_text(tokens, after), 0)
    if 1 <= one <= 9:
        return Number(Fraction(words().numbers.tens[word] + one), after + 1)
    return Number(Fraction(words().numbers.tens[word]), at + 1)


def _words(tokens: list[Token], at: int) -> Number | None:
    """Number words to 999, "a", and the parts of one: half a, a third, two thirds."""
    word = _text(tokens, at)
    if word in _ARTICLES:
        part = _part(tokens, at + 1)
        if part is not None:
            return part
        if _text(tokens, at + 1) in {"couple", "pair"}:
            end = at + 3 if _text(tokens, at + 2) == "of" else at + 2
            return Number(Fraction(2), end)
        return _hundreds(tokens, Number(Fraction(1), at + 1))
    if word in words().numbers.parts:
        return _part(tokens, at)
    small = _below_hundred(tokens, at)
    return None if small is None else _hundreds(tokens, small)


def _hundreds(tokens: list[Token], small: Number) -> Number:
    if _text(tokens, small.end) != "hundred" or small.value > 9:
        return small
    at = small.end + 1
    rest = _below_hundred(tokens, at + 1 if _text(tokens, at) == "and" else at)
    if rest is None or rest.value == 0:
        return Number(small.value * 100, at)
    return Number(small.value * 100 + rest.value, rest.end)


def _part(tokens: list[Token], at: int) -> Number | None:
    """Half, quarter, third …, alone."""
    parts = words().numbers.parts.get(_text(tokens, at))
    return None if parts is None else Number(Fraction(1, parts), at + 1)


def _with_point(tokens: list[Token], number: Number) -> Number:
    """Decimals in words: three point five."""
    if _text(tokens, number.end) != "point" or number.value.denominator != 1:
        return number
    ones, at, digits = words().numbers.ones, number.end + 1, ""
    if at < len(tokens) and tokens[at].text.isdecimal() and not number.mark:
        digits, at = tokens[at].text[:_MOST_DIGITS], at + 1
    while ones.get(_text(tokens, at), 10) <= 9 and len(digits) < 4:
        digits += str(ones[tokens[at].text])
        at += 1
    return Number(number.value + Fraction(f"0.{digits}"), at) if digits else number


def _with_scale(tokens: list[Token], number: Number) -> Number:
    """2 dozen, half a dozen, 3 hundred, two thousand, 3 quarters, two-thirds."""
    at = number.end
    if number.value < 1 and _text(tokens, at) in _ARTICLES:
        at += 1
    scale = words().numbers.scales.get(_text(tokens, at))
    if scale is not None and number.value < 1000:
        return Number(number.value * scale, at + 1)
    if _text(tokens, at) == "-" and tokens[at].glued:
        at += 1
    parts = words().numbers.parts.get(_text(tokens, at))
    if parts is None or number.value.denominator != 1 or not 1 <= number.value < parts:
        return number
    return Number(number.value / parts, at + 1)


def _with_part(tokens: list[Token], number: Number) -> Number:
    """Parts after "and": one and a half, two and three quarters, 6 & 1/2."""
    if _text(tokens, number.end) not in _AND or number.value.denominator != 1:
        return number
    at = number.end + 1
    part = _fraction(tokens, at) or _words(tokens, at)
    if part is not None:
        part = _with_scale(tokens, part)
    if part is None or not part.is_part:
        return number
    return replace(part, value=number.value + part.value, over=0)
