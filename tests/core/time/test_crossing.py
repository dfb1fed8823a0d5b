"""When a course passes a limit: straight lines, whose crossing is plain arithmetic."""

from __future__ import annotations

import numpy as np
import pytest

from interview.core.time.crossing import crossings, first_crossing, time_past

TIME = np.arange(0.0, 9.0, 2.0)
SLOPES = (0.25, 0.5, 1.0, 3.0)


@pytest.mark.parametrize("falling", [False, True])
def test_lines_cross_where_they_do_and_stay_past_it_to_the_end(falling: bool) -> None:
    """Each tank has its own slope and its own limit, 1.3 K on from 20."""
    way = -1.0 if falling else 1.0
    course = 20.0 + way * TIME[:, None] * np.array(SLOPES)
    limit = np.full(len(SLOPES), 20.0 + way * 1.3)
    when = 1.3 / np.array(SLOPES)
    assert first_crossing(TIME, course, limit, falling=falling) == pytest.approx(when)
    assert time_past(TIME, course, limit, falling=falling) == pytest.approx(8.0 - when)
    assert time_past(TIME, course, limit, falling=not falling) == pytest.approx(when)
    for n, line in enumerate(course.T):
        assert crossings(TIME, line, float(limit[n])) == pytest.approx([when[n]])


def test_what_never_passes_or_has_passed_from_the_start() -> None:
    course = np.column_stack([np.full(5, 20.0), np.full(5, 22.0)])
    assert first_crossing(TIME, course, 21.0, falling=False).tolist() == [np.inf, TIME[0]]
    assert first_crossing(TIME, course, 20.0, falling=False).tolist() == [np.inf, TIME[0]]
    assert time_past(TIME, course, 21.0, falling=True).tolist() == [8.0, 0.0]
    assert time_past(TIME, course, 20.0, falling=True).tolist() == [0.0, 0.0]


def test_a_limit_is_passed_there_and_back() -> None:
    course = np.array([20.0, 22.0, 21.0, 18.0, 20.0])
    assert crossings(TIME, course, 21.5) == pytest.approx([1.5, 3.0])
    assert crossings(TIME, course, 19.0) == pytest.approx([4 + 2 * 2 / 3, 7.0])
    assert first_crossing(TIME, course[:, None], 19.0, falling=True) == pytest.approx(4 + 4 / 3)
