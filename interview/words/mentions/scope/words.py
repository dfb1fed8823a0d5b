"""One sentence of a story as words, with the breaths they stand in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from interview.words.lexicon.files import known_words
from interview.words.mentions.parts import Part

__all__ = ["Words"]


@dataclass(frozen=True)
class Words:
    """Parts that say something; each has one word here, an amount's in angle brackets."""

    parts: tuple[Part, ...]
    asked: bool
    """Whether the sentence ends as a question."""

    @cached_property
    def words(self) -> tuple[str, ...]:
        """The word of each part."""
        return tuple(part.text for part in self.parts)

    @cached_property
    def line(self) -> str:
        """The words with one space around each."""
        return f" {' '.join(self.words)} "

    @cached_property
    def known(self) -> frozenset[str]:
        """The words, to look up quickly."""
        return frozenset(self.words)

    @cached_property
    def _places(self) -> dict[int, int]:
        places, at = {}, 1
        for number, word in enumerate(self.words):
            places[at] = number
            at += len(word) + 1
        places[at] = len(self.words)
        return places

    def spots(self, pattern: re.Pattern[str]) -> Iterator[tuple[int, int, re.Match[str]]]:
        """First word and end of every match."""
        for match in pattern.finditer(self.line):
            yield self._places[match.start()], self._places[match.end()], match

    def place(self, offset: int) -> int:
        """The number of the word that starts at an offset of the line."""
        return self._places[offset]

    def word(self, at: int) -> str:
        """A word; "" outside the sentence."""
        return self.words[at] if 0 <= at < len(self.words) else ""

    @cached_property
    def breaths(self) -> tuple[int, ...]:
        """The number of the breath each word belongs to."""
        numbers, number = [], 0
        for word in self.words:
            number += word in known_words("breaths") or word in ("no", "without")
            numbers.append(number)
        return tuple(numbers)

    @cached_property
    def _edges(self) -> dict[int, tuple[int, int]]:
        edges: dict[int, tuple[int, int]] = {}
        for at, number in enumerate(self.breaths):
            edges[number] = edges.get(number, (at, at))[0], at + 1
        return edges

    def breath(self, first: int, end: int) -> tuple[int, int]:
        """First word and end of the breaths that words first to end stand in."""
        return self._edges[self.breaths[first]][0], self._edges[self.breaths[end - 1]][1]

    def speaks(self, listed: str, *, but: str) -> bool:
        """Whether a word of one list stands in it, and none of another."""
        return not known_words(listed).isdisjoint(self.known) and known_words(but).isdisjoint(
            self.known
        )
