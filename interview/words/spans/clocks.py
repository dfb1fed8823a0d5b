"""Hours between two times of day, however they are told: on at 0700, off at 1900."""

from __future__ import annotations

import re
from collections.abc import Iterator

from interview.words.forms.rhythm_told import hours_between
from interview.words.spans.heard import Heard

__all__ = ["clocks_in"]

_HOURS = (
    *("one", "two", "three", "four", "five", "six"),
    *("seven", "eight", "nine", "ten", "eleven", "twelve"),
)
_SPOKEN = {"fifteen": 15, "thirty": 30, "forty five": 45}
_NAMED = {"noon": 12, "midday": 12, "midnight": 24}
_HALF = (
    r"(?:a\.?m\.?\b|p\.?m\.?\b|(?:o'? ?clock )?(?:in|at) (?:the )?"
    r"(?:morning|evening|night|afternoon)|uhr|sharp|o'? ?clock|hrs?\b|h\b)"
)
_DAY = 24
_NOON = 12


def _time(at: int) -> str:
    hour = rf"(?P<hour{at}>[01]?\d|2[0-4]|{'|'.join((*_HOURS, *_NAMED))})"
    minute = rf"(?:[:.h]?(?P<minute{at}>[0-5]\d)| (?P<spoken{at}>fifteen|thirty|forty[ -]five))?"
    return rf"(?P<half_past{at}>half(?: past)? )?{hour}{minute}\s*(?P<half{at}>{_HALF})?"


_OFF = (
    r"(?:,|and|then|go|goes|switch(?:ed)?|it|they|are|again|clicks?|turn(?:s|ed)?|i|lights?|lamps?|"
    r"by hand|\s)*(?:off|quit)(?:\s*(?:at|around|about|by|:|again))*"
)
_UNTIL = rf"[\s,;/]*(?:to|til|till|until|-|/|bis|through|and|{_OFF})\s*(?:at |around |about )?"
_DARK = re.compile(
    rf"\b(?:off|out) (?:at |from |around )?{_time(1)}\b[^.;0-9]{{0,40}}?\b"
    rf"(?:on|till|until|to) (?:again )?(?:at )?{_time(2)}(?![\d]|[.,:]\d|\s*%)",
    re.IGNORECASE,
)
"""Off at nine, dark till seven."""
_SPAN = re.compile(
    rf"(?<![\d.,:])\b{_time(1)}{_UNTIL}{_time(2)}(?![\d]|[.,:]\d|\s*%)", re.IGNORECASE
)


def clocks_in(line: str) -> Iterator[Heard]:
    """How long lamps burn, by when they go on and off; in a line of `plain_letters`."""
    for found in _SPAN.finditer(line):
        if hours := _hours(found):
            yield Heard(found.start(), found.end(), {"day_length": hours})
    for found in _DARK.finditer(line):
        if dark := _hours(found):
            lit = _DAY - float(dark.removesuffix(" hours"))
            yield Heard(found.start(), found.end(), {"day_length": f"{lit:g} hours"})


def _hours(found: re.Match[str]) -> str:
    begins, ends = _hour(found, 1), _hour(found, 2)
    halves = [_late(found[f"half{at}"] or "") for at in (1, 2)]
    in_24 = max(begins, ends) > _NOON or bool(
        halves == [None, None] and found["minute1"] and found["minute2"]
    )
    if any(half is not None for half in halves) and max(begins, ends) <= _NOON:
        first = halves[0] if halves[0] is not None else False
        last = halves[1] if halves[1] is not None else not first
        begins = begins % _NOON + _NOON * first
        ends = ends % _NOON + _NOON * last
    elif not in_24:
        return hours_between(begins, ends)
    hours = (ends - begins) % _DAY
    return f"{hours:g} hours" if hours else ""


def _hour(found: re.Match[str], at: int) -> float:
    word = found[f"hour{at}"].casefold()
    hour = _NAMED.get(word) or (_HOURS.index(word) + 1 if word in _HOURS else int(word))
    half = 0.5 if found[f"half_past{at}"] else 0
    minutes = _SPOKEN.get((found[f"spoken{at}"] or "").replace("-", " "), 0)
    return hour + (int(found[f"minute{at}"] or 0) + minutes) / 60 + half


def _late(half: str) -> bool | None:
    """Whether a time is behind noon; None where that isn't told."""
    folded = half.casefold()
    if folded.startswith("p") or any(word in folded for word in ("evening", "night", "afternoon")):
        return True
    return False if folded.startswith("a") or "morning" in folded else None
