"""The handout: one file that needs no other, in which nothing takes effect that people typed.

That it prints on one side of A4 and of Letter was looked at with a browser, of the demos and of
tanks with many findings; no browser is needed to run the tests.
"""

from __future__ import annotations

import datetime
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest
from hostile import HOSTILE

from interview.advice.advise import Advice
from interview.advice.calendar import calendar
from interview.audit.audit import Audit
from interview.report.first_page.page import first_page
from interview.report.formats import handout
from interview.report.formats.handout import BEGINNING
from interview.report.formats.interface import Page
from interview.report.formats.register import format_called

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
        wanted += [duty.what for duty in _advice(audit).duties]
        for text in filter(None, wanted):
            assert " ".join(text.split()) in said
        left = len(first.today) + len(first.week) - len(told)
        assert (f"{left} more step" in said) is (left > 0)


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


def test_a_long_list_gives_way_and_says_so(
    demos: dict[str, Audit], monkeypatch: pytest.MonkeyPatch
) -> None:
    audit = demos["musk_turtle"]
    first = replace(
        first_page(audit, _advice(audit), DAY),
        buy=tuple(f"Thing {n}: by its size" for n in range(60)),
    )
    monkeypatch.setattr(handout, "first_page", lambda *_: first)
    said = " ".join(_Reader(_handout(audit)).words.split())
    told = said.count("by its size")
    assert 3 <= told < 40
    assert f"{60 - told} more lines stand on the whole page." in said
