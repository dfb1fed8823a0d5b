"""“why” names findings and a source at every question; “not sure” says how wide it takes it."""

from __future__ import annotations

import re

from every import every

from interview import assembly
from interview.audit.checks.loader import all_checks
from interview.care.facts import STATUSES
from interview.chat.asked.why_asked import fed_by
from interview.graph.questions import Question

QUESTIONS = list(assembly.questionnaire())
IDS = [question.id for question in QUESTIONS]
MEASURED = [q for q in QUESTIONS if q.unit not in ("choice", "yes/no")]
UNSURE = {q.id: q.unsure.say or q.unsure.leave for q in MEASURED}
WIDTH = re.compile(r"give or take|anywhere from|within a factor|exactly|no wider than")


@every("name", IDS)
def test_why_names_a_finding_or_quantity_and_its_source(name: str) -> None:
    (fed, *held) = fed_by(assembly.questionnaire().by_id[name])
    assert re.match(r"It (?:decides|goes into): \w", fed)
    cited = held[0] if held else fed
    assert any(
        f"({status}" in cited or f"goes by {status}" in cited for status in STATUSES.values()
    )


@every("name", [q.id for q in MEASURED if q.unsure.assume])
def test_what_is_assumed_says_how_widely(name: str) -> None:
    assert WIDTH.search(UNSURE[name]), UNSURE[name]


@every("question", [q for q in MEASURED if q.unsure.give_or_take], ids=lambda q: q.id)
def test_the_width_told_is_the_width_taken(question: Question) -> None:
    width = question.unsure.give_or_take.split()[0]
    said = UNSURE[question.id]
    words = {"2": "two", "12": "30"}
    assert width in said or words.get(width, width) in said


def test_a_finding_named_for_the_answer_comes_first() -> None:
    rcd = assembly.questionnaire().by_id["rcd"]
    assert next(iter(fed_by(rcd))).startswith("It decides: GFCI or RCD")
    assert any(check.measures == "rcd" for check in all_checks())
