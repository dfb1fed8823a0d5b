"""What can't wait: electricity where it should not be, fire, water on the floor, a person hurt."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from interview.words.intents.of_whom import is_over
from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import said_as
from interview.words.text.tokens import plain_words

__all__ = ["EMERGENCIES", "beside_people", "tells_of", "tells_of_electricity"]

EMERGENCIES = ("electric", "person", "flood", "lost", "in_water")
"""What can't wait, the gravest first; all but the first are lists under `accidents`."""
_ENDS = re.compile(r"[.,;:!?\n]|\bbut\b", re.IGNORECASE)
_ASIDE = re.compile(r",\s*(?:who|which)\b[^,.;!?\n]*,", re.IGNORECASE)
"""What is told in between of what it is told of: grandma, who feeds him, is unconscious."""
_NONE = {one: ("harmless", f"not_{one}") for one in ("flood", "in_water")}
"""Lists of what tells, in the clause, that it is none."""
_HARMLESS = ("harmless",)


def tells_of_electricity(text: str) -> bool:
    """Whether a line tells that somebody felt or saw it; not that it is feared, or asked."""
    touched = said_as("electric", "touched").search(f" {plain_words(text)} ") is not None
    clauses = [f" {plain_words(clause)} " for clause in _ENDS.split(text)]
    return any(_is_told(clauses[at:], touched) for at in range(len(clauses)))


def _is_told(clauses: Sequence[str], touched: bool) -> bool:
    """Whether the first of some clauses tells of it; what is long past only till it is mended."""
    words, *behind = clauses
    if not touched:  # else it is more than a fright
        words = said_as("electric", "startled").sub("", words)
    is_mended = any(map(_is_mended, clauses))
    return any(
        not _unfelt().search(_before(words[: found.start()]))
        and not (is_mended and is_over(words[: found.end()], words[found.end() :], behind))
        for found in said_as("electric", "felt").finditer(words)
    )


def tells_of(accident: str, text: str) -> bool:
    """Whether a line tells that it happened; not that it is feared, asked, or long over."""
    if accident == "electric":
        return tells_of_electricity(text)
    clauses = [f" {plain_words(clause)} " for clause in _ENDS.split(_ASIDE.sub(" ", text))]
    if accident == "lost" and any(map(_is_found, clauses)):
        return False
    none = _NONE.get(accident, _HARMLESS)
    return any(
        not _unfelt().search(_before(words[: found.start()]))
        and not (accident == "person" and said_as("accidents", "reported").search(f" {found[0]}"))
        and not any(said_as("accidents", name).search(words) for name in none)
        and not is_over(words[: found.end()], words[found.end() :], clauses[at + 1 :])
        for at, words in enumerate(clauses)
        for found in said_as("accidents", accident).finditer(words)
    )


def beside_people(text: str) -> str:
    """A text without the clauses that tell of a person hurt, which show nothing of a turtle."""
    clauses = _ENDS.split(_ASIDE.sub(" ", text))
    left = [clause for clause in clauses if not tells_of("person", clause)]
    return ", ".join(left) if len(left) < len(clauses) else text


def _is_found(clause: str) -> bool:
    """Whether a clause says that who was lost is found, and not how another time it was."""
    return said_as("accidents", "earlier").search(clause) is None and any(
        not _unfelt().search(_before(clause[: found.start()]))
        for found in said_as("accidents", "not_lost").finditer(clause)
    )


def _is_mended(clause: str) -> bool:
    """Whether a clause says for sure that what was at fault is mended, or gone."""
    return any(
        known_words("electric", "unmended").isdisjoint(clause[: found.start()].split())
        for found in said_as("electric", "mended").finditer(clause)
    )


def _before(words: str) -> str:
    """The words before, without those that only sound like a denial."""
    return said_as("electric", "wondered").sub("", words)


@cache
def _unfelt() -> re.Pattern[str]:
    return re.compile(f"(?:{said_as('electric', 'unfelt').pattern})$")
