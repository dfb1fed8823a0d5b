"""The turtles of a story: how many, which kinds, how long, which sex."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache

from interview.words.choice import Option
from interview.words.telling_match import Found
from interview.words.telling_parts import Part, Side
from interview.words.telling_sentences import Sentence
from interview.words.tokens import plain_words

__all__ = ["animals_in"]

_TURTLES = frozenset({"turtle", "turtles", "terrapin", "terrapins"})
_NO_SPECIES_ALONE = frozenset({"terrapin", "map", "painted", "pond turtle"})
"""Names of a kind that most people use for any turtle, or for something else."""
_ONE = frozenset({"a", "an", "one", "single", "my", "our", "his", "her", "lone", "the", "this"})
_DEFINITE = frozenset({"the", "this", "my", "our", "his", "her"})
_ADJECTIVES = frozenset(
    [
        "adult",
        "baby",
        "juvenile",
        "young",
        "old",
        "little",
        "small",
        "big",
        "large",
        "tiny",
        "hatchling",
        "hatchlings",
        "rescued",
        "rescue",
        "lone",
        "single",
        "pet",
        "beautiful",
        "healthy",
        "grown",
        "fully",
        "full",
        "captive",
        "bred",
        "subadult",
        "yearling",
        "elderly",
        "lovely",
        "cute",
        "happy",
        "new",
    ]
)
_SEXES = {
    **dict.fromkeys(("female", "females", "girl", "girls"), "female"),
    **dict.fromkeys(("male", "males", "boy", "boys"), "male"),
}
_ALL = frozenset({"each", "both", "all", "apiece", "every"})
_TAIL = (
    frozenset(
        [
            "is",
            "are",
            ",",
            "and",
            "at",
            "about",
            "with",
            "a",
            "an",
            "the",
            "long",
            "straight",
            "shell",
            "carapace",
            "scl",
            "length",
            "measuring",
            "measures",
            "its",
            "it",
            "hes",
            "shes",
            "theyre",
            "of",
            "in",
            "called",
            "named",
            "size",
            "sized",
            "now",
            "old",
        ]
    )
    | _ALL
)
_AFTER_LENGTH = frozenset(
    {"", ",", "and", "long", "each", "both", "shell", "carapace", "scl", "apiece", "straight"}
    | {"male", "female", "now", "in", "but", "with", "lives", "live"}
)
_HE = frozenset({"he", "she", "hes", "shes"})
_OTHER_NOUNS = frozenset(
    [
        "tank",
        "tanks",
        "dock",
        "docks",
        "food",
        "pellets",
        "water",
        "tub",
        "setup",
        "stuff",
        "lamp",
        "pond",
        "keeper",
        "keepers",
        "person",
        "people",
        "shop",
        "store",
        "vet",
        "light",
        "lights",
        "heater",
        "filter",
        "log",
        "platform",
        "owner",
        "enclosure",
        "poop",
    ]
)
_PAIR = frozenset({"pair", "couple"})
_METRES = {"inch": 0.0254, "foot": 0.3048, "cm": 0.01, "mm": 0.001, "m": 1.0}
_SHORTEST, _LONGEST = 0.015, 0.6
_MOST = 30


@dataclass
class _Group:
    """Turtles named together."""

    sentence: Sentence
    order: int
    first: int
    end: int
    count: int | None
    species: str
    definite: bool
    lengths: list[tuple[str, int]] = field(default_factory=list)
    every_length: tuple[str, int] | None = None
    sex: tuple[str, int] | None = None


class _Unclear(Exception):
    """The turtles can't be told apart for sure; none of them is taken."""


@lru_cache(maxsize=4)
def _names(species: tuple[Option, ...]) -> Mapping[tuple[str, ...], str]:
    """Every name of every kind, as words, also in the plural → the name to type."""
    found: dict[tuple[str, ...], str] = {}
    for option in species:
        for name in (*option.spellings, *(plain_words(way) for way in option.also)):
            if name in _NO_SPECIES_ALONE or "_" in name:
                continue
            words = tuple(name.split())
            found.setdefault(words, name)
            found.setdefault((*words[:-1], f"{words[-1]}s"), name)
    return found


def animals_in(
    told: Sequence[Sentence], species: Sequence[Option], planned: bool
) -> list[tuple[Sentence, Found]]:
    """Facts about the turtles, each with its sentence; none where they can't be told apart."""
    try:
        groups = _groups(told, _names(tuple(species)), planned)
        return list(_facts(_settled(groups)))
    except _Unclear:
        return []


