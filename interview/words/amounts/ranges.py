"""Amounts with two ends: 6-7 in, between 6 and 7 in, a week or two, 12 ± 1 cm, 7 in (6 to 8).

Temperatures have a ten for that too: low 80s, mid 90s F, upper seventies.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from functools import cache

from interview.base.units import convert
from interview.words.amounts.amount import Term, measure, no_unit, read_terms, written
from interview.words.amounts.dimensions import Frame
from interview.words.amounts.hedges import split_hedge
from interview.words.amounts.numbers import read_number
from interview.words.amounts.reading import Measured, Spread
from interview.words.amounts.spellings import label
from interview.words.lexicon.files import known_words, units, words
from interview.words.text.refusal import NotUnderstood, either, quoted
from interview.words.text.tokens import Token, joined

__all__ = ["decade_at", "read_decade", "read_range", "read_single"]

_SEPARATORS = frozenset({"-", "to", "or"})
_OPENERS = frozenset({"between", "from"})
_MINUS = frozenset({"-", "minus"})
_MOST_SEPARATORS = 4
_USUAL_PARTS = ((2, 3), (3, 4))
_WHOLE_TEN = (0, 9)
_ONLY_FAHRENHEIT = 60
"""From here up no tank, lamp or room is meant in °C."""


def _signed_terms(tokens: list[Token], frame: Frame) -> list[Term] | None:
    """Terms, the first of them negative after a minus sign."""
    negative = bool(tokens) and tokens[0].text in _MINUS
    terms = read_terms(tokens[1:] if negative else tokens, frame.dimension.name)
    if terms is None or not negative:
        return terms
    if not frame.below_zero:
        wrong = f"{frame.dimension.noun} can't be below zero here"
        raise NotUnderstood(quoted(joined(tokens)), wrong, frame.example)
    if len(terms) > 1:
        return None
    number = replace(terms[0].number, value=-terms[0].number.value)
    return [replace(terms[0], number=number, text=joined(tokens))]


def read_single(tokens: list[Token], frame: Frame) -> Measured | None:
    """All the tokens as one amount."""
    terms = _signed_terms(tokens, frame)
    if terms is None or _are_two(terms, frame):
        return None
    return measure(terms, frame)


def _are_two(terms: list[Term], frame: Frame) -> bool:
    """Whether a fraction is two numbers, one or the other: 10/14 days, but 3/4 in and 1/2 hour.

    Raises NotUnderstood where both are usual, as in 3/4 kg.
    """
    number, unit = terms[0].number, terms[0].unit
    last = terms[0].text.split()[-1]
    whole_word = last.isalpha() and len(last) > 2 and not last.endswith("s")
    fractions = units().in_fractions
    if not number.over or len(terms) > 1 or whole_word:
        return False
    if unit in fractions or frame.dimension.name in fractions:
        return False
    top = int(number.value * number.over)
    if frame.dimension.name in units().also_in_fractions and (top, number.over) in _USUAL_PARTS:
        both = f"{top} to {number.over} {label(unit or '1')}".strip()
        forms = (quoted(both), quoted(written(number.value, unit or "1")))
        raise NotUnderstood(quoted(terms[0].text), "a fraction, or two numbers", either(forms))
    return True


def read_range(tokens: list[Token], frame: Frame) -> Measured | None:
    """All the tokens as two ends, as a middle and its width, or as a best with its ends."""
    return (
        _best_with_ends(tokens, frame)
        or _middle_and_width(tokens, frame)
        or _two_ends(tokens, frame)
    )


def _splits(
    tokens: list[Token], marks: frozenset[str]
) -> Iterator[tuple[list[Token], list[Token]]]:
    places = [
        at
        for at, token in enumerate(tokens)
        if at > 0 and (token.text in marks or _is_or(tokens, at))
    ]
    if len(places) <= _MOST_SEPARATORS:
        for at in places:
            behind = at + 1
            while tokens[at].text == "or" and behind < len(tokens) and _leads_up(tokens[behind]):
                behind += 1
            yield tokens[:at], tokens[behind:]


def _leads_up(token: Token) -> bool:
    """Whether a word behind “or” only leads up to the other number: 800 or was it 880."""
    return token.text in known_words("values", "or_else")


def _is_or(tokens: list[Token], at: int) -> bool:
    """A slash between two numbers, the lower first: 10/14 days."""
    before, after = tokens[at - 1 : at], tokens[at + 1 : at + 2]
    if tokens[at].text != "/" or not (before and after):
        return False
    low, high = read_number(before), read_number(after)
    return low is not None and high is not None and 0 < low.value < high.value


def _two_ends(tokens: list[Token], frame: Frame) -> Measured | None:
    between = tokens[0].text in _OPENERS
    marks = _SEPARATORS | {"and"} if between else _SEPARATORS
    for left, right in _splits(tokens[1:] if between else tokens, marks):
        first = _signed_terms(split_hedge(left)[1], frame)
        second = _signed_terms(split_hedge(right)[1], frame)
        if first is not None and second is not None:
            return _ends(first, second, frame)
    return None


def _ends(first: list[Term], second: list[Term], frame: Frame) -> Measured:
    first, second = _sharing_unit(first, second)
    in_unit = first[0].unit or second[0].unit or frame.bare_unit
    if not in_unit and frame.dimension.bare is None:
        low, high = first[0].number.value, second[0].number.value
        before = f"{written(low, '1')} to "  # of what: refused as a whole, offering it with units
        raise no_unit(before + written(high, "1"), float(high), frame, before=before)
    one, other = measure(first, frame), measure(second, frame)
    ends = sorted((one.span.best, other.span.best))
    guesses = tuple(dict.fromkeys(one.guesses + other.guesses))
    return Measured(Spread(ends[0], sum(ends) / 2, ends[1]), other.unit, guesses)


def _sharing_unit(first: list[Term], second: list[Term]) -> tuple[list[Term], list[Term]]:
    """6-7 in, 6 in to 7 and 68°-72°F: an end without a unit takes the other's."""
    if len(first) > 1 or len(second) > 1:
        return first, second
    if first[0].unit in (None, "?degree") and second[0].unit is not None:
        return [replace(first[0], unit=second[0].unit)], second
    if second[0].unit is None:
        return first, [replace(second[0], unit=first[0].unit)]
    return first, second


