"""A sentence of a story, and what in it is denied, doubted, taken back or only wished."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property

from interview.words.lexicon.files import known_words, meant_by
from interview.words.lexicon.rules import corrections, wishes_but
from interview.words.mentions.scope.wishes import words_off
from interview.words.mentions.scope.words import Words

__all__ = ["Sentence"]

_BEFORE_MONTHS = frozenset({"in", "since", "until", "by", "last", "next", "this", "early", "late"})
_SPREAD = 8
_AFTERWARDS = 12
"""Words behind a phrase in which a denial still denies it: a filter that is not running."""
_DOUBTS = 8
"""Words that a maybe doubts behind it in the same breath; before it half as many."""


@dataclass(frozen=True)
class Sentence(Words):
    """The words of a sentence, and which of them say what isn't so."""

    before: Sentence | None = field(default=None, repr=False)
    continued: bool = False
    """The sentence was too long and was cut before this."""
    _wished: dict[str, frozenset[int]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )

    @cached_property
    def denials(self) -> tuple[int, ...]:
        """Words that deny, and those a denial reaches through a list: no lid, filter or lamp."""
        corrected = {at for first, end, _ in self.spots(corrections()) for at in range(first, end)}
        found = [
            at
            for at, word in enumerate(self.words)
            if word in known_words("denials") and at not in corrected
        ]
        for at in tuple(found):
            found += self._spread(at)
        return tuple(dict.fromkeys(found))

    def _spread(self, at: int) -> list[int]:
        for here in range(at + 1, min(at + 1 + _SPREAD, len(self.words))):
            word = self.words[here]
            if word in ("or", "nor"):
                return list(range(at + 1, here + 2))
            if word.startswith("<") or word in known_words("states") or word in ("a", "an", "the"):
                break
        return []

    def is_denied(self, first: int, end: int) -> bool:
        """Whether something outside these words, but in their breath, denies them."""
        low, high = self.breath(first, end)
        high = min(high, end + _AFTERWARDS)
        return any(low <= at < high and not first <= at < end for at in self.denials)

    def is_doubted(self, first: int, end: int) -> bool:
        """Whether their breath says maybe or I think."""
        low, high = self.breath(first, end)
        reach = range(max(low, first - _DOUBTS), min(high, end + _DOUBTS // 2))
        return any(at in reach for at in self._doubtful)

    @cached_property
    def _doubtful(self) -> tuple[int, ...]:
        doubts, every = known_words("doubts"), enumerate(self.words)
        return tuple(at for at, word in every if word in doubts and not self._is_no_doubt(at))

    def _is_no_doubt(self, at: int) -> bool:
        """Whether this doubts nothing: expecting in May; a girl for sure; some sand."""
        if self.words[at] == "sure":
            return self.word(at - 1) in ("for", "im")
        if self.words[at] == "some":
            behind = self.word(at + 1)
            return behind == "water" or meant_by("things").get(behind) == "substrate"
        return self.words[at] == "may" and self.word(at - 1) in _BEFORE_MONTHS

    def wished(self, plans: str = "") -> frozenset[int]:
        """The words near a wish, a question, advice, the past or somebody else's tank.

        Of a keeper who plans the tank, planning is no mere wish: `plans` names the list of words
        that aren't then ("plans", of the animals "plans_of_animals").
        """
        if plans not in self._wished:
            before = self.before.wished(plans) if self.continued and self.before else frozenset()
            self._wished[plans] = words_off(self, wishes_but(plans), self.before, before)
        return self._wished[plans]

    @cached_property
    def corrections(self) -> tuple[int, ...]:
        """Where the keeper takes back what was just said: no wait, sorry."""
        return tuple(first for first, _, _ in self.spots(corrections()))
