"""What an answer is good for: the checks it feeds, and the sources they are held against."""

from __future__ import annotations

from collections.abc import Iterator

from interview.audit.checks import Check, all_checks
from interview.care.facts import STATUSES, assumptions, bibliography, limits
from interview.core.wiring import quantities
from interview.graph.questions import Question
from interview.report.advice_page import spoken

__all__ = ["checks_fed", "fed_by"]

_NAMED = 5
_PRINTED = ("published", "law", "standard", "computed")


def checks_fed(question: Question) -> tuple[Check, ...]:
    """Checks whose verdict the answer can change, those that look at it directly first."""
    wiring, names = quantities(), set(question.names) | {question.id}
    direct: list[Check] = []
    far: list[Check] = []
    for check in all_checks():
        asked = {name for when in check.whens.values() for name in when.names}
        judged = {check.measures, *check.bounds, *asked}
        if names & judged:
            direct.append(check)
        elif any(names & wiring.upstream(name) for name in judged if name in wiring.formulas):
            far.append(check)
    return (*direct, *sorted(far, key=lambda check: -check.weight))


def fed_by(question: Question) -> Iterator[str]:
    """Sentences on the checks an answer feeds and on the source of the first one's limit."""
    checks = checks_fed(question)
    if not checks:
        return
    names = ", ".join(spoken(check.id) for check in checks[:_NAMED])
    more = f" and {len(checks) - _NAMED} more" if len(checks) > _NAMED else ""
    yield f"It decides: {names}{more}."
    if source := _source_of(checks[0]):
        yield f"“{spoken(checks[0].id)}” is held against {source}"


def _source_of(check: Check) -> str:
    facts = {**assumptions(), **limits()}
    for name in check.bounds:
        if name in facts:
            status, key, meaning = facts[name].status, facts[name].source, facts[name].meaning
        elif name in quantities().formulas:
            formula = quantities().formulas[name]
            meaning = formula.meaning[:1].lower() + formula.meaning[1:].rstrip(".")
            status, key = formula.sources[0].status, formula.sources[0].key
        else:
            continue
        where = f": {bibliography()[key].rstrip('.')}" if status in _PRINTED else ""
        return f"{meaning} ({STATUSES[status]}{where})."
    return ""
