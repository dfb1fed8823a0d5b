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
    touched = said_as("electric", "touched").search(f" {plain_words(text)} ") is not None
    clauses = [f" {plain_words(clause)} " for clause in _ENDS.split(text)]
    told = (_is_told(clause, touched, clauses[at + 1 :]) for at, clause in enumerate(clauses))
    return any(told)


def _is_told(words: str, touched: bool, behind: Sequence[str]) -> bool:
    if not touched:  # else it is more than a fright
        words = said_as("electric", "startled").sub("", words)
    return any(
        not _unfelt().search(_before(words[: found.start()]))
        and not is_over(words[: found.end()], words[found.end() :], behind)
        for found in said_as("electric", "felt").finditer(words)
    )


def _before(words: str) -> str:
    """The words before, without those that only sound like a denial."""
    return said_as("electric", "wondered").sub("", words)


@cache
def _unfelt() -> re.Pattern[str]:
    return re.compile(f"(?:{said_as('electric', 'unfelt').pattern})$")
