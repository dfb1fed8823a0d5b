"""The handout: one sheet of paper, as an HTML file that needs no other file and runs nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape
from typing import TYPE_CHECKING

from interview.report.first_page.blocks import in_short
from interview.report.first_page.page import first_page
from interview.report.first_page.sentences import beginning
from interview.report.formats.interface import Format, Page
from interview.report.pictures.tank_picture import tank_picture
from interview.report.regional import Worded

if TYPE_CHECKING:
    from interview.advice.calendar import Duty
    from interview.report.first_page.page import FirstPage
    from interview.report.first_page.step import Step

__all__ = ["BEGINNING", "DRESS"]

BEGINNING = "<!doctype html>\n<!-- Tankside handout -->\n"
"""How every handout begins, so that one is known again."""

_MOST_STEPS = 5
_LINES = 58
"""Lines of both columns on the shorter paper (Letter), beside picture, title and notes."""
_LETTERS, _CALENDAR_LETTERS = 56, 48
"""In a line of a column, and of the calendar beside its dates."""
_HEADINGS = 10
"""Lines that the headings take, and what tells how much is left out."""
_NITRATE = "Nitrate is over"
_FEWEST_TO_GET = 3
_MOST_LEFT = 3
_PICTURE, _LEAST_PICTURE, _LINE = 72, 24, 4.6
"""Millimetres: the picture's height, and a line with the space beside it."""
_STYLE = """
@page{margin:9mm}
*{box-sizing:border-box}
body{font:8.6pt/1.28 sans-serif;color:#1a2530;background:#fff;max-width:192mm;margin:0 auto}
header{display:flex;gap:4mm;align-items:center;border-bottom:1.2pt solid #0072b2;padding:0 0 1.5mm}
.grade{font-size:23pt;font-weight:bold;border:1.2pt solid;border-radius:2mm;padding:0 3mm}
h1{font-size:14pt;margin:0;max-height:2.6em;overflow:hidden;overflow-wrap:anywhere}
h2{font-size:10pt;margin:2mm 0 .6mm;color:#005a8f}
p{margin:.6mm 0}
ol,ul{margin:.4mm 0;padding-left:5mm}
li{margin:.4mm 0}
.get{list-style:"\\2610  "}
figure{margin:1.5mm 0 0;text-align:center}
figure svg{max-width:100%}
.columns{columns:2;column-gap:6mm}
li,tr,p{break-inside:avoid}
h2{break-after:avoid}
table{border-collapse:collapse;width:100%}
td{vertical-align:top;padding:.25mm 2mm .25mm 0;border-bottom:.4pt solid #c5ccd3}
td:first-child{white-space:nowrap;color:#44525e}
footer{border-top:.6pt solid #8593a0;margin-top:2mm;padding-top:1mm}
.law{font-weight:bold}
.words{margin-top:3mm;border-bottom:.6pt solid #1a2530;height:9mm;color:#44525e}
@media screen{body{padding:6mm}}
@media screen and (prefers-color-scheme:dark){
body{color:#e6edf3;background:#11181f}
h2{color:#56b4e9}
td{border-color:#3a4752}
td:first-child,.words{color:#a9b6c2}
.words{border-color:#a9b6c2}
}
"""


class _Handout(Format):
    suffix = ".html"

    def dress(self, page: Page) -> str:
        """The sheet; what there is no room for is counted and stands on the whole page."""
        first = first_page(page.audit, page.advice, page.date)
        told = {step.number for step in _told(first)}
        marks = [mark for mark in first.marks if mark.number in told]
        picture = tank_picture(
            page.audit, first.after, marks, listed=first.listed, from_above=False
        )
        region = Worded(page.audit.tank.lookup("region"))
        orders = {finding.do for finding in page.audit.findings}  # they stand under Today
        met = any("nitrate_today" in step.about for step in first.today)
        later = [d for d in page.advice.duties if d.what not in orders] if page.advice else []
        later = [duty for duty in later if not (met and duty.what.startswith(_NITRATE))]
        duties = tuple(map(region.page, later))
        return BEGINNING + "\n".join(_document(first, picture.svg(), duties)) + "\n"


DRESS = _Handout()


