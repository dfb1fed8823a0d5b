"""The word files, each read once; every scalar is the characters typed."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from interview.base.rows import read
from interview.words.lexicon.rows import (
    ChangeFile,
    PeopleFile,
    PhraseFile,
    SaidFile,
    SpanFile,
    UnitFile,
    WordFile,
)

__all__ = [
    *("before_thing", "changes", "known_words", "listed", "meant_by", "people", "phrases"),
    *("sayings", "spans", "spelled", "units", "words"),
]


_HERE = Path(__file__).parent


@cache
def units() -> UnitFile:
    """The spellings of units; FileError, here and below, for what is written wrong."""
    return read(_HERE / "units.yaml", UnitFile, verbatim=True)


@cache
def words() -> WordFile:
    """Numbers, hedges, yes and no, things and what goes with them."""
    return read(_HERE / "words.yaml", WordFile, verbatim=True)


@cache
def phrases() -> PhraseFile:
    """Phrases and the facts they tell."""
    return read(_HERE / "phrases.yaml", PhraseFile, verbatim=True)


@cache
def changes() -> ChangeFile:
    """What becomes of answers, and how it is said."""
    return read(_HERE / "changes.yaml", ChangeFile, verbatim=True)


@cache
def spans() -> SpanFile:
    """Words by which amounts are told where answers have none of them."""
    return read(_HERE / "spans.yaml", SpanFile, verbatim=True)


@cache
def people() -> PeopleFile:
    """What a kind listener notices, and places."""
    return read(_HERE / "people.yaml", PeopleFile, verbatim=True)


@cache
def sayings() -> SaidFile:
    """What is said to a person at once: an emergency, an ill animal, a beginning."""
    return read(_HERE / "said.yaml", SaidFile, verbatim=True)


def spelled(dimension: str) -> Mapping[str, tuple[str, ...]]:
    """Each unit of a dimension that is spelled by itself, and how."""
    return units().spelled.get(dimension, {})


def listed(name: str, *path: str) -> tuple[str, ...]:
    """One list of words.yaml by its place there."""
    found: Any = getattr(words(), name)
    for key in path:
        found = found[key] if isinstance(found, dict) else getattr(found, key)
    of_words: tuple[str, ...] = found
    return of_words


@cache
def known_words(*path: str) -> frozenset[str]:
    """The words of a list; an underscore in one is a space."""
    return frozenset(word.replace("_", " ") for word in listed(*path))


@cache
def meant_by(table: str) -> Mapping[str, str]:
    """What a thing, or a side, is called → which one it is."""
    groups: Mapping[str, tuple[str, ...]] = getattr(words(), table)
    return {way.replace("_", " "): name for name, ways in groups.items() for way in ways}


@cache
def before_thing(thing: str) -> frozenset[str]:
    """Words that may stand between a number and this thing."""
    return frozenset(words().before.get(thing, ()))
