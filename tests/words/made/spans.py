"""What a string means: spans in core units, and the exact sizes of the units people write in.

Units of the core: m, m³, kg, s, m³/s, W, V, A, mg/L, °C, degrees of arc, shares of 1; air humidity
in percent, feedings in numbers a week, money in the keeper's own.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

# Exact by definition: international yard and pound of 1959, US gallon of 231 cubic inches,
# imperial gallon of 4.54609 L (NIST Special Publication 811, appendix B; UK Weights and Measures
# Act 1985, schedule 1).
CM, MM, INCH, FOOT = 0.01, 0.001, 0.0254, 0.3048
LITRE, US_GALLON, IMPERIAL_GALLON, CUBIC_INCH = 1e-3, 231 * 0.0254**3, 4.54609e-3, 0.0254**3
US_QUART, IMPERIAL_QUART = US_GALLON / 4, IMPERIAL_GALLON / 4
GRAM, POUND = 1e-3, 0.45359237
OUNCE = POUND / 16
MINUTE, HOUR, DAY = 60.0, 3600.0, 86400.0
WEEK = 7 * DAY


@dataclass(frozen=True)
class Span:
    """One amount in its core unit.

    ``low == high``: that value, within a thousandth (hedged or not: it is the middle that counts).
    ``low < high``: both ends were said, and the reading has them as its ends, or their middle.
    ``loose``: no end was said; any value from low to high is a fair reading.
    """

    low: float
    high: float
    loose: bool = False

    def __post_init__(self) -> None:
        if self.low > self.high:
            raise ValueError(f"a span from {self.low} up to {self.high}")


Reading = tuple[Span, ...]
"""The spans of one way to read a string: one for an amount, one a side for a size."""


@dataclass(frozen=True)
class Case:
    """A string at a question, and every way to read it that isn't a misreading.

    Asking back is always fine. With no ``readings`` nothing may be taken for this question;
    ``told_for`` then names what the words do tell (``water_depth``: the reader may convert it),
    and ``told`` its amount.
    """

    text: str
    question: str
    dimension: str
    readings: tuple[Reading, ...] = ()
    told_for: str = ""
    told: Span | None = None


Made = Iterator[tuple[str, Span]]
"""Strings, each with its one meaning."""


def point(value: float) -> Span:
    """That value, said as such."""
    return Span(value, value)


def between(low: float, high: float) -> Span:
    """Both ends said."""
    return Span(low, high)


def loosely(low: float, high: float) -> Span:
    """Somewhere in there."""
    return Span(low, high, loose=True)


def celsius(fahrenheit: float) -> float:
    """Degrees Celsius of degrees Fahrenheit; exact by definition."""
    return (fahrenheit - 32) / 1.8


# fmt: off
_ONES = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
# fmt: on


def in_words(number: int) -> str:
    """A whole number from 0 to 999 as it is spoken."""
    if number < 20:
        return _ONES[number]
    if number < 100:
        ten, one = divmod(number, 10)
        return _TENS[ten] + (f" {_ONES[one]}" if one else "")
    hundred, rest = divmod(number, 100)
    return f"{_ONES[hundred]} hundred" + (f" and {in_words(rest)}" if rest else "")


def comma(text: str) -> str:
    """A decimal point written as a comma."""
    return text.replace(".", ",")


def grouped(number: int, mark: str) -> str:
    """A whole number of four digits or more with its thousands marked."""
    return f"{number:,}".replace(",", mark)


def plain(number: float) -> str:
    """A number as people write it: no trailing zeros."""
    return f"{number:.6g}"


THOUSANDS = ("'", "\u2019", " ", "\u00a0", "\u202f", ",")


def said(value: float, number: str, forms: tuple[str, ...]) -> Made:
    """One amount in several forms; its number stands for ``{}``."""
    for form in forms:
        yield form.format(number), point(value)
