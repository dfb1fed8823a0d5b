"""The charts of an audit, the most telling first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from interview.report.pictures.charts.across import across_chart
from interview.report.pictures.charts.chart import Chart
from interview.report.pictures.charts.of_lamps import basking_chart, ultraviolet_chart
from interview.report.pictures.charts.of_time import growth_chart, nitrate_chart, start_up_chart

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.tank import Tank

__all__ = ["charts", "charts_that_matter"]

_WORST = {"danger": 3, "wrong": 2, "close": 1}
_MOST = 3


def charts(audit: Audit, after: Tank | None = None) -> tuple[Chart, ...]:
    """Every chart that this tank's answers allow, those of the gravest findings first.

    Args:
        audit: the tank, judged
        after: the tank after the plan that is told
    """
    makers = (
        *(basking_chart, ultraviolet_chart, nitrate_chart),
        *(start_up_chart, growth_chart, across_chart),
    )
    found = [chart for make in makers for chart in make(audit.tank, after)]
    return tuple(sorted(found, key=lambda chart: -_gravity(audit, chart)))


def charts_that_matter(audit: Audit, after: Tank | None = None) -> tuple[Chart, ...]:
    """At most three charts, of findings that want a change."""
    return tuple(chart for chart in charts(audit, after) if _gravity(audit, chart))[:_MOST]


def _gravity(audit: Audit, chart: Chart) -> int:
    """How bad the worst finding is that a chart is about."""
    verdicts = (f.verdict for f in audit.findings if f.applies and f.check in chart.about)
    return max((_WORST.get(verdict, 0) for verdict in verdicts), default=0)
