"""Hours of a day told by the clock: 8 am to 8 pm, 7:30-19:30, 12 on 12 off."""

from __future__ import annotations

import re

from interview.words.text.refusal import NotUnderstood, quoted

__all__ = ["clock_at", "hour_by_clock", "hours_by_clock"]

_DAY = 24.0
_HOURS = (
    *("one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_NOON = 12
_MOST_LIT = 16
"""No lamp over a tank is meant to burn longer in a day."""
_TIME = (
    r"(?P<hour{n}>\d{{1,2}}|noon|midnight|"
    + "|".join(_HOURS)
    + r")(?:[:.h](?P<minute{n}>[0-5]\d)|\s*h\b)?\s*"
    r"(?P<half{n}>a\.?m\.?|p\.?m\.?|o'?clock|"
    r"(?:in|at) (?:the )?(?:morning|evening|night|afternoon))?"
)
_OFF = (
    r"(?P<off>(?:[,;]|,? ?(?:and|then))?\s*"
    r"(?:go |goes |are |turn |turns |switch )?off(?: again)?(?: at)?)"
)
_UNTIL = rf"(?:to|til|till|until|{_OFF}|and|-|–|through)"
_SPAN = re.compile(
    rf"(?:on )?(?:at |from |between )?{_TIME.format(n=1)}\s*{_UNTIL}\s*{_TIME.format(n=2)}",
    re.IGNORECASE,
)
_LED = re.compile(
    r"^(?:the )?(?:(?:lights?|lamps?|bulbs?|timer|they|it) )?"
    r"(?:comes?|goes?|go|turns?|switch(?:es)?|are|is|burns?|runs?) (?=(?:on|at|from) )",
    re.IGNORECASE,
)
"""What leads up to the times and tells none."""
_SURE = ("half1", "half2", "minute1", "minute2")
"""What tells that a time of day is meant."""
_ONE = re.compile(_TIME.format(n=1), re.IGNORECASE)
_ON_OFF = re.compile(
    r"^(?P<on>\d{1,2})\s*(?:h|hrs?|hours)?\s*on\s*(?:,|/|and)?\s*"
    r"(?P<off>\d{1,2})\s*(?:h|hrs?|hours)?\s*off$",
    re.IGNORECASE,
)


def hour_by_clock(text: str) -> float | None:
    """The hour of one time of day, as 14:00, 2 pm or noon; None where none is told for certain."""
    told = _ONE.fullmatch(" ".join(text.split()))
    return _at(told, 1, all_day=False) if told else None


def hours_by_clock(text: str) -> float | None:
    """Hours between two times of day; None where the words tell no times.

    Raises:
        NotUnderstood: where morning or evening is left open, as in 8 to 8, or whether times of
            day are meant at all, as in 10 to 12.
    """
    folded = _LED.sub("", " ".join(text.split()))
    if on_off := _ON_OFF.match(folded):
        on, off = int(on_off["on"]), int(on_off["off"])
        return float(on) if on + off == _DAY else None
    span = _SPAN.fullmatch(folded)
    if span is None:
        return None
    if _may_be_hours(span):
        first, last = span["hour1"], span["hour2"]
        forms = f'"{first} to {last} hours", or "{first}:00 to {last}:00"'
        raise NotUnderstood(quoted(text), "not whether hours of light or times are meant", forms)
    all_day = _is_of_24(span)
    start, end = _at(span, 1, all_day), _at(span, 2, all_day)
    if start is None or end is None:
        if span["minute1"] or span["minute2"] or (start, end) != (None, None):
            return None
        form = f'"{span["hour1"]} am to {span["hour2"]} pm"'
        raise NotUnderstood(quoted(text), "not whether morning or evening is meant", form)
    return (end - start) % _DAY or None


def clock_at(text: str, start: int) -> int:
    """Where a span of times ends that starts at a place in a text; 0 where none does."""
    span = _SPAN.match(text, start)
    sure = span and (span["off"] or any(span[name] for name in _SURE))
    if not span or not sure or text[span.end() : span.end() + 1].isalnum():
        return 0
    try:
        return span.end() if hours_by_clock(span[0].strip()) else 0
    except NotUnderstood:
        return 0


def _in_digits(hour: str) -> str:
    """An hour in words as a number: eight."""
    word = hour.casefold()
    return str(_HOURS.index(word) + 1) if word in _HOURS else word


def _may_be_hours(span: re.Match[str]) -> bool:
    """Whether two bare numbers may as well be the ends of a number of hours."""
    hours = _in_digits(span["hour1"]), _in_digits(span["hour2"])
    if span["off"] or any(span[name] for name in _SURE):
        return False
    return all(map(str.isdecimal, hours)) and int(hours[0]) < int(hours[1]) <= _MOST_LIT


def _is_of_24(span: re.Match[str]) -> bool:
    """Whether one end can only be of a clock of 24 hours: then both are."""
    if span["half1"] or span["half2"]:
        return False
    return any(int(span[one]) > _NOON for one in ("hour1", "hour2") if span[one].isdecimal())


def _at(span: re.Match[str], number: int, all_day: bool) -> float | None:
    """The hour of the day; None where it could be either half of it."""
    word, half = _in_digits(span[f"hour{number}"]), (span[f"half{number}"] or "").casefold()
    if word in ("noon", "midnight"):
        return float(_NOON) if word == "noon" else 0.0
    hour, minute = int(word), int(span[f"minute{number}"] or 0) / 60
    if hour > _DAY:
        return None
    late = half.startswith("p") or any(w in half for w in ("evening", "night", "afternoon"))
    early = half.startswith("a") or "morning" in half
    if late or early:
        if not 1 <= hour <= _NOON:
            return None
        return hour % _NOON + (_NOON if late else 0) + minute
    return hour + minute if all_day or span[f"minute{number}"] else None
