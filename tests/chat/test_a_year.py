"""A year of rechecks: growth, creeping nitrate, a lamp that is changed, a room with its seasons."""

from __future__ import annotations

import datetime
import re

import golden
import pytest
from golden import recheck_over_time

from interview.advice.advise import Advice
from interview.base.places import demo_folder

_KEEP = ("",) * 12
YEAR = {
    (2026, 4, 10): ("she measures 9.8 cm", ""),
    (2026, 5, 30): ("nitrate is 36 mg/L", ""),
    (2026, 7, 15): ("the warmest room is 30 C now", ""),
    (2026, 9, 1): ("changed the UVB bulb", ""),
    (2026, 10, 20): ("the warmest room is 24 C now", ""),
    (2026, 12, 5): ("she measures 10.9 cm", ""),
    (2027, 2, 10): ("nitrate is 44 mg/L", ""),
    (2027, 4, 20): ("", ""),
}
"""Eight sittings in thirteen months, from the first of March on."""


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> dict[datetime.date, str]:
    """What each sitting showed, in one line."""
    days = [datetime.date(*day) for day in YEAR]
    sittings = [(day, (*YEAR[day.year, day.month, day.day], *_KEEP, "no")) for day in days]
    none = Advice((), (), None, (), None)
    with pytest.MonkeyPatch.context() as patched:
        patched.chdir(tmp_path_factory.mktemp("year"))
        patched.setattr(golden, "_advice_of", lambda audit, today=None: none)
        text = recheck_over_time(demo_folder() / "musk_turtle.yaml", sittings, patched)
    _, *told = re.split(r"==== [-\d]+\n", text)
    return {day: " ".join(one.split()) for day, one in zip(days, told, strict=True)}


def _over_time(said: str, label: str) -> str:
    found = re.search(rf"{label}: (.*?)(?= [A-Z][^:.]*: |\.$)", said.partition("Over time")[2])
    return found[1] if found else ""


def test_each_value_stands_at_the_date_it_was_first_told(shown: dict[datetime.date, str]) -> None:
    """What nobody measured anew is no reading of that day."""
    last = shown[datetime.date(2027, 4, 20)]
    assert _over_time(last, "Nitrate") == (
        "30 mg/L on 2026-03-01; 36 mg/L on 2026-05-30; 44 mg/L on 2027-02-10"
    )
    lengths = "9.5 cm on 2026-03-01; 9.8 cm on 2026-04-10; 10.9 cm on 2026-12-05"
    assert _over_time(last, "Shell length") == lengths


def test_a_changed_lamp_is_another_one_and_ages_anew(shown: dict[datetime.date, str]) -> None:
    told = _over_time(shown[datetime.date(2027, 4, 20)], "UVB lamp lit for")
    assert "; another lamp, new on 2026-09-01; 588 lit hours on 2026-10-20" in told
    assert told.count("another lamp") == 1 and told.endswith("today")
    assert "UVB lamp output went from 7" in shown[datetime.date(2026, 9, 1)]


def test_what_ages_is_asked_each_time_and_nothing_else(shown: dict[datetime.date, str]) -> None:
    """Enter takes each age that is expected, in at most five questions a sitting."""
    for said in shown.values():
        assert "That was " in said and "I expect" in said
        assert len(re.findall(r", question \d", said)) <= 5
        assert "Not taken" not in said


def test_a_season_mends_no_hot_day(shown: dict[datetime.date, str]) -> None:
    """In July the room reached 30 °C; that October's did not makes no cooler July."""
    summer, autumn = shown[datetime.date(2026, 7, 15)], shown[datetime.date(2026, 10, 20)]
    said = "Warmest room: within the last year it was 30 °C, on 2026-07-15; 24 °C counts now."
    assert said in autumn and "type “change warmest room” after the audit, then 30 °C" in autumn
    assert "within the last year" not in summer
    later = [text for day, text in shown.items() if day > datetime.date(2026, 10, 20)]
    assert not any("within the last year" in text for text in later)
