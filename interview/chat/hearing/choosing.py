"""Asks which of several questions a keeper means."""

from __future__ import annotations

from abc import abstractmethod
from dataclasses import dataclass

from interview.chat.faces.face import Asked, Face
from interview.chat.hearing.asked_instead import reply_to
from interview.chat.hearing.people import is_sentence
from interview.chat.hearing.references import answers_behind, matches, name_of
from interview.chat.hearing.replies import NO, word_of
from interview.chat.hearing.turtles.called import meant_by
from interview.chat.hearing.turtles.of_a_kind import by_looks
from interview.graph.interview import Interview, Place
from interview.words.choices.choice import Choice, read_choice
from interview.words.text.refusal import NotUnderstood

__all__ = ["Choosing"]

_NOT_FOUND = (
    "I can't tell which answer that is of. Name it, as “water line”; “show” lists them all."
)


@dataclass
class Choosing:
    """A talk, as far as it finds the question that a few words mean."""

    interview: Interview
    face: Face

    @abstractmethod
    def hear(self, asked: Asked) -> str:
        """The line typed at a prompt."""

    @abstractmethod
    def hear_now(self, asked: Asked) -> str:
        """The line typed at a prompt that what was said before can't answer."""

    @abstractmethod
    def hear_later(self, line: str) -> None:
        """Keep a line that belongs to the next question."""

    @abstractmethod
    def hear_of_illness(self, line: str) -> bool:
        """Say where an ill animal goes; True if a line tells of one."""

    def _beyond(self, place: Place, line: str) -> str:
        """What is said to a question beyond the one that stands."""
        return reply_to(self.interview, place, line)

    def find(self, name: str, *, ahead: bool = False) -> Place | None:
        """The place meant by a few words; asks which when several are meant about as well.

        `ahead` takes in questions that may come up later, too.
        """
        if not name.strip():
            self.face.say("Say which answer, as “change water line”.")
            return None
        if behind := answers_behind(self.interview, name):
            self.face.say(f"“{name}” is worked out. These answers lead to it.")
        found = behind or matches(self.interview, name, ahead=ahead)
        if not found and is_sentence(name):
            self.face.say(_NOT_FOUND)
        elif not found:
            self.face.say(f"No question goes by “{name}”. Type “show” for their names.")
        return self._which(found) if len(found) > 1 else next(iter(found), None)

    def comes_later(self, name: str) -> bool:
        """Say so where the one question meant hangs on another that is still open."""
        interview = self.interview
        found = matches(interview, name, ahead=True) if name else []
        if len(found) != 1 or interview.relevance()[found[0]] is not None:
            return False
        first = interview.waits_for(found[0])
        after = f"after “{name_of(interview, first[0])}”; answer that first" if first else "later"
        self.face.say(f"“{name_of(interview, found[0])}” comes {after}.")
        return True

    def _which(self, found: list[Place]) -> Place | None:
        """One of several places, or None when the keeper wants none of them."""
        names = {name_of(self.interview, place): place for place in found}
        asked = Asked(
            "Which of these do you mean?",
            "Type its number or its name; Enter for none of them.",
            choices=[(name, self._with_answer(name, place)) for name, place in names.items()],
            completions=tuple(names),
        )
        while line := self.hear(asked):
            if word_of(line) in (*NO, "none", "back"):
                break
            meant = [place for place in matches(self.interview, line) if place in found]
            turtle = meant_by(self.interview, line)
            turtle = by_looks(self.interview, line)[0] if turtle is None else turtle
            own = [place for place in found if turtle is not None and place.animal == turtle]
            meant = own if len(own) == 1 else meant
            if len(meant) == 1:
                return meant[0]
            try:
                return names[read_choice(line, [Choice(n, n) for n in names]).name]
            except NotUnderstood as problem:
                if is_sentence(line):  # it tells something; which answer it is of is heard behind
                    self.hear_later(line)
                    return None
                self.face.say(str(problem), "refusal")
        return None

    def _with_answer(self, name: str, place: Place) -> str:
        """A name, with what tells one turtle from the other where it stands for one of several."""
        held = self.interview.answers.get(place)
        told = held and place.animal is not None and held.value is not None
        return f"{name} ({held.said})" if held and told else name
