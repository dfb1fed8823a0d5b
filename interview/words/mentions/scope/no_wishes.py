"""What has the words of a wish, or of somebody else's things, and is neither."""

from __future__ import annotations

from interview.words.lexicon.files import known_words
from interview.words.mentions.scope.words import Words

__all__ = ["is_no_wish"]

_NEAR = 6
"""Words behind somebody in which it is said that something was handed over."""


def is_no_wish(said: Words, first: int, end: int) -> bool:
    """Whether a phrase that usually wishes, asks or is of others says here what is so."""
    return (
        _answers(said, first)
        or _gave(said, first)
        or _came(said, first, end)
        or _wonders(said, first)
    )


def _answers(said: Words, at: int) -> bool:
    """You asked about the heater: it is 200 W."""
    return said.words[at] == "asked" and said.word(at - 1) == "you"


def _gave(said: Words, at: int) -> bool:
    """Whether this is somebody from whom the animal or the tank was got."""
    near = said.words[max(at - 3, 0) : at]
    if said.words[at] not in known_words("givers") or {"from", "off"}.isdisjoint(near):
        return False
    return not known_words("got").isdisjoint(said.words[:at])


def _came(said: Words, first: int, end: int) -> bool:
    """Whether something came from there: media from my other tank; a mate gave it to us."""
    if said.words[first] in known_words("givers") and (
        said.word(end) in ("gave", "gifted", "sold") or _hands_over(said, end)
    ):
        return True
    before = said.words[max(first - 4, 0) : first]
    if said.words[first] in known_words("giver_owns"):
        return not {"from", "off", "of", "on"}.isdisjoint(before)
    return said.words[end - 1] == "tank" and "from" in before[-2:]


def _wonders(said: Words, at: int) -> bool:
    """No clue if it's a boy; Norwich, if that helps: nothing is wished for."""
    if said.words[at] != "if":
        return False
    aside = not known_words("asides_with_if").isdisjoint(said.words[at + 1 : at + 5])
    return aside or said.word(at - 1) in known_words("wondered")


def _hands_over(said: Words, end: int) -> bool:
    """My brother moved out and left me his turtles: they are mine now."""
    words = range(end, min(end + _NEAR, len(said.words) - 1))
    return any(
        said.words[at] in known_words("handed_over") and said.words[at + 1] in ("me", "us")
        for at in words
    )
