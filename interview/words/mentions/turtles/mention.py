"""Turtles spoken of together in a sentence."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.parts import Part
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import Detail

__all__ = ["MOST_TURTLES", "Mention", "Unclear", "is_doubtful", "is_whole", "whole"]

_list = partial(known_words, "animals")

MOST_TURTLES = 30
_SAID_TO_BE = 3
"""Words before a kind that say who is one: the other one is a musk."""


class Unclear(Exception):
    """The turtles can't be told apart for sure; none of them is taken."""


@dataclass(eq=False)
class Mention:
    """Turtles spoken of together."""

    sentence: Sentence
    at: int
    head: str
    """What names them: kind, turtle, sex, rank, name or pronoun."""
    many: bool
    first: int = 0
    """Where it starts, with what counts it."""
    end: int = 0
    kind: str = ""
    """The kind as it would be typed."""
    count: int | None = None
    """None where nothing counts them."""
    is_counted: bool = False
    """Whether the words themselves say how many, be it by an article."""
    definite: bool = False
    """The slider, not a slider: perhaps one spoken of before."""
    is_guess: bool = False
    """Whether the kind is only thought to be it."""
    rank: str = ""
    """Which of several: the bigger, the second."""
    called: str = ""
    """A name, or the letter or number in turtle 2."""
    told: dict[str, list[Detail]] = field(default_factory=dict)
    """What stands in front of them, so of all of them; of breeders' counts the sex of each."""
    is_met: bool = False
    """Whether it is clear who is spoken of."""

    @property
    def look_many(self) -> bool:
        """Whether the word itself is of several: sliders."""
        return self.sentence.parts[self.at].look == "many"

    @property
    def is_listed(self) -> bool:
        """Whether the keeper has as many of a kind as are told of: sliders, 18 and 20 cm."""
        before, word = (self.sentence.word(at) for at in (self.first - 1, self.first))
        return before in ("", ",", "are", "theyre") or word in _list("owned")

    @property
    def adds(self) -> bool:
        """Whether it brings up turtles that were not spoken of before."""
        return self.count is not None and not self.definite

    @property
    def is_predicate(self) -> bool:
        """Whether it says what somebody spoken of is: she's a yellow-bellied slider."""
        words = self.sentence.words
        before = words[max(0, self.first - _SAID_TO_BE) : self.at]
        return not {*before}.isdisjoint(_list("said_to_be"))


def whole(part: Part) -> int:
    """How many a number counts.

    Raises:
        Unclear: where it is none that turtles are counted by, or doubted
    """
    if is_doubtful(part) or not is_whole(part) or part.sides:
        raise Unclear
    return int(part.value)


def is_whole(part: Part) -> bool:
    """Whether turtles may be counted by a number."""
    return part.value == int(part.value) and 1 <= part.value <= MOST_TURTLES


def is_doubtful(part: Part) -> bool:
    """Whether a number is doubted: maybe two."""
    return part.said.partition(" ")[0].casefold() in known_words("doubts")
