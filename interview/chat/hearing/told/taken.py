"""What was taken from a story, before it is kept."""

from __future__ import annotations

from collections.abc import Container, Mapping
from dataclasses import dataclass, field, replace

from interview.graph.interview import Interview, Place

__all__ = ["Story", "labels_of_several"]

_COUNT = "animal_count"


@dataclass(frozen=True)
class Story:
    """Answers taken from a story, in asking order, and the phrases nothing was taken from."""

    answers: tuple[tuple[Place, str], ...]
    unused: tuple[str, ...]
    region: str
    """Where the keeper lives, as told here or before: decides gallons."""
    guessed: frozenset[Place] = frozenset()
    """Temperatures whose scale nobody told, nor a region that would tell it; a sex by “she”; a kind
    that the keeper only thinks it is."""
    strange: tuple[str, ...] = ()
    """Kinds of turtle that are told of and not known here."""
    heard: Mapping[Place, str] = field(default_factory=dict)
    """What no phrase told and is only likely, and the clause it is from."""

    def without(self, places: Container[Place]) -> Story:
        """The same without some answers; turtles need to be counted first."""
        left = [row for row in self.answers if row[0] not in places]
        if Place(_COUNT) in places:
            left = [row for row in left if row[0].animal is None]
        return replace(self, answers=tuple(left))

    def with_answer(self, place: Place, said: str) -> Story:
        """The same with other words at a place."""
        told = tuple((p, said if p == place else words) for p, words in self.answers)
        heard = {p: clause for p, clause in self.heard.items() if p != place}
        return replace(self, answers=told, heard=heard, guessed=self.guessed - {place})


def labels_of_several(interview: Interview, place: Place, names: Container[object]) -> str:
    """The labels of choices of which several may hold, by their names."""
    options = interview.lists.options_of(interview.question(place))
    return "; ".join(option.label for option in options if option.name in names)
