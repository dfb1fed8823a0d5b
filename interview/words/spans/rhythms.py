"""How often, in every way that is told: every second Sunday, fortnightly, morning and evening."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache

from interview.words.lexicon.files import spans
from interview.words.spans.heard import Heard

__all__ = ["rhythms_in"]

_WEEK = 7
_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_WEEKEND = r"(?:at )?(?:the )?week-?ends?"
_DAYS = r"(?:mon|tues?|wed(?:nes|s)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?s?"
_BETWEEN_DAYS = r"(?:[\s,/&+-]|\b(?:and|to|through|thru|till|until|y|und|et|n|plus|then)\b)+"
_FROM_TO = re.compile(r"\b(?:to|through|thru|till|until)\b|-", re.IGNORECASE)
_EITHER = re.compile(r"\s*(?:-|\bto\b|\bor\b|/)\s*")


def rhythms_in(line: str) -> Iterator[Heard]:
    """Every rhythm, as the time between and as times a week, in a line of `plain_letters`."""
    for form in (_every(), _apart()):
        yield from filter(None, map(_of_period, form.finditer(line)))
    yield from filter(None, map(_of_times, _times_in().finditer(line)))
    for found in _adverb().finditer(line):
        yield _heard(found, 1, 1, spans().rhythms.adverbs[found[0].casefold()])
    for found in _day_list().finditer(line):
        many = _days_in(found[0])
        yield _heard(found, many, many, _WEEK)
    for found in _form(rf"\b(?:{'|'.join(spans().rhythms.weekends)})\b").finditer(line):
        says = {"water_change_interval": "7 days", "per_week": "2 times a week"}
        yield Heard(found.start(), found.end(), says)
    for form, often in _a_week():
        for found in form.finditer(line):
            yield _heard(found, often, often, _WEEK)


def _any(said: Iterable[str]) -> str:
    return "|".join(sorted(said, key=len, reverse=True))


def _form(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


def _number_form() -> str:
    return rf"(?:\d+(?:[.,]\d+)?|{_any(spans().rhythms.numbers)})"


def _period_form() -> str:
    listed = (one for forms in spans().rhythms.periods.values() for one in forms)
    return rf"(?:{'|'.join(listed)}|{_DAYS})"


@cache
def _every() -> re.Pattern[str]:
    rhythms, number = spans().rhythms, _number_form()
    return _form(
        rf"(?<!\w)(?:{'|'.join(rhythms.every)})\s+(?:and every\s+)?"
        rf"(?:(?P<ordinal>{_any(rhythms.ordinals)})\s+|"
        rf"(?P<low>{number})(?:\s*(?:-|to|or)\s*(?P<high>{number}))?(?:\s+|-)?)?(?:or so\s+)?"
        rf"(?P<period>{_period_form()})\b"
    )


@cache
def _apart() -> re.Pattern[str]:
    number = _number_form()
    return _form(
        rf"\b(?P<low>{number})(?:\s*(?:-|to|or)\s*(?P<high>{number}))?[\s-]*"
        rf"(?P<period>{_period_form()})\s*(?:{'|'.join(spans().rhythms.apart)})\b"
    )


@cache
def _times_in() -> re.Pattern[str]:
    rhythms, number = spans().rhythms, _number_form()
    often = rf"(?:{_any(rhythms.often)}|{number}(?:\s*(?:-|to|or|/)\s*{number})?)"
    of_days = r"(?:single\s+)?(?:days?|mornings?|evenings?|nights?)(?!\s+old)"
    return _form(
        rf"\b(?P<often>{often})\s*-?(?:{'|'.join(rhythms.times)}|{of_days})?,?\s*"
        rf"(?:(?:(?:{_any(rhythms.in_every)})(?:(?<=/)|\b)\s*|(?<=\dx)|(?<=\dx )|(?<=times ))"
        rf"(?:(?P<many>{number}|{_any(rhythms.ordinals)})\s+)?"
        rf"(?P<period>{_period_form()}|(?:(?<=of )|(?<=the ))(?:seven|7))|"
        rf"(?<!-)(?P<adverb>{_any(rhythms.adverbs)}))\b"
    )


@cache
def _adverb() -> re.Pattern[str]:
    return _form(rf"\b(?:{_any(spans().rhythms.adverbs)})\b")


@cache
def _day_list() -> re.Pattern[str]:
    day = rf"(?:of a |on (?:a )?|come )?{_DAYS}"
    return _form(rf"\b{day}(?:{_BETWEEN_DAYS}{day})*(?:{_BETWEEN_DAYS}{_WEEKEND})?\b")


@cache
def _a_week() -> tuple[tuple[re.Pattern[str], float], ...]:
    listed = spans().rhythms.a_week.items()
    return tuple((_form(rf"(?<!\w)(?:{'|'.join(forms)})\b"), float(n)) for n, forms in listed)


def _number(said: str | None) -> float:
    rhythms = spans().rhythms
    folded = " ".join((said or "a").casefold().replace(",", ".").split())
    if folded[0].isdigit() and folded.replace(".", "", 1).isdigit():
        return float(folded)
    listed = (rhythms.often, rhythms.numbers, rhythms.ordinals)
    return next((float(table[folded]) for table in listed if folded in table), 1.0)


def _period(said: str) -> float:
    folded = said.casefold()
    if folded in ("seven", "7"):
        return _WEEK
    for days, forms in spans().rhythms.periods.items():
        if re.fullmatch("|".join(forms), folded):
            return float(days)
    return _WEEK


def _of_period(found: re.Match[str]) -> Heard | None:
    groups = found.groupdict()
    period = _period(found["period"])
    if ordinal := groups.get("ordinal"):
        period *= spans().rhythms.ordinals[ordinal.casefold()]
        return _heard(found, 1, 1, period)
    low, high = _number(found["low"]), _number(found["high"] or found["low"])
    return _heard(found, 1, 1, period * low, period * high) if 0 < low <= high else None


def _of_times(found: re.Match[str]) -> Heard | None:
    said = _EITHER.split(found["often"].casefold())
    low, high = _number(said[0]), _number(said[-1])
    adverb = found["adverb"]
    period = spans().rhythms.adverbs[adverb.casefold()] if adverb else _period(found["period"])
    period *= _number(found["many"])
    return _heard(found, low, high, period) if 0 < low <= high and period > 0 else None


def _days_in(said: str) -> int:
    days = [_WEEKDAYS.index(one[:3]) for one in re.findall(_DAYS, said.casefold())]
    if len(days) == 2 and _FROM_TO.search(said):
        return (days[1] - days[0]) % _WEEK + 1
    return len({*days}) + 2 * ("week" in said.casefold())


def _heard(
    found: re.Match[str], low: float, high: float, period: float, longest: float = 0.0
) -> Heard:
    """So many times in a period of days; the period may be between two."""
    longest = longest or period
    between = _ends(period / high, longest / low)
    a_week = _ends(_WEEK * low / longest, _WEEK * high / period)
    says = {"water_change_interval": f"{between} days", "per_week": f"{a_week} times a week"}
    return Heard(found.start(), found.end(), says)


def _ends(low: float, high: float) -> str:
    return " to ".join(dict.fromkeys(f"{round(end, 2):g}" for end in (low, high)))
