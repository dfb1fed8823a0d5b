"""A second amount of the same kind behind a fact: then neither is sure.

The water is 78F at the top and 74F at the bottom; 200 watts, well 100 actually.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from interview.words.lexicon.files import known_words, words
from interview.words.mentions.relations import Candidate
from interview.words.mentions.scope.sentence import Sentence

__all__ = ["has_second", "is_mended", "is_old", "is_read_again"]

_list = partial(known_words, "competing")

_ONE_QUANTITY = frozenset(
    {"<temperature>", "<power>", "<flow>", "<share>", "<percent>", "<concentration>"}
)
"""Two of these about one thing are two readings of it; two lengths may be two sides."""

_NEAR = 14
"""Words behind a fact in which another amount may still be meant for it."""
_REACH = 4
"""Words behind an amount that may name what it is about."""


def has_second(
    sentence: Sentence, one: Candidate, things: Mapping[int, str] | None, own: frozenset[int]
) -> bool:
    """Whether another amount stands behind a fact's own that may be meant instead.

    Things are named by their words; None for a fact about an animal, whose amounts only a
    correction right behind them puts in doubt. `own` words are of phrases about something.
    """
    if one.fact.says:
        return False
    if things is None or is_mended(sentence, one.end):
        return is_mended(sentence, one.said_end) or is_mended(sentence, one.end)
    word, cued = sentence.words[one.said_first], False
    for at in range(one.said_end, min(one.end + _NEAR, len(sentence.words))):
        here = sentence.words[at]
        if at in own:
            continue
        if _is_other(here, things.get(at), one):
            return False
        cued = cued or here in _list("dates") or _is_cue(sentence, at)
        if here == word and (cued or word in _ONE_QUANTITY):
            return not _goes_to_another(sentence, at, one, things)
        if here == "<number>" and cued and sentence.word(at + 1) in _list("after_number"):
            return True
    return False


def is_mended(sentence: Sentence, end: int) -> bool:
    """Whether another amount is offered right behind these words: or maybe 14, well 100."""
    if sentence.words[end : end + 3] == ("and", "a", "bit"):
        return True
    at = end + (sentence.word(end) == ",")
    first = at
    while sentence.word(at) in _list("cues"):
        at += 1
    offered = sentence.word(at)
    if not (at > first or _is_cue(sentence, at)) or not (
        offered[:1] == "<" or offered in _list("amounts")
    ):
        return False
    return offered != "<number>" or sentence.word(at + 1) in _list("after_number") | {"times"}


def is_read_again(sentence: Sentence, at: int) -> bool:
    """Whether an amount is one of several dated readings: 612 g in March, 640 in April."""
    dated = False
    for here in range(at + 1, min(at + _NEAR, len(sentence.words))):
        word = sentence.words[here]
        dated = dated or (word in _list("dates") and here <= at + _REACH)
        bare = word == "<number>" and sentence.word(here + 1) in _list("after_number")
        if dated and (word == sentence.words[at] or bare):
            return True
    return False


def is_old(sentence: Sentence, one: Candidate) -> bool:
    """Whether an amount is how it was, or how far it went: from 101 to 91; climbs 8 degrees."""
    at = one.said_first
    is_degrees = sentence.word(at) == "<temperature>" and "swing" not in one.phrase.slots
    if is_degrees and not sentence.parts[at].sides and sentence.word(at - 1) in _list("steps"):
        return True
    if sentence.word(at - 1) != "from":
        return False
    if len(sentence.parts[at].sides) == 2:
        moved = _list("steps") | known_words("changes", "moves")
        return not moved.isdisjoint(sentence.words[max(0, at - 4) : at])
    return sentence.word(at + 1) == "to" and sentence.word(at + 2)[:1] == "<"


def _is_cue(sentence: Sentence, at: int) -> bool:
    """Whether a word, or what hedges an amount, says that it may be meant instead."""
    if sentence.word(at)[:1] != "<":
        return sentence.word(at) in _list("cues")
    return sentence.parts[at].said.partition(" ")[0].casefold() in _list("cues")


def _is_other(word: str, thing: str | None, one: Candidate) -> bool:
    """Whether a word names what else an amount may be about: a lamp, the room, the water."""
    own = words().competing.get(one.fact.id, ())
    if thing is not None:
        return thing != one.fact.of and thing not in own
    return word in _list("topics") and word not in own


def _goes_to_another(
    sentence: Sentence, at: int, one: Candidate, things: Mapping[int, str]
) -> bool:
    """Whether an amount belongs to another thing behind it: 85F in the room."""
    for here in range(at + 1, min(at + 1 + _REACH, len(sentence.words))):
        if sentence.words[here] == ",":
            return False
        if _is_other(sentence.words[here], things.get(here), one):
            return True
    return False
