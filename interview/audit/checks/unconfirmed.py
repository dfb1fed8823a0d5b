"""Findings that rest on an answer which does not fit the others: never good until confirmed."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from interview.audit.checks.check import Check
from interview.audit.checks.findings import Finding, unjudged
from interview.audit.tank import Tank
from interview.core.wiring import Wiring

__all__ = ["in_doubt"]


def in_doubt(finding: Finding, check: Check, tank: Tank) -> Finding:
    """The finding, saying so where it rests on an answer that can't be right, or hardly.

    What looks good is not judged on an impossible answer, and close on an unlikely one;
    what is wrong or dangerous stays so, though nothing is certain on an impossible answer.
    """
    if not tank.inconsistencies or not finding.applies or finding.verdict == "unmeasured":
        return finding
    behind = _behind(check.id, check.decides, tank.best.wiring)
    met = [m for m in tank.inconsistencies if set(m.rests) & behind]
    if not met:
        return finding
    impossible = any(inconsistency.fit == "impossible" for inconsistency in met)
    met = [m for m in met if m.fit == "impossible"] if impossible else met
    names = tuple(dict.fromkeys(name for m in met for name in m.rests if name in behind))
    labels = " and ".join(dict.fromkeys(f"“{tank.label_of(name)}”" for name in names))
    finding = replace(finding, fit="impossible" if impossible else "unlikely", doubted=names)
    do = f"Confirm or correct {labels} first."
    if finding.verdict != "good":
        how = "can't be right" if impossible else "hardly fits the other answers"
        said = f"{finding.say} This rests on {labels}, which {how}: look at it again."
        certainty = "open" if impossible else finding.certainty
        return replace(finding, say=said, certainty=certainty)
    if impossible:
        said = f"Not judged yet: this rests on {labels}, which can't be right."
        return replace(unjudged(finding, said, names), do=do)
    said = f"All right if {labels} is so, which hardly fits the other answers. {finding.say}"
    return replace(finding, verdict="close", certainty="open", say=said, do=do)


@cache
def _behind(_: str, names: frozenset[str], wiring: Wiring) -> frozenset[str]:
    """The names that decide a check, and all they follow from."""
    known = wiring.formulas
    return names.union(*(wiring.upstream(name) for name in names if name in known))
