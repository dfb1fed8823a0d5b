"""What people type for a quantity, read as one: `read_quantity` is told the dimension.

A number that needs a unit and has none is refused, never guessed; so is a unit of
another dimension. Text is cut and looked up, never evaluated, and only our own unit
names reach the conversions.
"""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache

from interview.base.units import convert
from interview.words.amounts.amount import written
from interview.words.amounts.diagnosis import refusal_for
from interview.words.amounts.dimensions import Frame, dimensions
from interview.words.amounts.hedges import Hedge, hedged, instrument_in, split_hedge
from interview.words.amounts.ranges import read_decade, read_range, read_single
from interview.words.amounts.reading import Measured, Reading, Spread
from interview.words.amounts.rhythm import Rhythm, read_rhythm
from interview.words.amounts.spellings import spellings
from interview.words.lexicon.files import known_words, listed, words
from interview.words.text.refusal import NotUnderstood, quoted
from interview.words.text.tokens import Token, joined, tokenise

__all__ = ["apart", "ends_of", "read_quantity", "read_tokens", "reads"]

_WEEK = 604800.0
_COLDEST = -273.15
_MOST_WORDS = 12


def read_quantity(
    text: str, dimension: str, *, region: str = "europe", signed: bool = False
) -> Reading:
    """A keeper's words for a quantity, as a reading in the core's unit.

    The region decides US or imperial gallons, and what 1,000 is; `signed` takes less than nothing
    even of a dimension that has none by itself. Raises NotUnderstood, which says what to type.
    """
    return read_tokens(tokenise(text), Frame(dimensions()[dimension], region, signed=signed), text)


def apart(text: str, dimension: str, beside: str, region: str) -> str:
    """The part of a text that is of a dimension, where the rest is of the one beside it.

    "a quarter every week" is a share and a rhythm; text that is no such pair stays as it is.
    """
    typed = text.split()
    if len(typed) > _MOST_WORDS or reads(text, dimension, region):
        return text
    begins = known_words("values", "rhythm_begins")
    starts = [at for at in range(1, len(typed)) if typed[at].casefold() in begins]
    starts += range(1, len(typed)) if typed and typed[0].casefold() in begins else ()
    for at in starts:
        halves = " ".join(typed[:at]), " ".join(typed[at:])
        for mine, other in (halves, halves[::-1]):
            if reads(mine, dimension, region) and reads(other, beside, region):
                return mine
    return text


def ends_of(text: str, dimension: str, region: str) -> tuple[str, str] | None:
    """Both ends of a range, each with its unit: 68 to 76 F is 68 °F and 76 °F; else None."""
    frame = Frame(dimensions()[dimension], region)
    try:
        found = read_range(split_hedge(tokenise(text))[1], frame)
    except NotUnderstood:
        return None
    if found is None:
        return None
    core, unit = frame.dimension.core_unit, found.unit
    low, high = (convert(end, core, unit) for end in (found.span.low, found.span.high))
    return written(low, unit), written(high, unit)


@lru_cache(maxsize=512)
def reads(text: str, dimension: str, region: str) -> bool:
    """Whether a text is an amount of a dimension."""
    try:
        read_quantity(text, dimension, region=region)
    except NotUnderstood:
        return False
    return True


def read_tokens(tokens: list[Token], frame: Frame, said: str) -> Reading:
    """The same for text already cut, as part of a longer answer."""
    hedge, body = split_hedge(tokens)
    if not body:
        raise NotUnderstood("", f"There is no number in {quoted(said)}", frame.example)
    measured = _read(_unlabelled(body, frame), frame)
    if measured is None:
        raise refusal_for(body, frame)
    measured = _widened(hedge, measured, frame, said)
    _check(measured, frame, said)
    span = measured.span
    unit = "1" if frame.dimension.name == "price" else measured.unit
    understood = " ".join(measured.guesses)
    tool = instrument_in(tokens)
    return Reading(span.low, span.best, span.high, said.strip(), unit, understood, tool)


