"""The steps of the first page: what can't wait, and what follows in the week."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from interview.advice.what_if.candidates import rests_on
from interview.audit.checks.loader import all_checks
from interview.audit.gravity import gravity
from interview.report.first_page.sentences import TWO_LINES, beginning
from interview.report.marks import Mark
from interview.report.naming import capital, spoken

if TYPE_CHECKING:
    from interview.advice.plans.plans import Change, Plan
    from interview.audit.audit import Audit
    from interview.audit.checks.findings import Finding

__all__ = ["MOST_TODAY", "Step", "marks_of", "steps_today", "steps_week"]

MOST_TODAY = 3
_AIMS = ("people", "animal")
_FOR = {"people": "For people", "animal": "For the animals", "": "Besides"}
_RANK = {"good": 0, "close": 1, "wrong": 2, "danger": 3}


@dataclass(frozen=True)
class Step:
    """One thing to do: its number, the sentence, and the checks it mends.

    `lead` says what it is about, where the sentence alone doesn't tell.
    """

    number: int
    do: str
    about: tuple[str, ...] = ()
    lead: str = ""

    @property
    def text(self) -> str:
        """The step in one line."""
        return f"{self.lead}: {self.do}" if self.lead else self.do


def steps_today(audit: Audit) -> tuple[Step, ...]:
    """What can't wait: every danger, then what is likely to be one; at most three steps.

    More dangers than that are put together by whom they threaten, so that none is left out.
    """
    judged = sorted((f for f in audit.findings if f.applies), key=gravity)
    urgent = [f for f in judged if f.verdict == "danger"]
    urgent += [f for f in judged if f.risk == "likely" and f.verdict != "danger"]
    if len(urgent) <= MOST_TODAY:
        found = [_alone(finding) for finding in urgent]
    else:
        found = [_together(aim, of) for aim, of in _by_aim(urgent) if of]
    return tuple(replace(step, number=n) for n, step in enumerate(found, start=1))


def _alone(finding: Finding) -> Step:
    return Step(0, _remedy(finding, TWO_LINES), (finding.check,), capital(spoken(finding.check)))


def _remedy(finding: Finding, most: int) -> str:
    """How a finding is mended, by its first sentence and those there is room for."""
    return capital(beginning((finding.do or finding.say).removeprefix("Today: "), most))


def _by_aim(findings: Sequence[Finding]) -> Iterator[tuple[str, list[Finding]]]:
    """The findings by whom they threaten: people, animals, health and the rest."""
    harms = {check.id: check.harm["danger"] for check in all_checks()}
    for aim in _AIMS:
        yield aim, [f for f in findings if harms[f.check] == aim]
    yield "", [f for f in findings if harms[f.check] not in _AIMS]


def _together(aim: str, findings: Sequence[Finding]) -> Step:
    """Several remedies as one step, each by its first sentence."""
    if len(findings) == 1:
        return _alone(findings[0])
    said = " ".join(dict.fromkeys(_remedy(f, 0) for f in findings))
    return Step(0, said, tuple(f.check for f in findings), _FOR[aim])


def steps_week(audit: Audit, plan: Plan | None, today: Sequence[Step]) -> tuple[Step, ...]:
    """The plan's steps that today doesn't hold, then what is wrong and the plan can't mend.

    Args:
        audit: the tank
        plan: the plan that is told; None where there is none
        today: the steps before these
    """
    met = {check for step in today for check in step.about}
    steps = [*(_of_plan(audit, plan, met) if plan else ()), *_left(audit, plan)]
    return tuple(replace(step, number=n) for n, step in enumerate(steps, start=len(today) + 1))


def _of_plan(audit: Audit, plan: Plan, met: set[str]) -> Iterator[Step]:
    """The plan's steps; not those that a danger's own remedy of today is already.

    What is got against a danger follows the remedy of today, which only holds until then.
    """
    about = _mended_by(audit, plan)
    told = [change.say for change in plan.changes if change.say]
    for n, (say, option) in enumerate(zip(told, plan.steps, strict=True)):
        mends = about.get(say, ())
        done = n < plan.urgent and not option.lever.buys and mends and met.issuperset(mends)
        if not done:
            yield Step(0, say, mends)


def _mended_by(audit: Audit, plan: Plan) -> dict[str, tuple[str, ...]]:
    """For each step the checks it betters: those that of all steps it is the most made for."""
    was = {finding.check: finding for finding in audit.findings}
    better = {f.check for f in plan.findings if _bad(f) < _bad(was[f.check])}
    reach = {say: _reached(audit, names) for say, names in _named(plan.changes).items()}
    found: dict[str, list[str]] = {}
    for check in (c.id for c in all_checks() if c.id in better):
        ways = [say for say in reach if check in reach[say]]
        if ways:
            found.setdefault(min(ways, key=lambda say: len(reach[say])), []).append(check)
    return {say: tuple(checks) for say, checks in found.items()}


def _bad(finding: Finding) -> int:
    return _RANK.get(finding.verdict, 0) if finding.applies else 0


def _named(changes: Sequence[Change]) -> dict[str, set[str]]:
    """The names each step sets; what has no sentence belongs to the step before it."""
    named: dict[str, set[str]] = {}
    said = ""
    for change in changes:
        said = change.say or said
        named.setdefault(said, set()).add(change.quantity)
    return named


def _reached(audit: Audit, names: set[str]) -> set[str]:
    wiring = audit.tank.best.wiring
    return {check.id for check in all_checks() if names & rests_on(check.decides, wiring)}


def _left(audit: Audit, plan: Plan | None) -> Iterator[Step]:
    """What is wrong, and no step mends, by its own remedy."""
    after = {f.check: f for f in plan.findings} if plan else {}
    for finding in sorted(audit.findings, key=gravity):
        if finding.verdict != "wrong" or not finding.applies or finding.risk == "likely":
            continue
        if _bad(after.get(finding.check, finding)) >= _RANK["wrong"]:
            yield _alone(finding)


def marks_of(audit: Audit, steps: Sequence[Step]) -> Iterator[Mark]:
    """The findings that some step mends, by its number."""
    found = {finding.check: finding for finding in audit.findings}
    for step in steps:
        for check in step.about:
            of = found[check]
            yield Mark(step.number, check, spoken(check), of.verdict, of.measures)
