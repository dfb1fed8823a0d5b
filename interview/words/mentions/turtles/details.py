"""What a word tells of a turtle: a sex, the length of a shell."""

from __future__ import annotations

from dataclasses import dataclass, field

from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.parts import Part, Side
from interview.words.mentions.scope import Sentence

__all__ = ["Detail", "initial_at", "is_shell", "sex_of"]


@dataclass(frozen=True)
class Detail:
    """What was told of a turtle, and where."""

    said: str
    sentence: Sentence = field(repr=False)
    at: int


def is_shell(one: Part | Side) -> bool:
    """Whether an amount may be the length of a shell."""
    return of_a_turtle("carapace_length", one.value, one.unit)


def sex_of(word: str) -> str:
    """The sex a word names; "" for none."""
    return next(
        (sex for sex in ("female", "male", "unknown") if word in known_words("animals", sex)), ""
    )


def initial_at(sentence: Sentence, at: int) -> str:
    """The sex a letter stands for between marks: 12 cm, f, adult m."""
    closed = sentence.word(at + 1) in ("", ",") or sentence.word(at + 1)[:1] == "<"
    opened = sentence.word(at - 1) in ("", ",", "adult", "both", "all", "<kind>", "<number>")
    return {"f": "female", "m": "male"}.get(sentence.words[at], "") if closed and opened else ""
