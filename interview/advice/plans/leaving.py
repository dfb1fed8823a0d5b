"""What a plan leaves wrong, each with its reason; and what to look at before any of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from interview.advice.purchase.larger_tank import CRAMPED
from interview.audit.animal import Animal
from interview.audit.checks.findings import Finding

__all__ = ["NotMended", "look_first", "what_is_left"]

_GRAVE = ("wrong", "danger")
_TIME = "time mends it, no purchase does"
_SLIP = "it rests on an answer that can't be right: confirm that first"
_PEOPLE = "it takes more than a step of this plan"
_DEARER = "no step of this kind mends it"
_PARTED = "judged anew once the animals are parted"


@dataclass(frozen=True)
class NotMended:
    """A finding that a plan leaves as it is, or better but not good, and why.

    `rests_on` are answers nobody gave: these are looked up first. `against` are checks that
    could only be spoiled for it.
    """

    finding: Finding
    reason: str
    rests_on: tuple[str, ...] = ()
    against: tuple[str, ...] = ()
    parted: bool = False
    """Whether it is judged anew once the animals are parted, so that its own remedy waits."""


def look_first(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """What can't be called safe until somebody has looked: unmeasured, or grave by a guess."""
    return tuple(
        finding
        for finding in findings
        if finding.applies
        and (
            (finding.verdict == "unmeasured" and finding.hides_nothing and finding.do)
            or (finding.verdict in _GRAVE and finding.assumed)
        )
    )


def what_is_left(
    findings: Sequence[Finding],
    left: Iterable[str],
    against: Iterable[Sequence[str]],
    timed: Iterable[str],
    stays: Animal | None,
    *,
    dearest: bool,
) -> Iterator[NotMended]:
    """Every finding that still wants a change after a plan, the gravest first.

    Args:
        findings: what is found of the changed tank
        left: ids of checks that the search wanted to mend and could not
        against: a check first, then the checks it can't be brought in line with; what isn't there
            at all, and so has no amount that could fall short, is no price
        timed: ids of checks that time mends
        stays: of animals that must be parted the one that stays in this tank
        dearest: whether all kinds of steps were tried
    """
    wanted = {*left}
    weighed = {f.check for f in findings if f.applies and (f.verdict not in _GRAVE or f.band)}
    contested = {
        check: tuple(sorted(weighed & {*rest}, key=rest.index)) for check, *rest in against
    }
    parted = CRAMPED if any(f.check == "company" and f.verdict in _GRAVE for f in findings) else ()
    grave = [f for f in findings if f.applies and (f.verdict in _GRAVE or f.check in wanted)]
    for finding in sorted(grave, key=lambda f: (f.verdict != "danger", f.verdict != "wrong")):
        others = contested.get(finding.check, ())
        goes = bool(parted) and finding.animal is not None and finding.animal != stays
        waits = finding.check in parted or goes
        else_ = _PARTED if waits else _PEOPLE if dearest else _DEARER
        reason = _reason(finding, bool(others), {*timed}, else_)
        yield NotMended(finding, reason, finding.assumed, others, waits)


def _reason(finding: Finding, contested: bool, timed: set[str], else_: str) -> str:
    if finding.assumed:
        return ""
    if finding.fit == "impossible":
        return _SLIP
    if finding.check in timed:
        return _TIME
    return "" if contested else else_
