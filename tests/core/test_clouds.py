"""A cloud of draws is worked out as each of its draws alone: nothing leaks from row to row."""

from __future__ import annotations

from functools import cache
from typing import Any

import numpy as np
import pytest

from interview import assembly, setups
from interview.base.places import demo_folder
from interview.core.wiring import quantities
from interview.core.working import Working

TANKS = ("painted_turtles_classroom", "river_cooter_adult", "reeves_turtle_planned")
ROWS = 3
NEAR = {"cycling_time": 1e-6, "cycling_time_low": 1e-6, "cycling_time_high": 1e-6}
"""What is looked for in steps stops each draw where it is near enough; the others are exact."""


@cache
def _draws(stem: str) -> Working:
    interview = assembly.new_interview()
    path = demo_folder() / f"{stem}.yaml"
    setups.fill(interview, setups.read(path, assembly.questionnaire()))
    return assembly.tank_of(interview, drawn=True).sample


def _row(value: Any, count: int, rows: Any) -> Any:
    """Some of the draws, where it is drawn."""
    is_drawn = isinstance(value, np.ndarray) and value.ndim and len(value) == count
    return value[rows] if is_drawn else value


@pytest.mark.parametrize("stem", TANKS)
def test_each_draw_alone_gives_what_the_cloud_gives(stem: str) -> None:
    known = _draws(stem).known
    count = max(len(v) for v in known.values() if isinstance(v, np.ndarray) and v.ndim)
    few = {n: _row(v, count, slice(5, 5 + ROWS)) for n, v in known.items()}
    together, wrong, compared = quantities().working(few), [], 0
    for row in range(ROWS):
        alone = quantities().working({n: _row(v, ROWS, row) for n, v in few.items()})
        for name in quantities().formulas:
            cloud, one = together.get(name), alone.get(name)
            if not isinstance(one, float | np.ndarray | np.floating):
                continue  # a word; or this draw lies beyond what the others allow
            compared += 1
            mine = np.asarray(cloud, float)
            mine = mine[row] if mine.ndim > np.ndim(one) else mine
            if not np.allclose(mine, one, rtol=NEAR.get(name, 1e-9), atol=1e-15, equal_nan=True):
                wrong.append((name, mine, one))
    assert not wrong, wrong[:5]
    assert compared > 100 * ROWS
