"""A year as a page: a chart, a row a month, and what to know of it in sentences."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator

from interview.advice.forecast.year import Month, Week, Year
from interview.care.facts import limit
from interview.report.blocks import Block, Heading, Items, Paragraph, Table
from interview.report.forecast.charts import year_drawing
from interview.report.forecast.said import CAUTION, Band, lacking_said, with_doubt
from interview.vocabulary.phrases import rounded

__all__ = ["year_blocks"]

_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_DENSITY = 998.0  # kg/m³, of water at room temperature


def year_blocks(
    title: str, year: Year, band: Band, label_of: Callable[[str], str], system: str
) -> Iterator[Block]:
    """The page of a year; `band` is what is wanted of the water, the others as of `day_blocks`."""
    yield Heading(1, f"A year in: {title}")
    yield Items(tuple(_sentences(year, system)))
    yield year_drawing(year, band, system)
    yield _table(year, system)
    yield from lacking_said(year.lacking, label_of, system)
    yield Paragraph(
        "Room and season follow a smooth course between the coldest and the warmest you told. Food "
        "stays as it is today."
    )
    yield Paragraph(CAUTION)


def _sentences(year: Year, system: str) -> Iterator[tuple[str, tuple[str, ...]]]:
    yield "Coldest water", (_week(year.coldest, system, "falls to"),)
    yield "Warmest water", (_week(year.warmest, system, "goes up to"),)
    gone = year.evaporated.best / _DENSITY
    yield "Evaporation", (f"{rounded(gone, 'm**3', system)} in the year, to be topped up.",)
    nitrate = [month.nitrate for month in year.months if month.nitrate]
    if nitrate:
        highest = max(nitrate, key=lambda value: value.best)
        yield "Nitrate", (f"At most {with_doubt(highest, 'mg/L', system)}, just before a change.",)
    yield from _lamp(year)
    lengths = [month.length for month in year.months if month.length]
    if lengths:
        yield "Growth", (f"The largest animal ends it at {rounded(lengths[-1], 'm', system)}.",)
    energy = f"{with_doubt(year.energy, 'J', system)} in the year"
    if year.cost:
        energy += f", for {with_doubt(year.cost, '1', system, 'cost_per_month')} of your money"
    yield "Energy", (f"{energy}.",)


def _week(week: Week, system: str, goes: str) -> str:
    day = datetime.date(2001, 1, 1) + datetime.timedelta(seconds=week.begins)
    return (
        f"In the week of {day.day} {_MONTHS[day.month - 1]} it {goes} "
        f"{with_doubt(week.water, 'degC', system)}, "
        f"the room at {rounded(week.room.best, 'degC', system)} as a mean."
    )


def _lamp(year: Year) -> Iterator[tuple[str, tuple[str, ...]]]:
    shares = [month.uv_share for month in year.months]
    if None in shares or not shares[-1]:
        return
    spent = limit("uvb_output_good")
    faded = [n for n, share in enumerate(shares) if share and share.best < spent]
    if not faded:
        yield "UVB lamp", (f"It ends the year at {shares[-1].best:.0%} of new.",)
    elif faded[0] == 0:
        yield "UVB lamp", (f"It gives less than {spent:.0%} of new from the first month on.",)
    else:
        yield "UVB lamp", (f"From {_MONTHS[faded[0]]} on it gives less than {spent:.0%} of new.",)


def _table(year: Year, system: str) -> Table:
    columns: list[tuple[str, Callable[[Month], str | None]]] = [
        ("Room", lambda m: rounded(m.room.best, "degC", system)),
        ("Water", lambda m: rounded(m.water.best, "degC", system)),
        ("Heater on", lambda m: f"{m.duty.best:.0%}" if m.duty else None),
        ("Energy", lambda m: rounded(m.energy.best, "J", system)),
        ("Cost", lambda m: rounded(m.cost.best, "1", system, "cost_per_month") if m.cost else None),
        ("Topped up", lambda m: rounded(m.evaporated.best / _DENSITY, "m**3", system)),
        ("Nitrate", lambda m: rounded(m.nitrate.best, "mg/L", system) if m.nitrate else None),
        ("UVB lamp", lambda m: f"{m.uv_share.best:.0%}" if m.uv_share else None),
    ]
    kept = [(name, cell) for name, cell in columns if cell(year.months[0]) is not None]
    rows = tuple(
        (_MONTHS[number], *(cell(month) or "" for _, cell in kept))
        for number, month in enumerate(year.months)
    )
    return Table(("Month", *(name for name, _ in kept)), rows)
