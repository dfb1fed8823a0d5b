"""Random talks: answers, commands, nonsense and Ctrl-C in any order; nothing taken is unsaved."""

from __future__ import annotations

import random
from abc import ABC, abstractmethod
from collections.abc import Sequence
from typing import Any

from fakes import CTRL_C, FakeFace
from hypothesis import strategies as st
from mutated import filled
from tally import Lost
from typed import PIECES, QUESTIONS

from interview import assembly, setups
from interview.chat.faces.face import Asked
from interview.chat.talks.guided import Left, Manner, Talk
from interview.graph.interview import Interview, Place
from interview.words.amounts.reading import Reading

__all__ = ["TALKED", "held", "held_on", "talked"]

_COMMANDS = (
    "why", "how", "not sure", "skip", "back", "show", "list", "grade", "stop", "?", "new", "print",
    "more", "metric", "inches", "finer", "change", "review", "yes", "no", "1", "2", "", CTRL_C,
    "what should I buy first", "what if the water was 5 cm lower",
    "what if I raise the lamp 2 inches",
    "two turtles", "my turtle is 9 cm long and lives in a 100 x 40 x 40 cm tank", "I don't know",
    "it is the same as before", "the heater is 100 W", "change water line to 12 cm",
)  # fmt: skip
_SUBJECTS = tuple(q.trade_names[0] for q in QUESTIONS if q.trade_names)
TALKED = st.integers(0, 2**32)
"""The dice of one talk."""


class _Watching(FakeFace, ABC):
    """Looks before each line whether everything that was taken is saved."""

    def __init__(self, interview: Interview) -> None:
        super().__init__([])
        self.interview = interview
        self.saved: dict[Place, str] = {}
        self.typed: list[str] = []

    @abstractmethod
    def next_lines(self, asked: Asked) -> list[str]:
        """The next line to type, none at the end."""

    def hear(self, asked: Asked) -> str:
        now = _said(self.interview)
        if now != self.saved:
            gone = set(now.items()) ^ set(self.saved.items())
            raise Lost(f"not saved before the next question: {gone}; typed {self.typed}")
        self.lines = self.next_lines(asked)
        self.typed += self.lines
        return super().hear(asked)


class _Reader(_Watching):
    """Types given lines."""

    def __init__(self, lines: Sequence[str], interview: Interview) -> None:
        super().__init__(interview)
        self.rest = list(lines)

    def next_lines(self, asked: Asked) -> list[str]:
        return [self.rest.pop(0)] if self.rest else []


class _Keeper(_Watching):
    """Types what fits the question, mostly."""

    def __init__(self, seed: int, interview: Interview) -> None:
        super().__init__(interview)
        self.dice = random.Random(seed)
        self.left = self.dice.randint(5, 90)

    def next_lines(self, asked: Asked) -> list[str]:
        self.left -= 1
        return [self._line(asked)] if self.left > 0 else []

    def _line(self, asked: Asked) -> str:
        dice, thrown = self.dice, self.dice.random()
        question = assembly.questionnaire().by_id.get(asked.place.id) if asked.place else None
        if question and thrown < 0.6:
            named = [option.name for option in self.interview.lists.options_of(question)]
            return dice.choice([question.example or "yes", *named, "not sure"])
        if thrown < 0.75:
            return dice.choice(_COMMANDS)
        if thrown < 0.85:
            return f"{dice.choice(('change', 'why', 'how'))} {dice.choice(_SUBJECTS)}"
        if thrown < 0.95:
            return " ".join(dice.choice(PIECES) for _ in range(dice.randint(1, 6)))
        return dice.choice(QUESTIONS).example or "x"


def talked(seed: int) -> str:
    """A talk that ends in leaving, in the audit or at the end of the input, with all saved."""
    interview = assembly.new_interview()
    manner: Manner = "counter" if seed % 5 == 0 else "guided"
    return _talked(interview, _Keeper(seed, interview), manner)


def held(lines: Sequence[str]) -> Interview:
    """A talk of these lines, with all saved as it was taken."""
    interview = assembly.new_interview()
    held_on(interview, lines)
    return interview


def held_on(interview: Interview, lines: Sequence[str]) -> None:
    """A talk that goes on with what is known, which is saved."""
    face = _Reader(lines, interview)
    face.saved = _said(interview)
    _talked(interview, face, "guided")


def _talked(interview: Interview, face: _Watching, manner: Manner) -> str:
    def save() -> None:
        face.saved = _said(interview)

    end = "to the end"
    try:
        Talk(interview, face, save, manner).run()
    except Left:
        end = "left"
    if _said(interview) != face.saved:
        raise Lost(f"not saved at the end: {face.typed}")
    again = filled(setups.of_interview(interview, "T"))
    if _meant(again) != _meant(interview):
        raise Lost(f"other answers when taken up again: {face.typed}")
    return end


def _said(interview: Interview) -> dict[Place, str]:
    return {place: answer.said for place, answer in interview.answers.items()}


def _meant(interview: Interview) -> dict[str, tuple[Any, str]]:
    """Every value and how it was got, whatever the words: “two turtles” is saved as a list."""
    given = interview.given()
    return {name: (_without_words(item.value), item.how) for name, item in given.items()}


def _without_words(value: Any) -> Any:
    if isinstance(value, tuple):
        return tuple(_without_words(one) for one in value)
    return (value.low, value.best, value.high) if isinstance(value, Reading) else value
