"""The care calendar as iCalendar (RFC 5545): an entry a duty, for the whole day."""

from __future__ import annotations

import datetime
import hashlib
from typing import TYPE_CHECKING

from interview.report.formats.interface import Format, Page

if TYPE_CHECKING:
    from icalendar import Event

    from interview.advice.calendar import Duty

__all__ = ["DRESS", "PRODUCT"]

PRODUCT = "-//Tankside//care calendar//EN"
"""Whose file it is, so that one is known again."""

_DAY = 86400.0
_WEEK, _MONTH = 7, 30.4375  # days
_EVERY_MONTH_HAS = 28  # days
_NEARLY = 0.05
_DAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
_LONGEST = 74
"""Letters of a summary; the rest stands in the description."""


class _ICalendar(Format):
    suffix = ".ics"

    def dress(self, page: Page) -> str:
        """The duties, those that come again as such; without a date of the page, from today on."""
        from icalendar import Calendar, vText

        calendar = Calendar()
        calendar.add("prodid", PRODUCT)
        calendar.add("version", "2.0")
        title = " ".join(page.audit.title.split())
        calendar.add("name", vText(title))
        day = datetime.date.fromisoformat(page.date) if page.date else datetime.date.today()
        for duty in page.advice.duties if page.advice else ():
            calendar.add_component(_event(duty, day, title))
        return str(calendar.to_ical(), "utf-8")


DRESS = _ICalendar()


def _event(duty: Duty, day: datetime.date, title: str) -> Event:
    from icalendar import Event

    every = duty.every and max(round(duty.every / _DAY), 1)
    start = duty.due or (day + datetime.timedelta(days=every) if every else day)
    if duty.every and _is_monthly(duty.every / _DAY):
        start = start.replace(day=min(start.day, _EVERY_MONTH_HAS))
    event = Event()
    event.add("uid", _known_by(duty, title))
    event.add("dtstamp", datetime.datetime.combine(day, datetime.time(), datetime.UTC))
    event.add("dtstart", start)
    event.add("dtend", start + datetime.timedelta(days=1))
    event.add("summary", _shortened(duty.what))
    event.add("description", f"{title}. {duty.what}")
    event.add("transp", "TRANSPARENT")
    if duty.every and every:
        event.add("rrule", _rule(duty.every / _DAY, every, start))
    return event


def _is_monthly(days: float) -> bool:
    return abs(days - _MONTH) < 1


def _rule(days: float, whole: int, start: datetime.date) -> dict[str, str | int | list[str]]:
    """How often: by months or weeks where it is whole ones, some days a week, else by days.

    The day of the start is one of those of the week: RFC 5545, 3.8.5.3, leaves undefined what
    comes of any other.
    """
    if _is_monthly(days):
        return {"freq": "MONTHLY"}
    if whole % _WEEK == 0:
        return {"freq": "WEEKLY", "interval": whole // _WEEK}
    if days < _WEEK and abs(days - whole) > _NEARLY:
        times = min(round(_WEEK / days), _WEEK)
        on = (start.weekday() + n * _WEEK // times for n in range(times))
        return {"freq": "WEEKLY", "byday": [_DAYS[day % _WEEK] for day in on]}
    return {"freq": "DAILY", "interval": whole}


def _known_by(duty: Duty, title: str) -> str:
    """The same duty of the same tank has the same name, so that a newer one takes its place.

    Each kind of duty begins with a word of its own; how much and how often may change.
    """
    kind = duty.what.partition(" ")[0]
    text = f"{title}|{kind}"
    return f"{hashlib.sha256(text.encode()).hexdigest()[:24]}@tankside"


def _shortened(text: str) -> str:
    first = text.partition(";")[0].partition(". ")[0].rstrip(".")
    if len(first) <= _LONGEST:
        return first
    return first[:_LONGEST].rpartition(" ")[0] + " …"
