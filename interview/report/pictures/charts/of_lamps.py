"""What a lamp's height does: how warm the shell gets, how much ultraviolet reaches it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from interview.advice.what_if.suppose import changed_working
from interview.audit.tank import Tank
from interview.core.errors import CannotWorkOut
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.charts.numbers import number_of
from interview.report.pictures.plot import Area, Axis, Plot, Series, Spot, in_keepers_units
from interview.vocabulary.phrases import ranged, rounded

__all__ = ["basking_chart", "ultraviolet_chart"]

_POINTS, _DRAWN = 49, 17
_CLEARANCE = 0.03  # m: nearer to the shell nothing is worth a line
_FARTHEST = 0.6
_PAST = 1.4
"""How far beyond the lamp as it hangs now the chart goes."""


@dataclass(frozen=True)
class _Question:
    """One lamp's height against one thing at the shell."""

    name: str
    title: str
    lever: str
    lever_name: str
    shell: str
    shell_name: str
    other: str
    other_name: str
    band: tuple[str, str]
    about: tuple[str, ...]


_BASKING = _Question(
    "basking",
    "How warm the shell gets by the height of the heat lamp",
    "heat_lamp_height",
    "heat lamp over the platform",
    "shell_temperature",
    "top of the shell",
    "platform_temperature",
    "bare platform",
    ("basking_band_low", "basking_band_high"),
    ("basking_heat", "basking_hot_day", "basking_cold_day"),
)
_ULTRAVIOLET = _Question(
    "ultraviolet",
    "UV index at the shell by the height of the UVB lamp",
    "uvb_lamp_height",
    "UVB lamp over the platform",
    "uv_index_shell",
    "UV index at the top of the shell",
    "uv_index_shell_uncovered",
    "without what lies between",
    ("uv_zone_low", "uv_zone_high"),
    ("uv_zone", "uv_overdose", "uv_barrier"),
)


def basking_chart(tank: Tank, after: Tank | None) -> Iterator[Chart]:
    """Shell and platform by the heat lamp's height; nothing where no reading calibrates it."""
    if tank.lookup("lamp_heat"):
        yield from _by_height(tank, after, _BASKING)


def ultraviolet_chart(tank: Tank, after: Tank | None) -> Iterator[Chart]:
    """UV index by the UVB lamp's height, and without the mesh where there is one."""
    if tank.lookup("uvb_lamp_kind") not in (None, "none"):
        yield from _by_height(tank, after, _ULTRAVIOLET)


def _by_height(tank: Tank, after: Tank | None, ask: _Question) -> Iterator[Chart]:
    now, value = number_of(tank, ask.lever), number_of(tank, ask.shell)
    low, high = (number_of(tank, name) for name in ask.band)
    if now is None or value is None or low is None or high is None:
        return
    least = (number_of(tank, "shell_height") or 0.0) + _CLEARANCE
    heights = np.linspace(least, max(_FARTHEST, now * _PAST, least * 2), _POINTS)
    shell, other = (_swept(tank, ask.lever, heights, name) for name in (ask.shell, ask.other))
    if shell is None:
        return
    unit, system = tank.unit_of(ask.shell), tank.system
    to_x, x_label = in_keepers_units("m", system, ask.lever, [float(heights[-1])])
    to_y, y_label = in_keepers_units(unit, system, ask.shell, [value])
    top = to_y(max(high + (high - low), value + 0.25 * (high - low)))
    foot = min(to_y(value), *(to_y(float(v)) for v in (shell[-1], low)))
    x = tuple(to_x(float(h)) for h in heights)
    series = [Series(ask.shell_name, x, tuple(to_y(float(v)) for v in shell))]
    if other is not None and not np.allclose(other, shell):
        line = tuple(to_y(float(v)) for v in other)
        series.append(Series(ask.other_name, x, line, second=True))
    areas = [
        Area(
            f"wanted: {ranged(low, high, unit, system, ask.shell, spoken=True)}",
            (x[0], x[-1]),
            (to_y(low),) * 2,
            (to_y(high),) * 2,
        ),
        *_doubt(tank, ask, heights, to_x, to_y),
    ]
    spots = [Spot(f"now: {_said(tank, ask)}", to_x(now), to_y(value))]
    words = f"Now: {_said(tank, ask)}; {areas[0].name}."
    if after and (then := number_of(after, ask.lever)) is not None:
        wish = number_of(after, ask.shell)
        if wish is not None and _said(after, ask) != _said(tank, ask):
            spots.append(Spot(f"after the plan: {_said(after, ask)}", to_x(then), to_y(wish), True))
            words += f" After the plan: {_said(after, ask)}."
    span = max(top - foot, 1e-6)
    plot = Plot(
        Axis(ask.lever_name, x_label, x[0], x[-1]),
        Axis(ask.shell_name, y_label, foot - 0.05 * span, top),
        tuple(series),
        tuple(areas),
        spots=tuple(spots),
    )
    yield Chart(ask.name, ask.title, words, plot, ask.about)


def _said(tank: Tank, ask: _Question) -> str:
    height, value = tank.lookup(ask.lever), tank.lookup(ask.shell)
    shown = rounded(value, tank.unit_of(ask.shell), tank.system, ask.shell)
    return f"{shown} at {rounded(height, 'm', tank.system, ask.lever)}"


def _swept(
    tank: Tank, lever: str, heights: NDArray[np.float64], name: str
) -> NDArray[np.float64] | None:
    """A quantity at each height, all else as it is."""
    there = changed_working(tank.best, tank.best, {lever: heights}, reread=False)
    try:
        return np.broadcast_to(np.asarray(there.value(name), dtype=float), heights.shape)
    except CannotWorkOut:
        return None


def _doubt(
    tank: Tank, ask: _Question, heights: NDArray[np.float64], to_x: Any, to_y: Any
) -> Iterator[Area]:
    """Where nine in ten of the true values lie."""
    few = np.linspace(heights[0], heights[-1], _DRAWN)
    ends = []
    for height in few:
        there = changed_working(tank.sample, tank.best, {ask.lever: float(height)}, reread=False)
        drawn = there.get(ask.shell)
        if drawn is None or np.ndim(drawn) == 0:
            return
        ends.append(np.nanpercentile(drawn, [5, 95]))
    low, high = (tuple(to_y(float(end[side])) for end in ends) for side in (0, 1))
    x = tuple(to_x(float(height)) for height in few)
    yield Area("likely, by the doubt of the readings", x, low, high, "doubt")
