"""What a kind listener notices in a sentence: an ill animal, worry, a newcomer, people, a place."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache

from interview.words.intents.accidents import beside_people, tells_of_electricity
from interview.words.intents.ages import said_of_people
from interview.words.intents.household import tells_of_age_at_risk
from interview.words.intents.of_whom import any_of, is_meant, is_only_asked
from interview.words.lexicon.files import people
from interview.words.mentions.attributes import facts_in
from interview.words.mentions.parts import read_parts
from interview.words.mentions.scope.cutting import sentences
from interview.words.text.tokens import plain_words

__all__ = ["Heard", "heard_in", "home_in"]

_CUT = re.compile(
    r"[.,;:!?]|\bbut\b|\bno \w+ and(?= an? )"
    r"|\band(?= (?:we|i) (?:have|had)\b| there(?:'s| is| are)\b)"
)
_VERB = r"(?:(?:is|are|was|were|do|does|did|has|have|would|could)(?:n'?t)?|won'?t|can'?t)"
_INVERTED = [
    re.compile(rf"\bwhy ({_VERB}) ((?:[\w'-]+ ){{{more}}}[\w'-]+)(?= )") for more in range(4)
]
"""Why won't she eat, my red eared slider eat: the verb stands before whom it is of."""
_ILL = ("at_once", "soon")
_EMERGENCY, _ILLNESS = "another_emergency", "another_illness"
"""Choices that stand for whatever none of the others names."""
_ONE_OF = ("distress", "newcomer", "buy", "at_risk")


@dataclass(frozen=True)
class Heard:
    """What was noticed."""

    at_once: bool = False
    soon: bool = False
    signs: tuple[str, ...] = ()
    """What the animal shows, as its question has them; another, where it is none of these."""
    distress: bool = False
    newcomer: bool = False
    buy: bool = False
    at_risk: bool = False
    wonders: bool = False
    """Whether a sign is only asked after."""
    electric: bool = False

    @property
    def ill(self) -> bool:
        """Whether the animal shows a sign that a veterinarian should see."""
        return self.at_once or self.soon

    def __bool__(self) -> bool:
        """Whether anything was noticed."""
        return self != Heard()


@cache
def _pattern(name: str, sign: str = "") -> re.Pattern[str]:
    """How something is told; of an illness one of the signs to choose from, or none of them."""
    listed = getattr(people(), f"signs_{name}")[sign] if sign else getattr(people(), name)
    return re.compile(rf"\b{any_of(listed)}s?\b")


def _is_at_home(found: re.Match[str]) -> bool:
    """Whether somebody at risk may live there: not who sold the turtle or is gone."""
    before, after = found.string[: found.start()], found.string[found.end() :]
    clause = plain_words(_CUT.split(before)[-1] + found[0] + _CUT.split(after)[0])
    return not any(said_of_people(name).search(clause) for name in ("away", "not_there"))


def _straightened(plain: str) -> Iterator[tuple[str, int]]:
    """A “why” with its verb behind whom it may be of, of up to four words, and where it is then."""
    for inverted in _INVERTED:
        if asked := inverted.search(plain):
            before = f"{plain[: asked.start()]}why {asked[2]} "
            yield f"{before}{asked[1]}{plain[asked.end() :]}", len(before)


def heard_in(text: str) -> Heard:
    """What is noticed in a sentence; nothing in it is taken for an answer."""
    folded = (
        one.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'")
        for one in (text, beside_people(text))
    )
    whole, of_turtles = ([(one, 0), *_straightened(one)] for one in folded)
    asked: list[re.Match[str]] = []

    def said(name: str, sign: str = "") -> bool:
        pattern, texts = _pattern(name, sign), of_turtles if name in _ILL else whole
        every = ((one, verb) for text, verb in texts for one in pattern.finditer(text))
        found = [one for one, verb in every if one.end() > verb]
        asked.extend(one for one in found if name in _ILL and is_only_asked(one))
        meant = (one for one in found if is_meant(name, one))
        return any(name != "at_risk" or _is_at_home(one) for one in meant)

    shown = {
        name: [sign for sign in getattr(people(), f"signs_{name}") if said(name, sign)]
        for name in _ILL
    }
    ill = {name: bool(signs) or said(name) for name, signs in shown.items()}
    signs = tuple(sign for found in shown.values() for sign in found)
    if ill["at_once"] and not shown["at_once"]:
        signs = (*signs, _EMERGENCY)
    elif ill["soon"] and not signs:
        signs = (_ILLNESS,)
    heard = Heard(**ill, signs=signs, **{name: said(name) for name in _ONE_OF})
    at_risk = heard.at_risk or tells_of_age_at_risk(text)
    return replace(heard, at_risk=at_risk, wonders=bool(asked), electric=tells_of_electricity(text))


def home_in(text: str) -> str:
    """The region a sentence tells, as it would be typed; "" where it tells none, or two."""
    told = sentences(text, read_parts(text))
    said = {
        fact.said for one in told for fact in facts_in(one, one.wished()) if fact.id == "region"
    }
    return said.pop() if len(said) == 1 else ""
