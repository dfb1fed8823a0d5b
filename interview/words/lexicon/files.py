"""The word files as written: every scalar is the characters typed."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

__all__ = ["known_words", "numbers_of", "phrases", "places", "units", "words"]


@cache
def _read(name: str) -> Mapping[str, Any]:
    import yaml

    loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
    with Path(__file__).with_name(name).open(encoding="utf-8") as file:
        loaded: Mapping[str, Any] = yaml.load(file, Loader=loader)
    return loaded


@cache
def places() -> Mapping[str, str]:
    """The places of each region, as a group of words in phrases."""
    regions: Mapping[str, list[str]] = _read("people.yaml")["regions"]
    return {
        region: "|".join(name.replace(" ", "_") for name in names)
        for region, names in regions.items()
    }


def units() -> Mapping[str, Any]:
    """The spellings of units."""
    return _read("units.yaml")


def words() -> Mapping[str, Any]:
    """Numbers, hedges, yes and no, things and what goes with them."""
    return _read("words.yaml")


def phrases() -> Mapping[str, Any]:
    """Phrases and the facts they tell."""
    return _read("phrases.yaml")


@cache
def known_words(*path: str) -> frozenset[str]:
    """One list of words.yaml by its place there; an underscore in it is a space."""
    found: Any = words()
    for key in path:
        found = found[key]
    return frozenset(word.replace("_", " ") for word in found)


@cache
def numbers_of(*path: str) -> Mapping[str, int]:
    """One table of words.yaml that gives each word a whole number."""
    found: Any = words()
    for key in path:
        found = found[key]
    return {word: int(number) for word, number in found.items()}
