"""What kept a section or the whole from a better grade, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from interview.audit.grades import NO_GRADE
from interview.report.blocks import Block, Paragraph
from interview.report.naming import capital, spoken

if TYPE_CHECKING:
    from interview.audit.audit import Audit
    from interview.audit.grades import Cap

__all__ = ["cap_said", "held_down_blocks"]

_MOST = 4
"""More names than these are counted, not told."""


def _held_down(audit: Audit, section: str) -> Iterator[str]:
    """One sentence on all that held a section down, or the whole (section ""), if anything did."""
    caps = [cap for cap in audit.grades.caps if cap.section == section]
    if caps:
        reasons = dict.fromkeys(_reason(audit, cap) for cap in caps)
        yield f"{_at_best(caps[0])}: {'; '.join(reasons)}."


def held_down_blocks(audit: Audit, section: str) -> Iterator[Block]:
    """What held a section down, or the whole (section ""), as a paragraph, if anything did."""
    for said in _held_down(audit, section):
        yield Paragraph(said)


def cap_said(audit: Audit, cap: Cap) -> str:
    """One cap as a sentence."""
    return f"{_at_best(cap)}: {_reason(audit, cap)}."


def _at_best(cap: Cap) -> str:
    what = capital(cap.section) or "The whole"
    if cap.letter == NO_GRADE:
        return f"{what} gets no grade"
    return f"{what} can be {cap.letter} at best"


def _reason(audit: Audit, cap: Cap) -> str:
    if "{missing}" in cap.say and not cap.missing:
        return f"{_joined([spoken(check) for check in cap.checks])} could not be judged"
    return cap.say.format(
        checks=_joined([spoken(check) for check in cap.checks]),
        missing=_joined([f"“{audit.label_of(name)}”" for name in cap.missing]),
    )


def _joined(names: Sequence[str]) -> str:
    if len(names) > _MOST:
        return f"{', '.join(names[:_MOST])} and {len(names) - _MOST} more"
    return " and ".join([*filter(None, [", ".join(names[:-1])]), *names[-1:]])
