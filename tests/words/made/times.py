"""Durations, intervals, hours of light, lit hours and feedings, as people write them."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from made.spans import DAY, HOUR, WEEK, Case, Made, Span, between, comma, in_words, loosely, point

MONTH = (28 * DAY, 31 * DAY)
YEAR = (365 * DAY, 366 * DAY)
MEAN = {MONTH: 365.2425 / 12 * DAY, YEAR: 365.2425 * DAY}  # of the Gregorian calendar
LIT_HOURS_A_DAY = 12  # the question's own hint says so


def _times(count: float, unit: tuple[float, float]) -> Span:
    """Months and years are as long as calendars make them."""
    return loosely(count * unit[0], count * unit[1])


def _from_to(low: float, high: float, unit: tuple[float, float]) -> Span:
    """Both ends said, in a unit of uneven length."""
    return between(low * MEAN[unit], high * MEAN[unit])


def counted(n: int) -> Made:
    """So many days, weeks, months or years, without more ado."""
    for unit, size in (("day", DAY), ("week", WEEK)):
        yield f"{n} {unit}s", point(n * size)
        yield f"{in_words(n)} {unit}s", point(n * size)
        yield f"about {n} {unit}s", point(n * size)
        yield f"{n} {unit}s or so", point(n * size)
        yield f"{n}-{n + 2} {unit}s", between(n * size, (n + 2) * size)
        yield f"{n} to {n + 2} {unit}s", between(n * size, (n + 2) * size)
        yield f"{n} or {n + 1} {unit}s", between(n * size, (n + 1) * size)
        yield f"{n}.5 {unit}s", point((n + 0.5) * size)
        yield f"{n} and a half {unit}s", point((n + 0.5) * size)
    yield f"{n}d", point(n * DAY)
    yield f"{n} wks", point(n * WEEK)
    yield f"{n} wk", point(n * WEEK)
    for unit, sizes in (("month", MONTH), ("year", YEAR)):
        yield f"{n} {unit}s", _times(n, sizes)
        yield f"{in_words(n)} {unit}s", _times(n, sizes)
        yield f"about {n} {unit}s", _times(n, sizes)
        yield f"{n}-{n + 1} {unit}s", _from_to(n, n + 1, sizes)
        yield f"{n} to {n + 2} {unit}s", _from_to(n, n + 2, sizes)
        yield f"{n} 1/2 {unit}s", _times(n + 0.5, sizes)
        yield f"{n}½ {unit}s", _times(n + 0.5, sizes)
        yield f"{comma(f'{n}.5')} {unit}s", _times(n + 0.5, sizes)
        yield f"{in_words(n)} and a half {unit}s", _times(n + 0.5, sizes)
    yield f"{n} yrs", _times(n, YEAR)
    yield f"{n} mths", _times(n, MONTH)
    yield f"{n} mos", _times(n, MONTH)


def _said() -> Made:
    """Durations with a name of their own."""
    yield "a week", point(WEEK)
    yield "a fortnight", point(2 * WEEK)
    yield "a week and a half", point(1.5 * WEEK)
    yield "half a year", _times(0.5, YEAR)
    yield "1/2 year", _times(0.5, YEAR)
    yield "a year and a half", _times(1.5, YEAR)
    yield "a year", _times(1, YEAR)
    yield "a month", _times(1, MONTH)
    yield "a month and a half", _times(1.5, MONTH)
    yield "half a month", _times(0.5, MONTH)
    yield "a couple of weeks", loosely(1.5 * WEEK, 3 * WEEK)
    yield "a couple of months", loosely(1.5 * MONTH[0], 3 * MONTH[1])
    yield "a few weeks", loosely(2 * WEEK, 6 * WEEK)
    yield "over a year", loosely(YEAR[0], 2 * YEAR[1])
    yield "nearly a year", loosely(0.75 * YEAR[0], YEAR[1])


def ages(n: int, m: int) -> Made:
    """How old an animal is."""
    yield f"{n} years old", _times(n, YEAR)
    yield f"{n} yrs old", _times(n, YEAR)
    yield f"{n} yr old", _times(n, YEAR)
    yield f"{n}-year-old", _times(n, YEAR)
    yield f"{n}yo", _times(n, YEAR)
    yield f"{n}y", _times(n, YEAR)
    yield f"he's {n} years", _times(n, YEAR)
    yield f"she is about {n} years old", _times(n, YEAR)
    both = loosely(n * YEAR[0] + m * MONTH[0], n * YEAR[1] + m * MONTH[1])
    yield f"{n} years {m} months", both
    yield f"{n} years and {m} months", both
    yield f"{n} yrs {m} mos", both
    yield f"{n}y {m}m", both
    yield f"{n} years, {m} months", both
    yield f"nearly {n} years", loosely((n - 0.6) * YEAR[0], n * YEAR[1])
    yield f"just over {n} years", loosely(n * YEAR[0], (n + 0.6) * YEAR[1])
    yield f"{n} or {n + 1} years", _from_to(n, n + 1, YEAR)
    yield f"{n}/{n + 1} years", _from_to(n, n + 1, YEAR)


def intervals(n: int) -> Made:
    """From one water change to the next."""
    for form in ("every {} days", "each {} days", "once every {} days", "every {} days or so"):
        yield form.format(n), point(n * DAY)
    yield f"every {in_words(n)} days", point(n * DAY)
    yield f"about every {n} days", point(n * DAY)
    yield f"every {n}th day", point(n * DAY)
    yield f"every {n} to {n + 3} days", between(n * DAY, (n + 3) * DAY)
    yield f"every {n}-{n + 3} days", between(n * DAY, (n + 3) * DAY)
    yield f"{n}/{n + 4} days", between(n * DAY, (n + 4) * DAY)
    yield f"every {n}/{n + 4} days", between(n * DAY, (n + 4) * DAY)
    weeks = n % 5 + 2
    for form in ("every {} weeks", "every {} wks", "once in {} weeks", "once every {} weeks"):
        yield form.format(weeks), point(weeks * WEEK)
    yield f"{weeks}/{weeks + 1} weeks", between(weeks * WEEK, (weeks + 1) * WEEK)
    yield f"every {weeks}/{weeks + 1} weeks", between(weeks * WEEK, (weeks + 1) * WEEK)
    yield f"every {weeks} or {weeks + 1} weeks", between(weeks * WEEK, (weeks + 1) * WEEK)


def _rhythms() -> Made:
    """Intervals with a name of their own."""
    seven, fourteen = point(WEEK), point(2 * WEEK)
    for text in ("weekly", "every week", "once a week", "once weekly", "1x a week", "1x/week"):
        yield text, seven
    for text in (
        "every Sunday",
        "on Saturdays",
        "Sundays",
        "each Friday",
        "every 7 days",
        "7 days",
    ):
        yield text, seven
    for text in ("fortnightly", "every fortnight", "every other week", "every second week"):
        yield text, fourteen
    for text in ("once a fortnight", "every two weeks", "every 2 weeks", "every other Sunday"):
        yield text, fourteen
    for text in ("twice a week", "two times a week", "2x a week", "2x/week", "twice weekly"):
        yield text, point(3.5 * DAY)
    for text in ("daily", "every day", "once a day", "each day"):
        yield text, point(DAY)
    for text in ("every other day", "every second day", "every two days", "every 48 hours"):
        yield text, point(2 * DAY)
    yield "every third day", point(3 * DAY)
    yield "three times a week", point(WEEK / 3)
    yield "3 times per week", point(WEEK / 3)
    for text in ("monthly", "once a month", "every month", "a month"):
        yield text, _times(1, MONTH)
    yield "twice a month", loosely(14 * DAY, 15.5 * DAY)
    yield "three times a month", loosely(28 / 3 * DAY, 31 / 3 * DAY)
    yield "every other month", _times(2, MONTH)
    yield "every 6 weeks", point(6 * WEEK)
    yield "once a year", _times(1, YEAR)
    yield "twice a year", _times(0.5, YEAR)
    yield "6/12 months", _from_to(6, 12, MONTH)
    yield "3/4 months", _from_to(3, 4, MONTH)


def daylight(rng: Random) -> Made:
    """Hours of light a day, counted or by the clock."""
    on, off, n = rng.randint(6, 10), rng.randint(5, 9), rng.randint(10, 13)
    by_clock, evening = point((off + 12 - on) * HOUR), off + 12
    for form in (
        "{a}am-{b}pm", "{a} am - {b} pm", "{a}am to {b}pm", "{a} a.m. to {b} p.m.", "{a}AM-{b}PM",
        "from {a}am to {b}pm", "{a}:00 am to {b}:00 pm", "{a} in the morning to {b} at night",
        "from {a} in the morning till {b} in the evening", "on at {a}am, off at {b}pm",
    ):  # fmt: skip
        yield form.format(a=on, b=off), by_clock
    for form in (
        "{a}:00-{b}:00", "{a}:00 to {b}:00", "0{a}00-{b}00" if on < 10 else "{a}00-{b}00",
        "{a}h-{b}h", "{a}h to {b}h", "{a}.00 to {b}.00", "{a} h - {b} h", "from {a}h till {b}h",
        "{a}:00 – {b}:00", "on {a}:00 off {b}:00", "{a} to {b} o'clock", "{a}h00 - {b}h00",
    ):  # fmt: skip
        yield form.format(a=on, b=evening), by_clock
    yield f"{on}:30am to {off}pm", point((off + 11.5 - on) * HOUR)
    yield f"{on}h30-{evening}h", point((evening - on - 0.5) * HOUR)
    yield f"{on}:15-{evening}:45", point((evening - on + 0.5) * HOUR)
    for form in (
        "{} hours", "{}h", "{} h", "{} hrs", "{} hours a day", "{} h/day", "{} hrs daily", "{}",
        "{} hours per day", "about {} hours", "{} hours or so", "{}h a day", "{} hours of light",
    ):  # fmt: skip
        yield form.format(n), point(n * HOUR)
    yield f"{in_words(n)} hours", point(n * HOUR)
    for form in ("{}.5 hours", "{} 1/2 hours", "{} and a half hours", "{},5 h", "{}½ h"):
        yield form.format(n), point((n + 0.5) * HOUR)
    yield f"{n} hours 30 minutes", point((n + 0.5) * HOUR)
    yield f"{n}h30", point((n + 0.5) * HOUR)
    for form in (
        "{a}-{b}",
        "{a}-{b} hours",
        "{a} to {b} hours",
        "{a}–{b} h",
        "{a} to {b}",
        "{a} or {b} hours",
    ):
        yield form.format(a=n, b=n + 2), between(n * HOUR, (n + 2) * HOUR)
    yield f"{n} on {24 - n} off", point(n * HOUR)
    yield f"{n} on, {24 - n} off", point(n * HOUR)
    yield f"{n}h on / {24 - n}h off", point(n * HOUR)


def lit(rng: Random) -> Made:
    """Hours a lamp has burned, or the time it has been in use."""
    h, m, a_day = rng.randint(3, 98) * 100, rng.randint(2, 16), rng.randint(8, 14)
    for form in ("{} hours", "{} h", "{}h", "{} hrs", "about {} hours", "{} lit hours"):
        yield form.format(h), point(h * HOUR)
    if h >= 1000:
        for mark in (",", " ", "'", "\u202f"):
            yield f"{h:,}".replace(",", mark) + " hours", point(h * HOUR)
    usual = loosely(m * 30 * LIT_HOURS_A_DAY * HOUR, m * 31 * LIT_HOURS_A_DAY * HOUR)
    for form in ("{} months", "{} months old", "about {} months", "in use for {} months"):
        yield form.format(m), usual
    told = loosely(m * 30 * a_day * HOUR, m * 31 * a_day * HOUR)
    for form in (
        "{m} months, {h} hours a day", "{m} months at {h} h a day",
        "{h} hours a day for {m} months",
        "{m} months, {h}h/day", "{m} months, {h} hrs per day", "{m} months × {h} h/day",
        "{m} months of {h} hours a day", "for {m} months, {h} hours each day",
    ):  # fmt: skip
        yield form.format(m=m, h=a_day), told
    weeks = point(m * 7 * a_day * HOUR)
    yield f"{m} weeks, {a_day} hours a day", weeks
    yield f"{a_day} h a day for {m} weeks", weeks
    yield f"{m} weeks", point(m * 7 * LIT_HOURS_A_DAY * HOUR)
    for text in ("brand new", "new", "0", "0 hours", "new today"):
        yield text, point(0)


def feedings(n: int) -> Made:
    """Feedings a week."""
    for form in (
        "{} times a week", "{}x a week", "{}x/week", "{} x week", "{} times per week",
        "{}x weekly", "{} × a week", "{}/week", "{} per week", "about {} times a week", "{} a week",
        "{} times each week", "{} days a week", "{} out of 7 days", "{} days out of seven",
    ):  # fmt: skip
        yield form.format(n), point(n)
    yield f"{in_words(n)} times a week", point(n)
    yield f"{in_words(n)} days a week", point(n)
    both = between(n, n + 1)
    for form in (
        "{a}/{b} times a week",
        "{a}-{b} times a week",
        "{a} or {b} times a week",
        "{a}/{b}",
        "{a}-{b}x a week",
    ):
        yield form.format(a=n, b=n + 1), both
    yield f"{n} to {n + 1} times a week", both
    yield f"every {n} days", point(7 / n)
    yield f"once every {n} days", point(7 / n)
    yield f"every {n}-{n + 1} days", between(7 / (n + 1), 7 / n)


def _feeding_habits() -> Made:
    for text in ("daily", "every day", "once a day", "each morning", "every evening", "1x a day"):
        yield text, point(7)
    for text in ("twice a day", "morning and evening", "twice daily", "2x a day", "every 12 hours"):
        yield text, point(14)
    for text in ("every other day", "every second day", "every two days", "alternate days"):
        yield text, point(3.5)
    for text in ("weekly", "once a week", "every Sunday", "Sundays"):
        yield text, point(1)
    for text in ("Mon, Wed, Fri", "Monday Wednesday Friday", "Mondays, Wednesdays and Fridays"):
        yield text, point(3)
    yield "Tuesdays and Saturdays", point(2)
    yield "every third day", point(7 / 3)
    yield "weekdays", point(5)
    yield "every day except Sunday", point(6)
    yield "every day but Sunday", point(6)
    yield "daily except weekends", point(5)
    yield "thrice a week", point(3)
    yield "twice a week", point(2)
    yield "fortnightly", point(0.5)
    yield "three times a day", point(21)


def cases(rng: Random) -> Iterator[Case]:
    """Every duration, interval, day, lit time and rhythm."""

    def each(question: str, dimension: str, made: Made) -> Iterator[Case]:
        for text, span in made:
            yield Case(text, question, dimension, ((span,),))

    for question in ("filter_age", "water_change_interval", "age"):
        for n in rng.sample(range(2, 13), 3):
            yield from each(question, "duration", counted(n))
        yield from each(question, "duration", _said())
    for n in rng.sample(range(2, 20), 5):
        yield from each("age", "duration", ages(n, rng.randint(2, 11)))
    for n in rng.sample(range(4, 21), 6):
        yield from each("water_change_interval", "interval", intervals(n))
    yield from each("water_change_interval", "interval", _rhythms())
    either = ((point(2 * WEEK),), (point(3.5 * DAY),))
    yield Case("biweekly", "water_change_interval", "interval", either)
    yield Case("bi-weekly", "water_change_interval", "interval", either)
    for _ in range(5):
        yield from each("day_length", "hours_a_day", daylight(rng))
        yield from each("uvb_lamp_age", "lit_time", lit(rng))
    for n in (2, 3, 4, 5, 6):
        yield from each("feeds_per_week", "frequency", feedings(n))
    yield from each("feeds_per_week", "frequency", _feeding_habits())
