"""The many ways of saying that there is none: none, there isn't any, no wood, n/a."""

from __future__ import annotations

import re
from collections.abc import Iterable

from interview.words.lexicon.files import known_words
from interview.words.text.tokens import plain_words

__all__ = ["is_absent", "is_bare_denial"]

_LONGEST = 80

_WHO = r"(?:i|we|it|he|she|they|you|mine|ours|the tank|my tank|our tank)"
_NONE_THERE = re.compile(
    rf"(?:no )?there(?:s| is| are) (?:none|nothing|no such thing)"
    rf"|(?:no )?there (?:isnt|is not|arent|are not|aint)(?: any| one)?"
    rf"|not any|without|no there isnt|no there arent"
    rf"|(?:no )?(?:{_WHO} )?(?:have|has|had|use|uses|got|ive got|ive) (?:none|nothing)"
    rf"|(?:no )?(?:{_WHO} )?(?:dont|do not|doesnt|does not|havent|have not|hasnt|has not|didnt)"
    rf"(?: have| got| use| see| find| own| need)? (?:any|one|it|that|them)"
    rf"|(?:i )?(?:cant|can not|cannot|couldnt) (?:find|see) (?:any|one)"
    rf"|(?:i )?(?:found|saw|see) (?:none|nothing)"
    rf"|n a|na|not applicable|(?:it |that )?(?:doesnt|does not) apply"
)
_HAS_NO = (
    rf"(?:no|without|without any|zero|not any|(?:no )?there(?:s| is| are) no|"
    rf"there (?:isnt|arent) (?:any|an?)|"
    rf"(?:{_WHO} )?(?:have|has|ive|ive got|got|use) no|"
    rf"(?:{_WHO} )?(?:dont|do not|doesnt|havent|hasnt)(?: have| got| use)? (?:any|an?))"
)
_BEFORE = re.compile(r"^(?:(?:well|sorry|um|uh|oh|just|absolutely|literally|currently)\s+)+")
_AFTER = re.compile(
    r"(?:\s+(?:yet|at all|at the moment|right now|now|currently|so far|sorry|thanks|thank you|"
    r"really|tbh|though|in it|in there|in here|in the tank|in my tank|in this tank|on it))+$"
)


def is_bare_denial(text: str) -> bool:
    """Whether the words are only none, nothing and the like, which may mean two things."""
    return _trimmed(text) in known_words("none")


def is_absent(text: str, things: Iterable[str] = ()) -> bool:
    """Whether the words say no more than that there is none.

    Args:
        text: what was typed
        things: what is asked about, as "wood": then "no wood" says so too
    """
    words = _trimmed(text)
    if not words or len(words) > _LONGEST:
        return False
    if words in known_words("none") or _NONE_THERE.fullmatch(words):
        return True
    named = "|".join(re.escape(thing) for thing in things)
    return bool(named and re.fullmatch(rf"{_HAS_NO} (?:{named})", words))


def _trimmed(text: str) -> str:
    words = plain_words(text[: 2 * _LONGEST])
    return _AFTER.sub("", _BEFORE.sub("", words))
