"""How often, in every way that is told: every second Sunday, fortnightly, morning and evening."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction

from interview.words.spans.told_amounts import Heard

__all__ = ["rhythms_in"]

_NUMBERS: Mapping[str, int] = {
    **{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8},
    **{"nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14},
    **{"fifteen": 15, "sixteen": 16, "eighteen": 18, "twenty": 20, "twenty one": 21},
    **{"twenty-one": 21, "thirty": 30, "twenty eight": 28, "forty": 40, "forty five": 45},
    **{"forty-five": 45, "sixty": 60, "ninety": 90, "a": 1, "an": 1, "couple": 2},
    **{"a couple of": 2, "couple of": 2, "zwei": 2, "drei": 3, "vier": 4, "deux": 2, "trois": 3},
    **{"quatre": 4, "treinta": 30, "quinze": 15, "dos": 2, "tres": 3, "half a": 0},
}
_ORDINALS: Mapping[str, int] = {
    **{"other": 2, "second": 2, "2nd": 2, "alternate": 2, "alternating": 2, "third": 3, "3rd": 3},
    **{"fourth": 4, "4th": 4, "fifth": 5, "5th": 5, "sixth": 6, "6th": 6, "seventh": 7, "7th": 7},
    **{"eighth": 8, "8th": 8, "tenth": 10, "10th": 10, "twelfth": 12, "fourteenth": 14},
    **{"14th": 14, "12th": 12, "ninth": 9, "9th": 9, "fifteenth": 15, "15th": 15, "single": 1},
    **{"blessed": 1, "bloody": 1, "damn": 1},
}
_DAYS = r"(?:mon|tues?|wed(?:nes|s)?|thu(?:rs?)?|fri|sat(?:ur)?|sun)(?:day)?s?"
_PERIODS: Mapping[str, Fraction] = {
    rf"days?|nights?|mornings?|evenings?|afternoons?|d|tage?|jours?|d[ií]as?|{'breakfast'}": Fraction(
        1
    ),
    rf"weeks?|wks?|w|wochen?|semaines?|semanas?|weekends?|{_DAYS}": Fraction(7),
    r"fortnights?": Fraction(14),
    r"months?|mos?|mths?|monate?|mois|mes(?:es)?": Fraction(487, 16),
    r"quarters?": Fraction(1461, 16),
    r"years?|yrs?": Fraction(1461, 4),
}
_ADVERBS: Mapping[str, Fraction] = {
    **{"daily": Fraction(1), "nightly": Fraction(1), "weekly": Fraction(7)},
    **{"fortnightly": Fraction(14), "monthly": Fraction(487, 16), "quarterly": Fraction(1461, 16)},
    **{"two-weekly": Fraction(14), "three-weekly": Fraction(21), "four-weekly": Fraction(28)},
    **{"six-weekly": Fraction(42), "täglich": Fraction(1), "wöchentlich": Fraction(7)},
    "biweekly": Fraction(14),
}


def _any(table: Mapping[str, object]) -> str:
    return "|".join(sorted(table, key=len, reverse=True))


_N = rf"(?:\d+(?:[.,]\d+)?|{_any(_NUMBERS)})"
_PERIOD = rf"(?:{'|'.join(_PERIODS)})"
_ADVERB = rf"(?:{_any(_ADVERBS)})"
_OFTEN = rf"(?:once|twice|thrice|{_N}(?:\s*(?:-|to|or|/)\s*{_N})?)"
_EVERY = r"(?:every|each|alle|todos los|cada|ev(?:er)?y|e?v'?ry|per|q|jeden|tous les)"
_TIMES = r"(?:times?|x|×|goes|feeds?|feedings?|meals?|changes?|mal|fois|veces|sittings?|portions?)"
_EVERY_PERIOD = re.compile(
    rf"\b{_EVERY}\s+(?:and every\s+|blessed\s+)?(?:(?P<ordinal>{_any(_ORDINALS)})\s+|"
    rf"(?P<low>{_N})(?:\s*(?:-|to|or)\s*(?P<high>{_N}))?(?:\s+|-)?)?(?:or so\s+)?"
    rf"(?P<period>{_PERIOD})\b",
    re.IGNORECASE,
)
_TIMES_IN = re.compile(
    rf"\b(?P<often>{_OFTEN})\s*-?(?:{_TIMES}|(?:single\s+)?(?:days?|mornings?|evenings?|nights?)(?!\s+old))?,?\s*"
    rf"(?:(?:a|an|per|each|every|in a|in the|in each|in every|every single|by|out of(?: the)?|out of a|oot o'?|of the|die|pro|par|por|/|in|a the|the)\s*"
    rf"(?:(?P<n>{_N}|{_any(_ORDINALS)})\s+)?(?P<period>{_PERIOD})|(?P<adverb>{_ADVERB}))\b",
    re.IGNORECASE,
)
_BY_ADVERB = re.compile(rf"\b(?P<adverb>{_ADVERB})\b", re.IGNORECASE)
_APART = re.compile(
    rf"\b(?P<low>{_N})(?:\s*(?:-|to|or)\s*(?P<high>{_N}))?[\s-]*(?P<period>days?|weeks?|months?)"
    r"\s*(?:apart|between|rhythm|cycle|gaps?|interval|intervals|rota|schedule|turnaround)\b",
    re.IGNORECASE,
)
_ALTERNATE = re.compile(
    r"\b(?:(?:on\s+)?alternat(?:e|ing) days?|(?:one )?day on,?(?: and)?(?: then)?(?: one)?(?: a)? day off|"
    r"one day (?:yes|on|food),? (?:and )?(?:one|a|the next|next) day (?:no|off|nothing|none|not)|"
    r"a day (?:yes|on),? a day (?:no|off)|skip(?:s|ping)? (?:a|one|every other|alternate) days?(?: in between)?|"
    r"every 48 ?h(?:ours|rs?)?|un d[ií]a s[ií] y (?:un d[ií]a|otro) no|un jour sur deux|one day in two|"
    r"(?:with )?a day'?s? (?:break|rest|gap)? ?(?:in )?between)\b",
    re.IGNORECASE,
)
_TWICE_A_DAY = re.compile(
    r"\b(?:(?:every |each |in the |at )?(?:mornings?|dawn|breakfast)(?:\s*(?:time)?),?\s*(?:and|&|\+|/|n)\s*"
    r"(?:again )?(?:every |each |in the |at )?(?:evenings?|nights?|supper(?:time)?|dinner(?:time)?|dusk|tea(?:time)?)"
    r"(?:,?\s*(?:daily|every day|each day|every single day))?)\b",
    re.IGNORECASE,
)
_LIST = re.compile(
    rf"\b{_DAYS}(?:\s*(?:,|/|&|\+|and|to|-|–|through|thru|till|until|y|und|et|n|plus|then)+\s*|\s+|[,/&]\s*and\s+)"
    rf"(?:on\s+)?{_DAYS}(?:(?:\s*(?:,|/|&|\+|and|y|und|et|n|plus)+\s*|\s+|[,/&]\s*and\s+){_DAYS})*\b",
    re.IGNORECASE,
)
_ONE_DAY = re.compile(rf"\b(?:of a |on (?:a )?|every |each |come )?{_DAYS}\b", re.IGNORECASE)
_EXACTLY: Mapping[str, float] = {
    r"every(?: single)? day (?:but|except|bar|save)(?: for| on)? (?:one|sundays?|mondays?|saturdays?|fridays?|wednesdays?|tuesdays?|thursdays?)": 6,
    r"(?:on )?(?:weekdays|working days|school days|work days)(?: only)?": 5,
    r"(?:at |on |the )*week-?ends?(?: only)?": 2,
    r"week(?:ly)? in,? week out": 1,
    r"day in,? day out|every day god sends|every day the lord (?:sends|makes)": 7,
    r"semi-?weekly|bi-?weekly": 2,
    r"bi-?weekly|every (?:pay ?day)|twice-monthly|(?:twice|2x|two times) (?:a|per|each|in a) month": 0.5,
    r"(?:the )?(?:first|last|1st) (?:\w+ )?of (?:the|each|every) month|(?:each|every|on) (?:pay ?day)": 0.23,
    r"on bin day|bin days?": 1,
}
_FIXED = [(re.compile(rf"\b(?:{said})\b", re.IGNORECASE), many) for said, many in _EXACTLY.items()]
_WEEK = 7
_WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_FROM_TO = re.compile(r"\b(?:to|through|thru|till|until)\b|[-–]", re.IGNORECASE)


def rhythms_in(line: str) -> Iterator[Heard]:
    """Every rhythm, as the time between and as times a week.

    Args:
        line: the text, with plain marks and no line breaks, as long as it was told
    """
    for found in _EVERY_PERIOD.finditer(line):
        yield _every(found)
    for found in _TIMES_IN.finditer(line):
        yield from _times_in(found)
    for found in _BY_ADVERB.finditer(line):
        yield _heard(found, 1, 1, _ADVERBS[found["adverb"].casefold()])
    for found in _APART.finditer(line):
        yield _every(found)
    for found in _ALTERNATE.finditer(line):
        yield _heard(found, 1, 1, Fraction(2))
    for found in _TWICE_A_DAY.finditer(line):
        yield _heard(found, 2, 2, Fraction(1))
    for found in _LIST.finditer(line):
        many = _days_in(found[0])
        yield _heard(found, many, many, Fraction(_WEEK))
    for found in _ONE_DAY.finditer(line):
        yield _heard(found, 1, 1, Fraction(_WEEK))
    for form, often in _FIXED:
        for found in form.finditer(line):
            many = Fraction(often).limit_denominator(1000)
            yield _heard(found, many, many, Fraction(_WEEK))


def _number(said: str | None) -> Fraction:
    if not said:
        return Fraction(1)
    folded = " ".join(said.casefold().replace(",", ".").split())
    if folded[:1].isdigit() and folded.replace(".", "", 1).isdigit():
        return Fraction(folded)
    often = {"once": 1, "twice": 2, "thrice": 3}
    return Fraction(often.get(folded) or _NUMBERS.get(folded) or _ORDINALS.get(folded) or 1)


def _period(said: str) -> Fraction:
    forms = (days for form, days in _PERIODS.items() if re.fullmatch(form, said, re.IGNORECASE))
    return next(forms, Fraction(1))


def _every(found: re.Match[str]) -> Heard:
    groups = found.groupdict()
    period = _period(found["period"])
    if ordinal := groups.get("ordinal"):
        period *= _ORDINALS[ordinal.casefold()]
        return _heard(found, 1, 1, period)
    low, high = _number(found["low"]), _number(found["high"] or found["low"])
    return _heard(found, 1, 1, period * low, period * high)


def _times_in(found: re.Match[str]) -> Iterator[Heard]:
    said = re.split(r"\s*(?:-|\bto\b|\bor\b|/)\s*", found["often"].casefold())
    low, high = _number(said[0]), _number(said[-1])
    adverb = found["adverb"]
    period = _ADVERBS[adverb.casefold()] if adverb else _period(found["period"])
    period *= _number(found["n"])
    if 0 < low <= high:
        yield _heard(found, low, high, period)


def _days_in(said: str) -> int:
    days = [_WEEKDAYS.index(one[:3]) for one in re.findall(_DAYS, said.casefold())]
    if len(days) == 2 and _FROM_TO.search(said):
        return (days[1] - days[0]) % _WEEK + 1
    return len({*days})


def _heard(
    found: re.Match[str],
    low: int | Fraction,
    high: int | Fraction,
    period: Fraction,
    longest: Fraction | None = None,
) -> Heard:
    """So many times in a period of days; the period may be between two."""
    longest = longest or period
    if not (0 < low <= high and 0 < period <= longest):
        return Heard(found.start(), found.end(), {})
    between = _ends(period / high, longest / low)
    a_week = _ends(_WEEK * low / longest, _WEEK * high / period)
    says = {"water_change_interval": f"{between} days", "per_week": f"{a_week} times a week"}
    return Heard(found.start(), found.end(), says)


def _ends(low: Fraction, high: Fraction) -> str:
    ends = dict.fromkeys(f"{float(end):.4g}" for end in (low, high))
    return " to ".join(ends)
