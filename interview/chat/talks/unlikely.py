"""Answers that can't be right, or hardly: told once each, as soon as they are given."""

from __future__ import annotations

from collections.abc import Iterator

from interview.graph.given import Place
from interview.graph.interview import Interview

__all__ = ["newly_unlikely"]


def newly_unlikely(interview: Interview, place: Place, told: set[str]) -> Iterator[str]:
    """What the answer at a place doesn't fit together with, and the likely slip.

    Args:
        interview: the answers so far
        place: where an answer was just given
        told: ids of what was said before; what is said now is added
    """
    from interview.audit.inconsistencies import (
        inconsistencies,  # heavy: not before the first answer
    )

    names = {*interview.question(place).names, place.id}
    for inconsistency in inconsistencies(interview.lookup(), interview.unit_of, interview.system):
        if names & set(inconsistency.about) and inconsistency.id not in told:
            told.add(inconsistency.id)
            yield inconsistency.say
