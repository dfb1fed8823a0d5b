"""The grade so far: what is certain, what is likely, and what would change most."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import ceil
from typing import TYPE_CHECKING

from interview import assembly
from interview.audit.checks.findings import Finding
from interview.audit.gravity import gravity
from interview.chat.faces.face import Face
from interview.graph.interview import Interview
from interview.report.naming import capital, spoken

if TYPE_CHECKING:
    from interview.audit.audit import Audit

__all__ = ["is_certain", "show_grade_so_far"]

_TITLES = (
    ("danger", "Danger"),
    ("wrong", "Put right"),
    ("close", "Keep an eye on"),
    ("good", "In order"),
)
_WIDEST = 46
"""Room for names in one line of a screen 80 wide."""
_MOST_ANSWERS = 2
_MOST_LINES = 12


def is_certain(finding: Finding) -> bool:
    """Whether a verdict is sure, as on the page, and rests on no answer that is open or doubted."""
    rests = finding.assumed or finding.guessed or finding.doubted
    return finding.certainty == "sure" and not rests and finding.verdict != "close"


def show_grade_so_far(interview: Interview, face: Face) -> None:
    """Say the grade of what is known, in at most twelve lines."""
    audit = assembly.audit_of(interview, "")
    judged = [f for f in audit.findings if f.applies and f.verdict != "unmeasured"]
    about = sum(f.applies for f in audit.findings)
    face.say(f"So far: {audit.grades.headline} {len(judged)} of {about} checks are judged.")
    certain = [finding for finding in judged if is_certain(finding)]
    rows = list(_rows(certain))
    if rows:
        face.listing("Certain:", rows)
    taken = 1 + _height(rows)
    unsure = list(_rows(finding for finding in judged if not is_certain(finding)))
    # Of what is likely the gravest first; a title and one answer that is wanted always fit.
    if likely := unsure[: _MOST_LINES - taken - 3]:
        face.listing("Likely:", likely)
    room = _MOST_LINES - taken - _height(likely) - 1
    if wanted := list(_most_wanted(audit))[: min(room, _MOST_ANSWERS)]:
        face.listing("These answers would change most:", wanted)


def _height(rows: Sequence[tuple[str, str]]) -> int:
    """Lines of a listing with its title; a long row takes more than one."""
    return bool(rows) + sum(ceil(len(names) / _WIDEST) for _, names in rows)


def _rows(findings: Iterable[Finding]) -> Iterator[tuple[str, str]]:
    """A line for each verdict, the gravest first, and the gravest checks first in it."""
    by_gravity = sorted(findings, key=gravity)
    for verdict, title in _TITLES:
        if names := [spoken(f.check) for f in by_gravity if f.verdict == verdict]:
            # Dangers may take more lines, which costs answers at the end theirs.
            lines = 3 if verdict == "danger" else 1
            yield title, capital(_in_lines(names, lines))


def _in_lines(names: list[str], lines: int = 1) -> str:
    """As many names as some lines hold, and how many there are beside."""
    for shown in range(len(names), 1, -1):
        left = len(names) - shown
        text = ", ".join(names[:shown]) + (f" and {left} more" if left else "")
        if len(text) <= _WIDEST * lines:
            return text
    left = len(names) - 1
    return names[0] + (f" and {left} more" if left else "")


def _most_wanted(audit: Audit) -> Iterator[tuple[str, str]]:
    """The answers that most verdicts wait for, and which those are."""
    waiting: dict[str, list[str]] = {}
    for name in audit.measure_next:
        waits = [f for f in audit.findings if name in f.missing]
        by_weight = sorted(waits, key=lambda finding: -finding.weight)
        known = waiting.setdefault(audit.label_of(name), [])
        known += [spoken(f.check) for f in by_weight if spoken(f.check) not in known]
    for label, checks in waiting.items():
        yield capital(label), _in_lines(checks) if checks else "clears a doubt"
