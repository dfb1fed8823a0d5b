"""What a kind listener notices in a sentence: an ill animal, worry, a newcomer, people, a place."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from interview.base.rows import Row, read

__all__ = ["Heard", "PeopleWords", "heard_in", "people_words"]

_DENIES = re.compile(r"\b(?:no|not|never|without|isn't|hasn't got|nobody|none)(?:\W+\w+){0,2}\W+$")
"""What may stand before a word that is then denied: “no sign of swelling”."""


_OF_A_TURTLE = re.compile(
    r"(?:\W+(?:red|eared|yellow|bellied|painted|map|musk|mud|common|river|snake|side|necked))*"
    r"\W+(?:turtle|terrapin|slider|cooter|softshell|musk|hatchling)"
)
"""What stands behind “my baby” where no child is meant."""


class PeopleWords(Row, frozen=True, kw_only=True):
    """The word lists of people.yaml."""

    at_once: tuple[str, ...]
    soon: tuple[str, ...]
    distress: tuple[str, ...]
    newcomer: tuple[str, ...]
    buy: tuple[str, ...]
    at_risk: tuple[str, ...]
    regions: dict[str, tuple[str, ...]]


@dataclass(frozen=True)
class Heard:
    """What was noticed; `region` is "" where no place, or places of two regions, were named."""

    at_once: bool = False
    soon: bool = False
    distress: bool = False
    newcomer: bool = False
    buy: bool = False
    at_risk: bool = False
    region: str = ""

    @property
    def ill(self) -> bool:
        """Whether the animal shows a sign that a veterinarian should see."""
        return self.at_once or self.soon

    def __bool__(self) -> bool:
        """Whether anything was noticed."""
        return self != Heard()


@cache
def people_words() -> PeopleWords:
    """The shipped lists; FileError for what is written wrong in them."""
    return read(Path(__file__).parent.parent / "lexicon" / "people.yaml", PeopleWords)


@cache
def _pattern(name: str) -> re.Pattern[str]:
    regions = people_words().regions
    return _any_of(regions[name] if name in regions else getattr(people_words(), name))


def _any_of(phrases: Iterable[str]) -> re.Pattern[str]:
    ways = "|".join(re.escape(phrase).replace(r"\ ", r"\s+") for phrase in phrases)
    return re.compile(rf"\b(?:{ways})s?\b")


def heard_in(text: str) -> Heard:
    """What is noticed in a sentence; nothing in it is taken for an answer."""
    plain = text.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")

    def said(name: str) -> bool:
        return any(
            not _DENIES.search(plain[: found.start()])
            and not (name == "at_risk" and _OF_A_TURTLE.match(plain, found.end()))
            for found in _pattern(name).finditer(plain)
        )

    places = [region for region in people_words().regions if said(region)]
    return Heard(
        **{
            name: said(name)
            for name in ("at_once", "soon", "distress", "newcomer", "buy", "at_risk")
        },
        region=places[0] if len(places) == 1 else "",
    )
