"""One step of the first page, and how a finding becomes one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from interview.report.first_page.sentences import TWO_LINES, beginning
from interview.report.naming import capital, fault_of, spoken

if TYPE_CHECKING:
    from interview.audit.checks.findings import Finding

__all__ = ["Step", "numbered", "remedy", "step_of"]


@dataclass(frozen=True)
class Step:
    """One thing to do: its number, the sentence, and the checks it mends.

    `lead` says what it is about, where the sentence alone doesn't tell, `takes` what has to be at
    hand for it.
    """

    number: int
    do: str
    about: tuple[str, ...] = ()
    lead: str = ""
    takes: tuple[str, ...] = ()

    @property
    def text(self) -> str:
        """The step in one line."""
        return f"{self.lead}: {self.do}" if self.lead else self.do


def step_of(finding: Finding, most: int = TWO_LINES) -> Step:
    """A finding's own remedy as a step, led by what is wrong; as many sentences as fit."""
    called = capital(_called(finding))
    return Step(0, remedy(finding, most), (finding.check,), called, finding.takes)


def _called(finding: Finding) -> str:
    """By its fault where it has one, else by what is looked at."""
    grave = finding.verdict in ("wrong", "danger") or finding.risk == "likely"
    return fault_of(finding) if grave else spoken(finding.check)


def remedy(finding: Finding, most: float) -> str:
    """How a finding is mended, by its first sentence and those there is room for."""
    return capital(beginning((finding.do or finding.say).removeprefix("Today: "), most))


def numbered(steps: Iterable[Step], after: int) -> tuple[Step, ...]:
    """The steps numbered on from `after`."""
    return tuple(replace(step, number=n) for n, step in enumerate(steps, start=after + 1))
