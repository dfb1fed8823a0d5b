"""Turtles spoken of together in a sentence."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.parts import Part
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import Detail
from interview.words.mentions.turtles.kinds import KIND

__all__ = [
    *("MOST_TURTLES", "Mention", "Unclear", "is_compared", "is_doubtful"),
    *("is_of_a_kind", "is_whole", "looks_like", "whole"),
]

_list = partial(known_words, "animals")

MOST_TURTLES = 30
_SHARE = 4
"""Words within which a share is told: half the size of."""
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
    is_compared: bool = False
    """Whether another is only compared with it: smaller than the slider."""
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
    def begins(self) -> bool:
        """Whether a sentence begins with it, or it is told right behind of what kind it is."""
        return self.at == 0 or is_of_a_kind(self.sentence, self.at)

    @property
    def is_predicate(self) -> bool:
        """Whether it says what somebody spoken of is: she's a yellow-bellied slider."""
        words = self.sentence.words
        before = words[max(0, self.first - _SAID_TO_BE) : self.at]
        return not {*before}.isdisjoint(_list("said_to_be"))


def whole(part: Part) -> int:
    """How many a number counts.

    Raises Unclear where it is none that turtles are counted by, or doubted
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


def is_compared(word: Callable[[int], str], first: int, end: int) -> bool:
    """Whether the turtle between two words is compared with, and not told of."""
    before = word(first - 1)
    is_told = word(end) in _list("counted_on")  # it looks like the other one is 9 cm
    if before in ("of", "as"):
        near = {word(at) for at in range(max(0, first - _SHARE), first - 1)}
        sized = not is_told and not near.isdisjoint(("size", "length"))
        return sized or not near.isdisjoint(_list("share"))
    if looks_like(word, first):
        return False
    compares = before in _list("compared_with") | _list("share")
    return before == "than" or (compares and not is_told)


def looks_like(word: Callable[[int], str], first: int) -> bool:
    """Whether a kind is what a turtle is thought to be by its looks: looks like a slider."""
    thought = word(first - 2) in ("look", "looks", "looking") and word(first - 1) == "like"
    return thought and word(first) in ("a", "an")


def is_of_a_kind(sentence: Sentence, at: int) -> bool:
    """Whether right behind somebody it is told of what kind: Bo, a slider."""
    led = sentence.word(at + 2) in _list("one")
    return sentence.word(at + 1) == "," and sentence.word(at + 2 + led) == KIND
