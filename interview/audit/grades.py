"""Turns findings into letters by the rule in care/grades.yaml, and tells what lowered them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import reduce

from interview.audit.checks.findings import Finding
from interview.audit.checks.rows import SECTIONS
from interview.audit.grade_rules import CapRule, ScoreName, rules

__all__ = ["NO_GRADE", "STOP", "Cap", "Grades", "grade_all", "place"]

STOP = "STOP"
NO_GRADE = "no grade"


@dataclass(frozen=True)
class Cap:
    """What kept a section, or the whole (section ""), from a better letter.

    `say` may hold {checks} and {missing}: the checks that did it, and the answers they lack.
    """

    section: str
    letter: str
    say: str
    checks: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()


@dataclass(frozen=True)
class Grades:
    """The whole tank's grade, each section's, what lowered them, and what they mean."""

    overall: str
    stop: bool
    sections: tuple[tuple[str, str], ...]
    say: str
    meanings: tuple[tuple[str, str], ...]
    caps: tuple[Cap, ...] = ()

    @property
    def headline(self) -> str:
        """The grade as a sentence."""
        if self.overall == NO_GRADE:
            return "No grade yet."
        return "STOP." if self.stop else f"Grade {self.overall}."

    @property
    def reached(self) -> str:
        """The grade as what some steps lead to, “grade B”."""
        if self.overall == NO_GRADE:
            return "no grade yet"
        return "STOP still" if self.stop else f"grade {self.overall}"

    @property
    def rank(self) -> int:
        """How far down the letters the whole stands; no grade below them, STOP below all."""
        return len(_letters()) if self.stop else place(self.overall)


def place(letter: str) -> int:
    """How far down the letters one stands; no grade below them all."""
    return _letters().index(letter)


def _letters() -> list[str]:
    return [*(row.letter for row in rules().letters), NO_GRADE]


def _letter_for(score: float) -> str:
    rows = rules().letters
    return next(row.letter for row in rows if score >= row.at_least)


def _worse(one: str, other: str) -> str:
    return max(one, other, key=place)


def grade_all(findings: Sequence[Finding]) -> Grades:
    """Grade every section and the whole."""
    applying = [finding for finding in findings if finding.applies]
    graded = {
        section: _section(section, [f for f in applying if f.section == section])
        for section in SECTIONS
    }
    sections = tuple((section, letter) for section, (letter, _) in graded.items())
    stop = any(finding.verdict == "danger" for finding in findings)
    overall, caps = (STOP, ()) if stop else _overall(applying, sections)
    told = (*caps, *(cap for _, found in graded.values() for cap in found))
    return Grades(overall, stop, sections, _meaning(overall), _meanings(), told)


def _mean(findings: Iterable[Finding]) -> float | None:
    """Mean score by weight; None when nothing was judged."""
    scores = rules().scores
    judged = [f for f in findings if f.verdict != "unmeasured"]
    rows = [(f.weight, scores[_score_name(f)].value) for f in judged]
    total = sum(weight for weight, _ in rows)
    return sum(weight * score for weight, score in rows) / total if total else None


def _score_name(finding: Finding) -> ScoreName:
    if finding.verdict == "unmeasured":
        raise ValueError(f"{finding.check} is not judged, so it has no score")
    return "close_inside" if _only_doubted(finding) else finding.verdict


def _only_doubted(finding: Finding) -> bool:
    """Whether a close finding is good at its best value, and danger is no part of the doubt."""
    return finding.verdict == "close" and finding.inside and not finding.risk


def _share_judged(findings: Sequence[Finding]) -> float:
    """Share of the weight that was judged at all."""
    weight = sum(f.weight for f in findings)
    judged = sum(f.weight for f in findings if f.verdict != "unmeasured")
    return judged / weight if weight else 0.0


_Graded = tuple[str, tuple[Cap, ...]]


def _section(section: str, findings: Sequence[Finding]) -> _Graded:
    mean = _mean(findings)
    lacking = tuple(_no_animal(section, findings))
    if mean is None:
        return NO_GRADE, tuple(replace(cap, letter=NO_GRADE) for cap in lacking)
    mostly = rules().mostly_unmeasured
    caps = list(_caps(section, findings))
    if not any(finding.verdict == "danger" for finding in findings):
        caps += lacking
    if _share_judged(findings) < mostly.below_share:
        caps.append(Cap(section, mostly.letter, mostly.say))
    return _capped(_letter_for(mean), caps)


def _capped(letter: str, caps: Sequence[Cap]) -> _Graded:
    """The letter after its caps, and those that decide it."""
    capped = reduce(_worse, (cap.letter for cap in caps), letter)
    if capped == letter:
        return letter, ()
    return capped, tuple(cap for cap in caps if cap.letter == capped)


def _caps(section: str, findings: Sequence[Finding]) -> Iterator[Cap]:
    """Every cap that the findings bring; of those alike the findings under the first one only."""
    told: set[str] = set()
    for row in rules().caps.values():
        if not section and not row.whole:
            continue
        found = [f for f in findings if _falls_under(f, row) and f.check not in told]
        if found:
            told |= {f.check for f in found}
            missing = tuple(dict.fromkeys(name for f in found for name in f.missing))
            yield Cap(section, row.letter, row.say, tuple(f.check for f in found), missing)


def _falls_under(finding: Finding, row: CapRule) -> bool:
    if row.hides_nothing and not finding.hides_nothing:
        return False
    if row.fit:
        return finding.fit == row.fit
    if row.risk:
        return finding.risk == row.risk
    if finding.verdict != row.verdict or finding.weight < row.from_weight:
        return False
    return not _only_doubted(finding)


def _no_animal(section: str, findings: Sequence[Finding]) -> Iterator[Cap]:
    """What is not judged for want of an animal betters no grade."""
    rule = rules().no_animal
    lacking = [f for f in findings if set(rule.names) & set(f.missing)]
    if lacking:
        important = any(f.weight >= rule.no_grade_from_weight for f in lacking)
        letter = NO_GRADE if important else rule.letter
        say = rule.say_of_section if section else rule.say
        yield Cap(section, letter, say, tuple(f.check for f in lacking))


def _overall(findings: Sequence[Finding], sections: Sequence[tuple[str, str]]) -> _Graded:
    rule, letters = rules().overall, _letters()
    graded = [(section, letter) for section, letter in sections if letter != NO_GRADE]
    mean, lacking = _mean(findings), tuple(_no_animal("", findings))
    known = _share_judged(findings) >= rule.least_judged.share
    if mean is None or not graded or not known:
        return NO_GRADE, lacking
    caps = [*_caps("", findings), *lacking]
    section, worst = max(graded, key=lambda pair: letters.index(pair[1]))
    best = letters[max(0, letters.index(worst) - rule.above_worst)]
    caps.append(Cap("", best, rule.say.format(section=section, grade=worst)))
    return _capped(_letter_for(mean), caps)


def _meaning(grade: str) -> str:
    meanings = dict(_meanings())
    return meanings.get(grade, "Too little is known to grade this tank.")


def _meanings() -> tuple[tuple[str, str], ...]:
    """STOP and each letter with what it means."""
    rows = [(STOP, rules().stop.say)]
    rows += [(row.letter, row.say) for row in rules().letters]
    return tuple((grade, _capital(say.partition(": ")[2])) for grade, say in rows)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
