"""What to look at again: answers that don't fit together, and what to measure or look up next."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.advice.plans.leaving import look_first
from interview.audit.measure_next import best_tool
from interview.report.blocks import Block, Heading, Items, Paragraph
from interview.report.cited import Cited, joined, keys_of
from interview.report.naming import capital, spoken
from interview.report.page.origins import fact_said
from interview.report.page.sections import percent
from interview.vocabulary.phrases import rounded

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding
    from interview.audit.inconsistencies import Inconsistency

__all__ = ["inconsistency_blocks", "measure_blocks"]


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


def measure_blocks(audit: Audit) -> Iterator[Block]:
    """Answers that may hide a danger first; then what lets the audit say more; then guesses."""
    hiding = {name: finding for finding in look_first(audit.findings) for name in _asked(finding)}
    guessed = {n for f in audit.findings if f.applies and f.verdict == "close" for n in f.assumed}
    names = dict.fromkeys((*hiding, *audit.measure_next, *sorted(guessed)))
    rows = [
        (capital(audit.label_of(name)), tuple(_about(audit, name, hiding.get(name))))
        for name in names
    ]
    if rows:
        yield Heading(2, "What to measure or look up next")
        yield Items(tuple(rows))


def _asked(finding: Finding) -> tuple[str, ...]:
    return finding.missing if finding.verdict == "unmeasured" else finding.assumed


def _about(audit: Audit, name: str, hiding: Finding | None) -> Iterator[str]:
    """What the answer is for, what is assumed until then, and how to get it."""
    if hiding:
        yield "This first: nobody has told, and it may hide a danger."
    if used := _use_of(audit, name):
        yield used
    elif (value := audit.tank.lookup(name)) is not None:
        told = rounded(value, audit.tank.unit_of(name), audit.system, name)
        yield f"Assumed for now: {told}."
    if hiding and hiding.missing == (name,):
        yield hiding.do
    else:
        yield audit.tank.hint_of(name)


def _use_of(audit: Audit, name: str) -> str:
    """What an answer would do for the audit; "" where it would settle nothing by itself."""
    needed = [spoken(f.check) for f in audit.findings if name in f.missing]
    if needed:
        return f"Needed to judge {', '.join(needed)}."
    settled = [f for f in audit.findings if f.settled_by == name]
    if not settled:
        return ""
    tool = best_tool(name)
    said = f"{capital(tool.called) if tool and tool.called else 'It'} would most likely settle"
    told = f"{said} {', '.join(spoken(f.check) for f in settled)}."
    risky = [f"{spoken(f.check)} ({percent(f.warning)})" for f in settled if f.risk == "possible"]
    return f"{told} Until then a danger can't be ruled out: {', '.join(risky)}." if risky else told
