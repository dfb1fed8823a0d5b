"""Where a changed answer leaves what rides with it: a standing platform, once the water sinks."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from interview.chat.hearing.changes import number_at, spoken
from interview.graph.interview import Interview, Place, Recorded

__all__ = ["MovedAlong"]


@dataclass
class MovedAlong:
    """Where changed answers should have left others that are in doubt since."""

    _numbers: dict[Place, float] = field(default_factory=dict)

    def record(self, interview: Interview, place: Place, said: str) -> Recorded:
        """Record an answer, and remember where it leaves what rides with it.

        What an earlier change moved, and nobody has measured since, is moved on from there.
        """
        waits = {at: now for at, now in self._numbers.items() if at in interview.doubtful}
        known = interview.known() if place in interview.answers else {}
        before = known and known | {at.id: now for at, now in waits.items() if at.animal is None}
        recorded = interview.record(place, said)
        kept = {at: now for at, now in waits.items() if at not in (place, *recorded.doubtful)}
        self._numbers = kept | dict(_moved(interview, before, place, recorded))
        return recorded

    def offered(self, interview: Interview, place: Place) -> str:
        """What an answer in doubt should be now, as it would be typed; "" where none moved it."""
        now = self._numbers.get(place) if place in interview.doubtful else None
        return "" if now is None else spoken(interview, place, now)


def _moved(
    interview: Interview, before: Mapping[str, Any], place: Place, recorded: Recorded
) -> Iterator[tuple[Place, float]]:
    """What answers that became doubtful with another should be now."""
    if not before or not recorded.doubtful:
        return
    from interview.advice.what_if.coupling import coupled  # heavy: not before it is needed

    known = interview.known()
    changed = {n: known[n] for n in interview.question(place).names if n in known and n in before}
    moved = coupled(before, changed)
    for at in recorded.doubtful:
        if at.id not in changed and (now := number_at(moved, at)) is not None:
            yield at, now
