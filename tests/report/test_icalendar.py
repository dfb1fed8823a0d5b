"""The calendar as iCalendar, read back with a library and held against RFC 5545."""

from __future__ import annotations

import datetime
from dataclasses import replace

import icalendar
import pytest
from dateutil.rrule import rrulestr
from hostile import HOSTILE

from interview.advice.advise import Advice
from interview.advice.calendar import Duty, calendar
from interview.audit.audit import Audit
from interview.report.formats.interface import Page
from interview.report.formats.register import format_called

DAY = datetime.date(2026, 3, 1)


def _written(audit: Audit, duties: tuple[Duty, ...]) -> str:
    advice = Advice((), (), None, duties, None)
    return format_called("icalendar").dress(Page(audit, advice, date=DAY.isoformat()))


def _events(text: str) -> list[icalendar.Event]:
    return list(icalendar.Calendar.from_ical(text).walk("VEVENT"))


def test_each_duty_stands_in_it_once(demos: dict[str, Audit]) -> None:
    for audit in demos.values():
        duties = calendar(audit.tank, DAY)
        events = _events(_written(audit, duties))
        assert [e["description"] for e in events] == [f"{audit.title}. {d.what}" for d in duties]
        assert len({str(e["uid"]) for e in events}) == len(duties)
        for event, duty in zip(events, duties, strict=True):
            assert ("rrule" in event) is (duty.every is not None)
            if duty.due:
                assert event["dtstart"].dt == duty.due
            elif not duty.every:
                assert event["dtstart"].dt == DAY


@pytest.mark.parametrize(
    ("days", "in_a_year"),
    [
        (1, 365),
        (7, 52),
        (14, 26),
        (10, 36.5),
        (7 / 4, 209),
        (7 / 3, 156),
        (30.4375, 12),
        (3.5, 104),
    ],
)
def test_what_comes_again_comes_as_often(
    demos: dict[str, Audit], days: float, in_a_year: float
) -> None:
    """Counted by dateutil's reading of the rule over the year from the first day on."""
    duty = Duty("again", "Feed.", days * 86400)
    event = _events(_written(demos["musk_turtle"], (duty,)))[0]
    start = datetime.datetime.combine(event["dtstart"].dt, datetime.time())
    rule = rrulestr(event["rrule"].to_ical().decode(), dtstart=start)
    assert rule[0] == start, "the first day is one of the rule's, as the standard wants it"
    year = rule.between(start, start + datetime.timedelta(days=365), inc=True)
    assert len(year) == pytest.approx(in_a_year, abs=1)


def test_a_duty_that_changes_takes_the_place_of_its_older_self(demos: dict[str, Audit]) -> None:
    was, now = (Duty("again", f"Feed {n} g.", 86400.0 * n) for n in (1, 2))
    (old,), (new,) = (_events(_written(demos["musk_turtle"], (duty,))) for duty in (was, now))
    assert old["uid"] == new["uid"] and old["rrule"] != new["rrule"]


def test_lines_end_and_fold_as_the_standard_has_it(demos: dict[str, Audit]) -> None:
    """RFC 5545, 3.1: CRLF after each line, no line longer than 75 octets."""
    audit = replace(
        demos["musk_turtle"], title="Ein sehr langer Name für ein Aquarium, größer; " * 3
    )
    text = _written(audit, calendar(audit.tank, DAY))
    assert text.endswith("END:VCALENDAR\r\n")
    lines = text.split("\r\n")
    assert not any("\n" in line or "\r" in line for line in lines)
    assert max(len(line.encode()) for line in lines) <= 75
    required = {"VERSION:2.0", "PRODID:-//Tankside//care calendar//EN"}  # 3.6
    assert required <= set(lines)


def test_what_people_typed_stays_text(hostile: Audit) -> None:
    nasty = replace(hostile, title=f"{HOSTILE}\r\nEND:VCALENDAR\nBEGIN:VALARM")
    events = _events(_written(nasty, calendar(nasty.tank, DAY)))
    assert len(events) == len(calendar(nasty.tank, DAY))
    assert not list(icalendar.Calendar.from_ical(_written(nasty, ())).walk("VALARM"))


def test_a_tank_in_planning_has_an_empty_calendar(demos: dict[str, Audit]) -> None:
    assert _events(_written(demos["reeves_turtle_planned"], ())) == []