def _plus_minus(tokens: list[Token]) -> tuple[list[Token], list[Token]] | None:
    texts = [token.text for token in tokens]
    for phrase in (["±"], ["give", "or", "take"], ["plus", "or", "minus"]):
        for at in range(1, len(texts) - len(phrase)):
            if texts[at : at + len(phrase)] == phrase:
                return tokens[:at], tokens[at + len(phrase) :]
    return None


def _middle_and_width(tokens: list[Token], frame: Frame) -> Measured | None:
    parts = _plus_minus(tokens)
    if parts is None:
        return None
    middle, width = _signed_terms(parts[0], frame), read_terms(parts[1], frame.dimension.name)
    if middle is None or width is None or len(middle) + len(width) != 2:
        return None
    if None not in (middle[0].unit, width[0].unit) and middle[0].unit != width[0].unit:
        return None
    unit = middle[0].unit or width[0].unit
    return _around(replace(middle[0], unit=unit), width[0].number.value, frame)


def _around(middle: Term, width: Fraction, frame: Frame) -> Measured:
    """Low, best and high of a middle and a width in the same unit."""
    best = measure([middle], frame)
    low, high = (
        measure([replace(middle, number=replace(middle.number, value=value))], frame).span.best
        for value in (middle.number.value - width, middle.number.value + width)
    )
    low = low if frame.below_zero else max(0.0, low)
    return replace(best, span=Spread(low, best.span.best, high))


def _best_with_ends(tokens: list[Token], frame: Frame) -> Measured | None:
    """7 in (6 to 8 in)."""
    if tokens[-1].text != ")":
        return None
    opening = next((at for at, token in enumerate(tokens) if token.text == "("), 0)
    if not 0 < opening < len(tokens) - 2:
        return None
    best = read_single(tokens[:opening], frame)
    ends = _two_ends(tokens[opening + 1 : -1], frame)
    if best is None or ends is None:
        return None
    if not ends.span.low <= best.span.best <= ends.span.high:
        wrong = "the first value is not between the two ends"
        raise NotUnderstood(quoted(joined(tokens)), wrong, "only the two ends")
    span = replace(ends.span, best=best.span.best)
    return Measured(span, best.unit, best.guesses + ends.guesses)


@cache
def _decade() -> re.Pattern[str]:
    part = "|".join(sorted(words().parts_of_ten, key=len, reverse=True))
    return re.compile(
        rf"(?:in )?(?:the )?(?:(?P<first>{part})[ -]?(?:(?:to|or|-)[ -]?(?P<last>{part})[ -]?)?)?"
        rf"(?:(?P<tens>[1-9]?\d0) ?['’]?s|(?P<word>{'|'.join(words().numbers.decades)}))"
        r"(?: ?(?:°|deg(?:ree)?s?)? ?(?P<scale>celsius|fahrenheit|[cf])\b| ?(?:°|deg(?:ree)?s?))?"
    )


def decade_at(text: str, start: int) -> tuple[int, Measured] | None:
    """A part of a ten of degrees that begins at a place in a story, and where it ends.

    A whole ten tells its scale there: the 80s may be years.
    """
    found = _decade().match(text.casefold(), start)
    if found is None or not (found["first"] or found["scale"]) or text[found.end() :][:1].isalnum():
        return None
    try:
        measured = read_decade(found[0])
    except NotUnderstood:
        return None
    return None if measured is None else (found.end(), measured)


def read_decade(text: str) -> Measured | None:
    """A ten of degrees, or its low, middle or high part; None for other words.

    Raises NotUnderstood where the scale is left open and both can be meant.
    """
    found = _decade().fullmatch(" ".join(text.casefold().split()))
    if found is None:
        return None
    tens = int(found["tens"]) if found["tens"] else words().numbers.decades[found["word"]]
    scale = (found["scale"] or "")[:1]
    if not scale and tens < _ONLY_FAHRENHEIT:
        forms = f'"{text.strip()} C" or "{text.strip()} F"'
        raise NotUnderstood(quoted(text), "not whether °C or °F is meant", forms)
    first, last = found["first"] or "", found["last"] or found["first"] or ""
    unit = "degC" if scale == "c" else "degF"
    low = tens + words().parts_of_ten.get(first, _WHOLE_TEN)[0]
    high = tens + words().parts_of_ten.get(last, _WHOLE_TEN)[1]
    ends = [convert(float(end), unit, "degC") for end in (low, high)]
    shown = f"I took {quoted(text)} as {low} to {high} °{'C' if unit == 'degC' else 'F'}."
    return Measured(Spread(ends[0], sum(ends) / 2, ends[1]), unit, (shown,))