def _groups(
    told: Sequence[Sentence], names: Mapping[tuple[str, ...], str], planned: bool
) -> list[_Group]:
    groups: list[_Group] = []
    for order, sentence in enumerate(told):
        off = sentence.wished_beyond_plan if planned else sentence.wished
        mentions = list(_mentions(sentence, order, names))
        for at, group in enumerate(mentions):
            if group.first in off or sentence.is_denied(group.first, group.end):
                continue
            if sentence.is_doubted(group.first, group.end) or _is_alternative(group):
                raise _Unclear
            limit = mentions[at + 1].first if at + 1 < len(mentions) else len(sentence.words)
            _read_tail(group, limit)
            groups.append(group)
        _read_he(sentence, off, groups)
    return groups


def _is_alternative(group: _Group) -> bool:
    words = group.sentence
    return "or" in (words.word(group.first - 1), words.word(group.end))


def _longest(
    sentence: Sentence, at: int, names: Mapping[tuple[str, ...], str]
) -> tuple[int, str] | None:
    for length in range(6, 0, -1):
        found = names.get(sentence.words[at : at + length])
        if found is not None and at + length <= len(sentence.words):
            return at + length, found
    return None


def _mentions(
    sentence: Sentence, order: int, names: Mapping[tuple[str, ...], str]
) -> Iterator[_Group]:
    at = 0
    while at < len(sentence.words):
        named = _longest(sentence, at, names)
        end, species = named or (at + 1, "")
        if named is None and sentence.words[at] not in _TURTLES:
            at += 1
            continue
        group = _group(sentence, order, at, end, species)
        if group is not None:
            yield group
        at = end


def _group(sentence: Sentence, order: int, at: int, end: int, species: str) -> _Group | None:
    """A mention with what stands in front of it; None where no turtle of the keeper's is meant."""
    if sentence.word(end) in _OTHER_NOUNS or sentence.word(end).startswith("<trade"):
        return None
    plural = sentence.words[end - 1].endswith("s") and sentence.words[end - 1] not in ("res", "ybs")
    group = _Group(sentence, order, at, end, None, species, definite=False)
    here = at - 1
    while here >= 0:
        word, part = sentence.words[here], sentence.parts[here]
        if word == "<length>" and not group.every_length and _is_shell(part.value, part.unit):
            group.every_length = (part.said, here)
        elif word in _SEXES and group.sex is None:
            group.sex = (_SEXES[word], here)
        elif word == "old" and sentence.word(here - 1) == "<duration>":
            here -= 1
        elif word not in _ADJECTIVES and word != "common":
            break
        here -= 1
    return _counted(group, here, plural)


def _counted(group: _Group, at: int, plural: bool) -> _Group | None:
    """The number in front of a mention, if there is any."""
    sentence = group.sentence
    word = sentence.word(at)
    if word == "x" and sentence.word(at - 1) == "<number>":
        at, word = at - 1, "<number>"
    if word == "of" and sentence.word(at - 1) in _PAIR:
        group.count, group.first = 2, at - 1
    elif word == "<number>":
        group.count, group.first = _whole(sentence.parts[at]), at
    elif word in _ONE or _is_owner(group.sentence.parts[at] if at >= 0 else None):
        group.first = at
        group.definite = word in _DEFINITE
        group.count = None if plural else 1
    elif not plural and group.species and word in ("", ",", "turtle", "is", "its"):
        group.first = at + 1
        group.count = 1
    else:
        return _unknown_kind(group, at, plural)
    return group


def _unknown_kind(group: _Group, at: int, plural: bool) -> _Group | None:
    """A common snapping turtle is not any turtle: then nothing is sure."""
    before = group.sentence.words[max(0, at - 2) : at]
    counted = {"a", "an", "<number>", "one", "my", "our"} & set(before)
    if counted and not (plural and not group.species and "<number>" not in counted):
        raise _Unclear
    if group.species:
        raise _Unclear
    return None


def _is_owner(part: Part | None) -> bool:
    return part is not None and part.kind == "word" and part.said == "owner"


def _whole(part: Part) -> int:
    if part.value != int(part.value) or not 1 <= part.value <= _MOST or part.sides:
        raise _Unclear
    return int(part.value)


def _is_shell(value: float, unit: str | None) -> bool:
    return unit in _METRES and _SHORTEST <= value * _METRES[unit] <= _LONGEST


