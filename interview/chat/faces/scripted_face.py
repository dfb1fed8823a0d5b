"""A keeper who answers from a setup file: for the demo and the golden conversations."""

from __future__ import annotations

import time
from collections.abc import Sequence
from functools import partial

from interview import assembly
from interview.chat.faces.face import Asked, Face
from interview.graph.interview import Place
from interview.graph.order.asking_order import order_of
from interview.graph.order.look_round import look_with
from interview.setups import Setup

__all__ = ["ScriptedFace"]


class ScriptedFace:
    """Shows everything on another face and types the setup's answers itself."""

    def __init__(
        self, inner: Face, setup: Setup, pause: float = 0.0, *, counter: bool = False
    ) -> None:
        """Answer from `setup`, waiting `pause` seconds before each answer."""
        self._inner, self._setup, self._pause = inner, setup, pause
        self.topic, self.show, self.heard = inner.topic, inner.show, inner.heard
        self.say, self.listing, self.compare = inner.say, inner.listing, inner.compare
        self.blocks, self.working = inner.blocks, inner.working
        self._last: Place | None = None
        self._order = partial(_asking_order, counter=counter)
        self._unasked = sorted(setup.answers, key=self._order)
        planned = any(p.id == "stage" and said == "planning" for p, said in setup.answers.items())
        self._has_lists = not counter and not planned
        self._looked: set[Place] = set()

    @property
    def live(self) -> bool:
        """Nobody is there to be asked back."""
        return False

    def hear(self, asked: Asked) -> str:
        """The setup's answer to the question; a question it lacks is skipped.

        An answer that isn't taken would be typed for ever, so the keeper leaves instead.
        """
        line = self._line_for(asked)
        time.sleep(self._pause)
        self._inner.heard(line)
        return line

    def _line_for(self, asked: Asked) -> str:
        if len(asked.row) < 2:
            return self._line(asked.place)
        earliest = min(asked.row, key=self._order)
        followed = self._is_followed(earliest)
        if not followed and (before := self._passed_over(earliest, asked.row)):
            return f"change {self._name_of(before)}"
        self._unasked = [place for place in self._unasked if place not in asked.row]
        if asked.clear:
            return self._look_round(asked)
        return "; ".join(self._setup.answers.get(place, "skip") for place in asked.row)

    def _look_round(self, asked: Asked) -> str:
        """The numbers of what is so, and with a question mark of what is to be asked by itself."""
        self._looked.update(asked.row)
        said = [self._setup.answers.get(place, "") for place in asked.row]
        found = [
            f"{n}?" if not own or any(map(str.isdigit, clear)) else str(n)
            for (n, _), own, clear in zip(asked.numbered, said, asked.clear, strict=True)
            if own != clear
        ]
        return ", ".join(found) or "none"

    def _line(self, place: Place | None) -> str:
        if place is not None and place == self._last:
            raise EOFError
        if not self._is_followed(place) and (before := self._passed_over(place)):
            self._last = None
            return f"change {self._name_of(before)}"
        self._last = place
        if place is None:
            return "yes"
        if place in self._unasked:
            self._unasked.remove(place)
        if place.id == "animal_count":
            return str(self._setup.animals)
        return self._setup.answers.get(place, "skip")

    def _is_followed(self, place: Place | None) -> bool:
        """Whether a list leads there ahead of its turn, or what was found in one brings it up."""
        if place is None or place in self._looked:
            return place is not None
        question = assembly.questionnaire().by_id[place.id]
        return not question.comes_up_by.isdisjoint(found.id for found in self._looked)

    def _passed_over(self, place: Place | None, row: Sequence[Place] = ()) -> Place | None:
        """An answer the setup has to a finer question that stood before this one, or its row."""
        waits = (one for one in self._unasked if one not in row and not self._comes_in_list(one))
        first = next(waits, None)
        if first is None or first == place:
            return None
        if place is not None and self._order(first) >= self._order(place):
            return None
        self._unasked.remove(first)
        return first

    def _comes_in_list(self, place: Place) -> bool:
        """Whether a list is still to come that asks of it."""
        return self._has_lists and place not in self._looked and bool(look_with(place.id))

    def _name_of(self, place: Place) -> str:
        short = assembly.label_of(place.id).casefold()
        several = place.animal is not None and self._setup.animals > 1
        return f"turtle {(place.animal or 0) + 1} {short}" if several else short


def _asking_order(place: Place, *, counter: bool) -> tuple[int, int, int]:
    """Where a place comes in the talk: the questions of one animal stay together."""
    questions = order_of(assembly.questionnaire(), counter=counter).questions
    here = [question.id for question in questions].index(place.id)
    if place.animal is None:
        return here, 0, here
    first = here
    while first and questions[first - 1].repeat:
        first -= 1
    return first, place.animal, here
