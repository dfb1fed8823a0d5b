"""A page that comes in parts: what is known stands first, and Ctrl-C keeps what there is."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from golden import DAY
from kept import steps_anew
from rich.console import Console

from interview.advice.advise import Progress, advise_in_steps
from interview.advice.search.budget import Budget
from interview.audit.audit import Audit
from interview.chat.faces.line_face import PlainFace
from interview.chat.faces.screen_page import ScreenPage
from interview.report.blocks import Block, Heading, Labelled, Paragraph
from interview.report.page.coming import Coming
from interview.report.page.whole import page_of

NAME = "map_turtle_hatchling"


class _Watched:
    """What was shown and what was told to be worked out, in the order it came."""

    def __init__(self) -> None:
        self.came: list[Block | str] = []

    def blocks(self, blocks: Iterable[Block]) -> None:
        for block in blocks:
            self.came.append(block)

    @contextmanager
    def working(self, text: str) -> Iterator[None]:
        self.came.append(text)
        yield

    @property
    def order(self) -> list[str]:
        """Headings and what was worked out."""
        return [
            one if isinstance(one, str) else one.text
            for one in self.came
            if isinstance(one, str | Heading)
        ]


@pytest.fixture(scope="module")
def steps(demos: dict[str, Audit]) -> list[Progress]:
    return list(advise_in_steps(demos[NAME], DAY, Budget.shipped()))


@pytest.fixture(scope="module")
def audit(demos: dict[str, Audit]) -> Audit:
    return demos[NAME]


def _at(order: list[str], start: str) -> int:
    return next(n for n, text in enumerate(order) if text.startswith(start))


def _labels(on: _Watched) -> list[str]:
    """Labels of the first page and what was worked out, in the order they came."""
    return [
        one if isinstance(one, str) else one.label
        for one in on.came
        if isinstance(one, str | Labelled)
    ]


def test_grade_and_today_stand_before_the_search_and_windows_come_last(
    audit: Audit, steps: list[Progress]
) -> None:
    on = _Watched()
    Coming(audit, iter(steps), whole=True).show(on)
    labels, order = _labels(on), on.order
    assert order[0] == audit.title
    worked = [n for n, text in enumerate(labels) if text.startswith("Working out the smallest")]
    assert labels.index("Today") < worked[0] < worked[-1] < labels.index("Plans")
    assert labels.index("Plans") < labels.index("Buy")
    told = [labels[n].partition("; ")[2] for n in worked]
    assert told[0] == "Ctrl-C ends it." and "(1 plan: " in "".join(told)
    windows = _at(order, "Working out workable")
    assert windows < _at(order, "The tank in numbers") < _at(order, "The workable water line")


def test_what_comes_in_parts_is_the_usual_page(audit: Audit, steps: list[Progress]) -> None:
    """Of a tank with a plan that gives way to another: a screen says what a file says."""
    on = _Watched()
    coming = Coming(audit, iter(steps), whole=True)
    coming.show(on)
    assert coming.advice is not None and len(coming.advice.plans) >= 2
    assert len(coming.advice.plans) < len({plan.name for s in steps for plan in s.advice.plans})
    shown = [one for one in on.came if not isinstance(one, str)]
    page = list(page_of(audit, advice=coming.advice, whole=True))
    assert list(map(repr, shown)) == list(map(repr, page))


def test_the_short_page_leaves_the_windows_for_later(audit: Audit, steps: list[Progress]) -> None:
    on, left = _Watched(), iter(steps)
    coming = Coming(audit, left)
    coming.show(on)
    assert not [text for text in on.order if text.startswith("Working out workable")]
    assert coming.advice is not None
    assert not coming.advice.windows
    finished = coming.finished(on.working)
    assert finished is steps[-1].advice
    assert finished.windows


@pytest.mark.parametrize("after", range(6))
def test_ctrl_c_keeps_what_there_is(audit: Audit, steps: list[Progress], after: int) -> None:
    def interrupted() -> Iterator[Progress]:
        yield from steps[:after]
        raise KeyboardInterrupt

    on = _Watched()
    coming = Coming(audit, interrupted(), whole=True)
    coming.show(on)
    assert coming.stopped == (after < len(steps))
    kept = steps[:after][-1].advice if after else None
    assert coming.advice is kept
    assert coming.finished(on.working) is kept
    said = [one.text for one in on.came if isinstance(one, Paragraph)]
    assert any("You stopped" in text for text in said) == coming.stopped
    assert [one for one in on.order if not one.startswith("Working")][-1] == "Sources"
    assert "Safety notes" in on.order and "Always" in _labels(on)


def test_a_pipe_gets_the_usual_page(audit: Audit, steps: list[Progress]) -> None:
    on = _Watched()
    Coming(audit, iter(steps)).show(on, at_once=True)
    page = list(page_of(audit, advice=steps[-1].advice, whole=False))
    assert [one for one in on.came if not isinstance(one, str)] == page


def test_a_tank_in_planning_gets_its_list(demos: dict[str, Audit]) -> None:
    planned = demos["reeves_turtle_planned"]
    on = _Watched()
    coming = Coming(planned, advise_in_steps(planned, DAY))
    coming.show(on)
    assert coming.advice is not None
    assert coming.advice.specification is not None
    assert [one for one in on.came if not isinstance(one, str)] == list(
        page_of(planned, advice=coming.advice, whole=False)
    )
    assert "Buy" in _labels(on)


# ---- on the screens


def test_the_live_line_is_erased() -> None:
    out = io.StringIO()
    console = Console(file=out, force_terminal=True, width=60)
    on = ScreenPage(console)
    with on.working("Working out " + "much " * 40):
        line = out.getvalue()
        assert "Working out" in line
        assert "\n" not in line
    assert out.getvalue().endswith("\r\x1b[2K")
    with pytest.raises(KeyboardInterrupt), on.working("x"):
        raise KeyboardInterrupt
    assert out.getvalue().endswith("\r\x1b[2K")


def test_where_no_line_can_be_erased_there_is_none() -> None:
    out = io.StringIO()
    with ScreenPage(Console(file=out, width=60)).working("Working out"):
        pass
    assert out.getvalue() == ""


class _Typing(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_the_plain_face_says_a_sentence_once_and_only_to_somebody() -> None:
    for lines, told in ((_Typing(), 1), (io.StringIO(), 0)):
        out = io.StringIO()
        face = PlainFace(lines, out)
        for _ in range(3):
            with face.working("Working out the list."):
                pass
        assert out.getvalue().count("Working out the list.") == told
        assert "\x1b" not in out.getvalue()


def test_somebody_who_waits_has_a_clock(monkeypatch: pytest.MonkeyPatch, audit: Audit) -> None:
    asked: list[Any] = []
    shipped = Budget.shipped
    monkeypatch.setattr(
        Budget, "shipped", lambda *, talking=False: asked.append(talking) or shipped()
    )
    next(steps_anew(audit, awaited=True))
    next(steps_anew(audit, awaited=False))
    assert asked == [True, False]
