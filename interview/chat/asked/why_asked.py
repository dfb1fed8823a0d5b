"""What an answer is good for: the checks it feeds, and the sources they are held against."""

from __future__ import annotations

from collections.abc import Iterator

from interview.audit.checks.check import Check
from interview.audit.checks.loader import all_checks
from interview.care.facts import STATUSES, assumptions, bibliography, limits
from interview.core.wiring import quantities
from interview.graph.questions import Question
from interview.report.naming import spoken

__all__ = ["checks_fed", "fed_by", "reasons"]

_NAMED = 5
_PRACTICE = "common_practice"
_PRINTED = ("published", "law", "standard", "computed")


def reasons(question: Question) -> Iterator[str]:
    """The reason, the checks the answer feeds and where their limits come from."""
    yield question.help
    yield from fed_by(question)


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
    direct.sort(key=lambda check: check.measures not in names)
    return (*direct, *sorted(far, key=lambda check: -check.weight))


def fed_by(question: Question) -> Iterator[str]:
    """Sentences on the findings an answer feeds, and on a source: of a limit or of a quantity."""
    checks = checks_fed(question)
    if not checks:
        yield from _goes_into(question)
        return
    names = ", ".join(spoken(check.id) for check in checks[:_NAMED])
    more = f" and {len(checks) - _NAMED} more" if len(checks) > _NAMED else ""
    yield f"It decides: {names}{more}."
    told = ((check, _source_of(check)) for check in checks)
    check, source = next(((c, s) for c, s in told if s), (checks[0], ""))
    yield f"“{spoken(check.id)}” {source or _rests_on(check)}"


def _source_of(check: Check) -> str:
    """The limit a check holds its quantity against, with its source; empty without a limit."""
    facts = {**assumptions(), **limits()}
    status: str
    for name in check.bounds:
        if name in facts:
            status, key, meaning = facts[name].status, facts[name].source, facts[name].meaning
        elif name in quantities().formulas:
            formula = quantities().formulas[name]
            meaning = formula.meaning[:1].lower() + formula.meaning[1:].rstrip(".")
            status, key = formula.sources[0].status, formula.sources[0].key
        else:
            continue
        return f"is held against {meaning} ({_cited(key, status)})."
    return ""


def _rests_on(check: Check) -> str:
    """What a check without a number to hold against goes by."""
    key = next((key for key in check.sources if key != _PRACTICE), _PRACTICE)
    status = "practice" if key == _PRACTICE else check.status or "published"
    return f"goes by {_cited(key, status)}."


def _goes_into(question: Question) -> Iterator[str]:
    """What is worked out from an answer that no check looks at."""
    names = {*question.names, question.id}
    for formula in quantities().formulas.values():
        if names & {item.name for item in formula.inputs}:
            citation = formula.sources[0]
            name = spoken(formula.name)
            yield f"It goes into: {name} ({_cited(citation.key, citation.status)})."


def _cited(key: str, status: str) -> str:
    where = f": {bibliography()[key].rstrip('.')}" if status in _PRINTED else ""
    return f"{STATUSES[status]}{where}"
