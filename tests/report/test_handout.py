"""The handout: one file that needs no other, in which nothing takes effect that people typed.

That it prints on one side of A4 and of Letter is reckoned here from its own style sheet, and was
looked at with a browser, of thirteen tanks; no browser is needed to run the tests.
"""

from __future__ import annotations

import datetime
import re
import textwrap
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from hostile import HOSTILE

from interview import assembly
from interview.advice.advise import Advice
from interview.advice.calendar import calendar
from interview.audit.audit import Audit
from interview.report.first_page.page import first_page
from interview.report.formats import handout
from interview.report.formats.handout import BEGINNING
from interview.report.formats.interface import Page
from interview.report.formats.register import format_called
from interview.report.regional import Worded

DAY = "2026-03-01"
_ALONE = {"meta", "br"}
_HTML = {
    *("html", "head", "meta", "title", "style", "body", "header", "div", "h1", "h2", "p"),
    *("figure", "strong", "ol", "ul", "li", "table", "tr", "td", "footer"),
}
_SVG = {"svg", "title", "desc", "style", "rect", "path", "circle", "text"}


class _Reader(HTMLParser):
    """The elements and the words of a page; refuses what isn't closed in order."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.keys: set[str] = set()
        self.words = ""
        self._open: list[str] = []
        self.feed(text)
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.keys |= {key for key, _ in attrs}
        if tag not in _ALONE:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        self.words += data


def _advice(audit: Audit) -> Advice:
    """The calendar alone; the plans have tests of their own."""
    duties = calendar(audit.tank, datetime.date.fromisoformat(DAY))
    return Advice((), (), None, duties, None)


def _handout(audit: Audit) -> str:
    return format_called("handout").dress(Page(audit, _advice(audit), date=DAY))


def test_it_needs_no_other_file_and_runs_nothing(demos: dict[str, Audit]) -> None:
    for audit in demos.values():
        text = _handout(audit)
        assert text.startswith(BEGINNING)
        page = _Reader(text)
        assert page.tags <= _HTML | _SVG
        assert not {key for key in page.keys if key.startswith("on")} | page.keys & {"src", "href"}
        assert not re.search(r"url\(|@import|font-face|javascript:", text)
        assert set(re.findall(r"\w+://[\w./]+", text)) <= {"http://www.w3.org/2000/svg"}


def test_it_says_what_the_first_page_says(demos: dict[str, Audit]) -> None:
    for audit in demos.values():
        page = _Reader(_handout(audit))
        said = " ".join(page.words.split())
        first = first_page(audit, _advice(audit), DAY)
        told = (*first.today, *first.week)[:5]
        wanted = [first.title, first.grade, first.why, *(step.do for step in told)]
        wanted += [*first.law, first.vet, first.always, "In our own words:"]
        region = Worded(audit.tank.lookup("region"))
        wanted += [region.text(duty.what) for duty in _advice(audit).duties]
        for text in filter(None, wanted):
            assert " ".join(text.split()) in said
        left = len(first.today) + len(first.week) - len(told)
        assert (f"{left} more step" in said) is (left > 0)


def test_a_planned_tanks_sheet_says_what_list_and_picture_are_of(demos: dict[str, Audit]) -> None:
    """And nothing of a turtle that isn't there, to a veterinarian."""
    planned = demos["reeves_turtle_planned"]
    advice = assembly.advice_of(planned, datetime.date.fromisoformat(DAY))
    text = format_called("handout").dress(Page(planned, advice, date=DAY))
    assert "Bought by the list" in text and "In order" in text and "as the list has it" in text
    assert "Reptile veterinarian:" not in text


def test_only_the_findings_of_steps_that_are_told_are_marked(demos: dict[str, Audit]) -> None:
    text = _handout(demos["painted_turtles_classroom"])
    numbers = {int(n) for n in re.findall(r'class="number">(\d+)<', text)}
    assert numbers
    assert max(numbers) <= 5


def test_what_people_typed_stays_text(hostile: Audit) -> None:
    page = _Reader(_handout(hostile))
    assert page.tags <= _HTML | _SVG
    assert " ".join(HOSTILE.split()) in " ".join(page.words.split())


