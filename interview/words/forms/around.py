"""Words that may stand around a value: 4 in below the rim, a 75 W bulb, rated for 150 W.

What a length is measured from is held against what the question means: above the rim is no
answer to how far below it.
"""

from __future__ import annotations

import re
from typing import Literal

from interview.base.rows import Row
from interview.words.lexicon.files import known_words
from interview.words.text.refusal import NotUnderstood, quoted

__all__ = ["OtherSide", "WordsAround", "one_side", "without"]

_SIDES = {
    "below": r"below|under|underneath|beneath|down from|lower than|short of|shy of",
    "above": r"above|over|up from|higher than|out of|on top of",
    "from": r"from|off|off of|away from|to|clear of",
}
_SIDE = {word: side for side, words in _SIDES.items() for word in words.split("|")}
_WORDS = "|".join(sorted(_SIDE, key=len, reverse=True))
_THE = r"(?:the |my |its |it's |a |an |any |nearest )?"
_REFERENCE = re.compile(
    rf"^(?P<rest>.*?\S)\s+(?P<side>{_WORDS})\s+{_THE}(?P<thing>[a-z][a-z' ]{{1,30}})$",
    re.IGNORECASE,
)
_BARE_SIDE = {"below": r"down", "above": r"up|out", "from": r"away|off|apart"}
_SIDE_LAST = re.compile(
    r"^(?P<rest>.*(?:\d|[a-z]).*?)\s+(?:in )?"
    r"(?P<side>long|wide|high|tall|deep|thick|across|length|width|height|depth|thickness)$",
    re.IGNORECASE,
)
_SAME_SIDE = {"tall": "high", "length": "long", "width": "wide", "height": "high"}
_SAME_SIDE |= {"depth": "deep", "thickness": "thick"}
_MEANS = {"below": "down from", "above": "up from", "from": "from"}
_INSTEAD = "that length instead"
_PAIR = re.compile(r"(\d+)\s*/\s*\d+\s*(?:mm|cm)\b")
_EACH = re.compile(
    r"^(?P<many>two|three|four|[2-9])(?:\s*(?:x|×|of|\*)\s*|\s+)(?P<one>\d{2,4})\s*(?:w|watts?)?'?s?"
    r"(?: heaters?| ones)?$",
    re.IGNORECASE,
)


class OtherSide(NotUnderstood):
    """A length measured from another thing, or from its other side."""


class WordsAround(Row, frozen=True, kw_only=True):
    """What may stand around the answers to one question, as its row says."""

    below: tuple[str, ...] = ()
    """What the length reaches down from."""
    above: tuple[str, ...] = ()
    """What the length reaches up from."""
    away: tuple[str, ...] = ()
    """What the length is a distance from, either way."""
    nouns: tuple[str, ...] = ()
    """What the value is of: a 75 W bulb."""
    before: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    """Words that say nothing here, as max behind a rating; several may stand in a row."""
    within: tuple[str, ...] = ()
    """Words that say nothing between a number and its unit: lit hours."""
    nothing: tuple[str, ...] = ()
    """Words that mean 0."""
    each: bool = False
    """Whether several are told by the value of one."""
    sides: tuple[Literal["long", "wide", "high", "deep", "thick", "across"], ...] = ()
    """Which side of a thing it is; others are refused."""
    one_of_pair: str = ""
    """What alone is asked for where two are written with a slash: a hose of 16/22 mm."""

    @property
    def ways(self) -> dict[str, tuple[str, ...]]:
        """What it is measured from, by the way."""
        ways = {"below": self.below, "above": self.above, "from": self.away}
        return {side: things for side, things in ways.items() if things}


def one_side(text: str, around: WordsAround) -> str:
    """A length without the word for its side: 3 cm deep.

    Raises OtherSide where it is another side than the one asked for.
    """
    alone = " ".join(text.split()).strip(" .")
    found = _SIDE_LAST.match(alone) or _SIDE_LAST.match(_without_hedge(alone))
    if found is None:
        return text
    word = found["side"].casefold()
    word = _SAME_SIDE.get(word, word)
    if word in around.sides:
        return found["rest"]
    ways = (f"it is measured {_MEANS[way]} the {of[0]}" for way, of in around.ways.items())
    wanted = next(ways, f"it is asked how {around.sides[0] if around.sides else 'far'}")
    raise OtherSide(quoted(text), f"that is how {word} something is, and here {wanted}", _INSTEAD)


def _without_hedge(text: str) -> str:
    """The words without what widens them at their end: 25 cm deep I think."""
    ends = (f" {phrase}" for phrase in known_words("hedges_after", "about"))
    return next((text[: -len(end)] for end in ends if text.casefold().endswith(end)), text)


def without(text: str, around: WordsAround) -> str:
    """The value alone; the text as it is where nothing is around it.

    Raises:
        OtherSide: for a length measured from another thing, or from its other side.
        NotUnderstood: for several told by the value of one, where one value is wanted.
    """
    folded = " ".join(text.split())
    if folded.casefold().strip(" .!") in around.nothing:
        return "0"
    if around.each and (found := _EACH.match(folded)):
        wrong = f"here goes the power of one; “change number of heaters” takes the {found['many']}"
        raise NotUnderstood(quoted(text), wrong, f'"{found["one"]} W"')
    if around.one_of_pair and (pair := _PAIR.search(folded)):
        raise OtherSide(
            quoted(text), "those are two", f"{around.one_of_pair}, as {quoted(pair[1])}"
        )
    value = _without_reference(folded, around)
    value = _without_edges(value, around.before, front=True)
    value = _without_edges(value, around.after, front=False)
    if around.within:
        between = "|".join(map(re.escape, around.within))
        value = re.sub(rf"(?<=\d)\s*\b(?:{between})\s+(?=\w)", " ", value, flags=re.IGNORECASE)
    ends = tuple(f"{of}{noun}" for of in ("of ", "") for noun in around.nouns)
    return _without_edge(value, ends, front=False)


def _without_reference(text: str, around: WordsAround) -> str:
    if not around.ways:
        return text
    own, things = next(iter(around.ways.items()))
    for side in (own, "from"):
        if found := re.match(rf"^(.*\S)\s+(?:{_BARE_SIDE[side]})$", text, re.IGNORECASE):
            return found[1]
    found = _REFERENCE.match(text)
    if found is None or not re.search(r"\d|[a-z]", found["rest"], re.IGNORECASE):
        return text
    side, thing = _SIDE[found["side"].casefold()], found["thing"].casefold().strip()
    if thing in things and side in (own, "from"):
        return found["rest"]
    if thing not in things and thing not in known_words("measured_from"):
        return text
    wrong = f"here it is measured {_MEANS[own]} the {things[0]}"
    raise OtherSide(quoted(text), wrong, _INSTEAD)


def _without_edges(text: str, words: tuple[str, ...], *, front: bool) -> str:
    """The text without any of the words at its front or its end."""
    while (shorter := _without_edge(text, words, front=front)) != text:
        text = shorter
    return text


def _without_edge(text: str, words: tuple[str, ...], *, front: bool) -> str:
    """The text without one of the words at its front or its end; never without all of it."""
    for word in sorted(words, key=len, reverse=True):
        form = rf"^{re.escape(word)}\s+(\S.*)$" if front else rf"^(.*\S)\s+{re.escape(word)}s?$"
        if found := re.match(form, text, re.IGNORECASE):
            return found[1]
    return text
