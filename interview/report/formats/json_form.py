"""The audit as JSON, in core units; the same audit gives the same bytes."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from interview.audit.checks.verdicts import LEVELS
from interview.report.caps import cap_said
from interview.report.formats.interface import Format, Page
from interview.report.formats.json_values import number
from interview.report.page.origins import assumed_for, doubt_for

if TYPE_CHECKING:
    from interview.advice.advise import Advice
    from interview.advice.plans.leaving import NotMended
    from interview.advice.plans.plan import Change, Plan
    from interview.audit.animal import Animal
    from interview.audit.audit import Audit, Figure
    from interview.audit.checks.findings import Finding, OfAnimal
    from interview.audit.grades import Cap
    from interview.audit.inconsistencies import Inconsistency
    from interview.care.facts import Fact

__all__ = ["DRESS", "FORMAT", "audit_json"]

FORMAT = "tankside/audit/1"


def audit_json(audit: Audit, advice: Advice | None = None) -> str:
    """The audit as an indented JSON document; `advice` gives its changes."""
    return _document(_tree(audit, advice))


def _document(tree: dict[str, Any]) -> str:
    return json.dumps(tree, indent=1, ensure_ascii=False, allow_nan=False) + "\n"


class _Json(Format):
    suffix = ".json"
    around = ('{"audits": [', ",", "]}\n")

    def dress(self, page: Page) -> str:
        """Everything there is, in core units."""
        named = {"file": page.file} if page.file else {}
        return _document(named | _tree(page.audit, page.advice))

    def alone(self, page: Page) -> str:
        """The same list with the one audit, whose keys stand beside it too."""
        tree = _tree(page.audit, page.advice)
        return _document(tree | {"audits": [{"file": page.file} | tree]})

    def missing(self, file: str, why: str) -> str:
        """The file and what is wrong with it."""
        return _document({"file": file, "error": why})


DRESS = _Json()


def _tree(audit: Audit, advice: Advice | None) -> dict[str, Any]:
    plan = advice.plans[-1] if advice and advice.plans else None
    after = plan.grades if plan else audit.grades
    return {
        "format": FORMAT,
        "title": audit.title,
        "grade": audit.grades.overall,
        "stop": audit.grades.stop,
        "sections": [{"section": s, "grade": g} for s, g in audit.grades.sections],
        "caps": [_cap(audit, cap) for cap in audit.grades.caps],
        "quantities": {name: _figure(f, audit) for name, f in sorted(audit.figures.items())},
        "assumptions": {fact.name: _assumption(fact) for fact in assumed_for(audit)},
        "findings": [_finding(f) for f in audit.findings],
        "changes": [_change(change) for change in plan.changes] if plan else [],
        "after_changes": {"grade": after.overall, "stop": after.stop},
        "plans": [_plan(one) for one in advice.plans] if advice else [],
        "measure_next": list(audit.measure_next),
        "misfits": [_misfit(inconsistency) for inconsistency in audit.inconsistencies],
        "notes": [f"{note.title}: {note.say}" for note in audit.notes],
        "notes_from": [
            {"note": note.id, "status": note.status, "sources": list(note.sources)}
            for note in audit.notes
        ],
        "sources": dict(audit.sources),
    }


def _cap(audit: Audit, cap: Cap) -> dict[str, Any]:
    return {
        "section": cap.section or None,
        "grade": cap.letter,
        "checks": list(cap.checks),
        "missing": list(cap.missing),
        "say": cap_said(audit, cap),
    }


def _misfit(inconsistency: Inconsistency) -> dict[str, Any]:
    return {
        "misfit": inconsistency.id,
        "quantity": inconsistency.quantity,
        "about": list(inconsistency.about),
        "fit": inconsistency.fit,
        "say": inconsistency.say,
        "slip": inconsistency.slip,
        "limits": [_fact(fact) for fact in inconsistency.limits],
    }


def _fact(fact: Fact) -> dict[str, Any]:
    return {
        "name": fact.name,
        "value": number(fact.value),
        "unit": fact.unit,
        "status": fact.status,
        "source": fact.source,
    }


def _change(change: Change) -> dict[str, Any]:
    return {
        "quantity": change.quantity,
        "from": number(change.before),
        "to": number(change.after),
        "unit": change.unit,
        "say": change.say,
    }


def _plan(plan: Plan) -> dict[str, Any]:
    """A plan that is shown, with the answers that move along and the grade of the changed tank."""
    return {
        "name": plan.name,
        "changes": [_change(change) for change in plan.changes],
        "moved": [_change(change) for change in plan.moved],
        "grade": plan.grades.overall,
        "stop": plan.grades.stop,
        "sections": [{"section": s, "grade": g} for s, g in plan.grades.sections],
        "needed": plan.needed,
        "left": [_left(one) for one in plan.rest],
        "take_again": list(plan.take_again),
        "cost": number(plan.cost),
        "proven": plan.proven,
    }


def _left(left: NotMended) -> dict[str, Any]:
    """What a plan leaves, and why: the reason, answers it rests on, checks it would spoil."""
    return {
        "check": left.finding.check,
        "verdict": left.finding.verdict,
        "reason": left.reason,
        "rests_on": list(left.rests_on),
        "against": list(left.against),
    }


def _assumption(fact: Fact) -> dict[str, Any]:
    return {**_fact(fact), "meaning": fact.meaning, **_error(fact)}


def _error(fact: Fact) -> dict[str, Any]:
    """One sigma of a reading or an assumption, as far as it has any."""
    error = {"spread": fact.spread, "relative": fact.relative, "factor": fact.factor}
    return {name: number(value) for name, value in error.items() if value not in (0.0, 1.0)}


def _figure(figure: Figure, audit: Audit) -> dict[str, Any]:
    row: dict[str, Any] = {
        "value": number(figure.value),
        "low": number(figure.low),
        "high": number(figure.high),
        "unit": figure.unit,
        "how": figure.how,
    }
    formula = audit.tank.best.wiring.formulas.get(figure.name)
    item = next((i for i in audit.readings if i.name == figure.name), None)
    if figure.how == "computed" and formula:
        row["status"] = formula.sources[0].status
        row["sources"] = list(dict.fromkeys(c.key for c in formula.sources))
    elif item and (fact := doubt_for(item)):
        row["error"] = {**_error(fact), "status": fact.status, "source": fact.source}
    if figure.missing:
        row["missing"] = list(figure.missing)
    if figure.reason:
        row["reason"] = figure.reason
    return row


def _finding(finding: Finding) -> dict[str, Any]:
    row: dict[str, Any] = {
        "check": finding.check,
        "section": finding.section,
        "verdict": finding.verdict,
        "chance": finding.chance if finding.applies else None,
        "certainty": finding.certainty,
        "chances": _chances(finding),
        "measures": finding.measures,
        "value": number(finding.value),
        "band": [number(edge) for edge in finding.band] if finding.band else None,
        "unit": finding.unit,
        "say": finding.say if finding.applies else f"Does not apply here: {finding.say}",
        "do": " ".join(part for part in (finding.do, finding.settle) if part),
        "also": finding.also,
        "sources": list(finding.sources),
        "status": finding.status,
        "applies": finding.applies,
    }
    if finding.animal:
        row["animal"] = _animal(finding.animal)
    if finding.each:
        row["each_animal"] = [_of_animal(one) for one in finding.each]
    if finding.assumed or finding.guessed:
        row["assumed"] = [*finding.assumed, *finding.guessed]
    if finding.doubt:
        row["doubt"] = [{"quantity": s.quantity, "share": s.share} for s in finding.doubt]
    if finding.settled_by:
        row["settled_by"] = finding.settled_by
    if finding.doubted:
        row["doubted"] = list(finding.doubted)
        row["fit"] = finding.fit
    if finding.warning:
        row["warning"] = number(finding.warning)
        row["risk"] = finding.risk
    if finding.missing:
        row["missing"] = list(finding.missing)
    return row


def _chances(finding: Finding) -> dict[str, Any] | None:
    """How probable each level is; None where nothing was judged."""
    if finding.chances is None or not finding.applies:
        return None
    return {level: number(getattr(finding.chances, level)) for level in LEVELS}


def _animal(animal: Animal) -> dict[str, Any]:
    return {
        "number": animal.row + 1,
        "name": animal.name,
        "species": animal.species,
        "carapace_length": number(animal.carapace_length),
    }


def _of_animal(one: OfAnimal) -> dict[str, Any]:
    return {
        "number": one.animal.row + 1,
        "verdict": one.verdict,
        "certainty": one.certainty,
        "value": number(one.value),
        "band": [number(edge) for edge in one.band] if one.band else None,
    }