@pytest.mark.parametrize("nasty", ["</title><script>x</script>", "--><img src=x onerror=y>", "]]>"])
def test_no_title_leaves_its_place(demos: dict[str, Audit], nasty: str) -> None:
    page = _Reader(_handout(replace(demos["musk_turtle"], title=nasty)))
    assert page.tags <= _HTML | _SVG
    assert nasty in page.words


def test_a_long_list_gives_way_and_loses_nothing(
    demos: dict[str, Audit], monkeypatch: pytest.MonkeyPatch
) -> None:
    audit = demos["musk_turtle"]
    first = replace(
        first_page(audit, _advice(audit), DAY),
        buy=tuple(f"Thing {n}: by its size" for n in range(60)),
    )
    monkeypatch.setattr(handout, "first_page", lambda *_: first)
    said = " ".join(_Reader(_handout(audit)).words.split())
    assert 3 <= said.count(": by its size") < 40
    assert "Also Thing" in said and said.count("by its size") == 60


# ---- one side of paper, by the widths and heights of its own style sheet

_MM = 25.4 / 72  # a point
_EM = 8.6 * _MM
_LETTER = 0.47 * _EM
"""Mean width of a letter of running sans-serif text, from memory; of the two fullest sheets a
browser's print ended 12 mm above what is reckoned here."""
_LINE = 1.28 * _EM
_PAPER = {"Letter": (279.4 - 18, 192.0), "A4": (297.0 - 18, 192.0)}  # mm, inside 9 mm of margin
_HEADING, _ROW = 10 * _MM * 1.28 + 2.6, 0.5


def _lines(text: str, width: float) -> int:
    return len(textwrap.wrap(text, int(width / _LETTER))) or 1


def _in_column(html: str, width: float) -> float:
    """Height of headings, paragraphs, list items and rows of the calendar, one below the other."""
    height = 0.0
    for tag, inside in re.findall(r"<(h2|li|p|tr)\b[^>]*>(.*?)</\1>", html, re.DOTALL):
        cells = [re.sub(r"<[^>]+>", "", cell) for cell in inside.split("</td>")]
        if tag == "h2":
            height += _HEADING
        elif tag == "tr":
            beside = width - (len(cells[0]) * _LETTER + 4)
            height += max(1, _lines(cells[1], beside)) * _LINE + _ROW
        else:
            height += _lines(cells[0], width - (5 if tag == "li" else 0)) * _LINE + _ROW
    return height


def _height(html: str, width: float) -> float:
    """Height of the sheet [mm]: head, picture, the longer of two columns, foot."""
    head, _, rest = html.partition("<figure>")
    columns, _, foot = rest.partition("</figure>")[2].partition("<footer>")
    most_in_one = 4 * _LINE  # a column breaks between rows, so that one may be longer
    both = _in_column(columns, (width - 6) / 2) / 2 + most_in_one / 2
    top = 14 * _MM * 1.28 + _in_column(head.partition("<body>")[2], width - 30) + 2
    picture = float(re.findall(r"figure svg{max-height:(\d+)mm}", head)[0])
    return top + picture + 1.5 + both + _in_column(foot, width) + 9 + 5


@pytest.mark.parametrize("paper", _PAPER)
def test_it_prints_on_one_side(demos: dict[str, Audit], paper: str) -> None:
    high, wide = _PAPER[paper]
    for name, audit in demos.items():
        assert _height(_handout(audit), wide) <= high, name


def test_a_crowded_sheet_prints_on_one_side_too(
    demos: dict[str, Audit], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As many things to get as there are, and every step as long as steps are."""
    audit = demos["painted_turtles_classroom"]
    page = first_page(audit, _advice(audit), DAY)
    crowded = replace(
        page,
        buy=tuple(f"Thing {n}: by its size and its kind, as shops sell it" for n in range(60)),
        law=("Keep it shut in; don't breed, sell, give away or release it." * 2,),
    )
    monkeypatch.setattr(handout, "first_page", lambda *_: crowded)
    high, wide = _PAPER["Letter"]
    assert _height(_handout(audit), wide) <= high
