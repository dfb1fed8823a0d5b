"""The whole audit of one tank: figures, findings, grades, notes, what to measure next."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Protocol

from interview.audit.checks.findings import Finding
from interview.audit.checks.judging import judge
from interview.audit.checks.loader import all_checks
from interview.audit.figures import Figure, Figures
from interview.audit.grades import Grades, grade_all
from interview.audit.inconsistencies import Inconsistency
from interview.audit.measure_next import settled_by, with_doubt
from interview.audit.notes import Note, choose
from interview.audit.sampling.sample import best_values, samples
from interview.audit.tank import Tank
from interview.care.facts import assumptions, bibliography, doubts
from interview.core.numeric import alike
from interview.core.wiring import quantities
from interview.core.working import Working

__all__ = ["Audit", "Figure", "Judged", "audit", "audit_tank", "judged", "tank_of"]


class GivenLike(Protocol):
    """What the audit is told about one name."""

    @property
    def name(self) -> str: ...
    @property
    def unit(self) -> str: ...
    @property
    def value(self) -> Any: ...
    @property
    def how(self) -> str: ...
    @property
    def said(self) -> str: ...
    @property
    def question(self) -> str: ...


@dataclass(frozen=True)
class Judged:
    """The verdicts on a tank and its grades, and nothing beside."""

    tank: Tank
    findings: tuple[Finding, ...]
    grades: Grades


@dataclass(frozen=True)
class Audit:
    """One tank, judged."""

    title: str
    grades: Grades
    figures: Mapping[str, Figure]
    findings: tuple[Finding, ...]
    measure_next: tuple[str, ...]
    drivers: Mapping[str, str]
    inconsistencies: tuple[Inconsistency, ...]
    notes: tuple[Note, ...]
    readings: tuple[GivenLike, ...]
    sources: Mapping[str, str]
    system: str
    label_of: Callable[[str], str]
    tank: Tank
    stale: tuple[str, ...] = ()
    """Readings taken before what is supposed here was changed."""


def audit(
    given: Mapping[str, GivenLike],
    title: str,
    label_of: Callable[[str], str],
    system: str,
    asked: Mapping[str, str],
    hint_of: Callable[[str], str],
) -> Audit:
    """Judge one tank.

    Args:
        given: every answer with its doubt, by the core's name
        title: what the keeper calls the tank
        label_of: a name in the keeper's words
        system: metric, us or uk: the units sentences are written in
        asked: core unit of every answer there is a question for
        hint_of: how to measure or look up an answer
    """
    tank = replace(tank_of(given, label_of, system, asked), hint_of=hint_of)
    return audit_tank(tank, given, title)


def judged(tank: Tank) -> Judged:
    """Hold a tank that is worked out against every check."""
    findings = tuple(judge(check, tank) for check in all_checks())
    return Judged(tank, findings, grade_all(findings))


def audit_tank(tank: Tank, given: Mapping[str, GivenLike], title: str) -> Audit:
    """Judge a tank that is worked out already; `given` tells how its answers were got."""
    findings = with_doubt((judge(check, tank) for check in all_checks()), tank)
    notes = choose(tank)
    drivers = {finding.check: finding.doubt[0].quantity for finding in findings if finding.doubt}
    return Audit(
        title=title,
        grades=grade_all(findings),
        figures=Figures(given, tank),
        findings=findings,
        measure_next=_measure_next(findings, given),
        drivers=drivers,
        inconsistencies=tank.inconsistencies,
        notes=notes,
        readings=tuple(given.values()),
        sources=_sources(findings, notes, tank, given),
        system=tank.system,
        label_of=tank.label_of,
        tank=tank,
    )


def tank_of(
    given: Mapping[str, GivenLike],
    label_of: Callable[[str], str],
    system: str,
    asked: Mapping[str, str],
    *,
    drawn: bool = True,
    before: Tank | None = None,
) -> Tank:
    """One tank by its answers, not judged yet; arguments as of `audit`.

    Without draws (`drawn`) it is known at its best values alone. Of the tank `before`, by other
    answers, what rests on none that differ is kept.
    """
    wiring = quantities()
    units = {**asked, **wiring.units}
    best = _worked_out(best_values(given, assumptions()), before.best if before else None)
    sample = best
    if drawn:
        draws = samples(given, assumptions(), doubts(), wiring.range_of)
        sample = _worked_out(draws, before.sample if before else None, draws=True)
    return Tank(
        best,
        sample,
        lambda name: units.get(name, "1"),
        label_of,
        system,
        frozenset(item.name for item in given.values() if item.how == "assumed"),
        decided=frozenset(item.name for item in given.values() if item.how == "decided"),
    )


def _worked_out(known: dict[str, Any], before: Working | None, *, draws: bool = False) -> Working:
    """A tank's quantities; those of the tank before that rest on nothing that differs are kept."""
    if before is None or before.draws is not draws:
        new = quantities().working(known, draws=draws)
        return new.remembering(only_dear=True)  # animals that are alike are worked out once
    return before.with_known(
        {
            n: was if alike(was := before.known.get(n), value) else value
            for n, value in known.items()
        }
    )


def _measure_next(findings: Sequence[Finding], given: Mapping[str, GivenLike]) -> tuple[str, ...]:
    """What to measure next, by how many verdicts it would settle, then by their weight.

    Answers nobody gave, or that must be confirmed, come before readings that leave a finding
    in doubt; of these only what was tried and would most likely settle one.
    """
    missing: dict[str, tuple[int, int]] = {}
    for finding in findings:
        for name in finding.missing:
            if name not in given or given[name].how == "assumed" or name in finding.doubted:
                missing[name] = _more(missing.get(name), finding)
    weights = {finding.check: finding for finding in findings}
    unsettled: dict[str, tuple[int, int]] = {}
    for name in dict.fromkeys(f.settled_by for f in findings if f.settled_by):
        for check in settled_by(name, findings):
            unsettled[name] = _more(unsettled.get(name), weights[check])
    ranked = [sorted(c, key=lambda n: (*(-k for k in c[n]), n)) for c in (missing, unsettled)]
    return tuple(dict.fromkeys((*ranked[0], *ranked[1])))


def _more(count: tuple[int, int] | None, finding: Finding) -> tuple[int, int]:
    """One verdict more, and its weight."""
    verdicts, weight = count or (0, 0)
    return verdicts + 1, weight + finding.weight


def _sources(
    findings: Iterable[Finding], notes: Iterable[Note], tank: Tank, given: Mapping[str, GivenLike]
) -> dict[str, str]:
    """Every source that a number of this audit comes from, with its full citation."""
    keys = {key for finding in findings for key in finding.sources}
    keys |= {key for note in notes for key in note.sources}
    keys |= {fact.source for inconsistency in tank.inconsistencies for fact in inconsistency.limits}
    for name, formula in tank.best.wiring.formulas.items():
        if tank.best.get(name) is not None:
            keys |= {citation.key for citation in formula.sources}
    taken = {name for name in assumptions() if name not in given}
    keys |= {assumptions()[name].source for name in taken}
    read = [doubts().get(item.name) or doubts().get(item.question) for item in given.values()]
    keys |= {fact.source for fact in read if fact}
    return {key: bibliography()[key] for key in sorted(keys)}