def _unlabelled(tokens: list[Token], frame: Frame) -> list[Token]:
    """Take the name or the currency off the front: pH 7.5, $0.15; and the "a" of a 60 watt."""
    if len(tokens) > 1 and tokens[0].text in ("a", "an", "the") and tokens[1].kind == "number":
        tokens = tokens[1:]
    texts = [token.text for token in tokens]
    for label in map(str.split, words().labels.get(frame.dimension.name, ())):
        if texts[: len(label)] == label and len(texts) > len(label):
            start = len(label) + (texts[len(label)] in known_words("values", "after_label"))
            return tokens[start:] or tokens
    return tokens


def _read(tokens: list[Token], frame: Frame) -> Measured | None:
    name = frame.dimension.name
    found = _special(tokens, frame)
    if found is None and name == "duration":
        found = _hours_a_day(tokens, frame)
    if found is None and name in ("duration", "per_week"):
        found = _often(tokens, frame)
    found = found or read_single(tokens, frame) or read_range(tokens, frame)
    if found is None and name == "share":
        found = _share_of(tokens, frame)
    if found is None and name == "flow":
        found = _bucket(tokens, frame)
    return found


def _special(tokens: list[Token], frame: Frame) -> Measured | None:
    """Words that are a value by themselves: none, brand new, all of it."""
    text, kind = joined(tokens).casefold(), frame.dimension
    if kind.none_is_zero and text in known_words("values", "nothing"):
        return Measured.exactly(0.0, kind.core_unit)
    if kind.name == "duration" and text in known_words("values", "new"):
        return Measured.exactly(0.0, "day")
    if kind.name == "share" and text in known_words("values", "whole"):
        return Measured.exactly(1.0, "%")
    return read_decade(text) if kind.name == "temperature" else None


def _often(tokens: list[Token], frame: Frame) -> Measured | None:
    """Rhythms as the time between (duration) or as times a week (per_week)."""
    weekly = frame.dimension.name == "per_week"
    _refuse_two_meanings(tokens)
    rest = tokens[1:] if tokens[0].text == "once" else tokens
    rhythm = read_rhythm(tokens, days_count=weekly) or read_rhythm(rest, days_count=weekly)
    if rhythm is not None and (weekly or rhythm.low > 0):
        return _from_rhythm(rhythm, weekly)
    if rest and rest[0].text in ("every", "each"):
        rest = rest[1:]
    elif weekly:
        return None
    times = replace(frame, dimension=dimensions()["duration"])
    between = rest and (read_single(rest, times) or read_range(rest, times))
    if not between or not weekly:
        return between or None
    span = between.span
    if span.low <= 0:
        return None
    return Measured(Spread(_WEEK / span.high, _WEEK / span.best, _WEEK / span.low), "1")


def _refuse_two_meanings(tokens: list[Token]) -> None:
    """Biweekly is twice a week to some and every two weeks to others."""
    said = joined(tokens).casefold().replace("-", "").replace(" ", "")
    for period in ("week", "month"):
        if f"bi{period}ly" in said:
            forms = f'"twice a {period}" or "every 2 {period}s"'
            wrong = f"that is twice a {period} to some and every two {period}s to others"
            raise NotUnderstood(quoted(joined(tokens)), wrong, forms)


def _from_rhythm(rhythm: Rhythm, weekly: bool) -> Measured:
    """The middle is the middle of the counts: 2-3 times a week is 2.5 times."""
    period = convert(rhythm.periods, rhythm.unit, "s")
    counts = (rhythm.low, (rhythm.low + rhythm.high) / 2, rhythm.high)
    if weekly:
        low, best, high = (float(count * Fraction(_WEEK) / Fraction(period)) for count in counts)
        return Measured(Spread(low, best, high), "1")
    high, best, low = (float(Fraction(period) / count) for count in counts)
    return Measured(Spread(low, best, high), rhythm.unit)


