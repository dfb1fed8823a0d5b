"""What was told before its question could be asked: taken up behind it, or kept at the end."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from interview.chat.faces.face import Face
from interview.chat.hearing.changes import Change, changes_in, left_at
from interview.chat.hearing.references import name_of
from interview.chat.hearing.turtles.gone import tells_of_one_gone
from interview.chat.hearing.turtles.newcomer import another_told
from interview.chat.rechecks.joining import (
    doubts_newcomers,
    is_of_no_turtle,
    keep_joined,
    one_more,
)
from interview.chat.rechecks.prediction import Prediction
from interview.chat.talks.listening import say_unheard
from interview.graph.answers import Answer
from interview.graph.interview import Interview
from interview.words.text.tokens import plain_words

__all__ = ["Untaken", "Waiting"]

_COMES_THEN = "I keep that, and take it up once this is answered."
_WAITS = "That waits already; here I go on."
_KEPT = "Kept as you told it: {name}, {said}."


@dataclass(frozen=True)
class Untaken:
    """A change told, whose question stands or comes."""

    change: Change
    is_open: bool = False
    """Whether it may be of several things."""
    held: Answer | None = None
    """What was answered there before."""


@dataclass
class Waiting:
    """Lines told at a question that are about something else, in the order they were told."""

    interview: Interview
    face: Face
    prediction: Prediction
    _lines: list[str] = field(default_factory=list)

    def add(self, line: str) -> None:
        """Keep a line for behind the question; the same one only once."""
        told = plain_words(line) in map(plain_words, self._lines)
        self.face.say(_WAITS if told else _COMES_THEN)
        if not told:
            self._lines.append(line)

    def next(self) -> str:
        """The line that was told first; "" where none waits."""
        return self._lines.pop(0) if self._lines else ""

    def settle(self, untaken: Iterable[Untaken], joined: Mapping[str, str]) -> bool:
        """Keep what is sure of all that was told and not taken, and say what isn't.

        Whether anything was kept.
        """
        done = [self._kept(one, joined) for one in untaken if one.change.told]
        while line := self.next():
            own, changes = another_told(self.interview, line), changes_in(self.interview, line)
            if own is not None:
                changes = [*one_more(line), *filter(is_of_no_turtle, changes)]
            told = [one for one in changes if one.told and not tells_of_one_gone(line)]
            if not told:
                say_unheard(self.face, [line])
            for change in told:
                held = self.interview.answers.get(change.places[0]) if change.places else None
                done.append(self._kept(Untaken(change, len(change.places) > 1, held), own or {}))
        return any(done)

    def _kept(self, one: Untaken, joined: Mapping[str, str]) -> bool:
        """Record where a change leaves its answer; where that isn't sure it is in doubt."""
        interview, change = self.interview, one.change
        place = change.places[0] if change.places and not one.is_open else None
        if place and interview.answers.get(place) is not one.held:
            return False  # it was answered
        left = left_at(interview, change, self.prediction.now(place)) if place else None
        said = (left.at or left.by) if left and not left.is_open else ""
        if place and said and interview.takes(place, said):
            interview.record(place, said)
            self.face.say(_KEPT.format(name=name_of(interview, place), said=said))
            is_count = bool(interview.question(place).count_of)
            if is_count:
                doubts_newcomers(interview)
            if joined and is_count:
                rows = keep_joined(interview, joined)
                self.face.listing(f"Of turtle {interview.animal_count} I take:", rows)
            return True
        interview.doubtful.update(at for at in change.places if at in interview.answers)
        say_unheard(self.face, [change.clause.text])
        return True
