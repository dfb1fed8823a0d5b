"""Questions that much rests on and a keeper would put off: why they come now, what will do."""

from __future__ import annotations

from dataclasses import dataclass, field

from interview.graph.examples import example_in
from interview.graph.interview import Interview, Place

__all__ = ["PutOff"]

_MEASURED = ("length", "size")
_NOW = "What I ask next hangs on it, so I can't go on without it."
_ASSUMED = "“not sure” goes on with what is usual, and “stop” saves."
_ONCE_MORE = "“skip” once more leaves it for the end."
_ANYWAY = "“skip” leaves it for the end."
_HELD = "“not sure” and “stop” work too."
_AT_THE_END = "Then I ask that again at the end."
_WAITS = "Take your time, I wait here."


@dataclass
class PutOff:
    """What was put off, and comes again at the end of the first look."""

    interview: Interview
    _told: set[Place] = field(default_factory=set)
    """Where it was said why the question comes now."""
    _waiting: list[Place] = field(default_factory=list)
    _came_back: set[Place] = field(default_factory=set)

    def why_now(self, place: Place) -> str:
        """Why a required question comes now, and what will do; "" once it may be put off."""
        question = self.interview.question(place)
        if self._may_wait(place) and place in self._told:
            return ""
        self._told.add(place)
        now = "" if question.unsure.leave else _NOW
        said = (question.help, now, self._guess(place), self._else(place, _ONCE_MORE))
        return " ".join(filter(None, said))

    def waits_for(self, place: Place) -> str:
        """What is said to who goes and measures first."""
        if not self.interview.question(place).required:
            return f"{_WAITS} “skip” leaves it open."
        self._told.add(place)
        return f"{_WAITS} {self._guess(place)} {self._else(place, _ANYWAY)}"

    def leave(self, place: Place) -> str:
        """Leave a required question for the end, and there open; returns what to say."""
        if place in self._came_back:
            return self.interview.question(place).unsure.leave
        self._waiting.append(place)
        return _AT_THE_END

    def come_back(self) -> Place | None:
        """The next that was left for the end and is open; it is asked again."""
        while self._waiting:
            place = self._waiting.pop(0)
            self._came_back.add(place)
            if place in self.interview.skipped and self.interview.relevance().get(place):
                self.interview.skipped.discard(place)
                return place
        return None

    def _may_wait(self, place: Place) -> bool:
        """Whether “not sure” would leave it open, too, and nothing was answered before."""
        unsure = self.interview.question(place).unsure
        return bool(unsure.leave) and place not in self.interview.answers

    def _else(self, place: Place, at_the_end: str) -> str:
        """What can be typed where not even a guess is at hand."""
        if self._may_wait(place):
            return at_the_end
        return _HELD if self.interview.question(place).unsure.leave else _ASSUMED

    def _guess(self, place: Place) -> str:
        """What a rough answer looks like."""
        question = self.interview.question(place)
        example = example_in(question, self.interview.system).partition(" or ")[0]
        if question.type in _MEASURED:
            return f"A rough guess will do, as “about {example}”."
        return "The likeliest will do."
