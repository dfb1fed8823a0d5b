"""What a word tells of a turtle: a sex, the length of a shell."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache

from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.parts import Part, Side
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["Detail", "initial_at", "is_shell", "other_things", "pronoun_of", "sex_ahead", "sex_of"]

_AHEAD = 3
"""Words from a count to the sex it counts: two little girls."""


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


def pronoun_of(word: str) -> str:
    """She or he, in whichever form a word has it; "" for none."""
    return next((one for one in ("she", "he") if word in known_words("animals", one)), "")


def initial_at(sentence: Sentence, at: int) -> str:
    """The sex a letter stands for between marks: 12 cm, f, adult m."""
    closed = sentence.word(at + 1) in ("", ",") or sentence.word(at + 1)[:1] == "<"
    opened = sentence.word(at - 1) in ("", ",", "adult", "both", "all", "<kind>", "<number>")
    return {"f": "female", "m": "male"}.get(sentence.words[at], "") if closed and opened else ""


def sex_ahead(sentence: Sentence, at: int) -> str:
    """The word for a sex that a count, an article or a length is of: two big girls; else ""."""
    for here in range(at + 1, at + 1 + _AHEAD):
        if sex_of(sentence.word(here)):
            return (
                ""
                if sentence.word(here + 1) in known_words("animals", "any")
                else sentence.word(here)
            )
        if sentence.word(here) not in known_words("animals", "before") | {"<length>", "<kind>"}:
            return ""
    return ""


@cache
def other_things() -> frozenset[str]:
    """Words that name what else an amount may be of: a tank, a lamp, a child."""
    names = {**meant_by("things"), **meant_by("topics")}
    others = frozenset(name for name, topic in names.items() if topic != "turtle")
    return others - known_words("animals", "after") | known_words("animals", "no_shell")
