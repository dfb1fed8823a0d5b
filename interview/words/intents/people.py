"""What a kind listener notices in a sentence: an ill animal, worry, a newcomer, people, a place."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from interview.words.lexicon.files import people
from interview.words.mentions.attributes import facts_in
from interview.words.mentions.parts import read_parts
from interview.words.mentions.scope.cutting import sentences

__all__ = ["Heard", "heard_in", "home_in"]

_ONE_OF = ("at_once", "soon", "distress", "newcomer", "buy", "at_risk")


@dataclass(frozen=True)
class Heard:
    """What was noticed."""

    at_once: bool = False
    soon: bool = False
    distress: bool = False
    newcomer: bool = False
    buy: bool = False
    at_risk: bool = False

    @property
    def ill(self) -> bool:
        """Whether the animal shows a sign that a veterinarian should see."""
        return self.at_once or self.soon

    def __bool__(self) -> bool:
        """Whether anything was noticed."""
        return self != Heard()


@cache
def _pattern(name: str) -> re.Pattern[str]:
    signs: tuple[str, ...] = getattr(people(), name)
    return re.compile(rf"\b{_any_of(signs)}s?\b")


def _any_of(phrases: Iterable[str]) -> str:
    return "(?:" + "|".join(re.escape(one).replace(r"\ ", r"\s+") for one in phrases) + ")"


@cache
def _around(name: str) -> re.Pattern[str]:
    """What stands around a sign, or in its clause, and tells of whom or of what it is."""
    said = {name: _any_of(listed) for name, listed in people().clauses.items()}
    return re.compile(
        {
            "denied": rf"\b{said['denies']}(?:\W+\w+){{0,2}}\W+$",
            "turtle": rf"(?:\W+{said['turtle_adjectives']})*\W+{said['turtles']}",
            "animal": rf"\b{said['animal']}\b",
            "no turtle": rf"\b(?:{said['things']}|{said['others']})\b",
            "place": rf"\b{said['places']}\s+(?:\w+\s+){{0,2}}?{said['things']}\b",
            "of thing": rf"\W+(?:(?:the|my|our|a)\W+)?{said['things']}\b",
            "body": rf"\W+(?:(?:the|its|his|her|their)\W+)?{said['body']}\b",
        }[name]
    )


def _is_of_a_thing(before: str) -> bool:
    """Whether the clause that runs up to a sign, or the one before it, is about no animal."""
    for clause in reversed(re.split(r"[,;:]| and ", re.split(r"[.!?]\s", before)[-1])):
        subject = _around("place").sub(" ", clause)
        animal = _around("animal").search(subject)
        if animal or _around("no turtle").search(subject):
            return not animal
    return False


def heard_in(text: str) -> Heard:
    """What is noticed in a sentence; nothing in it is taken for an answer."""
    plain = text.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")

    def is_meant(name: str, found: re.Match[str]) -> bool:
        before, end = plain[: found.start()], found.end()
        if _around("denied").search(before):
            return False
        if name == "at_risk" and _around("turtle").match(plain, end):
            return False
        may_be_thing = found[0] in people().of_things_too and not _around("body").match(plain, end)
        if may_be_thing and found[0].endswith(" from") and _around("of thing").match(plain, end):
            return False
        return not (may_be_thing and _is_of_a_thing(before))

    def said(name: str) -> bool:
        return any(is_meant(name, found) for found in _pattern(name).finditer(plain))

    return Heard(**{name: said(name) for name in _ONE_OF})


def home_in(text: str) -> str:
    """The region a sentence tells, as it would be typed; "" where it tells none, or two."""
    told = sentences(text, read_parts(text))
    said = {
        fact.said for one in told for fact in facts_in(one, one.wished()) if fact.id == "region"
    }
    return said.pop() if len(said) == 1 else ""
