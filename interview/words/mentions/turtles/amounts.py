"""Amounts that may be turtles' lengths, ages and masses, alone or listed: 300 and 250 grams."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from interview.words.amounts.spellings import label
from interview.words.lexicon.files import known_words
from interview.words.mentions.attributes import of_a_turtle
from interview.words.mentions.competing import is_mended, is_read_again
from interview.words.mentions.nearby.shell import is_of_a_shell
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import (
    AGE,
    LENGTH,
    MASS,
    Detail,
    other_things,
    sex_of,
)

__all__ = ["Series", "is_told", "series_at"]

_list = partial(known_words, "animals")

_NAMES = {"<length>": LENGTH, "<lengths>": LENGTH, "<duration>": AGE, "<mass>": MASS}
_JOINED = (",", "and", "/")


@dataclass(frozen=True)
class Series:
    """Amounts of one kind, listed."""

    name: str
    """Which question they answer; "" for bare numbers."""
    details: list[Detail]
    values: list[float]
    ends: list[int]
    """Behind each of them."""
    unit: str
    """Of the last that has one."""


def series_at(sentence: Sentence, at: int, unit: str = "") -> Series:
    """The amount at a word, or the list that begins there; a bare number has the unit behind it."""
    part, here, bare = sentence.parts[at], at, []
    while part.text == "<number>" and not part.sides and not _counts(sentence, here):
        bare.append(here)
        here += 1 + (sentence.word(here + 1) in _JOINED)
        if here == bare[-1] + 1 or here >= len(sentence.parts):
            break
        part = sentence.parts[here]
    name = _NAMES.get(part.text, "")
    ends = name and not part.sides and (not bare or of_a_turtle(name, part.value, part.unit))
    if part.text == "<lengths>" and not bare:
        said = [Detail(side.said, sentence, here) for side in part.sides]
        unit = label(part.sides[-1].unit or "")
        return Series(name, said, [s.value for s in part.sides], [here + 1] * len(said), unit)
    name = name if ends or not bare else ""
    unit = label(part.unit or "") if name else unit
    places = [*bare, *([here] if name else [])]
    parts = [sentence.parts[place] for place in places]
    said = [
        Detail(one.said if one.unit else f"{one.said} {unit}".strip(), sentence, place)
        for one, place in zip(parts, places, strict=True)
    ]
    return Series(name, said, [one.value for one in parts], [n + 1 for n in places], unit)


def _counts(sentence: Sentence, at: int) -> bool:
    """Whether a number counts what follows, and is none of a list."""
    after = sentence.word(at + 1)
    return (
        bool(sex_of(after))
        or after == "<kind>"
        or after not in (_list("after_number") | set(_JOINED) | _NAMES.keys())
    )


def is_told(name: str, sentence: Sentence, at: int, end: int, scope: str) -> bool:
    """Whether what stands around the amounts from `at` to `end` leaves them to the turtles.

    The scope is the word for each of them in front, if there is one.
    """
    if is_mended(sentence, end) or is_read_again(sentence, end - 1):
        return False
    if name == LENGTH:
        return _begins_length(sentence, at) and _ends_length(sentence, end)
    before, after = sentence.word(at - 1), sentence.word(end)
    stands = before in _list(f"before_{name}") or bool(sex_of(before)) or before[:1] == "<"
    if name == MASS:
        return stands
    stands = stands or bool(scope and before not in ("since", "for"))
    stands = stands and after != "ago" and bool(scope or after in _list("after_age"))
    return stands and not sentence.is_doubted(at, end)


def _begins_length(sentence: Sentence, at: int) -> bool:
    """Whether a length follows the turtles or a word for a shell, and no deed: stands up 15 cm."""
    if not is_of_a_shell(sentence, at):
        return False
    before = sentence.word(at - 1 - (sentence.word(at - 1) == "to"))
    return bool(sex_of(before)) or before not in _list("no_shell_behind") | other_things()


def _ends_length(sentence: Sentence, end: int) -> bool:
    after = sentence.word(end)
    if after == "of" and sentence.word(end + 1) in _list("shell"):
        return True
    return after not in _list("no_shell_before") | other_things()
