"""A second amount of the same kind behind a fact: then neither is sure.

The water is 78F at the top and 74F at the bottom; 200 watts, well 100 actually.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cache

from interview.words.telling_lexicon import raw_patterns
from interview.words.telling_net import Candidate, Thing
from interview.words.telling_sentences import Sentence

__all__ = ["has_second", "is_mended"]

_ONE_QUANTITY = frozenset({"<temperature>", "<power>", "<flow>", "<share>", "<percent>"})
"""Two of these about one thing are two readings of it; two lengths may be two sides."""

_REACH = 4
"""Words behind an amount that may name what it is about."""


def has_second(
    sentence: Sentence, fact: Candidate, things: Sequence[Thing], taken: Sequence[Candidate]
) -> bool:
    """Whether another amount stands behind a fact's own that may be meant instead.

    Args:
        sentence: where the fact stands
        fact: a phrase with an amount
        things: the things named in the sentence
        taken: every phrase that is about something; its amount is no second one
    """
    if fact.rule.says:
        return False
    if is_mended(sentence, fact.end):
        return True
    word, others = sentence.words[fact.said_first], _others(fact, things)
    own = {at for one in taken for at in range(one.first, one.end)}
    cued = False
    for at in range(fact.said_end, len(sentence.words)):
        here = sentence.words[at]
        if at in own:
            continue
        if at in others or _is_topic(here, fact):
            return False
        cued = cued or here in _words()["cues"]
        if here == word and (cued or word in _ONE_QUANTITY):
            return not _goes_to_another(sentence, at, fact, others)
        if here == "<number>" and cued and sentence.word(at + 1) in _words()["after_number"]:
            return True
    return False


def is_mended(sentence: Sentence, end: int) -> bool:
    """Whether another amount is offered right behind these words: or maybe 14, well 100."""
    at = end + (sentence.word(end) == ",")
    first = at
    while sentence.word(at) in _words()["cues"]:
        at += 1
    offered = sentence.word(at)
    if at == first or not (offered[:1] == "<" or offered in _words()["amounts"]):
        return False
    return offered != "<number>" or sentence.word(at + 1) in _words()["after_number"] | {"times"}


@cache
def _words() -> Mapping[str, frozenset[str]]:
    """The lists of words under `second`."""
    return {name: frozenset(words) for name, words in raw_patterns()["second"].items()}


def _own(fact: Candidate) -> frozenset[str]:
    return _words().get(fact.rule.id, frozenset())


def _others(fact: Candidate, things: Sequence[Thing]) -> frozenset[int]:
    """Where other things are named."""
    names = {fact.rule.of, *_own(fact)}
    return frozenset(
        at for thing in things if thing.name not in names for at in range(thing.first, thing.end)
    )


def _is_topic(word: str, fact: Candidate) -> bool:
    """Whether a word names what else an amount may be about: the room, the water."""
    return word in _words()["topics"] and word not in _own(fact)


def _goes_to_another(sentence: Sentence, at: int, fact: Candidate, others: frozenset[int]) -> bool:
    """Whether an amount belongs to another thing behind it: 85F in the room."""
    for here in range(at + 1, min(at + 1 + _REACH, len(sentence.words))):
        if sentence.words[here] == ",":
            return False
        if here in others or _is_topic(sentence.words[here], fact):
            return True
    return False
