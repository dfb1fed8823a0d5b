"""Settings of a lever that differ in numbers only, side by side along an axis of its own.

So the settings of several levers meet as arrays do, and what one lever leaves alone is worked out
without its axis.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from interview.advice.levers.levers import Option
from interview.advice.what_if.candidates import stacked
from interview.core.numeric import is_number

__all__ = ["Group", "in_groups"]

_MOST_AXES = 24
"""Levers with numbers side by side: arrays may have 32 axes (numpy 1.26), and animals need some."""


@dataclass(frozen=True)
class Group:
    """Some settings of one lever: the number of the group, and their numbers (`rows`).

    `changes` is what they set, numbers along the lever's axis.
    """

    number: int
    rows: tuple[int, ...]
    changes: Mapping[str, Any]


def in_groups(options: Sequence[Sequence[Option]]) -> tuple[dict[int, int], list[list[Group]]]:
    """For each lever with numbers side by side its axis, from the last; and each lever's groups."""
    stacks = [stacked([option.changes for option in each]) for each in options]
    wide = [n for n, groups in enumerate(stacks) if any(len(rows) > 1 for rows in groups)]
    for lever in wide[_MOST_AXES:]:
        stacks[lever] = [[row] for rows in stacks[lever] for row in rows]
    wide = wide[:_MOST_AXES]
    axes = {lever: n - len(wide) for n, lever in enumerate(wide)}
    groups = [
        [
            Group(g, tuple(rows), _along([options[n][r] for r in rows], axes.get(n, 0)))
            for g, rows in enumerate(stack)
        ]
        for n, stack in enumerate(stacks)
    ]
    return axes, groups


def _along(options: Sequence[Option], axis: int) -> dict[str, Any]:
    changes = dict(options[0].changes)
    for name, value in changes.items() if len(options) > 1 else ():
        if is_number(value):
            column = np.array([option.changes[name] for option in options], dtype=float)
            changes[name] = column.reshape(-1, *[1] * (-axis - 1))
    return changes
