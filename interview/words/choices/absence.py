"""The many ways of saying that there is none, or that nobody knows: no wood, n/a, beats me."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import is_said, said_as
from interview.words.text.tokens import plain_words

__all__ = ["is_absent", "is_bare_denial", "is_unsure"]

_LONGEST, _LONGEST_UNSURE = 80, 60


@cache
def _edges(name: str) -> re.Pattern[str]:
    """Words that only lead up to an answer, or away from it: well, …, sorry."""
    before, after = (
        "|".join(sorted(known_words(name, side), key=lambda word: (-len(word), word)))
        for side in ("before", "after")
    )
    return re.compile(rf"^(?:(?:{before}) )+|(?: (?:{after}))+$")


def is_unsure(text: str) -> bool:
    """Whether the text says nothing but that the keeper doesn't know.

    "Unknown" counts; where a choice has an option of that name, read the choice first.
    """
    if text.strip() and not text.strip().strip("?"):
        return True
    words = plain_words(text)
    ways = {words, _edges("unsure_edges").sub("", words)}
    return len(words) <= _LONGEST_UNSURE and not known_words("unsure").isdisjoint(ways)


def is_bare_denial(text: str) -> bool:
    """Whether the words are only none, nothing and the like, which may mean two things."""
    return _trimmed(text) in known_words("none")


def is_absent(text: str, things: Iterable[str] = ()) -> bool:
    """Whether the words say no more than that there is none.

    Args:
        text: what was typed
        things: what is asked about, as "wood": then "no wood" says so too
    """
    words = _trimmed(text)
    if not words or len(words) > _LONGEST:
        return False
    if words in known_words("none") or is_said(words, "absence", "none_there"):
        return True
    named = "|".join(re.escape(thing) for thing in things)
    denied = said_as("absence", "has_no").pattern
    return bool(named and re.fullmatch(rf" {denied}(?:{named})", f" {words}"))


def _trimmed(text: str) -> str:
    return _edges("absence").sub("", plain_words(text[: 2 * _LONGEST]))
