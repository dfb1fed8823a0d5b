"""How long a lamp was lit, told by the calendar and the day: 6 months, 10 hours a day."""

from __future__ import annotations

import re

from interview.words.amounts.quantity import read_quantity
from interview.words.amounts.reading import Reading
from interview.words.text.refusal import NotUnderstood, quoted

__all__ = ["lit_hours"]

_HOURS = r"(?:h|hrs?|hours?)"
_A_DAY = re.compile(
    rf"^(?:for )?(?P<time>.+?)\s*(?:,|;|\bat\b|\bfor\b)\s*"
    rf"(?P<hours>[^,;]+?\s*{_HOURS})\s*(?:/|\b(?:a|per|each|every)\b)\s*day$",
    re.IGNORECASE,
)
_CALENDAR = ("day", "week", "fortnight", "month", "year")
_DAY = 86400.0


def lit_hours(text: str, region: str) -> Reading | None:
    """Lit time of a calendar time and the hours a day; None where the words tell no such pair."""
    found = _A_DAY.match(" ".join(text.split()).strip(" ."))
    if found is None:
        return None
    try:
        time = read_quantity(found["time"], "duration", region=region)
        daily = read_quantity(found["hours"], "duration", region=region)
    except NotUnderstood:
        return None
    if time.unit not in _CALENDAR or daily.high > _DAY:
        return None
    low, best, high = (
        one * part / _DAY
        for one, part in zip(
            (time.low, time.best, time.high), (daily.low, daily.best, daily.high), strict=True
        )
    )
    said = f"I took {quoted(text)} as {best / 3600:.0f} hours lit."
    return Reading(low, best, high, text.strip(), "hour", said)
