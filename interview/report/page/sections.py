"""Every check, section by section, with what it was held against and how sure it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from interview.care.facts import STATUSES, assumptions, limits
from interview.report.blocks import Block, Heading, Items, Paragraph
from interview.report.caps import held_down_blocks
from interview.report.cited import Cited, cited, is_named, joined, keys_of, source_name
from interview.report.first_page.sentences import enumerated, sentences
from interview.report.naming import MAY_BE, capital, inside, spoken, verdict_of
from interview.report.page.origins import limit_said
from interview.vocabulary.phrases import rounded, told_apart

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding, OfAnimal
    from interview.audit.tank import Tank

__all__ = [
    "VERDICTS",
    "finding_blocks",
    "judged_as",
    "percent",
    "section_blocks",
    "section_blocks_in_short",
    "sureness",
]

VERDICTS = {
    "danger": "DANGER",
    MAY_BE: MAY_BE,
    "wrong": "wrong",
    "close": "close",
    "good": "good",
    "unmeasured": "not judged",
}
_ORDER = tuple(VERDICTS)
_REST = {"good": "Good", "unmeasured": "Not judged"}
_CLEAR = 0.05


def section_blocks(audit: Audit) -> Iterator[Block]:
    """Every finding under its section, the gravest first."""
    yield Heading(2, "Every check, section by section")
    for section, grade in audit.grades.sections:
        yield Heading(3, f"{capital(section)}: {grade}")
        yield from _grade_explained(audit, section, grade)
        judged, idle = _split(audit, section)
        yield from finding_blocks(audit, judged, whole=False)
        if idle:
            said = "; ".join(f"{spoken(f.check)} ({f.say.rstrip('.')})" for f in idle)
            yield Paragraph(f"Nothing to judge for this tank: {said}.")


def finding_blocks(
    audit: Audit, findings: Sequence[Finding], *, whole: bool = True
) -> Iterator[Block]:
    """Some findings in full: why each matters, how sure it is, what it was held against.

    Args:
        audit: the tank
        findings: those to tell of
        whole: also what else is known of what is surely good, what its limits mean, how to read
            what would settle a doubt; without, as on a page that tells of each check
    """
    if findings:
        origins = [_provenance(f, audit, whole or f.verdict != "good") for f in findings]
        rows = (_judged(f, o, audit, whole) for f, o in zip(findings, origins, strict=True))
        yield Items(tuple(rows), nested=True, sources=keys_of(origins))


def _grade_explained(audit: Audit, section: str, grade: str) -> Iterator[Block]:
    """What held a section down; or why it is an A in spite of something that is off."""
    yield from held_down_blocks(audit, section)
    off = [f.check for f in audit.findings if f.section == section and f.verdict == "close"]
    if grade == "A" and off:
        names = ", ".join(map(spoken, off))
        yield Paragraph(f"A all the same: what is off weighs little here ({names}).")


def _split(audit: Audit, section: str) -> tuple[list[Finding], list[Finding]]:
    """A section's findings that apply, and those that don't.

    The gravest stand first; of one verdict those that rest on nothing that was guessed.
    """
    findings = [f for f in audit.findings if f.section == section]
    judged = [f for f in findings if f.applies]
    judged.sort(
        key=lambda f: (_ORDER.index(verdict_of(f)), bool(f.guessed or f.assumed), -f.weight)
    )
    return judged, [f for f in findings if not f.applies]


def section_blocks_in_short(audit: Audit) -> Iterator[Block]:
    """Each section with its grade: what is off and how to mend it, and the names of the rest."""
    yield Heading(2, "Section by section")
    for section, grade in audit.grades.sections:
        judged, _ = _split(audit, section)
        off = [f for f in judged if f.verdict not in ("good", "unmeasured")]
        rest = (
            f"{word}: {', '.join(_named(f) for f in judged if f.verdict == verdict)}."
            for verdict, word in _REST.items()
            if any(f.verdict == verdict for f in judged)
        )
        yield Heading(3, f"{capital(section)}: {grade}")
        yield from _grade_explained(audit, section, grade)
        if off:
            yield Items(tuple(_in_short(finding) for finding in off))
        yield Paragraph(" ".join(rest) or "Nothing else to judge.")


def _in_short(finding: Finding) -> tuple[str, tuple[str, ...]]:
    return _lead(finding), (finding.say, finding.do)


def _lead(finding: Finding) -> str:
    """The verdict and the check, as “wrong · Escape”; how likely it is good where it is."""
    judged = judged_as(verdict_of(finding), finding.certainty)
    if finding.verdict == "good" and finding.certainty == "likely" and finding.chance:
        judged += f" ({percent(finding.chance)})"
    return f"{judged} · {capital(spoken(finding.check))}"


def _named(finding: Finding) -> str:
    """A check with how certain its verdict is, where that is not sure."""
    told = finding.verdict != "unmeasured" and finding.certainty != "sure"
    return f"{spoken(finding.check)} ({finding.certainty})" if told else spoken(finding.check)


def judged_as(verdict: str, certainty: str) -> str:
    """A verdict in words, with how certain it is where that is not sure."""
    if verdict in ("unmeasured", MAY_BE) or certainty == "sure":
        return VERDICTS[verdict]
    return f"{VERDICTS[verdict]}, {certainty}"


def _judged(
    finding: Finding, origin: Cited, audit: Audit, whole: bool
) -> tuple[str, tuple[str, ...]]:
    lines = [" ".join(part for part in (finding.say, finding.do) if part)]
    if finding.verdict != "good":
        lines.append(f"Why it matters: {finding.why}")
    if finding.also and (whole or (finding.verdict, finding.certainty) != ("good", "sure")):
        lines.append(finding.also)
    sure = sureness(finding) if finding.verdict != "good" or finding.certainty == "open" else ""
    settle = finding.settle if whole or not finding.settled_by else sentences(finding.settle)[0]
    lines += [line for line in (sure, _danger_left(finding), settle) if line]
    if finding.each:
        told = "; ".join(_of_one(one, finding, audit.system) for one in finding.each)
        lines.append(f"Animal by animal: {told}.")
    if origin.text:
        lines.append(origin.text)
    return _lead(finding), tuple(lines)


def _of_one(one: OfAnimal, finding: Finding, system: str) -> str:
    """What one of several animals got, and by which band."""
    told = f"{one.animal.name} {judged_as(one.verdict, one.certainty)}"
    if one.value is None or one.band is None:
        return told
    ends = [edge for edge in one.band if edge is not None]
    value, *edges = told_apart((one.value, *ends), finding.unit, system, finding.measures)
    side = "" if len(edges) == 2 else "at least " if one.band[1] is None else "at most "
    return f"{told} ({value}, {side}{' to '.join(edges)} wanted)"


def _provenance(finding: Finding, audit: Audit, meanings: bool) -> Cited:
    """Each limit with value, meaning, status and source; then what else it rests on."""
    if finding.verdict == "unmeasured":
        return Cited("")
    tank = audit.tank.only(finding.animal)
    each = [_limit(name, tank) for name in finding.limits]
    held = joined(limit.whole for limit in each) if meanings else _values(each)
    said = held.text or capital(STATUSES[finding.status])
    new = (key for key in finding.sources if key not in held.sources and is_named(key))
    more = tuple(new)
    names = ", ".join(map(source_name, more))
    keys = f" Sources: {names}." if names else ""
    return Cited(f"Held against: {said}.{keys}", (*held.sources, *more))


@dataclass(frozen=True)
class _Limit:
    """What a check is held against: the value, what it means, where it comes from."""

    value: str
    meaning: str
    origin: Cited

    @property
    def whole(self) -> Cited:
        """All three."""
        return self.origin.inside(f"{self.value}, {self.meaning} (", ")")


def _values(limits_held: Sequence[_Limit]) -> Cited:
    """The values alone, those of one origin together."""
    of: dict[Cited, list[str]] = {}
    for limit in limits_held:
        of.setdefault(limit.origin, []).append(limit.value)
    return joined(
        origin.inside(f"{enumerated([*dict.fromkeys(values)])} (", ")")
        for origin, values in of.items()
    )


def _limit(name: str, tank: Tank) -> _Limit:
    fact = {**assumptions(), **limits()}.get(name)
    formula = tank.best.wiring.formulas.get(name)
    if fact:
        return _Limit(
            limit_said(fact, tank.system), fact.meaning, cited(fact.status, [fact.source])
        )
    shown = rounded(tank.lookup(name), tank.unit_of(name), tank.system, name)
    if formula:
        about = inside(formula.meaning.rstrip(" ."))
        first = formula.sources[0].status
        keys = [citation.key for citation in formula.sources if citation.status == first]
        return _Limit(shown, about, cited(first, keys))
    return _Limit(shown, tank.label_of(name), Cited("as you answered"))


def sureness(finding: Finding) -> str:
    """How sure the verdict is, for a reader who never met a percentile."""
    chance = finding.chance
    if chance is None or (chance >= 0.995 and finding.verdict != "close"):
        return ""
    told = percent(chance)
    if finding.verdict == "danger":
        return f"The chance that the safety limit is crossed is about {told}."
    if finding.verdict == "wrong":
        return f"About {told} sure that it is outside."
    if chance < _CLEAR and finding.band is None:
        return ""
    if chance < _CLEAR:
        return "Clearly outside the good range, and inside what is still tolerated."
    return f"In the good range with a chance of about {told}."


def _danger_left(finding: Finding) -> str:
    """The chance of danger that counts though it is not the verdict."""
    if not finding.risk:
        return ""
    return f"The chance that it is dangerous is about {percent(finding.warning)}."


def percent(chance: float) -> str:
    """A chance as people say it."""
    return f"{100 * chance:.0f}%"
