"""Turns findings into letters by the rule in care/grades.yaml."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, reduce
from pathlib import Path
from typing import Any

from interview.audit.checks import SECTIONS
from interview.audit.findings import Finding
from interview.yaml_files import read

__all__ = ["NO_GRADE", "STOP", "Grades", "grade_all"]

STOP = "STOP"
NO_GRADE = "no grade"


@dataclass(frozen=True)
class Grades:
    """The whole tank's grade, each section's, and what they mean."""

    overall: str
    stop: bool
    sections: tuple[tuple[str, str], ...]
    say: str
    meanings: tuple[tuple[str, str], ...]

    @property
    def headline(self) -> str:
        """The grade as a sentence."""
        if self.overall == NO_GRADE:
            return "No grade yet."
        return "STOP." if self.stop else f"Grade {self.overall}."


@cache
def _rule() -> Any:
    import interview.care

    return read(Path(interview.care.__file__).parent / "grades.yaml")


def _letters() -> list[str]:
    return [row["letter"] for row in _rule()["letters"]]


def _letter_for(score: float) -> str:
    rows = _rule()["letters"]
    return str(next(row["letter"] for row in rows if score >= row["at_least"]))


def _worse(one: str, other: str) -> str:
    return max(one, other, key=_letters().index)


def grade_all(findings: Sequence[Finding]) -> Grades:
    """Grade every section and the whole."""
    sections = tuple(
        (section, _section([f for f in findings if f.section == section and f.applies]))
        for section in SECTIONS
    )
    stop = any(f.verdict == "danger" for f in findings)
    overall = STOP if stop else _overall(findings, [grade for _, grade in sections])
    return Grades(overall, stop, sections, _meaning(overall), _meanings())


def _mean(findings: Iterable[Finding]) -> float | None:
    """Mean score by weight; None when nothing was judged."""
    scores = _rule()["scores"]
    judged = [f for f in findings if f.verdict != "unmeasured"]
    rows = [(f.weight, scores[_score_name(f)]["value"]) for f in judged]
    total = sum(weight for weight, _ in rows)
    return sum(weight * score for weight, score in rows) / total if total else None


def _score_name(finding: Finding) -> str:
    return "close_inside" if _only_doubted(finding) else finding.verdict


def _only_doubted(finding: Finding) -> bool:
    """Whether a close finding is good at its best value, and danger is no part of the doubt."""
    return finding.verdict == "close" and finding.inside and not finding.warning


def _section(findings: Sequence[Finding]) -> str:
    mean = _mean(findings)
    if mean is None:
        return NO_GRADE
    letter = _letter_for(mean)
    for cap in _caps(findings):
        letter = _worse(letter, cap)
    return letter


def _caps(findings: Sequence[Finding]) -> Iterable[str]:
    caps = _rule()["caps"]
    verdicts = {f.verdict for f in findings}
    if "danger" in verdicts:
        yield caps["danger"]["letter"]
    if "wrong" in verdicts:
        yield caps["wrong"]["letter"]
    if any(f.verdict == "wrong" and f.hides_nothing for f in findings):
        yield caps["hides_nothing_wrong"]["letter"]
    yield from _caps_for_important(findings)
    mostly = caps["mostly_unmeasured"]
    if _share_judged(findings) < mostly["below_share"]:
        yield mostly["letter"]


def _share_judged(findings: Sequence[Finding]) -> float:
    """Share of the weight that was judged at all."""
    weight = sum(f.weight for f in findings)
    judged = sum(f.weight for f in findings if f.verdict != "unmeasured")
    return judged / weight if weight else 0.0


def _caps_for_important(findings: Sequence[Finding]) -> Iterable[str]:
    """What is wrong or open about something important limits a section, and the whole."""
    caps = _rule()["caps"]
    for verdict in ("wrong", "close", "unmeasured"):
        name = f"{verdict}_important"
        least = caps[name]["from_weight"]
        open_ones = [f for f in findings if f.verdict == verdict and not _only_doubted(f)]
        if any(f.weight >= least for f in open_ones):
            yield caps[name]["letter"]


def _overall(findings: Sequence[Finding], grades: Sequence[str]) -> str:
    graded = [grade for grade in grades if grade != NO_GRADE]
    applying = [f for f in findings if f.applies]
    mean = _mean(applying)
    known = _share_judged(applying) >= _rule()["overall"]["least_judged"]["share"]
    if mean is None or not graded or not known:
        return NO_GRADE
    letters = _letters()
    worst = max(letters.index(grade) for grade in graded)
    letter = _worse(_letter_for(mean), letters[max(0, worst - _rule()["overall"]["above_worst"])])
    caps = [*_caps_for_important(applying)]
    if any(finding.verdict == "wrong" for finding in applying):
        caps.append(_rule()["caps"]["wrong"]["letter"])
    return reduce(_worse, caps, letter)


def _meaning(grade: str) -> str:
    meanings = dict(_meanings())
    return meanings.get(grade, "Too little is known to grade this tank.")


def _meanings() -> tuple[tuple[str, str], ...]:
    """STOP and each letter with what it means."""
    rows = [(STOP, _rule()["stop"]["say"])]
    rows += [(row["letter"], row["say"]) for row in _rule()["letters"]]
    return tuple((grade, _capital(say.partition(": ")[2])) for grade, say in rows)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
