"""Kinds of turtle named in a story: each name becomes one word, told apart from other words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import lru_cache, partial
from typing import NamedTuple

from interview.words.choices.choice import Choice
from interview.words.lexicon.files import known_words, meant_by
from interview.words.lexicon.rules import said_as
from interview.words.mentions.parts import Part
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.turtles.details import sex_of
from interview.words.text.tokens import plain_words

__all__ = ["KIND", "kinds_of", "strange_in", "with_kinds"]

_list = partial(known_words, "animals")

KIND = "<kind>"
UNSEXED = "unsexed"
_LONGEST_NAME = 6
_LONGEST_STRANGE = 4


def kinds_of(species: Sequence[Choice]) -> Mapping[str, tuple[str, bool]]:
    """Every name of a kind → which kind it is, and whether the name fits others too."""
    return _names(tuple(species))[1]


class _Ways(NamedTuple):
    """Names by their words, and the words that they begin with."""

    names: Mapping[tuple[str, ...], str]
    begin: frozenset[str]


@lru_cache(maxsize=4)
def _names(
    species: tuple[Choice, ...],
) -> tuple[_Ways, Mapping[str, tuple[str, bool]]]:
    ways: dict[tuple[str, ...], str] = {}
    kinds: dict[str, tuple[str, bool]] = {}
    for option in species:
        loose = {plain_words(way) for way in option.loose}
        for name in option.spellings:
            kinds.setdefault(name, (option.name, name in loose))
            spoken = tuple(name.split())
            ways.setdefault(spoken, name)
            ways.setdefault((*spoken[:-1], f"{spoken[-1]}s"), name)
            for short in _short(spoken):
                ways.setdefault(short, name)
    for spoken, name in list(ways.items()):
        if len(spoken) == 2:
            ways.setdefault(("".join(spoken),), name)  # a yellowbelly
    return _Ways(ways, frozenset(spoken[0] for spoken in ways)), kinds


def _short(spoken: tuple[str, ...]) -> Iterator[tuple[str, ...]]:
    """Other ways to say a name: red ear slider, yellow belly, a common musk."""
    plain = tuple(map(_plainly, spoken[:-1]))
    yield (*plain, spoken[-1])
    yield (*plain, f"{spoken[-1]}s")
    if spoken[0] in _list("distinct"):
        yield from ((spoken[0],), (f"{spoken[0]}s",))
    if len(spoken) > 2 and spoken[-1] in _list("heads"):
        yield from (spoken[:-1], (*spoken[:-2], _many(spoken[-2])))
        yield from (plain, (*plain[:-1], _many(plain[-1])))


def _plainly(word: str) -> str:
    """Ear for eared, belly for bellied; red stays red."""
    if word == "bellied":
        return "belly"
    return word if word == "red" else word.removesuffix("ed")


def _many(word: str) -> str:
    return f"{word[:-1]}ies" if word.endswith("y") else f"{word}s"


def with_kinds(told: Sequence[Sentence], species: Sequence[Choice]) -> list[Sentence]:
    """The sentences with every kind of turtle as one word."""
    ways, _ = _names(tuple(species))
    found: list[Sentence] = []
    for sentence in told:
        found.append(_marked(sentence, ways, found[-1] if found else None))
    return found


def strange_in(marked: Sequence[Sentence], species: Sequence[Choice]) -> Iterator[Part]:
    """Kinds that a keeper has and that aren't known here."""
    known = kinds_of(species)
    for sentence in marked:
        off = sentence.wished()
        for at, part in enumerate(sentence.parts):
            if part.text == KIND and part.said not in known and at not in off:
                yield part


def _marked(sentence: Sentence, ways: _Ways, before: Sentence | None) -> Sentence:
    parts: list[Part] = []
    # a kind may begin with a number: three-striped
    words = tuple(p.said.casefold() if p.said.isalpha() else p.text for p in sentence.parts)
    unsexed = {at: end for at, end, _ in sentence.spots(said_as("animals", "unsexed"))}
    at = 0
    while at < len(sentence.words):
        end, part = at + 1, sentence.parts[at]
        if at in unsexed:
            end = unsexed[at]
            parts.append(replace(part, text=UNSEXED, end=sentence.parts[end - 1].end))
            at = end
            continue
        longest = at + _LONGEST_NAME if words[at] in ways.begin else at
        for stop in range(min(longest, len(words)), at, -1):
            name = ways.names.get(words[at:stop])
            if name is not None and _is_meant(sentence, at, stop, name):
                end, part = stop, _kind(sentence, at, stop, name)
                break
        else:
            strange = _strange(sentence, at, ways.names)
            if strange is not None:
                name = " ".join(sentence.words[at:strange])
                end, part = strange, _kind(sentence, at, strange, name)
        parts.append(part)
        at = end
    return replace(sentence, parts=tuple(parts), before=before)


