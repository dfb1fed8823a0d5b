"""What a word tells of a turtle: a sex, the length of a shell."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cache

from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.parts import Part, Side
from interview.words.mentions.scope.sentence import Sentence

__all__ = [
    "AGE", "LENGTH", "MASS", "SEX", "Detail", "initial_at", "is_plural", "is_shell", "is_unsure",
    "marked_at", "other_things", "pronoun_of", "sex_of", "stands_alone",
]  # fmt: skip

SEX, LENGTH, AGE, MASS = "sex", "carapace_length", "age", "mass"
_HEDGED = 6
"""Words behind a hedged count that its hedge reaches."""
_MARKED = re.compile(r"(1?\d) ?([mf])", re.I)
"""Males and females as a shop writes them, 2 m and 1 f, which are no metres."""


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


def is_plural(sentence: Sentence, at: int) -> bool:
    """Whether a sex is of several: females, but not the female's."""
    word = sentence.words[at]
    ones = (word.removesuffix("s"), word.removesuffix("es"), f"{word.removesuffix('ies')}y")
    return (
        word.endswith("s")
        and sentence.parts[at].look != "owner"
        and any(one and one != word and sex_of(one) for one in ones)
    )


def is_unsure(sentence: Sentence, at: int) -> bool:
    """Whether a sex is doubted, or what counts it: probably one male and one female."""
    counts = (part for part in sentence.parts[max(0, at - _HEDGED) : at] if part.kind == "number")
    doubts = known_words("doubts")
    hedged = any(not doubts.isdisjoint(part.said.casefold().split()) for part in counts)
    return hedged or sentence.is_doubted(at, at + 1)


def stands_alone(sentence: Sentence, at: int) -> bool:
    """Whether a lady is told as one of the turtles, and not as whom they are from."""
    before, after = sentence.word(at - 1), sentence.word(at + 1)
    if before == "the":
        return after[:1] == "<" or (after == "is" and sentence.word(at + 2)[:1] == "<")
    before_sex, after_sex = (known_words("animals", f"{side}_sex") for side in ("before", "after"))
    listed = before in before_sex and (after in after_sex or after[:1] == "<")
    return listed or before in ("<number>", "<kind>")


def pronoun_of(word: str) -> str:
    """She or he, in whichever form a word has it; "" for none."""
    return next((one for one in ("she", "he") if word in known_words("animals", one)), "")


def initial_at(sentence: Sentence, at: int) -> str:
    """The sex a letter stands for between marks: 12 cm, f, adult m."""
    closed = sentence.word(at + 1) in ("", ",") or sentence.word(at + 1)[:1] == "<"
    opened = sentence.word(at - 1) in ("", ",", "adult", "both", "all", "<kind>", "<number>")
    return {"f": "female", "m": "male"}.get(sentence.words[at], "") if closed and opened else ""


def marked_at(sentence: Sentence, at: int) -> re.Match[str] | None:
    """A shop's mark; of males only beside one of females, as a tank has 2 m too."""
    marked = _MARKED.fullmatch(sentence.parts[at].said)
    if not marked or marked[2] in "fF":
        return marked
    counts = zip(sentence.parts, (*sentence.words[1:], ""), strict=True)
    others = (_MARKED.fullmatch(part.said) for part, after in counts if after != "<kind>")
    return marked if any(one and one[2] in "fF" for one in others) else None


@cache
def other_things() -> frozenset[str]:
    """Words that name what else an amount may be of: a tank, a lamp, a child."""
    names = {**meant_by("things"), **meant_by("topics")}
    others = frozenset(name for name, topic in names.items() if topic != "turtle")
    return others - known_words("animals", "after") | known_words("animals", "no_shell")