def _hours_a_day(tokens: list[Token], frame: Frame) -> Measured | None:
    """12 hours a day."""
    for tail in map(str.split, listed("values", "a_day")):
        rest = tokens[: -len(tail)]
        if [token.text for token in tokens[len(rest) :]] != tail or not rest:
            continue
        if spellings("duration").get(rest[-1].text) in ("hour", "minute"):
            return read_single(rest, frame) or read_range(rest, frame)
    return None


def _share_of(tokens: list[Token], frame: Frame) -> Measured | None:
    """A third of the water; half the tank."""
    for at in range(1, len(tokens)):
        if {other.text for other in tokens[at:]} <= known_words("values", "of_whole"):
            return _read(tokens[:at], frame)
    return None


def _bucket(tokens: list[Token], frame: Frame) -> Measured | None:
    """The bucket test: 10 litres in 45 seconds."""
    for at, token in enumerate(tokens):
        if token.text == "in":
            volume = replace(frame, dimension=dimensions()["volume"], bare_unit=None)
            time = replace(frame, dimension=dimensions()["duration"], bare_unit=None)
            filled, taken = read_single(tokens[:at], volume), read_single(tokens[at + 1 :], time)
            if filled and taken and taken.span.best > 0:
                flow = filled.span.best / taken.span.best
                return Measured.exactly(flow, "L/hour", filled.guesses)
    return None


def _widened(hedge: Hedge, measured: Measured, frame: Frame, said: str) -> Measured:
    span, kind = measured.span, frame.dimension
    if hedge is Hedge.NONE or (span.low < span.high and hedge is Hedge.ABOUT):
        return measured
    if span.low < span.high:
        wrong = f'not "{hedge.value}" with two ends'
        raise NotUnderstood(quoted(said), wrong, "only the two ends, or one of them")
    if kind.name == "rating" and hedge in (Hedge.UNDER, Hedge.OVER):
        form = f'two ends, such as "6.5 to {written(span.best, "1")}"'
        raise NotUnderstood(quoted(said), "not where it ends on the other side", form)
    wide = _narrowed(hedge, hedged(hedge, span.best, kind), measured, kind.core_unit)
    if kind.name == "per_week" and hedge is Hedge.UNDER and "every" in said:
        wide = hedged(Hedge.OVER, span.best, kind)
    guesses = measured.guesses
    if hedge is Hedge.OVER or (hedge is Hedge.UNDER and kind.hedge_fixed):
        low, high = (convert(end, kind.core_unit, measured.unit) for end in (wide.low, wide.high))
        ends = f"{written(low, measured.unit)} to {written(high, measured.unit)}"
        guesses += (f"I took {quoted(said)} as {ends}.",)
    return Measured(wide, measured.unit, guesses)


def _narrowed(hedge: Hedge, wide: Spread, measured: Measured, core: str) -> Spread:
    """Just over 22 cm is less than 23: no farther than one of the last figure that was told."""
    if hedge not in (Hedge.NEARLY, Hedge.JUST_OVER):
        return wide
    best = measured.span.best
    said = convert(best, core, measured.unit)
    figure = 10.0 ** int(Decimal(f"{said:.6g}").normalize().as_tuple().exponent)
    one = convert(said + figure, measured.unit, core) - best
    if hedge is Hedge.NEARLY:
        low = max(wide.low, best - one)
        return Spread(low, (low + best) / 2, best)
    high = min(wide.high, best + one)
    return Spread(best, (best + high) / 2, high)


def _check(measured: Measured, frame: Frame, said: str) -> None:
    """What no quantity of this dimension can be."""
    span, kind, example = measured.span, frame.dimension, frame.example
    if kind.name == "temperature" and span.low < _COLDEST:
        raise NotUnderstood(quoted(said), "nothing is colder than -273.15 °C", example)
    if kind.name == "count" and not (span.low == span.high and float(span.best).is_integer()):
        raise NotUnderstood(quoted(said), "a whole number is needed here", example)
    if not math.isfinite(span.low + span.high):
        raise NotUnderstood(quoted(said), "it is too large", example)
