"""Where a changed answer leaves what rides with it: a standing platform, once the water sinks."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from interview.chat.hearing.changes import number_at, spoken
from interview.graph.interview import Interview, Place, Recorded

__all__ = ["moved_along"]


def moved_along(
    interview: Interview, before: Mapping[str, Any], place: Place, recorded: Recorded
) -> dict[Place, str]:
    """What answers that are in doubt should be now, as it would be typed.

    Args:
        interview: the answers as they are now
        before: what was known before
        place: of the answer that was changed
        recorded: what became doubtful with it
    """
    if not before or not recorded.doubtful:
        return {}
    from interview.advice.what_if.coupling import coupled  # heavy: not before it is needed

    known = interview.known()
    changed = {n: known[n] for n in interview.question(place).names if n in known and n in before}
    moved = coupled(before, changed)
    found = {at: number_at(moved, at) for at in recorded.doubtful if at.id not in changed}
    return {at: spoken(interview, at, now) for at, now in found.items() if now is not None}