def _document(first: FirstPage, picture: str, duties: tuple[Duty, ...]) -> Iterator[str]:
    title = escape(first.title)
    yield '<html lang="en"><head><meta charset="utf-8">'
    yield '<meta name="viewport" content="width=device-width">'
    yield f"<title>{title}</title>"
    high = f"figure svg{{max-height:{_picture_height(first, duties)}mm}}\n"
    yield f"<style>{_STYLE}{high}</style></head><body>"
    yield f'<header><div class="grade">{escape(first.grade)}</div><div><h1>{title}</h1>'
    yield f"<p>{escape(first.headline)} {escape(_audited(first))}</p>"
    yield f"<p>{escape(first.why)}</p></div></header>"
    yield f"<figure>{picture}</figure>"
    yield '<div class="columns">'
    yield from (f"<p>{escape(note)}</p>" for note in first.notes)
    yield from _steps(first)
    yield from _listed("Also wrong", _also_wrong(first))
    yield from _more(len(first.left) - _MOST_LEFT, "fault")
    yield from _listed("Look again at these answers", first.confirm)
    yield from _listed("Find out next", first.measure)
    yield from _listed("To get", _to_get(first, duties), "get")
    yield from _calendar(duties)
    yield "</div><footer>"
    yield from (f'<p class="law">{escape(text)}</p>' for text in first.law)
    if first.vet:
        yield f"<p><strong>Reptile veterinarian:</strong> {escape(first.vet)}</p>"
    yield f"<p>{escape(first.always)}</p>"
    yield '<p class="words">In our own words:</p></footer></body></html>'


def _audited(first: FirstPage) -> str:
    return f"Audited on {first.date}." if first.date else ""


def _told(first: FirstPage) -> tuple[Step, ...]:
    """Today's steps and as many of the week's as there is room for."""
    return (*first.today, *first.week)[: max(_MOST_STEPS, len(first.today))]


def _steps(first: FirstPage) -> Iterator[str]:
    """The steps that are told, by their numbers on the whole page."""
    told = _told(first)
    today, week = told[: len(first.today)], told[len(first.today) :]
    for heading, steps in (("Today", today), (first.later, week)):
        if steps:
            yield f'<h2>{heading}</h2><ol start="{steps[0].number}">'
            yield from (f"<li>{escape(step.text)}</li>" for step in steps)
            yield "</ol>"
    if not told:
        yield "<h2>Today</h2><p>Nothing needs changing.</p>"
    yield from _more(len(first.week) - len(week), "step")
    if first.leads_to:
        yield f"<p>All steps together lead to {escape(first.leads_to)}.</p>"


def _to_get(first: FirstPage, duties: tuple[Duty, ...]) -> list[str]:
    """What to get, each thing by its specification; what there is no room for so in short."""
    rows, room = list(first.buy), _LINES - _taken(first, duties)
    for many in range(len(rows), _FEWEST_TO_GET, -1):
        told = _with_the_rest(rows, many)
        if sum(_height(row, _LETTERS) for row in told) <= room:
            return told
    return _with_the_rest(rows, _FEWEST_TO_GET)


def _with_the_rest(rows: list[str], many: int) -> list[str]:
    """So many things in full, and one line for all others."""
    rest = "; ".join(in_short(row, 1) for row in rows[many:])
    return [*rows[:many], *([f"Also {rest}."] if rest else [])]


def _taken(first: FirstPage, duties: tuple[Duty, ...]) -> int:
    """Lines of both columns that all but the things to get takes."""
    steps = [step.text for step in _told(first)]
    texts = (*first.notes, *steps, *_also_wrong(first), *first.confirm, *first.measure)
    taken = _HEADINGS + sum(_height(text, _LETTERS) for text in texts)
    return taken + sum(_height(duty.what, _CALENDAR_LETTERS) for duty in duties)


def _also_wrong(first: FirstPage) -> list[str]:
    return [f"{step.lead}: {beginning(step.do, 0)}" for step in first.left[:_MOST_LEFT]]


def _picture_height(first: FirstPage, duties: tuple[Duty, ...]) -> int:
    """Millimetres for the picture, less where there is much to say."""
    least = sum(_height(row, _LETTERS) for row in _with_the_rest([*first.buy], _FEWEST_TO_GET))
    over = max(_taken(first, duties) + least - _LINES, 0)
    return max(round(_PICTURE - over * _LINE / 2), _LEAST_PICTURE)


def _height(text: str, letters: int) -> int:
    return -(-len(text) // letters)


def _more(number: int, what: str) -> Iterator[str]:
    """What there was no room for, so that nobody takes a part for the whole."""
    if number > 0:
        verb = "stands" if number == 1 else "stand"
        yield f"<p>{number} more {what}{'' if number == 1 else 's'} {verb} on the whole page.</p>"


def _listed(heading: str, rows: Iterable[str], kind: str = "") -> Iterator[str]:
    rows = tuple(rows)
    if rows:
        yield f"<h2>{heading}</h2><ul{f' class={kind}' if kind else ''}>"
        yield from (f"<li>{escape(row)}</li>" for row in rows)
        yield "</ul>"


def _calendar(duties: tuple[Duty, ...]) -> Iterator[str]:
    if duties:
        yield "<h2>Calendar</h2><table>"
        for duty in duties:
            yield f"<tr><td>{escape(duty.when)}</td><td>{escape(duty.what)}</td></tr>"
        yield "</table>"
