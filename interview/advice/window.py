"""The workable window: where each check holds as one lever moves, and where all of them do."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.what_if.candidates import reached_by, severities
from interview.advice.what_if.severity import NEEDS_CHANGE
from interview.advice.what_if.suppose import moved_answers
from interview.audit.checks.check import Check
from interview.audit.tank import Tank

__all__ = [
    "Pairing", "Span", "Together", "Window", "lamp_window", "water_window", "window_of",
    "windows_together",
]  # fmt: skip

_LINE, _LAMP = "water_line_below_rim", "heat_lamp_height"
_STEPS = 61
_LINES = 25
_SHALLOWEST = 0.05  # m of free water: less is no tank for a swimmer
_FULLEST = 0.01  # m below the rim
_NEAREST_LAMP = 0.08  # m over the platform
_FARTHEST_LAMP = 0.80


@dataclass(frozen=True)
class Span:
    """Where one check holds: from `low` to `high` of the lever, its longest stretch."""

    check: str
    low: float
    high: float
    holds_now: bool


@dataclass(frozen=True)
class Window:
    """Spans of every check the lever decides, and the stretch where all hold.

    A check that holds at every setting is not the lever's to decide; those it reaches and that
    hold at none are `never`: they take another change. `low` is None when no setting suits the
    rest: `against` then names two checks whose spans don't meet, or as few as exclude each other.
    """

    lever: str
    unit: str
    now: float
    least: float
    most: float
    spans: tuple[Span, ...]
    low: float | None
    high: float | None
    against: tuple[str, ...] = ()
    never: tuple[str, ...] = ()


@dataclass(frozen=True)
class Together:
    """The lamp heights at which all checks hold at one water line; None where there is none."""

    water_line_below_rim: float
    low: float | None
    high: float | None


@dataclass(frozen=True)
class Pairing:
    """The lamp heights that suit each water line; where none does, the checks that clash."""

    rows: tuple[Together, ...]
    against: tuple[str, ...] = ()


def water_window(tank: Tank, checks: Sequence[Check]) -> Window | None:
    """The water line's window; None if the tank isn't known well enough."""
    height, bed = tank.lookup("inside_height"), tank.lookup("substrate_depth") or 0.0
    if height is None or tank.best.known.get(_LINE) is None:
        return None
    most = float(height) - float(bed) - _SHALLOWEST
    return window_of(tank, checks, _LINE, _FULLEST, most)


def lamp_window(tank: Tank, checks: Sequence[Check]) -> Window | None:
    """The heat lamp's window; None without a heat lamp whose warmth has been measured."""
    if tank.best.known.get(_LAMP) is None or tank.lookup("lamp_heat") is None:
        return None
    least = max(_NEAREST_LAMP, float(tank.lookup("shell_height") or 0.0) + 0.02)
    return window_of(tank, checks, _LAMP, least, _FARTHEST_LAMP)


def window_of(tank: Tank, checks: Sequence[Check], lever: str, least: float, most: float) -> Window:
    """Sweep one lever between two settings and see where each check it touches holds."""
    settings = np.linspace(least, most, _STEPS)
    now = float(tank.best.known[lever])
    rows = severities(tank, checks, [{}, *({lever: float(s)} for s in settings)])
    today, rows = rows[0], rows[1:]
    holds = rows < NEEDS_CHANGE
    touched = [c for c in range(len(checks)) if holds[:, c].any() != holds[:, c].all()]
    spans = tuple(
        Span(checks[c].id, low, high, bool(today[c] < NEEDS_CHANGE))
        for c in touched
        for low, high in [_longest(settings, holds[:, c])]
        if low is not None and high is not None
    )
    whole = holds[:, touched].all(axis=1) if touched else np.ones(_STEPS, dtype=bool)
    low, high = _longest(settings, whole)
    against = () if low is not None else _at_odds(checks, holds, touched)
    never = _never(tank, checks, lever, settings, holds)
    return Window(lever, tank.unit_of(lever), now, least, most, spans, low, high, against, never)


