"""A workable window as a chart in characters: where each check holds as a lever moves."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.report.naming import spoken
from interview.vocabulary.phrases import rounded

if TYPE_CHECKING:
    from interview.advice.window import Window

__all__ = ["window_chart"]

_CHART = 36
_NAME = 18


def window_chart(window: Window, system: str) -> tuple[str, ...]:
    """The scale, a row for each check, and one for all together.

    Args:
        window: at least one check of which holds somewhere
        system: the units the ends of the scale are shown in
    """

    def shown(value: float) -> str:
        return rounded(value, window.unit, system, window.lever)

    scale = f"{'':{_NAME}} {shown(window.least):<{_CHART - 8}}{shown(window.most):>8}"
    rows = (_line(window, spoken(s.check), s.low, s.high) for s in window.spans)
    return scale, *rows, _line(window, "all together", window.low, window.high)


def _line(window: Window, name: str, low: float | None, high: float | None) -> str:
    """One row of the chart: waves where the check holds, | where the lever stands now."""
    cells = ["·"] * _CHART
    if low is not None and high is not None:
        for cell in range(_place(window, low), _place(window, high) + 1):
            cells[cell] = "≈"
    cells[_place(window, window.now)] = "|"
    return f"{name[:_NAME]:<{_NAME}} {''.join(cells)}"


def _place(window: Window, value: float) -> int:
    share = (value - window.least) / (window.most - window.least)
    return min(_CHART - 1, max(0, round(share * (_CHART - 1))))
