"""Moments of a run as they are typed: “day 14:00”, “15 Jul 6 am”, “power_cut_24_h_winter 9 h”."""

from __future__ import annotations

import datetime
import re
from typing import Literal

from interview.advice.forecast.balance import CURVES
from interview.advice.forecast.moment import When
from interview.base.near_spelling import nearest
from interview.care.mishaps import Mishap, mishap_rules
from interview.reckon.unknown_names import did_you_mean
from interview.setups import SetupError
from interview.words.amounts.quantity import read_quantity
from interview.words.forms.clock import hour_by_clock
from interview.words.text.refusal import NotUnderstood, together

__all__ = ["read_curve", "read_moment"]

_HOUR, _DAY = 3600.0, 86400.0
_NOON = 12.0
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_SEASONS: tuple[Literal["coldest", "warmest"], ...] = ("coldest", "warmest")
_OF_DAY = re.compile(r"(?:(?P<season>coldest|mean|warmest)\s+)?(?:day\b)?\s*(?P<time>.*)")
_OF_YEAR = re.compile(
    r"(?:year\s+)?(?:(?P<day>\d{1,2})\.?\s+(?P<month>[a-z]{3,9})|"
    r"(?P<month_first>[a-z]{3,9})\s+(?P<day_after>\d{1,2}))\b(?:\s+(?:at\s+)?(?P<time>.+))?"
)
_SHORT = {
    "water": "water_temperature", "room": "room_temperature", "air": "breathing_air",
    "platform": "platform_temperature", "shell": "shell_temperature",
    "uv_index": "uv_index_shell",
}  # fmt: skip
_FORMS = (
    "Type a time of a day, as “day 14:00” or “coldest day 6 am”; one of the year, as "
    "“15 Jul 14:00”; or a mishap and the time since it began, as “power_cut_24_h_winter 9 h”."
)


def read_curve(name: str) -> str:
    """The curve that a name means; SetupError where no run has such a curve."""
    curve = _SHORT.get(name, name)
    if curve in CURVES:
        return curve
    near = did_you_mean(name, CURVES) or f" There are: {together(CURVES)}."
    raise SetupError(f"No run through time has a curve called “{name}”.{near}")


def read_moment(text: str) -> When:
    """The moment that is meant; SetupError with what to type instead where none is."""
    said = " ".join(text.split())
    folded = said.casefold()
    found = _of_mishap(folded) or _of_year(folded) or _of_day(folded)
    if found is None:
        raise SetupError(f"I can't read “{said}” as a moment. {_FORMS}{_meant(folded)}")
    return found


def _of_day(text: str) -> When | None:
    told = _OF_DAY.fullmatch(text)
    hour = hour_by_clock(told["time"]) if told else None
    if told is None or hour is None or hour > _DAY / _HOUR:
        return None
    for season in _SEASONS:
        if season == told["season"]:
            return When("day", hour * _HOUR, f"on the {season} day at {_clock(hour)}", season)
    return When("day", hour * _HOUR, f"on a day in the mean of the year at {_clock(hour)}")


def _of_year(text: str) -> When | None:
    told = _OF_YEAR.fullmatch(text)
    if told is None:
        return None
    month = (told["month"] or told["month_first"])[:3]
    hour = _NOON if told["time"] is None else hour_by_clock(told["time"])
    if month not in _MONTHS or hour is None:
        return None
    number = int(told["day"] or told["day_after"])
    try:
        day = datetime.date(2001, _MONTHS.index(month) + 1, number)
    except ValueError:
        return None
    since = (day - datetime.date(2001, 1, 1)).days
    said = f"in the year on {number} {month.capitalize()} at {_clock(hour)}"
    return When("year", since * _DAY + hour * _HOUR, said)


def _of_mishap(text: str) -> When | None:
    words = text.replace("_", " ")
    for mishap in sorted(mishap_rules().mishaps, key=lambda one: -len(one.mishap)):
        named = mishap.mishap.replace("_", " ")
        if words.startswith(f"{named} "):
            return _since(mishap, words.removeprefix(named).strip())
    return None


def _since(mishap: Mishap, rest: str) -> When:
    try:
        since = read_quantity(rest.removeprefix("after ").removeprefix("at "), "duration").best
    except NotUnderstood as problem:
        raise SetupError(
            f"Of “{mishap.mishap}” a time since it began is needed: {problem}"
        ) from problem
    most = mishap.followed.to("s")
    if not 0 <= since <= most:
        raise SetupError(f"“{mishap.mishap}” is followed for {most / _HOUR:.0f} h; not at {rest}.")
    return When(mishap, since, f"{rest} after “{mishap.title}” began")


def _meant(text: str) -> str:
    """A mishap that is spelt nearly so, as a question."""
    first = text.split(" ")[0] if text else ""
    names = [one.mishap for one in mishap_rules().mishaps]
    near = [name for name in names if first and name.startswith(first)] or nearest(
        first, names, most=1
    )
    return f" Mishaps are called {together(names)}." if near else ""


def _clock(hour: float) -> str:
    minutes = round(hour * 60)
    return f"{minutes // 60}:{minutes % 60:02d}"
