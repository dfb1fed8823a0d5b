"""Lists of phrases, and the facts they tell, as patterns over a line of words."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache
from itertools import chain, takewhile

from interview.words.lexicon.files import (
    changes,
    known_words,
    listed,
    meant_by,
    people,
    phrases,
    words,
)
from interview.words.lexicon.rows import Fact

__all__ = [
    *("NO_QUESTION", "Phrase", "Rule", "alternatives", "any_named", "any_of"),
    "any_phrase",
    *("corrections", "is_said", "make_patterns", "rules_in", "said_as", "things_of"),
    *("ways_of", "wishes_but"),
]

NO_QUESTION = "-"
"""Id of a phrase that is known and tells nothing."""
_ANY = ("",)
"""Of a phrase that may stand among any words."""
_SENTENCES = 200
"""Whose phrases are kept: one is looked through for several things, and again in its region."""
_TOKEN = re.compile(r"\[[^\]]*\]|[^\s\[\]]+")
_SLOT = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True)
class Phrase:
    """One way to say a fact; its pattern is made when all its words are first there."""

    text: str
    """As its file has it."""

    @cached_property
    def pattern(self) -> re.Pattern[str]:
        """Where it stands, over a line of words with a space on either side."""
        return re.compile(f"(?<= ){_line(self.text)}")

    @cached_property
    def needs(self) -> tuple[frozenset[str], ...]:
        """Sets of words of which one must be there."""
        needs = (_needed(ways_of(token)) for token in self._tokens if token[0] not in "[.^$")
        return tuple(filter(None, needs))

    @cached_property
    def slots(self) -> frozenset[str]:
        """The kinds of amounts it asks for."""
        return frozenset(_SLOT.findall(self.text))

    @property
    def bare(self) -> bool:
        """Nothing but an amount: what follows it must not be some other thing."""
        return len(self._tokens) == 1 and self.text.startswith("{")

    @property
    def _tokens(self) -> list[str]:
        return _TOKEN.findall(self.text.partition(" ! ")[0])


@dataclass(frozen=True)
class Rule:
    """A fact that can be told, and what must not stand beside its phrases."""

    fact: Fact

    @cached_property
    def unless(self) -> re.Pattern[str] | None:
        """Words that stand for something else."""
        unless = self.fact.unless
        return re.compile(f"(?<= ){alternatives(unless)}") if unless else None


@lru_cache(_SENTENCES)
def rules_in(listed: str, known: frozenset[str]) -> Sequence[tuple[Rule, Phrase]]:
    """The phrases of a list (facts, near; told, moved, added) whose words are all known."""
    index = _index(listed)
    return [
        (rule, phrase)
        for word in (*known, *_ANY)
        for rule, phrase in index.get(word, ())
        if not any(need.isdisjoint(known) for need in phrase.needs)
    ]


@cache
def _index(listed: str) -> Mapping[str, Sequence[tuple[Rule, Phrase]]]:
    """The phrases of a list by the words of their most telling need."""
    found: dict[str, list[tuple[Rule, Phrase]]] = {}
    file = phrases() if listed in ("facts", "near") else changes()
    for rule in map(Rule, getattr(file, listed)):
        for phrase in map(Phrase, rule.fact.phrases):
            for word in min(phrase.needs, key=len, default=_ANY):
                found.setdefault(word, []).append((rule, phrase))
    return found


def make_patterns() -> None:
    """Make every pattern, before a line has to wait for its own."""
    for name in ("facts", "near", "told", "moved", "added"):
        for rows in _index(name).values():
            assert all(phrase.pattern for _, phrase in rows)


@cache
def said_as(*path: str) -> re.Pattern[str]:
    """Any phrase of a list of words.yaml, over a line of words with a space on either side."""
    return any_phrase(listed(*path))


@cache
def any_phrase(phrases: tuple[str, ...]) -> re.Pattern[str]:
    """Any of some phrases, over a line of words with a space on either side."""
    return re.compile(f"(?<= )(?:{'|'.join(map(_line, phrases))})")


def is_said(words: str, *path: str) -> bool:
    """Whether words are one of the phrases of a list, and nothing else."""
    return said_as(*path).fullmatch(f" {words} ", 1) is not None


def alternatives(phrases: Iterable[str]) -> str:
    """A regular expression for any of some phrases, longest first, each ending in a space."""
    spoken = sorted({phrase.replace("_", " ") for phrase in phrases}, key=len, reverse=True)
    return "(?:" + "|".join(re.escape(phrase) + " " for phrase in spoken) + ")"


@cache
def any_named(*tables: str) -> re.Pattern[str]:
    """Any name of what stands in some tables of words.yaml: things, topics."""
    return re.compile(f"(?<= ){alternatives(chain.from_iterable(map(meant_by, tables)))}")


@cache
def things_of(question: str) -> frozenset[str]:
    """The things and topics that an answer is about, whatever else it may be told beside."""
    of = {fact.of for fact in phrases().facts if fact.id == question}
    near = (row.topics[0] for row in phrases().near if row.id == question)
    return frozenset({*of, next(near, "")})


@cache
def any_of(*lists: tuple[str, ...]) -> re.Pattern[str]:
    """Any word of some lists of words.yaml, each by its place there."""
    spoken = chain.from_iterable(known_words(*path) for path in lists)
    return re.compile(f"(?<= ){alternatives(spoken)}")


def wishes_but(plans: str) -> re.Pattern[str]:
    """Any wish; without "plans" where that is named, without either list for "plans_of_animals"."""
    lists = ("wishes", "givers", "plans_of_animals", "plans")
    return any_of(*((name,) for name in takewhile(lambda name: name != plans, lists)))


@cache
def corrections() -> re.Pattern[str]:
    """Where what was just said is taken back: no wait, sorry."""
    return re.compile(
        f"(?:(?<=^ )|(?<=, )){alternatives(words().mended_by)}"
        "(?=, |its (?!not )|it is |thats |<)"
        "|(?<= )(?:no wait |i mean (?=(?:[^ ]+ ){0,2}<)|scratch that |make that |oops )"
        "|(?<= )(?:nope|no) sorry "
    )


def _line(text: str) -> str:
    """A phrase as a regular expression over words that end in a space each."""
    told, _, not_behind = text.partition(" ! ")
    pieces = (
        f"(?:{_piece(ways_of(token))})?" if token.startswith("[") else _piece(ways_of(token))
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
def ways_of(token: str) -> tuple[str, ...]:
    """The alternatives of a token of a phrase, groups of words unfolded."""
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
