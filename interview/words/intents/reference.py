"""Which answer a keeper means by a few words: “temperature”, “I raised the lamp”."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cache, cached_property

from interview.base.near_spelling import nearest
from interview.words.lexicon.files import known_words, words
from interview.words.mentions.clauses import Clause
from interview.words.text.tokens import plain_words

__all__ = ["Named", "called", "names_in", "referred"]

_SHORTEST = 3
_Words = tuple[str, ...]


@dataclass(frozen=True)
class Named:
    """An answer and what it goes by."""

    id: str
    short: str
    label: str
    trade_names: tuple[str, ...]
    kind: str
    """Its type: what has watts is a power, what was moved a length."""

    @cached_property
    def exact(self) -> tuple[str, ...]:
        """Its id, its counter wording and its whole wording, made plain."""
        ways = (self.id.replace("_", " "), self.short, self.label)
        return tuple(map(plain_words, ways))

    @cached_property
    def ways(self) -> tuple[_Words, ...]:
        """The words of every name but the whole wording."""
        names = (*self.exact[:2], *map(plain_words, self.trade_names))
        return tuple(tuple(name.split()) for name in names)


@cache
def _contents(named: Named, filler: str) -> frozenset[_Words]:
    """The words of each name that say which is meant, in alphabetical order."""
    return frozenset(tuple(sorted(_content(way, filler))) for way in named.ways)


@cache
def _filler(name: str) -> frozenset[str]:
    lists = ("small",) if name == "small" else ("small", "filler", "up_or_down", "moved")
    return frozenset().union(*(known_words("names", listed) for listed in lists))


def _same(word: str) -> str:
    return words().names.same.get(word, word)


def _content(spoken: Iterable[str], filler: str) -> list[str]:
    return [_same(word) for word in spoken if word not in _filler(filler)]


def _spoken(clause: Clause) -> _Words:
    """The words of a clause without its amounts; what has watts is spoken of so."""
    kept = (word for word in clause.said.words if word != "," and word[:1] != "<")
    return (*kept, "watts") if "<power>" in clause.said.words else tuple(kept)


def called(names: Iterable[Named], clause: Clause) -> list[str]:
    """The answers that go by just these words, small ones aside; none by part of a name."""
    spoken = tuple(sorted(_content(_spoken(clause), "small")))
    return [one.id for one in names if spoken and spoken in _contents(one, "small")]


def referred(names: Sequence[Named], clause: Clause, usual: Callable[[str], bool]) -> list[str]:
    """The answers that fit the words about as well as each other, in the order given.

    A whole name is taken alone; where a name is only hinted at, those that are `usual`
    come before the others. What was moved is a distance; what has watts, a power.
    """
    spoken = _spoken(clause)
    said = " ".join(spoken)
    for at in range(3):
        if exact := [one.id for one in names if one.exact[at] == said]:
            return exact
    found = _meant(_narrowed(names, clause), spoken, usual, near=False)
    return found or _meant(names, spoken, usual, near=True)


def _narrowed(names: Sequence[Named], clause: Clause) -> Sequence[Named]:
    """What words of moving or of watts can be about; nothing where they say neither."""
    if "<power>" in clause.words:
        return [one for one in names if one.kind == "power"]
    upright = not known_words("names", "up_or_down").isdisjoint(clause.words)
    line = " ".join(clause.words)
    stays = any(way in line for way in known_words("names", "not_moved"))
    if stays or not (upright or not known_words("names", "moved").isdisjoint(clause.words)):
        return []
    measures = {"height", "line"} if upright else {"height", "line", "gap"}
    return [one for one in names if one.kind == "length" and not measures.isdisjoint(one.ways[0])]


def _meant(
    names: Sequence[Named], spoken: _Words, usual: Callable[[str], bool], *, near: bool
) -> list[str]:
    """Answers by what is left of the words: as a whole name, as part of one, or nearly spelled."""
    for filler in ("small", "filler"):
        content = _content(spoken, filler)
        whole = tuple(sorted(content))
        if found := [one.id for one in names if whole and whole in _contents(one, filler)]:
            return found
    if not content:
        return []
    found = _with_words(names, content) or _holding(names, content)
    found = found or (_nearest(names, " ".join(content)) if near else [])
    return [one for one in found if usual(one)] or found


def _with_words(names: Sequence[Named], content: Sequence[str]) -> list[str]:
    """Those whose name holds every word; else those whose whole wording does."""

    def holds(way: Iterable[str]) -> bool:
        spoken = [_same(word) for word in way]
        return all(any(_starts(other, word) for other in spoken) for word in content)

    found = [one.id for one in names if any(map(holds, one.ways))]
    return found or [one.id for one in names if holds(one.exact[2].split())]


def _starts(other: str, word: str) -> bool:
    return other == word or (len(word) >= _SHORTEST and other.startswith(word))


def _holding(names: Sequence[Named], content: Collection[str]) -> list[str]:
    """Those one of whose names stands whole among the words, the longest name first.

    A UVB lamp's watts are not the heat lamp's.
    """
    said, apart = set(content), known_words("names", "apart").intersection(content)
    names = [one for one in names if apart <= {_same(word) for way in one.ways for word in way}]
    sizes: dict[str, int] = {}
    for one in names:
        whole = (len(way) for way in _contents(one, "filler") if said.issuperset(way))
        sizes[one.id] = max(whole, default=0)
    longest = max(sizes.values(), default=0)
    return [name for name, size in sizes.items() if size == longest and size]


def _nearest(names: Sequence[Named], said: str) -> list[str]:
    """Those whose name is spelled most like it."""
    ways: dict[str, list[str]] = {}
    for one in names:
        for name in one.exact[:2]:
            ways.setdefault(name, []).append(one.id)
    return [one for name in nearest(said, ways, most=1) for one in ways[name]]


def names_in(names: Sequence[Named], clause: Clause) -> list[str]:
    """Answers whose id or counter wording stands in a clause as it is, the longest first."""
    line = f" {' '.join(_spoken(clause))} "
    found = [(len(name), one.id) for one in names for name in one.exact[:2] if f" {name} " in line]
    return list(dict.fromkeys(one for _, one in sorted(found, key=lambda pair: -pair[0])))
