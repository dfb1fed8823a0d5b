"""One audit as a page: what stands where, in words. The renderers only dress it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

from interview.audit.measure_next import part_of
from interview.base.phrases import in_words, told_apart
from interview.care.facts import STATUSES, Fact, assumptions, limits
from interview.report.blocks import Block, Heading, Items, Paragraph, Table, capital
from interview.report.page.caps import held_down
from interview.report.page.figures import KNOWN, drawn, numbers, readings
from interview.report.page.origins import assumption_blocks, cited
from interview.report.page.plans import calendar_blocks, change_blocks, spoken
from interview.report.page.windows import window_blocks

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding, OfAnimal
    from interview.audit.inconsistencies import Inconsistency
    from interview.audit.tank import Tank

__all__ = ["VERDICTS", "page_of", "sureness"]

VERDICTS = {
    "danger": "DANGER",
    "wrong": "wrong",
    "close": "close",
    "good": "good",
    "unmeasured": "not judged",
}
_ORDER = tuple(VERDICTS)

_MOST_TO_MEASURE = 5


def page_of(
    audit: Audit, date: str = "", *, advice: Advice | None = None, whole: bool = True
) -> Iterator[Block]:
    """The audit's page from grade to sources; not `whole`: what fits a few screens."""
    told = []
    for block in _page(audit, date, advice, whole):
        told.append(repr(block))
        yield block
    if whole:
        yield from _sources(audit, " ".join(told))


def _page(audit: Audit, date: str, advice: Advice | None, whole: bool) -> Iterator[Block]:
    yield Heading(1, audit.title)
    yield Paragraph(f"{audit.grades.headline}{f' Audited on {date}.' if date else ''}", True)
    yield Paragraph(audit.grades.say)
    yield from _held_down(audit, "")
    yield from _misfits(audit)
    yield from _to_do(audit, whole)
    if advice:
        yield from change_blocks(audit, advice)
    yield from numbers(audit, whole=whole)
    yield from _sections(audit) if whole else _sections_in_short(audit)
    if advice:
        yield from calendar_blocks(advice)
    yield from _notes(audit, whole)
    if whole:
        yield from readings(audit)
        measured = [finding.measures for finding in audit.findings if finding.applies]
        yield from assumption_blocks(audit, dict.fromkeys((*KNOWN, *measured)))
        yield from drawn(audit)
        if advice:
            yield from window_blocks(audit, advice)
        yield from _how_to_read(audit)


def _misfits(audit: Audit) -> Iterator[Block]:
    """Answers to confirm before anything is believed, with what rests on each."""
    if audit.inconsistencies:
        yield Heading(2, "Confirm these answers first")
        yield Paragraph(
            "They don't fit together, so they are likely slips. Look again and correct them. Until "
            "then nothing that rests on them is called good."
        )
        rows = ((_labels(audit, m.about), tuple(_doubts(audit, m))) for m in audit.inconsistencies)
        yield Items(tuple(rows))


def _doubts(audit: Audit, inconsistency: Inconsistency) -> Iterator[str]:
    yield inconsistency.say
    if inconsistency.limits:
        facts = "; ".join(_fact(fact, audit.system) for fact in inconsistency.limits)
        yield f"Held against: {facts}."
    resting = [spoken(f.check) for f in audit.findings if set(f.doubted) & set(inconsistency.rests)]
    if resting:
        yield f"On it rest: {', '.join(resting)}."


def _fact(fact: Fact, system: str) -> str:
    shown = in_words(fact.value, fact.unit, system, fact.name)
    return f"{shown}, {fact.meaning} ({cited(fact.status, [fact.source])})"


def _labels(audit: Audit, names: tuple[str, ...]) -> str:
    return capital(", ".join(dict.fromkeys(audit.label_of(name) for name in names)))


# ---- what to do


