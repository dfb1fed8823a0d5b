"""The many ways of saying that there is none, or that nobody knows: no wood, n/a, beats me."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from interview.words.lexicon.files import known_words, words
from interview.words.lexicon.rules import is_said, said_as
from interview.words.text.tokens import plain_words

__all__ = ["behind_unsure", "is_absent", "is_bare_denial", "is_unsure", "missing_tool", "wonders"]

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
    spoken = plain_words(text)
    if len(spoken) > _LONGEST_UNSURE:
        return False
    ways = {spoken, _edges("unsure_edges").sub("", spoken)}
    return not known_words("unsure").isdisjoint(ways) or bool(missing_tool(text))


def wonders(text: str) -> bool:
    """Whether the keeper doesn't know how or why it is asked: no idea how you even tell."""
    spoken = f" {plain_words(text)} "
    found = (said_as("asked_instead", name).search(spoken) for name in ("how", "why"))
    return any(one and is_unsure(spoken[: one.start()].strip()) for one in found)


@cache
def _no_idea() -> re.Pattern[str]:
    before, after = ("|".join(known_words("unsure_edges", side)) for side in ("before", "after"))
    unsure = "|".join(sorted(known_words("unsure"), key=len, reverse=True))
    return re.compile(rf"(?:(?:{before}) )*(?:{unsure})\b(?: (?:{after})\b)*")


def behind_unsure(text: str) -> str | None:
    """What follows where a text first says that the keeper doesn't know; None for other texts."""
    spoken = plain_words(text)
    opened = _no_idea().match(spoken) if len(spoken) <= _LONGEST else None
    return spoken[opened.end() :].strip() if opened else None


def missing_tool(text: str) -> str:
    """For what questions a text says that the tool is missing, and nothing else; "" for none."""
    spoken = f" {_edges('unsure_edges').sub('', _trimmed(text))}"
    return next((name for name in words().tools if _none_of(name).fullmatch(spoken)), "")


@cache
def _none_of(tools: str) -> re.Pattern[str]:
    named = "|".join(map(re.escape, known_words("tools", tools)))
    return re.compile(f" {said_as('absence', 'has_no').pattern}(?:{named})")


def is_bare_denial(text: str) -> bool:
    """Whether the words are only none, nothing and the like, which may mean two things."""
    return _trimmed(text) in known_words("none")


def is_absent(text: str, things: Iterable[str] = ()) -> bool:
    """Whether the words say no more than that there is none, or none of `things`: no wood."""
    spoken = _trimmed(text)
    if not spoken or len(spoken) > _LONGEST:
        return False
    if spoken in known_words("none") or is_said(spoken, "absence", "none_there"):
        return True
    named = "|".join(re.escape(thing) for thing in things)
    denied = said_as("absence", "has_no").pattern
    return bool(named and re.fullmatch(rf" {denied}(?:{named})", f" {spoken}"))


def _trimmed(text: str) -> str:
    return _edges("absence").sub("", plain_words(text[: 2 * _LONGEST]))
