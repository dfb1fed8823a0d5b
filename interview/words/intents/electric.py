"""Electricity felt or seen where it should not be, and fire: a tingle, a burnt plug."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from interview.words.intents.of_whom import is_over
from interview.words.lexicon.rules import said_as
from interview.words.text.tokens import plain_words

__all__ = ["tells_of_electricity"]

_ENDS = re.compile(r"[.,;:!?\n]|\bbut\b", re.IGNORECASE)


def tells_of_electricity(text: str) -> bool:
    """Whether a line tells that somebody felt or saw it; not that it is feared, or asked."""
    line = f" {plain_words(text)} "
    touched = said_as("electric", "touched").search(line) is not None
    is_mended = said_as("electric", "mended").search(_before(line)) is not None
    clauses = [f" {plain_words(clause)} " for clause in _ENDS.split(text)]
    return any(
        _is_told(clause, touched, clauses[at + 1 :] if is_mended else None)
        for at, clause in enumerate(clauses)
    )


def _is_told(words: str, touched: bool, behind: Sequence[str] | None) -> bool:
    """Whether a clause tells of it; what is long past only stays so where it was mended.

    `behind` are the clauses behind, of what was mended.
    """
    if not touched:  # else it is more than a fright
        words = said_as("electric", "startled").sub("", words)
    return any(
        not _unfelt().search(_before(words[: found.start()]))
        and (behind is None or not is_over(words[: found.end()], words[found.end() :], behind))
        for found in said_as("electric", "felt").finditer(words)
    )


def _before(words: str) -> str:
    """The words before, without those that only sound like a denial."""
    return said_as("electric", "wondered").sub("", words)


@cache
def _unfelt() -> re.Pattern[str]:
    return re.compile(f"(?:{said_as('electric', 'unfelt').pattern})$")
