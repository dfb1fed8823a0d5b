"""Turtles named in a story: the number, kind, length and sex that go with each mention."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache

from interview.base.units import convert
from interview.words.amounts.spellings import Unit
from interview.words.choices.choice import Option
from interview.words.lexicon.files import words
from interview.words.mentions.competing import is_mended
from interview.words.mentions.parts import Part
from interview.words.mentions.scope import Sentence
from interview.words.text.tokens import plain_words

__all__ = ["MOST_TURTLES", "Group", "Unclear", "groups_in", "is_shell", "names_of"]

_SHELL_UNITS = ("inch", "foot", "cm", "mm", "m")
_SHORTEST, _LONGEST = 0.015, 0.6
"""m; the constraint of the question. What is outside is the length of something else."""
MOST_TURTLES = 30
_LONGEST_NAME = 6
_LINKS = frozenset({"is", "about", "now", "measures"})
_HE = frozenset({"he", "she", "hes", "shes"})


class Unclear(Exception):
    """The turtles can't be told apart for sure; none of them is taken."""


@dataclass
class Group:
    """Turtles named together."""

    sentence: Sentence
    first: int
    end: int
    count: int | None
    species: str
    """The name to type; "" for any turtle."""
    definite: bool = False
    """The slider, not a slider: perhaps one spoken of before."""
    lengths: list[str] = field(default_factory=list)
    every_length: str = ""
    length_at: tuple[Sentence, int, int] | None = None
    """Where the length was told, if not with the mention."""
    sex: str = ""


@cache
def _words(name: str) -> frozenset[str]:
    return frozenset(words()["animals"][name])


def _sex(word: str) -> str:
    return next((sex for sex in ("female", "male") if word in _words(sex)), "")


@lru_cache(maxsize=4)
def names_of(species: tuple[Option, ...]) -> Mapping[tuple[str, ...], str]:
    """Every name of every kind, as words, also in the plural → the name to type."""
    found: dict[tuple[str, ...], str] = {}
    for option in species:
        for name in (plain_words(way) for way in (option.name, option.label, *option.also)):
            if name not in _words("loose"):
                words = tuple(name.split())
                found.setdefault(words, name)
                found.setdefault((*words[:-1], f"{words[-1]}s"), name)
    return found


def groups_in(
    sentence: Sentence,
    names: Mapping[tuple[str, ...], str],
    off: frozenset[int],
    earlier: Sequence[Group],
) -> list[Group]:
    """The turtles a sentence names; `off` are words near wishes, which don't count.

    Raises:
        Unclear: if it names turtles in a way that leaves open how many or which.
    """
    mentions = list(_mentions(sentence, names))
    groups: list[Group] = []
    for at, group in enumerate(mentions):
        if group.first in off or sentence.is_denied(group.first, group.end):
            continue
        alternative = "or" in (sentence.word(group.first - 1), sentence.word(group.end))
        if alternative or sentence.is_doubted(group.first, group.end):
            raise Unclear
        limit = mentions[at + 1].first if at + 1 < len(mentions) else len(sentence.words)
        _read_after(group, limit)
        groups.append(group)
    _read_he(sentence, off, [*earlier, *groups])
    return groups


def _mentions(sentence: Sentence, names: Mapping[tuple[str, ...], str]) -> Iterator[Group]:
    at = 0
    while at < len(sentence.words):
        named = _longest(sentence, at, names)
        end, species = named or (at + 1, "")
        if named is None and sentence.words[at] not in _words("any"):
            at += 1
            continue
        group = _group(sentence, at, end, species)
        if group is not None:
            yield group
        at = end


def _longest(
    sentence: Sentence, at: int, names: Mapping[tuple[str, ...], str]
) -> tuple[int, str] | None:
    for length in range(min(_LONGEST_NAME, len(sentence.words) - at), 0, -1):
        found = names.get(sentence.words[at : at + length])
        if found is not None:
            return at + length, found
    return None


