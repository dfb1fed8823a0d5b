"""Trends: only what is known twice, the largest animal, the later of two on one day."""

from __future__ import annotations

import datetime

from interview.advice.what_if.trends import Extreme, Trend, past_extremes, trends

MARCH, JUNE = datetime.date(2026, 3, 1), datetime.date(2026, 6, 1)
JULY, OCTOBER = datetime.date(2026, 7, 1), datetime.date(2026, 10, 1)
NEXT_AUGUST = datetime.date(2027, 8, 1)


def test_trends() -> None:
    states = [
        (MARCH, {"carapace_length": (0.09, 0.1), "nitrate": 40.0, "ph": 7.0}),
        (MARCH, {"carapace_length": (0.09, 0.105), "nitrate": 30.0}),
        (JUNE, {"carapace_length": (0.11, 0.1), "ph": 7.5, "uvb_lamp_age": 10.0, "nitrate": None}),
    ]
    assert trends(states) == (Trend("carapace_length", ((MARCH, 0.105), (JUNE, 0.11))),)


def test_one_state_is_no_trend() -> None:
    assert trends([(MARCH, {"nitrate": 40.0})]) == trends([]) == ()


def test_what_stands_unchanged_was_not_measured_anew() -> None:
    states = [(day, {"nitrate": n}) for day, n in ((MARCH, 30), (JUNE, 30), (JULY, 40))]
    assert trends(states) == (Trend("nitrate", ((MARCH, 30.0), (JULY, 40.0))),)
    assert trends(states[:2]) == ()


def test_a_lamp_that_grows_younger_is_another_and_nothing_else_is() -> None:
    points = ((MARCH, 3e6), (JUNE, 0.0), (JULY, 1e6), (OCTOBER, 5e5))
    assert Trend("uvb_lamp_age", points).renewed == {JUNE, OCTOBER}
    assert not Trend("nitrate", points).renewed


def test_shells_are_followed_while_the_turtles_are_as_many() -> None:
    """The smaller one that is left has not shrunk, nor has one grown that came."""
    two, one, grown = (0.18, 0.1), (0.1,), (0.11,)
    states = [
        (day, {"carapace_length": lengths})
        for day, lengths in ((MARCH, two), (JUNE, one), (JULY, grown))
    ]
    assert trends(states) == (Trend("carapace_length", ((JUNE, 0.1), (JULY, 0.11))),)
    assert trends(states[:2]) == ()


def test_the_rooms_year_is_forgotten_by_no_season() -> None:
    high, low = "room_temperature_high", "room_temperature_low"
    states = [
        (MARCH, {high: 25.0, low: 16.0}),
        (JULY, {high: 30.0, low: 16.0}),
        (OCTOBER, {high: 24.0, low: 19.0}),
    ]
    assert list(past_extremes(states)) == [
        Extreme(low, MARCH, 16.0, 19.0),
        Extreme(high, JULY, 30.0, 24.0),
    ]
    assert not list(past_extremes([*states, (NEXT_AUGUST, {high: 24.0, low: 19.0})]))
    assert not list(past_extremes([*states[:1], (NEXT_AUGUST, {high: 20.0})]))  # over a year ago
    assert not list(past_extremes([(MARCH, {high: 25.0}), (JULY, {high: 25.1})]))
    assert not list(past_extremes([]))
