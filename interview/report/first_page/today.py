"""What can't wait: every danger, what may be one, and whatever says itself that it is for today."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from math import inf
from typing import TYPE_CHECKING

from interview.audit.checks.loader import checks_by_id
from interview.audit.gravity import gravity
from interview.report.first_page.sentences import sentences
from interview.report.first_page.step import Step, numbered, remedy, step_of
from interview.report.naming import inside

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["MOST_TODAY", "is_unseen", "steps_today"]

MOST_TODAY = 3
_LOOK = 230  # characters that take three lines of 80 columns
_AIMS = ("people", "animal")
_FOR = {"people": "For people", "animal": "For the animals", "": "Besides"}
_AT_ONCE = re.compile(r"\b(?:today|now)\b|\bUnplug\b")
_KEEP_OUT = Step(
    0,
    "Don't put it in before ammonia and nitrite have both read near zero for a week.",
    ("cycling",),
    "The turtle",
)


def steps_today(audit: Audit) -> tuple[Step, ...]:
    """What can't wait, the gravest first; at most three steps.

    More than that are put together by whom they threaten, so that none is left out.
    """
    judged = sorted((f for f in audit.findings if f.applies), key=gravity)
    urgent = [f for f in judged if f.verdict == "danger"]
    urgent += [f for f in judged if f.risk == "likely" and f.verdict != "danger"]
    if audit.tank.lookup("stage") != "planning":
        urgent += [f for f in judged if f not in urgent and _says_today(f)]
    waits = [_KEEP_OUT] if _unripe_and_empty(audit) else []
    if len(waits) + len(urgent) <= MOST_TODAY:
        return numbered([*waits, *map(_alone, urgent)], 0)
    return numbered(_grouped(urgent, waits), 0)


def _says_today(finding: Finding) -> bool:
    """Whether what is wrong is to be mended at once, by its own words."""
    return finding.verdict in ("wrong", "close") and bool(_AT_ONCE.search(finding.do))


def _unripe_and_empty(audit: Audit) -> bool:
    """Whether a filled tank still waits for its first turtle and its filter for its bacteria."""
    ripe = any(f.check == "cycling" and f.applies and f.verdict == "good" for f in audit.findings)
    return audit.tank.lookup("stage") == "set_up" and not ripe


def is_unseen(finding: Finding) -> bool:
    """Whether a danger is one only because nobody has looked yet."""
    return finding.verdict == "danger" and finding.measures in finding.assumed


def _alone(finding: Finding) -> Step:
    if look := _look(finding):
        return Step(0, look, (finding.check,), step_of(finding).lead + " that is known of")
    return step_of(finding) if finding.verdict == "danger" else _only_today(finding)


def _only_today(finding: Finding) -> Step:
    step = step_of(finding, 0)
    return Step(0, _at_once(finding), step.about, step.lead)


def _look(finding: Finding) -> str:
    """How to look, and what to do until then; "" where somebody has looked."""
    told = checks_by_id()[finding.check].do
    if not is_unseen(finding):
        return ""
    if "guessed" in told:
        return remedy(finding, _LOOK)
    look = told.get("unmeasured", "")
    return f"{look} Until then {inside(remedy(finding, 0))}" if look else ""


def _at_once(finding: Finding) -> str:
    """The sentences of a remedy that are for today; the first of a danger."""
    if finding.verdict == "danger" or finding.risk == "likely":
        return _look(finding) or remedy(finding, 0)
    said = [s for s in sentences(remedy(finding, inf)) if _AT_ONCE.search(s)]
    return " ".join(said) or remedy(finding, 0)


def _grouped(findings: Sequence[Finding], waits: Sequence[Step]) -> Iterator[Step]:
    """One step for whom they threaten: people, animals, health and the rest."""
    harms = {name: check.harm["danger"] for name, check in checks_by_id().items()}
    for aim in (*_AIMS, ""):
        of = [f for f in findings if (harms[f.check] if harms[f.check] in _AIMS else "") == aim]
        first = waits if aim == "animal" else ()
        if len(first) + len(of) == 1:
            yield from first or map(_alone, of)
        elif first or of:
            yield _together(aim, of, first)


def _together(aim: str, findings: Sequence[Finding], first: Sequence[Step]) -> Step:
    """Several remedies as one step, each by what is for today."""
    said = " ".join(dict.fromkeys((*(step.do for step in first), *map(_at_once, findings))))
    about = (*(name for step in first for name in step.about), *(f.check for f in findings))
    return Step(0, said, tuple(dict.fromkeys(about)), _FOR[aim])