def _to_do(audit: Audit, whole: bool) -> Iterator[Block]:
    danger = _of(audit, "danger")
    if danger:
        yield Heading(2, "Stop: mend this first")
        yield Items(tuple(map(_task, danger)), numbered=True)
    wrong = _of(audit, "wrong")
    if wrong:
        yield Heading(2, "Put right")
        yield Items(tuple(map(_task, wrong)), numbered=True)
    close = [f for f in _of(audit, "close") if not _rests_on_guess(f)]
    if close:
        yield Heading(2, "Keep an eye on")
        yield Items(tuple(map(_task, close)))
    if not (danger or wrong or close):
        yield Paragraph("Nothing needs changing.")
    yield from _to_measure(audit, whole)


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
    parts: dict[str, list[str]] = {}
    for finding in audit.findings:
        if finding.doubt and finding.doubt[0].quantity == name:
            part = part_of(finding.doubt[0].share)
            parts.setdefault(part, []).append(spoken(finding.check))
    said = [f"{part.lower()} of the doubt about {', '.join(parts[part])}" for part in parts]
    return f"{' and '.join(said)} comes from it."


def _of(audit: Audit, verdict: str) -> list[Finding]:
    found = [f for f in audit.findings if f.verdict == verdict and f.applies]
    return sorted(found, key=lambda f: -f.weight)


def _task(finding: Finding) -> tuple[str, tuple[str, ...]]:
    lines = [finding.say]
    if finding.warning:
        lines.append(
            f"The chance that this is dangerous is {_percent(finding.warning)}: measure "
            f"it again before trusting it."
        )
    if finding.do:
        lines.append(finding.do)
    return capital(spoken(finding.check)), tuple(lines)


# ---- section by section


def _sections(audit: Audit) -> Iterator[Block]:
    yield Heading(2, "Every check, section by section")
    for section, grade in audit.grades.sections:
        yield Heading(3, f"{capital(section)}: {grade}")
        yield from _held_down(audit, section)
        judged, idle = _split(audit, section)
        if judged:
            yield Items(tuple(_judged(f, audit) for f in judged), nested=True)
        if idle:
            said = "; ".join(f"{spoken(f.check)} ({f.say.rstrip('.')})" for f in idle)
            yield Paragraph(f"Nothing to judge for this tank: {said}.")


def _held_down(audit: Audit, section: str) -> Iterator[Block]:
    for said in held_down(audit, section):
        yield Paragraph(said)


def _split(audit: Audit, section: str) -> tuple[list[Finding], list[Finding]]:
    """A section's findings that apply, the gravest first, and those that don't."""
    findings = [f for f in audit.findings if f.section == section]
    judged = [f for f in findings if f.applies]
    judged.sort(key=lambda f: (_ORDER.index(f.verdict), -f.weight))
    return judged, [f for f in findings if not f.applies]


def _sections_in_short(audit: Audit) -> Iterator[Block]:
    """A line for each section: its grade, and its checks by verdict."""
    yield Heading(2, "Section by section")
    rows = []
    for section, grade in audit.grades.sections:
        judged, _ = _split(audit, section)
        parts = []
        for verdict, word in VERDICTS.items():
            names = [spoken(f.check) for f in judged if f.verdict == verdict]
            if names:
                parts.append(f"{word}: {', '.join(names)}")
        rows.append((capital(section), grade, "; ".join(parts) or "nothing to judge"))
    yield Table(("Section", "Grade", "Checks"), tuple(rows))


def _judged(finding: Finding, audit: Audit) -> tuple[str, tuple[str, ...]]:
    lines = [finding.say]
    if finding.verdict != "good":
        lines.append(f"Why it matters: {finding.why}")
    if finding.also:
        lines.append(finding.also)
    lines += [line for line in (sureness(finding), finding.settle) if line]
    if finding.each:
        told = "; ".join(_of_one(one, finding, audit.system) for one in finding.each)
        lines.append(f"Animal by animal: {told}.")
    if finding.verdict != "unmeasured":
        lines.append(_provenance(finding, audit))
    lead = f"{VERDICTS[finding.verdict]} · {capital(spoken(finding.check))}"
    return lead, tuple(lines)


