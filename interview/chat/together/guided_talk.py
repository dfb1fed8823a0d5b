"""The guided manner: one thing after the other, and in one go what one tool tells."""

from __future__ import annotations

from dataclasses import dataclass

from interview.chat.together.look_talk import LookTalk
from interview.graph.examples import example_in
from interview.graph.interview import Place

__all__ = ["GuidedTalk"]

_HOW = "Type them in one line with ; between, as “{}”. What you leave empty I ask by itself."


@dataclass
class GuidedTalk(LookTalk):
    """Asks one question at a time, or a few that belong together."""

    def __post_init__(self) -> None:
        """Count what is asked together as one question."""
        super().__post_init__()
        self.interview.in_groups = True

    def _together(self, first: Place) -> list[Place]:
        if look := self._look(first):
            return look
        row = self.interview.row_of(first)
        if row is None:
            return [first]
        open_ = set(self.interview.open_places())
        row_of_one = (Place(name, first.animal) for name in row.ask)
        found = [place for place in row_of_one if place in open_]
        return found if first in found else [first]

    def _worded(self, group: list[Place]) -> tuple[str, str]:
        row = self.interview.row_of(group[0])
        if row is None:
            raise ValueError(f"{group[0].id} is asked by itself")
        names = "; ".join(self.interview.question(place).short for place in group)
        label = row.label if len(group) == len(row.ask) else f"{names}?"
        system = self.interview.shown_system
        hint = row.hint_of([place.id for place in group])
        examples = (_one(example_in(self.interview.question(p), system)) for p in group)
        return label, f"{hint} {_HOW.format('; '.join(examples))}"

    def _shows_row(self, group: list[Place]) -> None:
        """The question itself names what is asked."""


def _one(example: str) -> str:
    """The first of several examples."""
    return example.partition(" or ")[0].partition(",")[0]
