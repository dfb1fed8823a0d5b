"""The first page: nothing dangerous left out, three steps for today, one side and one screen."""

from __future__ import annotations

import re

import pytest
from golden import DAY
from page_rules import faults_of_page
from report_tanks import DEMOS

from interview import assembly
from interview.audit.audit import Audit
from interview.report.first_page.page import FirstPage, first_page
from interview.report.first_page.sentences import beginning, enumerated
from interview.report.formats.markdown import markdown

NAMES = sorted(path.stem for path in DEMOS.glob("*.yaml"))
each_demo = pytest.mark.parametrize("name", NAMES)


def _page(audit: Audit) -> FirstPage:
    return first_page(audit, assembly.advice_of(audit, DAY))


@each_demo
def test_every_danger_is_met_today(demos: dict[str, Audit], name: str) -> None:
    audit = demos[name]
    for page in (first_page(audit), _page(audit)):
        met = {check for step in page.today for check in step.about}
        wanted = {f.check for f in audit.findings if f.verdict == "danger" or f.risk == "likely"}
        assert met == wanted
        assert len(page.today) <= 3
        for finding in audit.findings:
            if finding.verdict == "danger":
                first = beginning(finding.do.removeprefix("Today: "), 0)[1:]
                assert any(first in step.do for step in page.today)


@each_demo
def test_every_wrong_is_met_by_some_step(demos: dict[str, Audit], name: str) -> None:
    """By a step of the plan, or where the plan leaves it, by its own remedy."""
    audit = demos[name]
    page = _page(audit)
    met = {check for step in (*page.today, *page.week) for check in step.about}
    assert {f.check for f in audit.findings if f.verdict == "wrong" and f.applies} <= met


@each_demo
def test_steps_are_numbered_through_and_marks_carry_the_numbers(
    demos: dict[str, Audit], name: str
) -> None:
    page = _page(demos[name])
    steps = (*page.today, *page.week)
    assert [step.number for step in steps] == list(range(1, len(steps) + 1))
    about = {step.number: step.about for step in steps}
    assert all(mark.check in about[mark.number] for mark in page.marks)
    assert {mark.check for mark in page.marks} == {c for step in steps for c in step.about}


@each_demo
def test_why_is_one_sentence_and_names_every_danger(demos: dict[str, Audit], name: str) -> None:
    page = first_page(demos[name])
    assert page.why.endswith(".") and ". " not in page.why
    assert page.headline.startswith("STOP" if demos[name].grades.stop else "Grade ")


def test_what_is_moved_is_not_bought(demos: dict[str, Audit]) -> None:
    page = _page(demos["musk_turtle"])
    assert page.leads_to == "grade A"
    assert not any("water line" in one for one in page.buy)
    assert any("mesh" in one for one in page.buy)
    assert page.after is not None
    assert page.after.best.known["water_line_below_rim"] > 0.11


def test_without_a_plan_the_findings_own_remedies_are_the_steps(demos: dict[str, Audit]) -> None:
    page = first_page(demos["musk_turtle"])
    assert page.plan is None and page.after is None and not page.buy
    assert [step.about for step in page.week] == [("escape",)]


@pytest.mark.parametrize(
    ("most", "told"),
    [
        (0, "One is 1.5 cm."),
        (25, "One is 1.5 cm. Two."),
        (99, "One is 1.5 cm. Two. Three, at last."),
    ],
)
def test_as_many_sentences_as_there_is_room_for(most: int, told: str) -> None:
    assert beginning("One is 1.5 cm. Two. Three, at last.", most) == told


def test_names_in_a_row() -> None:
    assert [enumerated(row) for row in (["a"], ["a", "b"], ["a", "b", "c"])] == [
        "a", "a and b", "a, b and c",
    ]  # fmt: skip


@each_demo
def test_the_pages_hold_nothing_internal_and_the_first_fits(
    demos: dict[str, Audit], name: str
) -> None:
    audit = demos[name]
    assert not faults_of_page(audit, assembly.advice_of(audit, DAY))


@each_demo
def test_few_words_stand_before_the_first_numbers(demos: dict[str, Audit], name: str) -> None:
    """On the Markdown page, pictures apart; the page without what is only drawn."""
    audit = demos[name]
    page = markdown(audit, DAY.isoformat(), assembly.advice_of(audit, DAY))
    before = re.sub(r"```text\n[^`]*```", "", page.partition("## The tank in numbers")[0])
    assert len(before.split()) < 450