def _of_one(one: OfAnimal, finding: Finding, system: str) -> str:
    """What one of several animals got, and by which band."""
    told = f"{one.animal.name} {VERDICTS[one.verdict]}"
    if one.value is None or one.band is None:
        return told
    ends = [edge for edge in one.band if edge is not None]
    value, *edges = told_apart((one.value, *ends), finding.unit, system, finding.measures)
    side = "" if len(edges) == 2 else "at least " if one.band[1] is None else "at most "
    return f"{told} ({value}, {side}{' to '.join(edges)} wanted)"


def _provenance(finding: Finding, audit: Audit) -> str:
    """Each limit with value, meaning, status and source; then what else it rests on."""
    tank = audit.tank.only(finding.animal)
    held = [_limit(name, tank) for name in finding.limits]
    if not held:
        held = [capital(STATUSES[finding.status])]
    keys = f" Sources: {', '.join(finding.sources)}." if finding.sources else ""
    return f"Held against: {'; '.join(dict.fromkeys(held))}.{keys}"


def _limit(name: str, tank: Tank) -> str:
    fact = {**assumptions(), **limits()}.get(name)
    formula = tank.best.wiring.formulas.get(name)
    if fact:
        return _fact(fact, tank.system)
    shown = in_words(tank.lookup(name), tank.unit_of(name), tank.system, name)
    if formula:
        about = formula.meaning.rstrip(" .")
        about = about if about[1:2].isupper() else about[:1].lower() + about[1:]
        first = formula.sources[0].status
        keys = [citation.key for citation in formula.sources if citation.status == first]
        return f"{shown}, {about} ({cited(first, keys)})"
    return f"{shown}, {tank.label_of(name)} (as you answered)"


def sureness(finding: Finding) -> str:
    """How sure the verdict is, for a reader who never met a percentile."""
    chance = finding.chance
    if chance is None or (chance >= 0.995 and finding.verdict != "close"):
        return ""
    percent = _percent(chance)
    if finding.verdict == "good":
        return f"About {percent} sure, given how exactly this was measured."
    if finding.verdict == "danger":
        return f"The chance that the safety limit is crossed is about {percent}."
    if finding.verdict == "wrong":
        return f"About {percent} sure that it is outside."
    if chance < _CLEAR and finding.band is None:
        return ""
    if chance < _CLEAR:
        return "Clearly outside the good range, and inside what is still tolerated."
    return f"The chance that it is in the good range is about {percent}, given how it was measured."


_CLEAR = 0.05


def _percent(chance: float) -> str:
    return f"{100 * chance:.0f}%"


# ---- the rest


def _notes(audit: Audit, whole: bool) -> Iterator[Block]:
    """The safety notes with their sources; in short what is so and what to do first."""
    yield Heading(2, "Safety notes" if whole else "Safety notes, in short")
    rows = []
    for note in audit.notes:
        origin = capital(cited(note.status, note.sources))
        said = (note.say, f"({origin}.)") if whole else (_beginning(note.say),)
        rows.append((note.title, said))
    yield Items(tuple(rows))


def _beginning(text: str, sentences: int = 2) -> str:
    parts = text.split(". ")
    return ". ".join(parts[:sentences]).rstrip(".") + "."


def _how_to_read(audit: Audit) -> Iterator[Block]:
    yield Heading(2, "How to read this")
    yield Items(tuple((letter, (say,)) for letter, say in audit.grades.meanings))
    yield Paragraph(
        "Nothing is measured exactly, so every answer counts as a range of values it may have. "
        "A chance of 80% means: in 80 of 100 tanks that would give your answers it is so. "
        "A finding is good or wrong when at least nine in ten of the likely values say so, "
        "and close when the measurements leave it open; then it names the answer that the largest "
        "part of the doubt comes from, as that is the one to measure better. Danger is called "
        "as soon as a safety limit is more likely crossed than not. Tankside computes from what "
        "was typed; it does not replace a licensed electrician, a structural engineer, a reptile "
        "veterinarian or the local code."
    )


def _sources(audit: Audit, told: str) -> Iterator[Block]:
    """The full citations of the sources the page has named."""
    yield Heading(2, "Sources")
    named = {key: text for key, text in audit.sources.items() if re.search(rf"\b{key}\b", told)}
    yield Items(tuple((key, (text,)) for key, text in named.items()))
