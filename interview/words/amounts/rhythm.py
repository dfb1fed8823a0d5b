"""How often: every other day, twice a week, daily. Read as times in a period."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from interview.words.amounts.numbers import read_number
from interview.words.amounts.spellings import spellings
from interview.words.lexicon.files import known_words, words
from interview.words.text.tokens import Token

__all__ = ["Rhythm", "read_rhythm"]

_PER = frozenset({"a", "an", "per", "by", "each", "every", "/"})


@dataclass(frozen=True, slots=True)
class Rhythm:
    """Between `low` and `high` times in `periods` units of time."""

    low: Fraction
    high: Fraction
    periods: Fraction
    unit: str


def read_rhythm(tokens: list[Token], *, days_count: bool = False) -> Rhythm | None:
    """A rhythm made of all the tokens, or None; "5 days a week" if days are counted."""
    texts = [*(token.text for token in tokens), ""]
    adverbs = words().rhythm.adverbs
    low, high, at = Fraction(1), Fraction(1), 1
    if len(tokens) == 1 and texts[0] in adverbs:
        at = 0
    elif texts[0] not in ("every", "each") and not (texts[0] == "on" and _is_weekday(texts[-2])):
        if not (counted := _count(tokens)):
            return None
        low, high, at = counted
        at += _is_times(texts[at]) or (days_count and texts[at] in ("day", "days"))
        at += texts[at] in ("in", "out") and tokens[at - 1].kind != "number"
        part = low < 1 and not _is_times(texts[at - 1])  # half a year, a quarter every week
        if texts[at] in _PER:
            is_ratio = texts[at] == "/" and at + 1 < len(tokens) and tokens[at + 1].kind == "number"
            if part or is_ratio:  # 10/14 days
                return None
            at += 1
        elif texts[at] in adverbs:
            if low < 1:
                return None
        elif not (texts[0] in words().rhythm.counts or _is_times(texts[at - 1])):
            return None
    period = _period(tokens, at)
    return None if period is None else Rhythm(low, high, *period)


def _is_times(text: str) -> bool:
    return text in known_words("rhythm", "times")


def _is_weekday(text: str) -> bool:
    return text.removesuffix("s") in known_words("rhythm", "days_of_the_week")


def _one_count(tokens: list[Token], at: int) -> tuple[Fraction, int] | None:
    if at < len(tokens) and tokens[at].text in words().rhythm.counts:
        return Fraction(words().rhythm.counts[tokens[at].text]), at + 1
    number = read_number(tokens, at)
    return None if number is None else (number.value, number.end)


def _count(tokens: list[Token]) -> tuple[Fraction, Fraction, int] | None:
    """once, 3, 2-3, two or three, once or twice: and where it ended."""
    if (either := read_number(tokens)) and either.over:
        return either.value * either.over, Fraction(either.over), either.end
    first = _one_count(tokens, 0)
    if first is None:
        return None
    low, at = first
    joined = at < len(tokens) and tokens[at].text in ("-", "to", "or")
    if joined and (second := _one_count(tokens, at + 1)):
        return min(low, second[0]), max(low, second[0]), second[1]
    return low, low, at


def _period(tokens: list[Token], at: int) -> tuple[Fraction, str] | None:
    """week, other day, 10 days, couple of weeks, daily: the rest of the tokens as one period."""
    if at >= len(tokens):
        return None
    periods = Fraction(1)
    if at == len(tokens) - 1 and (adverb := words().rhythm.adverbs.get(tokens[at].text)):
        many, _, unit = adverb.partition(" ")
        return Fraction(many), unit
    if tokens[at].text in words().rhythm.ordinals:
        periods, at = Fraction(words().rhythm.ordinals[tokens[at].text]), at + 1
    elif tokens[at].text == "couple":
        periods, at = Fraction(2), at + 1
        at += at < len(tokens) and tokens[at].text == "of"
    else:
        number = read_number(tokens, at)
        if number is not None and number.over:
            return None
        if number is not None and number.value > 0:
            periods, at = number.value, number.end
    word = tokens[at].text if at == len(tokens) - 1 else ""
    found = spellings("duration").get(word)
    if word and _is_weekday(word):
        found = "week"
    if word in known_words("rhythm", "times_of_the_day"):
        found = "day"
    return None if found is None else (periods, found)
