"""What is lost without one answer: counted over the demo tanks and the faulty ones."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import yaml

from interview import assembly
from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.grade_rules import rules
from interview.audit.tank import Tank
from interview.chat.asked.why_asked import checks_fed
from interview.graph.interview import Interview

sys.path.append(str(Path(__file__).parent.parent / "audit"))
from typed_tanks import DEMOS, TESTS, changed, interview_in

__all__ = ["counted", "harm_hidden", "tanks", "without"]

Named = tuple[str, Interview]
_GIVEN = ("stage", "animal_count")
"""Nobody can be asked anything before these are known."""
_EVERY = 8
"""Verdicts are counted over every eighth tank: they hang on the questions, not on the faults."""


def tanks() -> Iterator[Named]:
    """The demo setups, and each faulty tank whose answers fit each other."""
    for path in sorted(DEMOS.glob("*.yaml")):
        yield path.stem, interview_in(path)
    base = interview_in(TESTS / "tanks" / "base.yaml")
    rows = yaml.load((TESTS / "setups_bad.yaml").read_text("utf-8"), Loader=yaml.BaseLoader)
    for row in rows:
        if not row.get("misfits"):
            yield row["slip"], changed(base, row["change"])


def without(interview: Interview, question: str) -> Interview:
    """The same tank, one question never asked."""
    left = assembly.new_interview()
    left.answers = {p: a for p, a in interview.answers.items() if p.id != question}
    return left


def counted() -> list[dict[str, object]]:
    """A row for every question that is worth anything, the most valuable first."""
    found = list(tanks())
    harm, verdicts = Counter[str](), Counter[str]()
    for _, interview in found:
        harm.update(harm_hidden(interview))
    for _, interview in found[::_EVERY]:
        verdicts.update(_verdicts_lost(interview))
    worth = {
        question: (harm[question] / len(found), verdicts[question] / len(found[::_EVERY]))
        for question in {*harm, *verdicts}
    }
    return [
        {"question": question, "harm": round(h, 2), "verdicts": round(v, 2)}
        for question, (h, v) in sorted(worth.items(), key=lambda row: (-sum(row[1]), row[0]))
        if h + v >= 0.01
    ]


def harm_hidden(interview: Interview) -> dict[str, float]:
    """By question the cost of what is wrong or dangerous and isn't seen without its answer."""
    tank = assembly.tank_of(interview, drawn=True)
    bad = {check.id: cost for check in all_checks() if (cost := _cost(check, judge(check, tank)))}
    hidden = {}
    for question in _answered(interview):
        fed = [check for check in _fed(question) if check.id in bad]
        if fed:
            left = assembly.tank_of(without(interview, question), drawn=True)
            lost = (max(0.0, bad[check.id] - _cost(check, judge(check, left))) for check in fed)
            hidden[question] = sum(lost)
    return hidden


def _cost(check: Check, finding: Finding) -> float:
    """What a wrong or a danger costs that nobody is told of; half where it rests on a guess."""
    if not finding.applies or finding.verdict not in ("wrong", "danger"):
        return 0.0
    cost = rules().harms[check.harm[finding.verdict]].cost
    return cost / 2 if finding.assumed or finding.guessed else cost


def _verdicts_lost(interview: Interview) -> dict[str, int]:
    tank, lost = assembly.tank_of(interview, drawn=False), {}
    judged = {check.id for check in all_checks() if _is_judged(check, tank)}
    for question in _answered(interview):
        left = assembly.tank_of(without(interview, question), drawn=False)
        lost[question] = sum(
            check.id in judged and not _is_judged(check, left) for check in _fed(question)
        )
    return lost


def _is_judged(check: Check, tank: Tank) -> bool:
    finding = judge(check, tank)
    return finding.applies and finding.verdict != "unmeasured"


def _answered(interview: Interview) -> list[str]:
    ids = (place.id for place in interview.answers if place.id not in _GIVEN)
    return list(dict.fromkeys(ids))


@cache
def _fed(question: str) -> tuple[Check, ...]:
    return checks_fed(assembly.questionnaire().by_id[question])
