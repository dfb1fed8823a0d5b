"""The clauses of a story, and which of its amounts are taken back or denied.

All else that isn't so, as what is wished for or past, is left to what was learned.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from interview.words.mentions.competing import is_mended
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["Clause", "clauses_in", "is_retracted"]

_NEAR = 3
"""Words before an amount in which a “no” denies it (assumption)."""


@dataclass(frozen=True)
class Clause:
    """A breath of a sentence, by its characters in the text."""

    start: int
    stop: int


def clauses_in(told: Sequence[Sentence]) -> Iterator[Clause]:
    """Every breath of every sentence."""
    for sentence in told:
        end = 0
        while end < len(sentence.words):
            first, end = sentence.breath(end, end + 1)
            parts = sentence.parts[first:end]
            yield Clause(parts[0].start, parts[-1].end)


def is_retracted(told: Sequence[Sentence], start: int, stop: int) -> bool:
    """Whether an amount there is taken back, or something beside it, or it is denied."""
    for sentence, following in zip_longest(told, told[1:]):
        parts = enumerate(sentence.parts)
        at = [n for n, part in parts if part.start < stop and start < part.end]
        if at:
            end = at[-1] + 1
            off = sentence.corrections or (following and following.corrections)
            low, _ = sentence.breath(at[0], end)
            near = range(max(low, at[0] - _NEAR), at[0])  # no stick of 150 watts
            denied = any(one in near for one in sentence.denials)
            return bool(off) or denied or is_mended(sentence, end)
    return False