def _strange(sentence: Sentence, at: int, ways: Mapping[tuple[str, ...], str]) -> int | None:
    """Where the name of a kind ends that isn't known here: Texas map turtle, oblong turtle."""
    if sentence.words[at] in _list("strange"):
        return at + 1 + (sentence.word(at + 1) in _list("any"))
    is_name = sentence.parts[at].look == "name" and sentence.words[at] not in _list("before")
    if not (is_name or sentence.words[at] in _list("other_kinds")):
        return None
    ends = range(at + 2, min(at + _LONGEST_NAME, len(sentence.words)) + 1)
    called = is_name and sentence.words[at] not in _list("other_kinds")
    called = called and sentence.word(at - 1) not in _list("one") | {"<number>"}
    if called and any(sentence.words[at + 1 : end] in ways for end in ends):
        return None  # Meet Dot: false map turtle
    for end in range(at + 2, min(at + _LONGEST_STRANGE, len(sentence.words)) + 1):
        word = sentence.words[end - 1]
        one = word.removesuffix("s")
        if word[:1] in ("<", ",") or (word in known_words("fillers") and one not in _list("heads")):
            return None
        if one in _list("heads" if is_name else "kin"):
            more = sentence.word(end).removesuffix("s") in _list("kin")
            return None if sentence.word(end + more) in _list("not_one") else end + more
    return None


def _kind(sentence: Sentence, at: int, end: int, name: str) -> Part:
    last = sentence.words[end - 1]
    many = last.endswith("s") and (last not in name.split() or last[:-1] in _list("kin"))
    many = many and sentence.parts[end - 1].look != "owner"
    look = "many" if many else sentence.parts[at].look
    stop = sentence.parts[end - 1].end
    return replace(sentence.parts[at], kind="kind", text=KIND, end=stop, said=name, look=look)


def _is_meant(sentence: Sentence, at: int, end: int, name: str) -> bool:
    """A short name that is a word of its own means a turtle only between the right words."""
    after = sentence.word(end)
    beside = _list("male") | _list("female") | _list("young") | {"<length>"}
    while at > 0 and sentence.words[at - 1] in beside:
        at -= 1
    led = at
    while led > 0 and sentence.words[led - 1] in _list("before"):
        led -= 1
    at = led if sentence.word(led - 1) == "the" else at  # the little map
    before = sentence.word(at - 1)
    if sentence.words[at:end] in (("soft", "shell"), ("soft", "shells")):
        return _is_softshell(sentence, at)
    if name not in _list("loose") and after not in _list("not_one"):
        return True
    named = end < len(sentence.parts) and sentence.parts[end].look == "name"  # my map Mia
    named = named and before in _list("owned")
    is_one = named or (before in _list("before_loose") and after in _list("after_loose"))
    if is_one or not _list("any").isdisjoint(name.split()):
        return is_one
    behind = sentence.word(end + 1)
    listed = after == "," and (bool(sex_of(behind)) or behind[:1] == "<")
    measured = after in ("of", "at", "with") and behind[:1] == "<"
    if before == "":  # maps, a male and a female; map, male, 10 cm
        several = sentence.words[end - 1].endswith("s")
        return listed or (several and (measured or after in (",", "<length>", "<number>")))
    if before == "the":
        is_a = after in ("a", "an") and bool(sex_of(behind))  # the slider is a girl, the map a boy
        return is_a or bool(sex_of(after)) or after in _list("told_of") - {"in", "are"}
    follows = measured or after in _list("after_loose") | _list("told_of") or bool(sex_of(after))
    return before in _list("before_loose") | {"both"} and follows


def _is_softshell(sentence: Sentence, at: int) -> bool:
    """Whether a soft shell is a turtle, told as the first or right beside one, and no sign."""
    if sentence.word(at - 1) not in _list("one") | {"<number>"}:
        return False
    joined = sentence.word(at - 2) == "and" and _names_one(sentence.word(at - 3))
    return joined or not any(map(_names_one, sentence.words[:at]))


def _names_one(word: str) -> bool:
    heads = meant_by("topics")
    return word in _list("any") | _list("it") or heads.get(word) == "turtle"