def _group(sentence: Sentence, at: int, end: int, species: str) -> Group | None:
    """A mention with what stands in front of it; None where no turtle is meant."""
    if sentence.word(end) in _words("not_one") or sentence.word(end) == "<trade>":
        return None
    last = sentence.words[end - 1]
    plural = last.endswith("s") and last not in ("res", "ybs")
    group = Group(sentence, at, end, None, species)
    here = at - 1
    while here >= 0:
        word, part = sentence.words[here], sentence.parts[here]
        if word == "<length>" and not group.every_length and is_shell(part.value, part.unit):
            group.every_length = part.said
        elif _sex(word) and not group.sex:
            group.sex = _sex(word)
        elif word == "old" and sentence.word(here - 1) == "<duration>":
            here -= 1
        elif word not in _words("before"):
            break
        here -= 1
    return _counted(group, here, plural)


def _counted(group: Group, at: int, plural: bool) -> Group | None:
    """With the number in front of the mention, if there is any."""
    sentence, word = group.sentence, group.sentence.word(at)
    if word == "x" and sentence.word(at - 1) == "<number>":
        at, word = at - 1, "<number>"
    if word == "of" and sentence.word(at - 1) in ("pair", "couple"):
        group.count, group.first = 2, at - 1
    elif word == "<number>":
        group.count, group.first = _whole(sentence.parts[at]), at
    elif word in _words("one") or (at >= 0 and sentence.parts[at].look == "owner"):
        group.count, group.first = None if plural else 1, at
        group.definite = word in _words("definite") or word in _words("owned")
        if word in _words("definite") and not group.species:
            group.count = None
    elif not plural and group.species and word in ("", ",", "turtle", "is", "its"):
        if "both" in sentence.known:
            raise Unclear
        group.count, group.first = 1, at + 1
    else:
        _check_kind(group, at, plural)
        return None
    return group


def _check_kind(group: Group, at: int, plural: bool) -> None:
    """A common snapping turtle is not any turtle: then nothing is sure."""
    before = set(group.sentence.words[max(0, at - 2) : at])
    counted = before & {"a", "an", "<number>", "one", "my", "our"}
    if group.species or (counted and (not plural or "<number>" in counted)):
        raise Unclear


def _whole(part: Part) -> int:
    if part.value != int(part.value) or not 1 <= part.value <= MOST_TURTLES or part.sides:
        raise Unclear
    return int(part.value)


def is_shell(value: float, unit: Unit | None) -> bool:
    """Whether a length can be that of a shell."""
    return unit in _SHELL_UNITS and _SHORTEST <= convert(value, unit, "m") <= _LONGEST


def _read_after(group: Group, limit: int) -> None:
    """What follows a mention, as long as every word is about the turtles."""
    sentence, every = group.sentence, False
    for at in range(group.end, limit):
        word, part = sentence.words[at], sentence.parts[at]
        if word == "<length>":
            if not (is_shell(part.value, part.unit) and _ends_length(sentence, at)):
                break
            group.lengths.append(part.said)
        elif word == "<lengths>" and _ends_length(sentence, at):
            group.lengths += [s.said for s in part.sides if is_shell(s.value, s.unit)]
        elif _sex(word) and sentence.word(at + 1) not in _words("any"):
            if group.sex not in ("", _sex(word)):
                raise Unclear
            group.sex = _sex(word)
        elif word in _words("every"):
            every = True
        elif word in _words("after") or part.look == "name":
            continue
        else:
            break
        group.end = at + 1
    if len(group.lengths) == 1 and (every or group.count == 1) and not group.every_length:
        group.every_length = group.lengths.pop()


def _ends_length(sentence: Sentence, at: int) -> bool:
    return sentence.word(at + 1) in _words("after_length") and not is_mended(sentence, at + 1)


def _read_he(sentence: Sentence, off: frozenset[int], groups: Sequence[Group]) -> None:
    """He is 13 cm long: the one turtle there is."""
    if len(groups) != 1 or groups[0].count != 1 or groups[0].every_length:
        return
    for at, word in enumerate(sentence.words):
        if word not in _HE or at in off:
            continue
        here = at + 1
        while sentence.word(here) in _LINKS:
            here += 1
        if sentence.word(here) == "<length>" and _ends_length(sentence, here):
            part = sentence.parts[here]
            if is_shell(part.value, part.unit):
                groups[0].every_length = part.said
                groups[0].length_at = sentence, here, here + 1
                return