def _read_tail(group: _Group, limit: int) -> None:
    """What follows a mention, as long as every word is about the turtles."""
    sentence, at = group.sentence, group.end
    last, every = group.end, False
    while at < limit:
        word, part = sentence.words[at], sentence.parts[at]
        if word == "<length>" and sentence.word(at + 1) in _AFTER_LENGTH:
            if not _is_shell(part.value, part.unit):
                break
            group.lengths.append((part.said, at))
            last = at + 1
        elif word == "<lengths>" and sentence.word(at + 1) in _AFTER_LENGTH:
            group.lengths += [(side.said, at) for side in part.sides if _shell_side(side)]
            last = at + 1
        elif word in _SEXES and sentence.word(at + 1) not in _TURTLES:
            if group.sex is not None and group.sex[0] != _SEXES[word]:
                raise _Unclear
            group.sex = (_SEXES[word], at)
            last = at + 1
        elif word in _ALL:
            every, last = True, at + 1
        elif word not in _TAIL and not _is_name(sentence, at):
            break
        at += 1
    group.end = last
    if len(group.lengths) == 1 and (every or group.count == 1) and group.every_length is None:
        group.every_length = group.lengths.pop()


def _shell_side(side: Side) -> bool:
    return _is_shell(side.value, side.unit)


def _is_name(sentence: Sentence, at: int) -> bool:
    """A capital letter inside a sentence: Donut."""
    part = sentence.parts[at]
    return part.kind == "word" and part.said == "name"


def _read_he(sentence: Sentence, off: frozenset[int], groups: list[_Group]) -> None:
    """He is 13 cm long: the one turtle there is."""
    for at, word in enumerate(sentence.words):
        if word not in _HE or at in off:
            continue
        here = at + 1
        while sentence.word(here) in ("is", "about", "now", "measures"):
            here += 1
        if sentence.word(here) != "<length>" or sentence.word(here + 1) not in _AFTER_LENGTH:
            continue
        part = sentence.parts[here]
        if len(groups) == 1 and groups[0].count == 1 and _is_shell(part.value, part.unit):
            if groups[0].every_length is None:
                groups[0].every_length = (part.said, here)
                groups[0].sentence = groups[0].sentence
                if groups[0].sentence is sentence:
                    groups[0].end = max(groups[0].end, here + 1)


def _settled(groups: list[_Group]) -> list[_Group]:
    """One group for every turtle or set of turtles; _Unclear when the numbers disagree."""
    kinds = [group for group in groups if group.species]
    anys = [group for group in groups if not group.species and group.count is not None]
    totals = {group.count for group in anys if not group.definite}
    if len(totals) > 1:
        raise _Unclear
    kinds = _without_repeats(kinds)
    total = next(iter(totals), None)
    if not kinds:
        return _only_counted(anys, total)
    if any(group.count is None for group in kinds):
        if len(kinds) > 1 or total is None:
            raise _Unclear
        kinds[0].count = total
    if total is not None and sum(group.count or 0 for group in kinds) != total:
        raise _Unclear
    return kinds


def _without_repeats(kinds: list[_Group]) -> list[_Group]:
    """The slider, once it was spoken of as a slider, is the same one."""
    kept: list[_Group] = []
    for group in kinds:
        same = [one for one in kept if one.species == group.species]
        if not same or (group.order == same[-1].order and not group.definite):
            kept.append(group)
        elif not group.definite or len(same) > 1 or (group.count or 1) != (same[0].count or 1):
            raise _Unclear
        elif group.every_length and not same[0].every_length and same[0].count == 1:
            kept[kept.index(same[0])] = group
    return kept


def _only_counted(anys: list[_Group], total: int | None) -> list[_Group]:
    if total is None:
        return anys[:1]
    chosen = [group for group in anys if group.count == total]
    return chosen[:1]


def _facts(groups: list[_Group]) -> Iterator[tuple[Sentence, Found]]:
    if not groups:
        return
    total = sum(group.count or 0 for group in groups)
    if not 1 <= total <= _MOST:
        return
    first = groups[0]
    yield first.sentence, Found("animal_count", str(total), first.first, first.end)
    animal = 0
    for group in groups:
        count = group.count or 0
        lengths = [one for one, _ in group.lengths]
        for number in range(count):
            yield from _facts_of(group, animal, lengths[number] if len(lengths) == count else "")
            animal += 1


def _facts_of(group: _Group, animal: int, length: str) -> Iterator[tuple[Sentence, Found]]:
    where = group.first, group.end
    if group.species:
        yield group.sentence, Found("species", group.species, *where, animal)
    said = group.every_length[0] if group.every_length else length
    if said:
        yield group.sentence, Found("carapace_length", said, *where, animal)
    if group.sex is not None:
        yield group.sentence, Found("sex", group.sex[0], *where, animal)
