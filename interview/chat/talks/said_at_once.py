"""What can't wait for the audit: a likely slip, a danger that is certain, the law on an animal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING

from interview import assembly
from interview.chat.pace.ahead import Ahead
from interview.graph.given import Place
from interview.graph.interview import Interview

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.checks.check import Check
    from interview.audit.checks.findings import Finding
    from interview.audit.tank import Tank

__all__ = ["SaidAtOnce", "newly_unlikely"]

_LAW = ("invasive_law", "small_turtle_law")
_ON_LAW = "About the law."
_URGENT = "This can't wait."
_PLANNED = "Before an animal moves in."


def newly_unlikely(interview: Interview, place: Place, told: set[str]) -> Iterator[str]:
    """What the answer at a place doesn't fit together with, and the likely slip.

    Ids of what was said before are in `told`; what is said now is added.
    """
    from interview.audit.inconsistencies import inconsistencies

    names = {*interview.question(place).names, place.id}
    for inconsistency in inconsistencies(interview.lookup(), interview.unit_of, interview.system):
        if names & set(inconsistency.about) and inconsistency.id not in told:
            told.add(inconsistency.id)
            yield inconsistency.say


@dataclass
class SaidAtOnce:
    """Says each danger and each law once, after the answer that made it certain."""

    _told: set[str] = field(default_factory=set)
    _begun: bool = False
    _judged: dict[str, object] = field(default_factory=dict)
    """The answers that were looked at last: only what new ones reach is judged again."""
    _best: Tank | None = None
    _drawn: Tank | None = None
    """The tank judged last, at best values and in all its doubt: what stays as it was is kept."""

    def begin(self, interview: Interview, ahead: Ahead) -> None:
        """Before the first answer of a talk: what the answers given before say is known."""
        if not self._begun and interview.answers:
            self.is_known(ahead.audit(interview, ""))
            self._judged = dict(interview.given())
        self._begun = True

    def is_known(self, audit: Audit) -> None:
        """Take what an audit says as told before."""
        self._begun = True
        self._told |= {finding.check for finding in audit.findings if _can_not_wait(finding)}

    def new(self, interview: Interview) -> Iterator[str]:
        """What the answers have made certain since, with what to do."""
        from interview.audit.checks.judging import judge

        given = interview.given()
        names = given.keys() | self._judged.keys()
        changed = {name for name in names if given.get(name) != self._judged.get(name)}
        self._judged = dict(given)
        self._best = best = assembly.tank_of(interview, drawn=False, before=self._best)
        checks = self._bad_at_best(best, changed)
        if not checks:
            return
        self._drawn = tank = assembly.tank_of(interview, drawn=True, before=self._drawn)
        planned = tank.lookup("stage") == "planning"
        for check in checks:
            finding = judge(check, tank)
            if not _can_not_wait(finding):
                continue
            self._told.add(finding.check)
            urgent = _PLANNED if planned else _URGENT
            lead = _ON_LAW if finding.check in _LAW else urgent
            yield " ".join(part for part in (lead, finding.say, finding.do) if part)

    def _bad_at_best(self, tank: Tank, changed: set[str]) -> list[Check]:
        """The checks to judge with all doubt: bad at best values, and not told yet.

        Only those that rest on a changed answer: no other can have turned bad. Nor a danger that
        rests on a word nobody gave: that is not certain, whatever the draws say.

        Nearly no check is, and best values are quick; all draws after each answer are not.
        """
        from interview.advice.what_if.candidates import severities
        from interview.advice.what_if.severity import CLOSE, DANGER
        from interview.audit.checks.guesses import words_guessed
        from interview.audit.checks.loader import all_checks

        open_still = [
            check
            for check in all_checks()
            if check.id not in self._told
            and not changed.isdisjoint(_rests_on(check.id))
            and (check.id in _LAW or check.may_endanger)
        ]
        found = severities(tank, open_still, [{}])[0]
        return [
            check
            for check, severity in zip(open_still, found, strict=True)
            if (check.id in _LAW and severity >= CLOSE)
            or (severity >= DANGER and not words_guessed(check, tank))
        ]


@cache
def _rests_on(check: str) -> frozenset[str]:
    """All names that a check looks at, and that these are worked out from."""
    from interview.audit.checks.loader import all_checks
    from interview.core.wiring import quantities

    wiring = quantities()
    names = next(found.decides for found in all_checks() if found.id == check)
    behind = (wiring.upstream(name) for name in names if name in wiring.formulas)
    return frozenset(names).union(*behind)


def _can_not_wait(finding: Finding) -> bool:
    from interview.chat.talks.grade_so_far import is_certain  # heavy: not before the first answer

    if finding.check in _LAW:
        return finding.applies and finding.verdict in ("close", "wrong") and not finding.assumed
    return finding.verdict == "danger" and is_certain(finding)
