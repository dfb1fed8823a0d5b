"""Random tanks: whatever somebody may have answered, there is an audit, and it can be written.

Where there is advice the first page has its picture and its sizes and fits one side too.
"""

from __future__ import annotations

import json
import random
from collections.abc import Callable

from hypothesis import strategies as st
from page_rules import faults_of_first_page
from tally import Fault

from interview import assembly
from interview.audit.checks.findings import Verdict
from interview.graph.answers import Answer
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.graph.questions import Question
from interview.report.formats.json_form import audit_json
from interview.report.formats.markdown import markdown
from interview.vocabulary.vocabulary import vocabulary
from interview.words.text.refusal import NotUnderstood

__all__ = ["TANKS", "thrown"]

TANKS = st.tuples(st.integers(0, 2**32), st.booleans())
"""The dice of one tank, and whether advice is asked for too."""
VERDICTS: tuple[Verdict, ...] = ("good", "close", "wrong", "danger", "unmeasured")
"""Which verdicts there are."""


def _number(question: Question, dice: random.Random) -> str:
    """A number from the whole range that the name can have, or near the example's."""
    low, high = vocabulary()[question.id].span if question.id in vocabulary() else (0.0, 1.0)
    low, high = max(low, -50.0), min(high, 1e4)
    at = low + (high - low) * dice.random() ** dice.choice((1, 3, 8))
    return f"{at:.4g}" if question.unit == "1" else f"{at:.4g} {question.unit}"


def _said(question: Question, interview: Interview, dice: random.Random) -> str:
    options = [option.name for option in interview.lists.options_of(question)]
    ways: list[Callable[[], str]] = [
        lambda: question.example.partition(" or ")[0] or "yes",
        lambda: dice.choice(options) if options else _number(question, dice),
        lambda: "not sure",
        lambda: dice.choice(("yes", "no", "0", "none")),
    ]
    return dice.choices(ways, weights=(3, 5, 1, 1))[0]()


def _tank(dice: random.Random) -> Interview:
    """An interview answered at random; what is refused is left out."""
    interview = assembly.new_interview()
    interview.finer = dice.random() < 0.5
    skipped = dice.choice((0.0, 0.1, 0.5))
    for _ in range(2):
        for place in list(interview.places()):
            if place in interview.answers or dice.random() < skipped:
                continue
            question = assembly.questionnaire().by_id[place.id]
            said = "2" if question.count_of and dice.random() < 0.5 else ""
            _try(interview, place, said or _said(question, interview, dice))
    return interview


def _try(interview: Interview, place: Place, said: str) -> Answer | None:
    try:
        interview.record(place, said)
    except (NotUnderstood, AnswerRefused):
        return None
    return interview.answers[place]


def thrown(example: tuple[int, bool]) -> str:
    """An audit whose every finding says something, as Markdown and as strict JSON."""
    seed, advised = example
    interview = _tank(random.Random(seed))
    audit = assembly.audit_of(interview, "A | <b>tank</b>")
    advice = assembly.advice_of(audit) if advised else None
    if advice and (faults := faults_of_first_page(audit, advice)):
        raise Fault(f"the first page: {'; '.join(faults)}")
    if not markdown(audit, advice=advice):
        raise Fault("an empty page")
    json.loads(audit_json(audit, advice), parse_constant=_no_number)
    for finding in audit.findings:
        if not finding.say or finding.verdict not in VERDICTS:
            raise Fault(f"{finding.check} says nothing")
    return audit.grades.overall if not audit.grades.stop else "STOP"


def _no_number(constant: str) -> None:
    raise Fault(f"{constant} in the JSON")
