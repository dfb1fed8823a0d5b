"""Words that widen a reading: about, under, at least, nearly, or so.

How far: "about" is 10 % either way (5 % for plain numbers such as pH, 2 °C for a
temperature, which has no natural zero); "nearly" and "just over" the same, one way;
"under" runs from nothing, "over" to half as much again; a temperature "under" or
"over" reaches 5 °C.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import Enum
from functools import cache
from itertools import product
from operator import itemgetter

from interview.words.amounts.reading import Spread
from interview.words.lexicon.files import known_words, listed, words
from interview.words.lexicon.rows import Dimension
from interview.words.text.tokens import Token, tokenise

__all__ = ["Hedge", "hedged", "instrument_in", "split_hedge"]

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


_Phrases = Mapping[str, Sequence[tuple[tuple[str, ...], Hedge]]]
_ANY = "any"  # a tool that says no more than that something was measured


@cache
def _phrases(side: str) -> _Phrases:
    """Phrases before or after a value by their outermost word, the longest first.

    A tool says no more.
    """
    found = [
        (tuple(phrase.split()), Hedge[name.upper()])
        for name, listed in getattr(words(), f"hedges_{side}").items()
        for phrase in listed
    ]
    if side == "after":
        read = [(verb,) for verb in listed("read_with", "verbs")]
        found += [(said, Hedge.NONE) for said in (*_instruments(), *read)]
    outermost = 0 if side == "before" else -1
    by_word: dict[str, list[tuple[tuple[str, ...], Hedge]]] = {}
    for phrase, hedge in sorted(found, key=lambda pair: -len(pair[0])):
        by_word.setdefault(phrase[outermost], []).append((phrase, hedge))
    return by_word


@cache
def _instruments() -> Mapping[tuple[str, ...], str]:
    """Each way to say with what something was read, and the instrument's name."""
    said = {}
    for name, tools in words().instruments.items():
        for by, the, tool in product(listed("read_with", "by"), listed("read_with", "the"), tools):
            said[f"{by} {the} {tool}"] = name
        alone = [t for t in tools if " " in t or t in known_words("read_with", "by_itself")]
        said |= {form: name for tool in alone for form in (tool, f"({tool})")}
    return {tuple(token.text for token in tokenise(form)): name for form, name in said.items()}


def instrument_in(tokens: Sequence[Token]) -> str:
    """With what a value was read, where the words around it say so; else ""."""
    texts = tuple(token.text for token in tokens)
    spans = ((at, end) for at in range(len(texts)) for end in range(at + 1, len(texts) + 1))
    named = ((end - at, _instruments().get(texts[at:end], "")) for at, end in spans)
    return max(filter(itemgetter(1), named), default=(0, ""))[1].replace(_ANY, "")


_INSIDE = {"ish": Hedge.ABOUT, "+": Hedge.OVER}


def _stripped(tokens: list[Token]) -> tuple[Hedge, list[Token]] | None:
    """One hedge off either end, or None when there is none left."""
    texts = tuple(token.text for token in tokens)
    for phrase, hedge in _phrases("before").get(texts[0], ()):
        if texts[: len(phrase)] == phrase:
            rest = tokens[len(phrase) :]
            return hedge, rest[1:] if rest and rest[0].text == "," else rest
    for phrase, hedge in _phrases("after").get(texts[-1], ()):
        if texts[-len(phrase) :] == phrase and len(texts) > len(phrase):
            rest = tokens[: -len(phrase)]
            return hedge, rest[:-1] if rest[-1].text == "," else rest
    return None


def _without_inner(tokens: list[Token]) -> tuple[Hedge, list[Token]]:
    """Take out a hedge inside an amount: 7ish inches, 2+ years, a good foot, 4 and a bit inches."""
    texts = [token.text for token in tokens]
    if texts[:2] == ["a", "good"] and len(texts) > 2:
        return Hedge.JUST_OVER, [tokens[0], *tokens[2:]]
    for at in range(1, len(texts) - 2):
        if texts[at : at + 3] in (["and", "a", "bit"], ["and", "a", "little"]):
            return Hedge.JUST_OVER, tokens[:at] + tokens[at + 3 :]
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


def hedged(hedge: Hedge, value: float, dimension: Dimension) -> Spread:
    """A value with the width a hedge gives it; symmetric or one-sided."""
    width = dimension.hedge_fixed or dimension.hedge * abs(value)
    match hedge:
        case Hedge.NONE:
            return Spread(value, value, value)
        case Hedge.ABOUT:
            return Spread(value - width, value, value + width)
        case Hedge.NEARLY:
            return Spread(value - width, value - width / 2, value)
        case Hedge.JUST_OVER:
            return Spread(value, value + width / 2, value + width)
    low, high = _one_sided(hedge, value, dimension)
    return Spread(low, (low + high) / 2, high)


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
