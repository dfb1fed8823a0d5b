"""Trends: only what is known twice, the largest animal, the later of two on one day."""

from __future__ import annotations

import datetime

from interview.advice.what_if.trends import Trend, trends

MARCH, JUNE = datetime.date(2026, 3, 1), datetime.date(2026, 6, 1)


def test_trends() -> None:
    states = [
        (MARCH, {"carapace_length": (0.09, 0.1), "nitrate": 40.0, "ph": 7.0}),
        (MARCH, {"carapace_length": (0.09, 0.105), "nitrate": 30.0}),
        (JUNE, {"carapace_length": (0.11, 0.1), "ph": 7.5, "uvb_lamp_age": 10.0, "nitrate": None}),
    ]
    assert trends(states) == (Trend("carapace_length", ((MARCH, 0.105), (JUNE, 0.11))),)


def test_one_state_is_no_trend() -> None:
    assert trends([(MARCH, {"nitrate": 40.0})]) == trends([]) == ()
