"""What another answer makes doubtful: by the questions' own word, or by a broken constraint."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from interview.graph.given import Place
from interview.graph.known import Known
from interview.graph.questions import Must, Question
from interview.words.amounts.reading import Reading

__all__ = ["contradicted", "is_stale", "same"]


def is_stale(known: Known, place: Place, changed: Place, *, more_animals: bool = False) -> bool:
    """Whether a change makes an answer doubtful: of the same animal, and not by a new one."""
    stale_when = known.question(place).stale_when
    if place == changed or changed.id not in stale_when:
        return False
    condition = stale_when[changed.id]
    if condition and condition.holds(known.known().get, known.unit_of) is False:
        return False
    if place.animal is None:
        return True
    return not more_animals if changed.animal is None else place.animal == changed.animal


def contradicted(known: Known, changed: Place) -> Iterator[Place]:
    """Other answers that can no longer be, now that one has changed."""
    relevant, found = known.relevance(), None
    for place, answer in known.answers.items():
        rules = _of_others(known.question(place))
        if not rules or place == changed or not relevant[place] or answer.value is None:
            continue
        found = found or known.lookup()
        if any(rule.condition.holds(found, known.unit_of) is False for rule in rules):
            yield place


@cache
def _of_others(question: Question) -> tuple[Must, ...]:
    """The constraints of a question that speak of other answers too."""
    own = set(question.names)
    return tuple(rule for rule in question.constraint if rule.condition.names - own)


def same(before: object, after: object) -> bool:
    """Whether two answers mean the same, however they were typed."""
    if isinstance(before, tuple) and isinstance(after, tuple):
        alike = (same(a, b) for a, b in zip(before, after, strict=False))
        return len(before) == len(after) and all(alike)
    if isinstance(before, Reading) and isinstance(after, Reading):
        return (before.low, before.best, before.high) == (after.low, after.best, after.high)
    return before == after
