"""What to do about a tank: answers to confirm, what to mend, what to measure next."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.audit.checks.gravity import gravity
from interview.audit.measure_next import best_tool
from interview.report.blocks import Block, Heading, Items, Paragraph
from interview.report.cited import Cited, joined, keys_of
from interview.report.naming import capital, spoken
from interview.report.page.origins import fact_said
from interview.report.page.sections import percent
from interview.vocabulary.phrases import in_words

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding
    from interview.audit.inconsistencies import Inconsistency

__all__ = ["inconsistency_blocks", "to_do_blocks"]

_MOST_TO_MEASURE = 5


def inconsistency_blocks(audit: Audit) -> Iterator[Block]:
    """Answers to confirm before anything is believed, with what rests on each."""
    if audit.inconsistencies:
        yield Heading(2, "Confirm these answers first")
        yield Paragraph(
            "They don't fit together, so they are likely slips. Look again and correct them. Until "
            "then nothing that rests on them is called good."
        )
        held = [_held_against(m, audit.system) for m in audit.inconsistencies]
        rows = (
            (_labels(audit, m.about), tuple(_doubts(audit, m, facts)))
            for m, facts in zip(audit.inconsistencies, held, strict=True)
        )
        yield Items(tuple(rows), sources=keys_of(held))


def _held_against(inconsistency: Inconsistency, system: str) -> Cited:
    return joined(fact_said(fact, system) for fact in inconsistency.limits)


def _doubts(audit: Audit, inconsistency: Inconsistency, facts: Cited) -> Iterator[str]:
    yield inconsistency.say
    if facts.text:
        yield f"Held against: {facts.text}."
    resting = [spoken(f.check) for f in audit.findings if set(f.doubted) & set(inconsistency.rests)]
    if resting:
        yield f"On it rest: {', '.join(resting)}."


def _labels(audit: Audit, names: tuple[str, ...]) -> str:
    return capital(", ".join(dict.fromkeys(audit.label_of(name) for name in names)))


def to_do_blocks(audit: Audit, whole: bool) -> Iterator[Block]:
    """What to mend, the gravest first, what to watch, and what to measure."""
    danger = _of(audit, "danger")
    likely = sorted((f for f in _worries(audit) if f.risk == "likely"), key=gravity)
    wrong = [f for f in _of(audit, "wrong") if f.risk != "likely"]
    watched = [f for f in _worries(audit) if _to_watch(f)]
    if danger:
        yield Heading(2, "Stop: mend this first")
        yield Items(tuple(map(_task, danger)), numbered=True)
    if likely:
        yield Heading(2, "Settle today")
        yield Items(tuple(map(_task, likely)), numbered=True)
    if wrong:
        yield Heading(2, "Put right")
        yield Items(tuple(map(_task, wrong)), numbered=True)
    if watched:
        yield Heading(2, "Keep an eye on")
        yield Items(tuple(map(_task, watched)))
    if not (danger or likely or wrong or watched):
        yield Paragraph("Nothing needs changing.")
    yield from _to_measure(audit, whole)


def _worries(audit: Audit) -> list[Finding]:
    """What is no danger, the weightiest first."""
    found = [f for f in audit.findings if f.applies and f.verdict != "danger"]
    return sorted(found, key=lambda f: -f.weight)


def _to_watch(finding: Finding) -> bool:
    """Whether it is off by a little, surely enough; what is only open is measured instead."""
    if finding.risk == "likely" or finding.verdict == "wrong" or _rests_on_guess(finding):
        return False
    if finding.risk == "possible":
        return not finding.settled_by
    return finding.verdict == "close" and finding.certainty != "open"


def _rests_on_guess(finding: Finding) -> bool:
    """Whether the finding is only as good as an answer that nobody gave."""
    return bool(finding.assumed)


def _to_measure(audit: Audit, whole: bool) -> Iterator[Block]:
    """Missing answers, readings that would settle a finding, then what the audit assumed."""

    def how(name: str) -> str:
        return audit.tank.hint_of(name) if whole else ""

    rows: list[tuple[str, tuple[str, ...]]] = [
        (capital(audit.label_of(name)), (_use_of(audit, name), how(name)))
        for name in audit.measure_next[:_MOST_TO_MEASURE]
    ]
    guessed = {n for f in _of(audit, "close") if _rests_on_guess(f) for n in f.assumed}
    for name in sorted(guessed - set(audit.measure_next)):
        value = in_words(audit.tank.lookup(name), audit.tank.unit_of(name), audit.system, name)
        rows.append((capital(audit.label_of(name)), (f"assumed for now: {value}.",)))
    if rows:
        yield Heading(2, "Measure or look up next")
        yield Paragraph("These answers would let the audit say more, the most useful first.")
        yield Items(tuple(rows))


def _use_of(audit: Audit, name: str) -> str:
    """What an answer would do for the audit."""
    needed = [spoken(f.check) for f in audit.findings if name in f.missing]
    if needed:
        return f"needed to judge {', '.join(needed)}."
    settled = [f for f in audit.findings if f.settled_by == name]
    tool = best_tool(name)
    said = f"{capital(tool.called) if tool and tool.called else 'It'} would most likely settle"
    told = f"{said} {', '.join(spoken(f.check) for f in settled)}."
    risky = [f"{spoken(f.check)} ({percent(f.warning)})" for f in settled if f.risk == "possible"]
    return f"{told} Until then a danger can't be ruled out: {', '.join(risky)}." if risky else told


def _of(audit: Audit, verdict: str) -> list[Finding]:
    found = [f for f in audit.findings if f.verdict == verdict and f.applies]
    return sorted(found, key=gravity)


def _task(finding: Finding) -> tuple[str, tuple[str, ...]]:
    lines = [finding.say]
    if finding.risk:
        lines.append(f"The chance that this is dangerous is {percent(finding.warning)}.")
    if finding.do:
        lines.append(finding.do)
    if finding.settled_by and finding.certainty == "open":
        lines.append(finding.settle)
    return capital(spoken(finding.check)), tuple(lines)
