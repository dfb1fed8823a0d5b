"""What of a line asks, and what it tells besides: she has no lamp, is that bad."""

from __future__ import annotations

import re
from functools import cache

from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import any_of
from interview.words.text.tokens import plain_words

__all__ = ["parted"]

_ENDS = re.compile(r"(?<=[.,;:!?])\s+|\s+(?=(?:and|but|so)\s)")
_LEAST_MARKED, _LEAST_TOLD = 5, 2
"""Words of a question that only its mark tells, and of what tells something."""
_INVERTED = ("wont", "isnt", "arent", "doesnt", "cant", "couldnt", "shouldnt", "wouldnt")
"""Words that begin a question where it is marked as one, else an answer: can't say."""


def parted(line: str) -> tuple[str, str]:
    """The clauses of a line that ask, and those that tell; each "" where there are none."""
    asking: list[str] = []
    telling: list[str] = []
    for clause in _clauses(line):
        (asking if _asks(clause) else telling).append(clause)
    if found := _reason().search(" ".join(asking)):
        telling.append(found[1])
    told = " ".join(telling).strip(" ,;")
    return " ".join(asking), told if len(plain_words(told).split()) >= _LEAST_TOLD else ""


def _clauses(line: str) -> list[str]:
    """Its clauses; what joins two that ask nothing by themselves parts nothing that matters."""
    found: list[str] = []
    for clause in _ENDS.split(line):
        found += [clause] if _asks(clause) else _turns().split(clause, maxsplit=1)
    return found


def _asks(clause: str) -> bool:
    spoken = plain_words(clause)
    words = any_of(("asked_instead", "leads")).sub("", f" {spoken} ").split()
    if words[:1] and words[0] in known_words("asked_instead", "opens"):
        return len(words) > 1
    is_long = len(words) >= _LEAST_MARKED or (words[:1] and words[0] in _INVERTED)
    return clause.rstrip().endswith("?") and bool(is_long)


@cache
def _turns() -> re.Pattern[str]:
    """Where a question begins behind what it is about, with no comma: no lamp is that bad."""
    return re.compile(
        rf"\s(?=(?:is|are|will|would|does) (?:that|this|it) (?:\w+ )?(?:{_judges()})\b)", re.I
    )


@cache
def _reason() -> re.Pattern[str]:
    """What follows as told within a question: is it bad that she has no lamp."""
    return re.compile(rf"\b(?:{_judges()})\s+(?:that|because|cause|since)\s+(.+)", re.I)


def _judges() -> str:
    return "|".join(sorted(known_words("asked_instead", "judges")))
