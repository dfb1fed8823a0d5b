"""The facts of phrases.yaml as patterns over a sentence's words."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from interview.words.lexicon.files import people, phrases
from interview.words.lexicon.lexicon import alternatives

if TYPE_CHECKING:
    from interview.words.lexicon.rows import Fact

__all__ = ["NO_QUESTION", "Phrase", "Rule", "every_rule", "pattern_of", "rules_for"]

_OFTEN = (
    r"(?:(?:every |each )(?:<duration> |(?:other |second |third )?(?:day |week |month |fortnight "
    r"|morning |evening |night |sunday |monday |tuesday |wednesday |thursday |friday |saturday ))"
    r"|on (?:sun|mon|tues|wednes|thurs|fri|satur)days? "
    r"(?!(?:, |and )+(?:sun|mon|tue|wed|thu|fri|sat))"
    r"|(?:a |per )(?:week |fortnight |month )|of a (?:sun|mon|tues|wednes|thurs|fri|satur)day "
    r"|(?:daily |weekly |fortnightly |monthly )"
    r"|(?:once |twice |<number> times? |<number> x )"
    r"(?:<duration> |(?:per |each |every |by |/ |a )(?:other )?(?:day |week |month |fortnight )"
    r"|every <duration> |daily |weekly )|<duration> (?:a |per )week )"
)
_SLOTS = {
    "zero": "<number> ",
    "count": "<number> ",
    "percent": "<share> ",
    "share": "(?:<share> |<part> )",
    "hours": "<duration> ",
    "hours_a_day": "<duration> (?:<duration> |per day |each day |every day |daily )",
    "years_under_5": "<duration> ",
    "years_over_65": "<duration> ",
    "under_5": "<number> ",
    "five_or_less": "<number> ",
    "over_65": "<number> ",
    "range_temperature": "<temperature> ",
    "amount": "<[a-z0-9]+> ",
    "often": _OFTEN,
}
NO_QUESTION = "-"
"""Id of a phrase that is known and tells nothing."""
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


def rules_for(known: frozenset[str]) -> Iterator[tuple[Rule, Phrase]]:
    """Every phrase whose words are all there."""
    index = _index()
    for word in known:
        for rule, phrase in index.get(word, ()):
            if all(not need.isdisjoint(known) for need in phrase.needs):
                yield rule, phrase


@cache
def _index() -> Mapping[str, Sequence[tuple[Rule, Phrase]]]:
    """The phrases by the words of their most telling need."""
    found: dict[str, list[tuple[Rule, Phrase]]] = {}
    for rule in every_rule():
        for phrase in rule.phrases:
            for word in min(phrase.needs, key=len):
                found.setdefault(word, []).append((rule, phrase))
    return found


@cache
def every_rule() -> tuple[Rule, ...]:
    """Every rule of the shipped file."""
    places = people().regions.items()
    groups = {region: "|".join(names).replace(" ", "_") for region, names in places}
    groups |= phrases().words
    return tuple(_rule(fact, groups) for fact in phrases().facts)


def _rule(fact: Fact, groups: Mapping[str, str]) -> Rule:
    unless = re.compile(f"(?<= ){alternatives(fact.unless)}") if fact.unless else None
    return Rule(fact, tuple(_phrase(text, groups) for text in fact.phrases), unless)


def pattern_of(text: str) -> re.Pattern[str]:
    """One phrase as a pattern over a line of words with a space on either side of each."""
    return _phrase(text, {}).pattern


def _phrase(text: str, words: Mapping[str, str]) -> Phrase:
    pieces: list[str] = []
    needs: list[frozenset[str]] = []
    tokens = _TOKEN.findall(text)
    for token in tokens:
        optional = token.startswith("[")
        ways = _ways(token.strip("[]"), words)
        piece = _piece(ways)
        pieces.append(f"(?:{piece})?" if optional else piece)
        if not optional and token not in ("..", "^", "$"):
            needs.append(_needed(ways))
    slots = frozenset(_SLOT.findall(text))
    must = tuple(need for need in needs if need)
    return Phrase(re.compile("(?<= )" + "".join(pieces)), must, _is_bare(tokens), slots)


def _is_bare(tokens: Sequence[str]) -> bool:
    return len(tokens) == 1 and tokens[0].startswith("{")


def _ways(token: str, words: Mapping[str, str]) -> list[str]:
    """The alternatives of a token, groups of words unfolded."""
    found: list[str] = []
    for way in token.split("|"):
        if way.startswith("@"):
            found += words[way[1:]].split("|")
        else:
            found.append(way)
    return found


def _piece(ways: Sequence[str]) -> str:
    if list(ways) == [".."]:
        return "(?:[^ ,]+ ){0,3}?"
    if list(ways) == ["^"]:
        return "(?:(?<=^ )|(?<=, ))"
    slots = [slot for way in ways for slot in _SLOT.findall(way)]
    if slots:
        caught = not slots[0].startswith("uncaught_")
        inside = "|".join(_slot(slot) for slot in slots)
        return f"(?P<said>{inside})" if caught else f"(?:{inside})"
    plain = [way for way in ways if way != "$"]
    piece = alternatives(plain) if plain else ""
    if "$" in ways:
        end = "(?=$|, |and |with |but |so |which |because )"
        return f"(?:{piece}|{end})" if piece else end
    return piece


def _slot(name: str) -> str:
    name = name.removeprefix("uncaught_")
    return _SLOTS.get(name, f"<{name}> ")


def _needed(ways: Sequence[str]) -> frozenset[str]:
    """Words of which one is in every match; empty where that can't be said."""
    found: set[str] = set()
    for way in ways:
        slot = _SLOT.fullmatch(way)
        if way == "$":
            return frozenset()
        if slot is None:
            found.add(way.split("_")[0] if not way.startswith("<") else way)
            continue
        name = slot[1].removeprefix("uncaught_")
        if name == "often":
            return frozenset()
        found.update(re.findall(r"<\w+>", _slot(name)))
    return frozenset(found)
