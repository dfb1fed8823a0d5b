"""A story as parts: words, marks, and amounts with the hedges around them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from typing import TypeAlias

from interview.base.units import convert
from interview.words.amounts.numbers import number_words
from interview.words.amounts.ranges import decade_at
from interview.words.amounts.spellings import Unit
from interview.words.forms.clock import clock_at
from interview.words.forms.told import (
    Side,
    amount_at,
    lengths_at,
    range_at,
    size_at,
    two_ends,
)
from interview.words.lexicon.files import known_words, words
from interview.words.spans.atoms import atoms_in
from interview.words.spans.heard import typed
from interview.words.spans.sides import told_sides
from interview.words.text.tokens import Text

__all__ = ["Part", "Side", "read_parts"]

_SIDES = 3
_NO_SIZE = frozenset({"-", "/"})
"""Between numbers these may be of a range, or of one or the other."""
_MOST_TRIES = 300
"""Words looked at for an amount: more than any story has; what follows is left as words."""


@dataclass(frozen=True, slots=True)
class Part:
    """A word, a mark or an amount, and where it stands in the text."""

    kind: str
    """word, mark, number, part (of a whole), size, lengths or a dimension's name."""
    text: str
    """Folded; an amount is its kind in angle brackets, which no typed word can be."""
    start: int
    end: int
    said: str = ""
    """An amount as its question would be told it, hedges included."""
    value: float = 0.0
    unit: Unit | None = None
    sides: tuple[Side, ...] = ()
    """Of a size; of several lengths, one for each; the two ends of a range."""
    look: str = ""
    """name for a word with a capital letter inside a sentence, owner for one that ends in 's."""


@cache
def _tens() -> frozenset[str]:
    """What begins a ten of degrees: mid 80s, seventies F."""
    return frozenset({*words().parts_of_ten, *words().numbers.decades})


@cache
def _hedges(side: str) -> tuple[tuple[str, ...], ...]:
    """What widens an amount in a story too, before it or after it, the longest first."""
    listed = getattr(words(), f"hedges_{side}").values()
    phrases = {phrase for group in listed for phrase in group}
    phrases -= known_words("told", f"no_hedges_{side}")
    return tuple(sorted((tuple(phrase.split()) for phrase in phrases), key=len, reverse=True))


def _after_hedge(text: Text, end: int) -> int:
    ends = ((end + len(phrase), phrase) for phrase in _hedges("after"))
    return next((stop for stop, phrase in ends if text.words(end, stop) == phrase), end)


def _before_hedge(text: Text, at: int, limit: int) -> int:
    """Where the hedge in front of an amount starts."""
    starts = ((at - len(phrase), phrase) for phrase in _hedges("before"))
    fit = (start for start, said in starts if start >= limit and text.words(start, at) == said)
    return next(fit, at)


_Sizes: TypeAlias = Mapping[int, tuple[int, tuple[Side, ...]]]
"""Sizes by where they begin, each with its end."""


def _loose_sizes(text: Text) -> _Sizes:
    """Sizes of three sides in forms that only stories have: 150 on 50 on 50."""
    found: dict[int, tuple[int, tuple[Side, ...]]] = {}
    for one in told_sides(text, atoms_in(text)):
        inside = text.words(one.first, one.end)
        if len(one.lengths) == _SIDES and _NO_SIZE.isdisjoint(inside):
            sides = (Side(typed(n, u) if u else f"{n:g}", n, u) for n, u in one.lengths)
            found[one.first] = one.end, tuple(sides)
    return found


def _part_at(text: Text, at: int, loose: _Sizes) -> tuple[int, Part] | None:
    """The amount that starts here, without a hedge in front."""
    if stop := clock_at(text.text, text.tokens[at].start):
        end = _behind(text, stop)
        return end, _part(text, at, end, "clock")
    if ten := decade_at(text.text, text.tokens[at].start):
        end, best, unit = _behind(text, ten[0]), ten[1].span.best, ten[1].unit
        part = _part(text, at, end, "temperature")
        return end, replace(part, value=round(convert(best, "degC", unit)), unit=unit)
    size = size_at(text, at)
    if at in loose and (size is None or len(size[1]) < _SIDES):
        size = loose[at]
    if size is not None:
        return size[0], _part(text, at, size[0], f"size{len(size[1])}", sides=size[1])
    first = amount_at(text, at)
    if first is None:
        return None
    several = lengths_at(text, first)
    if several is not None:
        return several[0], _part(text, at, several[0], "lengths", sides=several[1])
    last = range_at(text, first) or first
    sides = two_ends(text, first, last) if last is not first else ()
    end = _after_hedge(text, last.end)
    part = _part(text, at, end, last.kind, sides)
    return end, replace(part, value=first.value, unit=last.unit)


def _behind(text: Text, stop: int) -> int:
    """The first token behind a place."""
    return next((n for n, t in enumerate(text.tokens) if t.start >= stop), len(text.tokens))


def _part(text: Text, at: int, end: int, kind: str, sides: tuple[Side, ...] = ()) -> Part:
    start, stop = text.tokens[at].start, text.tokens[end - 1].end
    return Part(kind, f"<{kind}>", start, stop, text.said(at, end), sides=sides)


def _look(text: Text, at: int) -> str:
    token = text.tokens[at]
    if token.kind != "word":
        return ""
    if token.raw[-2:] in ("'s", "’s") and token.text != "its":
        return "owner"
    inside = at > 0 and (text.tokens[at - 1].kind == "word" or text.word(at - 1) in (",", "&", ":"))
    return "name" if inside and token.raw[0].isupper() and not token.raw[-1].isupper() else ""


def read_parts(text: str) -> list[Part]:
    """The text as parts, in order; amounts take in the hedges around them."""
    return list(_parts(Text(text)))


def _parts(text: Text) -> Iterator[Part]:
    waiting: list[Part] = []
    loose = _loose_sizes(text)
    at = tries = 0
    while at < len(text.tokens):
        token = text.tokens[at]
        may_be = token.kind == "number" or token.text in number_words() | _tens()
        may_be = may_be and tries < _MOST_TRIES
        tries += may_be
        found = _part_at(text, at, loose) if may_be else None
        if found is None:
            look = _look(text, at)
            waiting.append(Part(token.kind, token.text, token.start, token.end, look=look))
            at += 1
            continue
        opened = _opened(text, at, at - len(waiting), found[1])
        yield from waiting[: len(waiting) - (at - opened)]
        yield _hedged(text, opened, found[1])
        waiting, at = [], found[0]
    yield from waiting


def _opened(text: Text, at: int, limit: int, part: Part) -> int:
    """Where an amount starts, with its hedge or the "between" of its range."""
    opened = _before_hedge(text, at, limit)
    is_range = bool(part.sides) and part.kind != "lengths" and " and " in part.said
    between = opened == at > limit and is_range and text.word(at - 1) == "between"
    return at - 1 if between else opened


def _hedged(text: Text, opened: int, part: Part) -> Part:
    begin = text.tokens[opened].start
    hedge = " ".join(text.text[begin : part.start].split())
    return replace(part, start=begin, said=f"{hedge} {part.said}") if begin < part.start else part
