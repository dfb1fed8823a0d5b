"""How often something is done, as it would be typed: mon wed fri → 3 times a week."""

from __future__ import annotations

from collections.abc import Sequence

from interview.words.lexicon.files import known_words, words

__all__ = ["as_typed", "hours_between"]

_WEEK = 7
_DIAL = 12
_SHORTEST_DAY = 7
"""Hours; what comes to less on the dial goes once more round it: from 8 to 8, from 7 to 9."""
_LONGEST_DAY = 16
"""Hours; no lamp over a tank is meant to burn longer in a day."""


def as_typed(told: Sequence[str], said: Sequence[str]) -> str:
    """The words of a rhythm as its question reads them; "" where they may be two rhythms.

    In `told` an amount is its kind in angle brackets, in `said` as it was told.
    """
    days = [found for word in told if (found := _weekday(word)) is not None]
    if len(days) == len(told) == 2:
        return ""  # mon fri: two days, or from the one to the other
    if len(days) > 1:
        span = (
            (days[-1] - days[0]) % _WEEK + 1
            if {"to", "-", "through", "thru", "till", "until"} & {*told}
            else len({*days})
        )
        return f"{span} times a week"
    short = known_words("rhythm_told", "short_days")
    if not short.isdisjoint(told):
        return "every 2 weeks" if "other" in told or "second" in told else "once a week"
    same, dropped = words().rhythm_told.same, known_words("rhythm_told", "dropped")
    put = [same.get(way, one) for way, one in zip(told, said, strict=True) if way not in dropped]
    return " ".join(" ".join(put).split())


def hours_between(begins: float, ends: float) -> str:
    """How long lamps burn by two hours of the dial, as it would be typed; "" for no such hours.

    “10 to 4” is 6 hours or 18, both unusual: it is asked.
    """
    if not (0 < begins <= _DIAL and 0 < ends <= _DIAL):
        return ""
    hours = (ends - begins) % _DIAL
    hours = hours if hours >= _SHORTEST_DAY else hours + _DIAL
    return f"{hours:g} hours" if hours <= _LONGEST_DAY else ""


def _weekday(word: str) -> int | None:
    """Its number in the week; None for another word."""
    short = [name[:3] for name in words().rhythm.days_of_the_week[:_WEEK]]
    known = known_words("rhythm", "days_of_the_week") | known_words("rhythm_told", "short_days")
    is_day = word.removesuffix("s") in known or word in known
    return short.index(word[:3]) if is_day and word[:3] in short else None