def _never(
    tank: Tank, checks: Sequence[Check], lever: str, settings: NDArray[np.float64], holds: Any
) -> tuple[str, ...]:
    """The checks that the lever reaches and that hold at none of its settings."""
    reached = _reached(tank, checks, {lever: float(settings[0])})
    return tuple(c.id for n, c in enumerate(checks) if reached[n] and not holds[:, n].any())


def _longest(settings: NDArray[np.float64], holds: Any) -> tuple[float | None, float | None]:
    """The longest unbroken stretch of settings that hold."""
    best: tuple[int, int] | None = None
    for held, group in itertools.groupby(enumerate(holds), key=lambda pair: bool(pair[1])):
        if held:
            indices = [index for index, _ in group]
            if best is None or len(indices) > best[1] - best[0] + 1:
                best = indices[0], indices[-1]
    return (None, None) if best is None else (float(settings[best[0]]), float(settings[best[1]]))


def _at_odds(checks: Sequence[Check], holds: Any, touched: Sequence[int]) -> tuple[str, ...]:
    """Two checks that no setting suits together, or as few as it takes."""
    for size in range(2, len(touched) + 1):
        for group in itertools.combinations(touched, size):
            if not holds[:, list(group)].all(axis=1).any():
                return tuple(checks[c].id for c in group)
    return ()


def windows_together(
    tank: Tank,
    checks: Sequence[Check],
    windows: tuple[Window | None, Window | None] | None = None,
    steps: int = _LINES,
) -> Pairing | None:
    """For water lines across their range, the lamp heights at which all checks hold.

    Only checks that the two decide count; None without the window of either.

    Args:
        tank: the tank
        checks: what is judged
        windows: those of water line and lamp where they are worked out already
        steps: how many water lines are looked at
    """
    water, lamp = windows or (water_window(tank, checks), lamp_window(tank, checks))
    if water is None or lamp is None:
        return None
    lines = np.linspace(water.least, water.most, steps)
    heights = np.linspace(lamp.least, lamp.most, _STEPS)
    holds = _held_on_grid(tank, checks, lines, heights).reshape(steps * _STEPS, len(checks))
    movable = holds.any(axis=0) & ~holds.all(axis=0)
    good = holds[:, movable].all(axis=1).reshape(len(lines), len(heights))
    rows = tuple(
        Together(float(line), *_longest(heights, row))
        for line, row in zip(lines, good, strict=True)
    )
    against = () if good.any() else _at_odds(checks, holds, np.flatnonzero(movable).tolist())
    return Pairing(rows, against)


def _held_on_grid(
    tank: Tank, checks: Sequence[Check], lines: NDArray[np.float64], heights: NDArray[np.float64]
) -> NDArray[np.bool_]:
    """Where each check holds, by line, height and check; each solved for what reaches it only."""
    at_lines = [{_LINE: float(line)} for line in lines]
    at_heights = [{_LAMP: float(height)} for height in heights]
    by_line, by_height = (_reached(tank, checks, one[0]) for one in (at_lines, at_heights))
    held = np.zeros((len(lines), len(heights), len(checks)), dtype=bool)
    for chosen, candidates, shape in (
        (by_line & ~by_height, at_lines, (len(lines), 1)),
        (by_height & ~by_line, at_heights, (1, len(heights))),
        (by_line & by_height, [{**w, **h} for w in at_lines for h in at_heights], held.shape[:2]),
        (~by_line & ~by_height, [{}], (1, 1)),
    ):
        some = [check for check, is_chosen in zip(checks, chosen, strict=True) if is_chosen]
        rows = severities(tank, some, candidates) < NEEDS_CHANGE
        held[:, :, chosen] = rows.reshape(*shape, len(some))
    return held


def _reached(tank: Tank, checks: Sequence[Check], changes: dict[str, float]) -> NDArray[np.bool_]:
    return reached_by(checks, tank.best.wiring, set(moved_answers(tank, changes)))
