"""Which units a keeper speaks in, by what was typed so far."""

from __future__ import annotations

from collections.abc import Iterable

from interview.base.units import system_for
from interview.graph.answers import Answer

__all__ = ["spoken_system"]

_US_UNITS = {"inch", "foot", "degF", "gallon", "gallon/hour", "pound", "ounce"}
_METRIC_UNITS = {"mm", "cm", "m", "degC", "L", "mL", "L/hour", "L/minute", "g", "kg"}


def spoken_system(answers: Iterable[Answer], region: str) -> str:
    """The system most answers came in, else the region's: metric, us, uk or uk_inches.

    In the United Kingdom a gallon is another one: inches there come with litres.
    """
    said = [
        getattr(reading, "unit", "")
        for answer in answers
        for reading in (answer.value if isinstance(answer.value, tuple) else (answer.value,))
    ]
    american = sum(unit in _US_UNITS for unit in said)
    metric = sum(unit in _METRIC_UNITS for unit in said)
    if american > metric:
        return "uk_inches" if region == "united_kingdom" else "us"
    usual = system_for(region)
    return usual if usual != "us" or metric == american else "metric"
