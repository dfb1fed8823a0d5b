"""What a kind listener notices in a sentence: an ill animal, worry, a newcomer, people, a place."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache

from interview.words.lexicon.files import people

__all__ = ["Heard", "heard_in"]

_DENIES = re.compile(r"\b(?:no|not|never|without|isn't|hasn't got|nobody|none)(?:\W+\w+){0,2}\W+$")
"""What may stand before a word that is then denied: “no sign of swelling”."""
_OF_A_TURTLE = re.compile(
    r"(?:\W+(?:red|eared|yellow|bellied|painted|map|musk|mud|common|river|snake|side|necked))*"
    r"\W+(?:turtle|terrapin|slider|cooter|softshell|musk|hatchling)"
)
"""What stands behind “my baby” where no child is meant."""
_ANIMAL = re.compile(
    r"\b(?:he|she|hes|shes|he's|she's|him|her|turtle|terrapin|slider|cooter|musk|stinkpot"
    r"|hatchling|animal|they|baby|found|noticed|saw)\b"
)
"""Words of a clause about an animal; what somebody found has a name perhaps."""
_THINGS = (
    r"lamp|bulb|light|filter|heater|pump|lid|cover|tank|dock|platform|raft|ramp|tube|hose"
    r"|bottle|jar|tin|valve|tap|door|window|thermometer|plug|box|sponge|intake|cable"
)
_NO_TURTLE = re.compile(rf"\b(?:{_THINGS}|dog|cat|fish|i|we|son|daughter)\b")
_PLACE = re.compile(
    r"\b(?:in|inside|on|under|beneath|below|by|at|near|beside|behind|between|against|over|above)"
    rf"\s+(?:\w+\s+){{0,2}}?(?:{_THINGS})\b"
)
"""Where something lies: “under the dock” tells nothing of what lies there."""
_BODY = re.compile(r"\W+(?:(?:the|its|his|her|their)\W+)?(?:nose|nostrils?|mouth|face|beak)\b")
"""What stands behind “bubbles from” where an animal is meant."""


def _is_of_a_thing(before: str) -> bool:
    """Whether the clause that runs up to a sign, or the one before it, is about no animal."""
    for clause in reversed(re.split(r"[,;:]| and ", re.split(r"[.!?]\s", before)[-1])):
        subject = _PLACE.sub(" ", clause)
        if _ANIMAL.search(subject) or _NO_TURTLE.search(subject):
            return not _ANIMAL.search(subject)
    return False


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
def _pattern(name: str) -> re.Pattern[str]:
    regions = people().regions
    return _any_of(regions[name] if name in regions else getattr(people(), name))


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
            and not (
                found[0] in people().of_things_too
                and not _BODY.match(plain, found.end())
                and _is_of_a_thing(plain[: found.start()])
            )
            for found in _pattern(name).finditer(plain)
        )

    places = [region for region in people().regions if said(region)]
    return Heard(
        **{
            name: said(name)
            for name in ("at_once", "soon", "distress", "newcomer", "buy", "at_risk")
        },
        region=places[0] if len(places) == 1 else "",
    )
