"""Words that widen a reading: about, under, at least, nearly, or so.

How far: "about" is 10 % either way (5 % for plain numbers such as pH, 2 °C for a
temperature, which has no natural zero); "nearly" and "just over" the same, one way;
"under" runs from nothing, "over" to half as much again; a temperature "under" or
"over" reaches 5 °C.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from interview.words.amounts.dimensions import Dimension
from interview.words.text.tokens import Token

__all__ = ["Hedge", "Span", "hedged", "split_hedge"]

_OVER = 1.5
_ONE_SIDED_KELVIN = 5.0


class Hedge(Enum):
    """Which way, and how far, words leave a value open."""

    NONE = "exactly"
    ABOUT = "about"
    NEARLY = "nearly"
    JUST_OVER = "just over"
    UNDER = "under"
    OVER = "over"


@dataclass(frozen=True, slots=True)
class Span:
    """Low, best and high in the core's unit."""

    low: float
    best: float
    high: float


def _phrases(listed: dict[Hedge, str]) -> list[tuple[tuple[str, ...], Hedge]]:
    found = [
        (tuple(phrase.split()), hedge)
        for hedge, phrases in listed.items()
        for phrase in phrases.split(", ")
    ]
    return sorted(found, key=lambda pair: -len(pair[0]))


_BEFORE = _phrases(
    {
        Hedge.NONE: (
            "exactly, for, it's, its, it is, that's, is, measures, precisely, i have, i've, "
            "i've got, it measures, =, just, only"
        ),
        Hedge.ABOUT: (
            "about, roughly, around, approximately, approx, circa, ca, ~, maybe, probably, "
            "perhaps, i think, i guess, i'd say, i'd guess, say, something like, more or less, "
            "close to, near, somewhere around, somewhere near, not sure, not sure but, i'm "
            "not sure, i'm not sure but, in the region of, around about"
        ),
        Hedge.NEARLY: (
            "nearly, almost, just under, just below, a bit under, a bit less than, slightly "
            "under, slightly less than, a little under, a little less than, not quite, a shade "
            "under"
        ),
        Hedge.JUST_OVER: (
            "just over, just above, a bit over, a bit more than, slightly over, slightly more "
            "than, a little over, a little more than, a shade over"
        ),
        Hedge.UNDER: (
            "under, below, less than, <, no more than, not more than, at most, up to, max, "
            "maximum, fewer than, within, smaller than, shorter than"
        ),
        Hedge.OVER: (
            "over, above, more than, >, at least, no less than, not less than, min, minimum, "
            "upwards of, bigger than, longer than, greater than"
        ),
    }
)
_INSTRUMENTS = (
    "infrared gun, infrared thermometer, ir gun, ir thermometer, temp gun, temperature gun, "
    "heat gun, thermometer, digital thermometer, glass thermometer, probe, digital probe, "
    "tape measure, tape, ruler, scale, kitchen scale, meter, uv meter, uvi meter, test kit, kit, "
    "drop kit, drop test, test strip, strip, level"
)
_WITH = ("with", "by", "on", "using", "from")
_THE = ("", "the ", "a ", "an ", "my ", "our ")


def _instruments() -> str:
    """Every way to name the tool after a reading; it is taken out, the value stays."""
    tools = _INSTRUMENTS.split(", ")
    return ", ".join(f"{word} {the}{tool}" for word in _WITH for the in _THE for tool in tools)


_AFTER = _phrases(
    {
        Hedge.ABOUT: (
            "or so, ish, - ish, approx, approximately, roughly, about, more or less, i think, "
            "i guess, maybe, or thereabouts, ?, ca, probably"
        ),
        Hedge.UNDER: "or less, at most, max, maximum, or under, or below, tops",
        Hedge.OVER: "or more, at least, minimum, or over, or above, plus, +",
        Hedge.NONE: (
            "exactly, long, wide, tall, high, deep, thick, across, old, ago, !, in total, "
            "altogether, " + _instruments()
        ),
    }
)
_INSIDE = {"ish": Hedge.ABOUT, "+": Hedge.OVER}


def _stripped(tokens: list[Token]) -> tuple[Hedge, list[Token]] | None:
    """One hedge off either end, or None when there is none left."""
    texts = tuple(token.text for token in tokens)
    for phrase, hedge in _BEFORE:
        if texts[: len(phrase)] == phrase:
            rest = tokens[len(phrase) :]
            return hedge, rest[1:] if rest and rest[0].text == "," else rest
    for phrase, hedge in _AFTER:
        if texts[-len(phrase) :] == phrase and len(texts) > len(phrase):
            rest = tokens[: -len(phrase)]
            return hedge, rest[:-1] if rest[-1].text == "," else rest
    return None


def _without_inner(tokens: list[Token]) -> tuple[Hedge, list[Token]]:
    """Take out a hedge inside an amount: 7ish inches, 2+ years."""
    for at, token in enumerate(tokens):
        after_number = at > 0 and tokens[at - 1].kind == "number" and token.glued
        if token.text == "ish" or (token.text == "+" and after_number):
            start = at - 1 if token.text == "ish" and tokens[at - 1].text == "-" else at
            return _INSIDE[token.text], tokens[:start] + tokens[at + 1 :]
    return Hedge.NONE, tokens


def split_hedge(tokens: list[Token]) -> tuple[Hedge, list[Token]]:
    """The strongest hedge of a phrase, and the phrase without any."""
    hedge, rest = _without_inner(tokens)
    for _ in range(4):
        found = _stripped(rest) if rest else None
        if found is None:
            break
        rest = found[1]
        if hedge in (Hedge.NONE, Hedge.ABOUT) and found[0] is not Hedge.NONE:
            hedge = found[0]
    return hedge, rest


def hedged(hedge: Hedge, value: float, dimension: Dimension) -> Span:
    """A value with the width a hedge gives it; symmetric or one-sided."""
    width = dimension.hedge_fixed or dimension.hedge * abs(value)
    match hedge:
        case Hedge.NONE:
            return Span(value, value, value)
        case Hedge.ABOUT:
            return Span(value - width, value, value + width)
        case Hedge.NEARLY:
            return Span(value - width, value - width / 2, value)
        case Hedge.JUST_OVER:
            return Span(value, value + width / 2, value + width)
    low, high = _one_sided(hedge, value, dimension)
    return Span(low, (low + high) / 2, high)


def _one_sided(hedge: Hedge, value: float, dimension: Dimension) -> tuple[float, float]:
    if dimension.hedge_fixed:
        reach = _ONE_SIDED_KELVIN
        return (value - reach, value) if hedge is Hedge.UNDER else (value, value + reach)
    if hedge is Hedge.UNDER:
        return min(0.0, value), max(0.0, value)
    high = value * _OVER
    whole = {"share": 1.0, "percent": 100.0}.get(dimension.name)
    if whole is not None and value <= whole:
        high = min(high, whole)
    return min(value, high), max(value, high)
