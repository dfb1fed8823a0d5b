"""Lists of phrases, and the facts they tell, as patterns over a line of words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, partial
from itertools import chain, takewhile
from typing import TYPE_CHECKING, TypeAlias

from interview.words.lexicon.files import (
    changes,
    known_words,
    listed,
    meant_by,
    people,
    phrases,
    words,
)

if TYPE_CHECKING:
    from interview.words.lexicon.rows import Fact

__all__ = [
    "NO_QUESTION",
    "Phrase",
    "Rule",
    "Rules",
    "alternatives",
    "any_thing",
    "any_topic",
    "change_rules",
    "corrections",
    "every_rule",
    "is_said",
    "near_rules_for",
    "rules_for",
    "said_as",
    "things_of",
    "wishes_but",
]

NO_QUESTION = "-"
"""Id of a phrase that is known and tells nothing."""
_ANY = ("",)
"""Of a phrase that may stand among any words."""
_TOKEN = re.compile(r"\[[^\]]*\]|[^\s\[\]]+")
_SLOT = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True)
class Phrase:
    """One way to say a fact: its pattern, and sets of words of which one must be there."""

    pattern: re.Pattern[str]
    needs: tuple[frozenset[str], ...]
    bare: bool
    """Nothing but an amount: what follows it must not be some other thing."""
    slots: frozenset[str]


@dataclass(frozen=True)
class Rule:
    """A fact that can be told, its phrases, and what must not stand beside them."""

    fact: Fact
    phrases: tuple[Phrase, ...]
    unless: re.Pattern[str] | None


_Index = Mapping[str, Sequence[tuple[Rule, Phrase]]]
Rules: TypeAlias = Callable[[frozenset[str]], Iterator[tuple[Rule, Phrase]]]
"""The phrases whose words are all among some words."""


def rules_for(known: frozenset[str]) -> Iterator[tuple[Rule, Phrase]]:
    """Every phrase whose words are all there."""
    return _there(_index(), known)


def near_rules_for(known: frozenset[str]) -> Iterator[tuple[Rule, Phrase]]:
    """The same of what the nearest topic tells."""
    return _there(_near_index(), known)


def change_rules(name: str) -> Rules:
    """The same of one list of changes.yaml."""
    return partial(_there, _change_index(name))


def _there(index: _Index, known: frozenset[str]) -> Iterator[tuple[Rule, Phrase]]:
    for word in (*known, *_ANY):
        for rule, phrase in index.get(word, ()):
            if all(not need.isdisjoint(known) for need in phrase.needs):
                yield rule, phrase


@cache
def _index() -> _Index:
    return _indexed(every_rule())


@cache
def _near_index() -> _Index:
    return _indexed(map(_rule, phrases().near))


@cache
def _change_index(name: str) -> _Index:
    return _indexed(map(_rule, getattr(changes(), name)))


def _indexed(rules: Iterable[Rule]) -> _Index:
    """The phrases by the words of their most telling need."""
    found: dict[str, list[tuple[Rule, Phrase]]] = {}
    for rule in rules:
        for phrase in rule.phrases:
            for word in min(phrase.needs, key=len, default=_ANY):
                found.setdefault(word, []).append((rule, phrase))
    return found


@cache
def every_rule() -> tuple[Rule, ...]:
    """Every rule of the shipped file."""
    return tuple(_rule(fact) for fact in phrases().facts)


def _rule(fact: Fact) -> Rule:
    unless = re.compile(f"(?<= ){alternatives(fact.unless)}") if fact.unless else None
    return Rule(fact, tuple(map(_phrase, fact.phrases)), unless)


@cache
def said_as(*path: str) -> re.Pattern[str]:
    """Any phrase of a list of words.yaml, over a line of words with a space on either side."""
    return re.compile(f"(?<= )(?:{'|'.join(map(_line, listed(*path)))})")


def is_said(words: str, *path: str) -> bool:
    """Whether words are one of the phrases of a list, and nothing else."""
    return said_as(*path).fullmatch(f" {words} ", 1) is not None


def alternatives(phrases: Iterable[str]) -> str:
    """A regular expression for any of some phrases, longest first, each ending in a space."""
    spoken = sorted({phrase.replace("_", " ") for phrase in phrases}, key=len, reverse=True)
    return "(?:" + "|".join(re.escape(phrase) + " " for phrase in spoken) + ")"


@cache
def any_thing() -> re.Pattern[str]:
    """Any name of a thing."""
    return re.compile(f"(?<= ){alternatives(meant_by('things'))}")


@cache
def any_topic() -> re.Pattern[str]:
    """Any name of a thing or of a topic."""
    names = meant_by("things").keys() | meant_by("topics").keys()
    return re.compile(f"(?<= ){alternatives(names)}")


@cache
def things_of(question: str) -> frozenset[str]:
    """The things and topics that an answer is about, whatever else it may be told beside."""
    of = {fact.of for fact in phrases().facts if fact.id == question}
    near = (row.topics[0] for row in phrases().near if row.id == question)
    return frozenset({*of, next(near, "")})


@cache
def wishes_but(plans: str) -> re.Pattern[str]:
    """Any wish; without "plans" where that is named, without either list for "plans_of_animals"."""
    lists = ("wishes", "givers", "plans_of_animals", "plans")
    kept = takewhile(lambda name: name != plans, lists)
    return re.compile(f"(?<= ){alternatives(chain.from_iterable(map(known_words, kept)))}")


@cache
def corrections() -> re.Pattern[str]:
    """Where what was just said is taken back: no wait, sorry."""
    return re.compile(
        f"(?:(?<=^ )|(?<=, )){alternatives(words().mended_by)}"
        "(?=, |its (?!not )|it is |thats |<)"
        "|(?<= )(?:no wait |i mean (?=(?:[^ ]+ ){0,2}<)|scratch that |make that |oops )"
        "|(?<= )(?:nope|no) sorry "
    )


def _phrase(text: str) -> Phrase:
    tokens = _TOKEN.findall(text.partition(" ! ")[0])
    needs = [_needed(_ways(token)) for token in tokens if token[0] not in "[.^$"]
    slots = frozenset(_SLOT.findall(text))
    must = tuple(need for need in needs if need)
    is_bare = len(tokens) == 1 and text.startswith("{")
    return Phrase(re.compile(f"(?<= ){_line(text)}"), must, is_bare, slots)


def _line(text: str) -> str:
    """A phrase as a regular expression over words that end in a space each."""
    told, _, not_behind = text.partition(" ! ")
    pieces = (
        f"(?:{_piece(_ways(token))})?" if token.startswith("[") else _piece(_ways(token))
        for token in _TOKEN.findall(told)
    )
    return "".join(pieces) + (f"(?!{_line(not_behind)})" if not_behind else "")


@cache
def _groups() -> Mapping[str, str]:
    """The places of each region, and the groups of words in phrases.yaml."""
    places = people().regions.items()
    named = {region: "|".join(names).replace(" ", "_") for region, names in places}
    return named | phrases().words | changes().words


@cache
def _ways(token: str) -> tuple[str, ...]:
    """The alternatives of a token, groups of words unfolded."""
    found: list[str] = []
    for way in token.strip("[]").split("|"):
        if way.startswith("@"):
            group = words().groups.get(way[1:]) or _groups()[way[1:]]
            found += group.split("|")
        else:
            found.append(way)
    return tuple(found)


@cache
def _piece(ways: tuple[str, ...]) -> str:
    if ways == ("..",):
        return "(?:[^ ,]+ ){0,3}?"
    if ways == ("^",):
        return "(?:(?<=^ )|(?<=, ))"
    slots = [slot for way in ways for slot in _SLOT.findall(way)]
    if slots:
        caught = not slots[0].startswith("uncaught_")
        inside = "|".join(map(_slot, slots))
        return f"(?P<said>{inside})" if caught else f"(?:{inside})"
    plain = [way for way in ways if way != "$"]
    piece = alternatives(plain) if plain else ""
    if "$" in ways:
        end = "(?=$|, |and |with |but |so |which |because )"
        return f"(?:{piece}|{end})" if piece else end
    return piece


@cache
def _slot(name: str) -> str:
    """What stands for an amount in a phrase."""
    name = name.removeprefix("uncaught_")
    if name == "amount":
        return "<[a-z0-9]+> "
    return "|".join(map(_line, phrases().slots.get(name, (f"<{name}>",))))


@cache
def _needed(ways: tuple[str, ...]) -> frozenset[str]:
    """Words of which one is in every match; empty where that can't be said."""
    found: set[str] = set()
    for way in ways:
        slot = _SLOT.fullmatch(way)
        if way == "$" or (slot and slot[1].endswith("often")):
            return frozenset()
        if slot is None:
            found.add(way.split("_")[0] if not way.startswith("<") else way)
        else:
            found.update(re.findall(r"<\w+>", _slot(slot[1])))
    return frozenset(found)
