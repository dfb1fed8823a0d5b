"""Day, year and mishaps as JSON, in core units."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from interview.advice.forecast.balance import Term
from interview.advice.forecast.day import Day
from interview.advice.forecast.lanes import Value
from interview.advice.forecast.mishaps import Outcome
from interview.advice.forecast.moment import Point
from interview.advice.forecast.year import Month, Week, Year
from interview.core.errors import CannotWorkOut, Missing
from interview.core.working import Working
from interview.report.forecast.moment_page import inputs_of, law_of
from interview.report.formats.json_values import number

__all__ = ["day_json", "mishap_json", "moment_json", "year_json"]

_EVERY = 6  # steps between two values of a curve: an hour


def day_json(title: str, days: Sequence[Day], lacking: Mapping[str, CannotWorkOut]) -> str:
    """Three days, with their curves by the hour."""
    return _document("day", title, {"days": [_day(day) for day in days]}, lacking)


def year_json(title: str, year: Year) -> str:
    """Twelve months, two weeks, and the sums of the year."""
    tree = {
        "months": [_month(month) for month in year.months],
        "coldest_week": _week(year.coldest),
        "warmest_week": _week(year.warmest),
        "energy": _value(year.energy),
        "cost": _value(year.cost),
        "evaporated": _value(year.evaporated),
    }
    return _document("year", title, tree, year.lacking)


def mishap_json(
    title: str, outcomes: Sequence[Outcome], lacking: Mapping[str, CannotWorkOut]
) -> str:
    """Every mishap with the limits it passes."""
    return _document("mishaps", title, {"mishaps": [_outcome(one) for one in outcomes]}, lacking)


def moment_json(title: str, point: Point, working: Working) -> str:
    """One point of a curve with the terms that hold there; what goes out is below 0."""
    tree = {
        "quantity": point.curve,
        "at": point.when.said,
        "unit": point.unit,
        **(_value(point.value) or {}),
        "pace": number(point.pace),
        "terms": [_term(term, working) for term in point.terms],
    }
    return _document("moment", title, tree, {})


def _term(term: Term, working: Working) -> dict[str, Any]:
    law = law_of(term)
    return {
        "say": term.say,
        "value": number(term.amount),
        "unit": term.unit,
        "law": term.law or None,
        "sources": [citation.key for citation in law.sources] if law else [],
        "from": {name: number(value) for name, value in inputs_of(term, working).items()},
    }


def _document(
    kind: str, title: str, tree: dict[str, Any], lacking: Mapping[str, CannotWorkOut]
) -> str:
    whole = {
        "format": f"tankside/{kind}/1",
        "title": title,
        **tree,
        "not_followed": [
            {"part": part, "why": str(why), "missing": list(_names(why))}
            for part, why in lacking.items()
        ],
    }
    return json.dumps(whole, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


def _names(why: CannotWorkOut) -> tuple[str, ...]:
    return why.names if isinstance(why, Missing) else ()


def _value(value: Value | None) -> dict[str, Any] | None:
    if value is None:
        return None
    return {"value": number(value.best), "low": number(value.low), "high": number(value.high)}


def _day(day: Day) -> dict[str, Any]:
    return {
        "season": day.season,
        "time": number(day.time[::_EVERY]),
        "curves": {name: number(curve[::_EVERY]) for name, curve in day.curves.items()},
        **{
            f"{name}_{end}": _value(value)
            for name in ("room", "water", "air")
            for end, value in zip(("low", "high"), getattr(day, name), strict=True)
        },
        "platform_high": _value(day.platform),
        "shell_high": _value(day.shell),
        "time_in_basking_band": _value(day.hours_in_band),
        "time_over_basking_band": _value(day.hours_over_band),
        "uv_index": _value(day.uv_index),
        "heater_duty": _value(day.duty),
        "energy": _value(day.energy),
    }


def _month(month: Month) -> dict[str, Any]:
    return {
        "room": _value(month.room),
        "water": _value(month.water),
        "heater_duty": _value(month.duty),
        "energy": _value(month.energy),
        "cost": _value(month.cost),
        "evaporated": _value(month.evaporated),
        "nitrate_high": _value(month.nitrate),
        "uvb_lamp_output": _value(month.uv_share),
        "carapace_length": number(month.length),
    }


def _week(week: Week) -> dict[str, Any]:
    return {"begins": week.begins, "water": _value(week.water), "room": _value(week.room)}


def _outcome(outcome: Outcome) -> dict[str, Any]:
    first = outcome.first
    return {
        "mishap": outcome.mishap.mishap,
        "title": outcome.mishap.title,
        "water": _value(outcome.water),
        "first": first.watched.limit if first else None,
        "limits": [
            {
                "limit": one.watched.limit,
                "at": number(one.value),
                "after": _value(one.when),
                "chance": number(one.chance),
                "status": one.watched.status,
                "source": one.watched.source,
            }
            for one in outcome.passed
        ],
        "helps": [
            {"say": one.say, "limit": one.limit, "after": number(one.when)}
            for one in outcome.helped
        ],
        "do": " ".join(outcome.do),
        "curves": {name: number(curve[::_EVERY]) for name, curve in outcome.curves.items()},
    }
