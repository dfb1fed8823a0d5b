"""What a keeper tells of a change, clause by clause: which way, how much, and what is gone."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, partial

from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import said_as
from interview.words.mentions.parts import Part, read_parts
from interview.words.mentions.scope.cutting import sentences
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["Clause", "clauses_in", "whole_clause"]

_list = partial(known_words, "changes")


@dataclass(frozen=True)
class Clause:
    """A run of words that tells one thing; each amount is one word, its kind in angle brackets."""

    said: Sentence
    source: str
    """The line it stands in."""

    @property
    def text(self) -> str:
        """As typed, folded."""
        return self._between(0, len(self.said.words)).casefold() if self.said.words else ""

    @property
    def start(self) -> int:
        """Where it begins in its line."""
        return self.said.parts[0].start

    @property
    def stop(self) -> int:
        """Where it ends in its line."""
        return self.said.parts[-1].end

    @cached_property
    def words(self) -> tuple[str, ...]:
        """The words, up to what something is instead of."""
        every = self.said.words
        for at in range(len(every) - 1):
            if every[at : at + 2] in (("instead", "of"), ("rather", "than")):
                return every[:at]
        return every

    @cached_property
    def amounts(self) -> tuple[int, ...]:
        """Where amounts stand that tell how it is, or how far it moved; not how it was."""
        every = [at for at, word in enumerate(self.words) if word[:1] == "<"]
        old = {at for at in every if self._is_old(at)}
        return tuple(at for at in every if at not in old)

    def _is_old(self, at: int) -> bool:
        before = self.words[:at]
        if before[-1:] == ("from",) and not self.said.parts[at].sides:
            return True
        if _list("traded").isdisjoint(before):
            return False
        after = self.words[at + 1 :]
        kept = next((n for n, word in enumerate(after) if word in _list("traded_for")), len(after))
        return any(word[:1] == "<" for word in after[kept:])

    @cached_property
    def direction(self) -> int:
        """1 for more or higher, -1 for less or lower, 0 where a new value is told.

        Raised to 25 cm tells where it is, raised 5 cm how far.
        """
        for at in self.amounts:
            if self.words[max(0, at - 1) : at] == ("to",) or self._reaches(at):
                return 0
        if not _list("less").isdisjoint(self.words):
            return -1
        return int(not _list("more").isdisjoint(self.words))

    def _reaches(self, at: int) -> bool:
        """From 20 to 25 cm: the second end is where it is."""
        return self.words[at - 1 : at] == ("from",) and len(self.said.parts[at].sides) == 2

    @property
    def is_denied(self) -> bool:
        """Whether it says how something is not."""
        return not _list("denied").isdisjoint(self.words)

    @property
    def is_moved(self) -> bool:
        """Whether it says that something was moved, and not where it is now."""
        return not _list("shifted").isdisjoint(self.words) and _list("settled").isdisjoint(
            self.words
        )

    @property
    def is_of_a_move(self) -> bool:
        """Whether it tells of something that went up, down, nearer or farther."""
        moves = known_words("names", "up_or_down") | known_words("names", "moved")
        return not moves.isdisjoint(self.words)

    def says(self, name: str) -> bool:
        """Whether it is put as one of the phrases of that name: aside."""
        return said_as("changes", name).search(f" {' '.join(self.words)} ") is not None

    @property
    def is_of_others(self) -> bool:
        """Whether it tells of somebody else's tank, or what somebody says."""
        others = known_words("givers") | known_words("giver_owns")
        return not others.isdisjoint(self.words) and "from" not in self.words

    @property
    def is_gone(self) -> bool:
        """Whether it tells of what is there no more."""
        return not _list("gone").isdisjoint(self.words) or self.words[0] in _list("without")

    def named_and_said(self) -> Iterator[tuple[Clause, str]]:
        """What is named, and what it shall be: cover over the water, mesh."""
        for at in range(len(self.words) - 1, 0, -1):
            if self.words[at - 1] in _list("shall_be") and at > 1:
                yield self.before(at - 1), self._between(at, len(self.words))
        for at in self.amounts:
            yield self.before(at), self._between(at, len(self.words))
            yield self.before(at), self._between(at, at + 1)

    def _between(self, first: int, end: int) -> str:
        parts = self.said.parts
        if self._reaches(first) and end == first + 1:
            return parts[first].sides[1].said
        return self.source[parts[first].start : parts[end - 1].end]

    @property
    def goals(self) -> tuple[int, ...]:
        """Where “to” stands, the last first."""
        return tuple(at for at in range(len(self.words) - 1, 0, -1) if self.words[at] == "to")

    @property
    def tells_goal(self) -> bool:
        """Whether “to” leads to what it tells: to 25 cm, to male; not 5 cm to the left."""
        if not self.amounts:
            return bool(self.goals)
        led = [
            [word for word in self.words[:at] if word not in _list("leads")] for at in self.amounts
        ]
        return any(words[-1:] == ["to"] for words in led)

    def before(self, end: int) -> Clause:
        """The clause up to a word."""
        return self._of(self.said.parts[:end])

    def after(self, first: int) -> Clause:
        """The clause without its first words."""
        return self._of(self.said.parts[first:])

    def with_more(self, other: Clause) -> Clause:
        """The clause with an amount that was told of it after a comma."""
        mine, more = self.said.parts, other.said.parts
        return self._of((*mine, Part("mark", ",", mine[-1].end, more[0].start), *more))

    def _of(self, parts: Iterable[Part]) -> Clause:
        return Clause(replace(self.said, parts=tuple(parts)), self.source)


@lru_cache(maxsize=64)
def clauses_in(text: str) -> tuple[Clause, ...]:
    """The clauses of a line, between commas and “and”; an amount alone stays with the last.

    None for what something is only instead of.
    """
    found: list[Clause] = []
    for clause in _cut_at_commas(text.replace("_", " ")):
        alone = all(word in _list("lone") or word[:1] == "<" for word in clause.words)
        if found and clause.amounts and alone:
            found[-1] = found[-1].with_more(clause)
        else:
            found.append(clause)
    return tuple(found)


def _cut_at_commas(text: str) -> Iterator[Clause]:
    for sentence in sentences(text, read_parts(text)):
        every, first = Clause(sentence, text), 0
        for at in range(len(sentence.words) + 1):
            if at == len(sentence.words) or (
                sentence.words[at] in (",", "and") and "between" not in sentence.words[first:at]
            ):
                if at > first and (clause := every.before(at).after(first)).words:
                    yield clause
                first = at + 1


@lru_cache(maxsize=64)
def whole_clause(text: str) -> Clause | None:
    """All of a line as one clause; None where it says nothing."""
    text = text.replace("_", " ")
    every = sentences(text, read_parts(text))
    if not every:
        return None
    parts = tuple(part for sentence in every for part in sentence.parts)
    return Clause(replace(every[0], parts=parts), text)
