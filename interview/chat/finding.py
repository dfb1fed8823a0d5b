"""Which question a keeper means by a few words: “temperature”, “I raised the lamp”."""

from __future__ import annotations

import difflib
import re
from collections.abc import Iterable

from interview.graph.interview import Interview, Place
from interview.words.tokens import plain_words

__all__ = ["matches", "name_of", "turtle_of"]

_ALIKE = 0.6
_AS_ALIKE = 0.05
"""How far behind the nearest spelling another one still counts as meant."""
_MOST = 9
_MOVE = r"moved?|raised?|lower(?:ed)?|lift(?:ed)?|higher|nearer|closer|f[au]rther|hung|hang|up|down"
_MOVED = re.compile(rf"\b(?:{_MOVE})\b")
_FILLER = re.compile(
    r"a|an|the|my|its|it|is|i|we|he|she|did|have|has|had|just|new|now|"
    r"and|to|at|in|on|for|by|of|changed|change|replaced|swapped|measured|again|anew|put|set|"
    rf"{_MOVE}|\d\S*|cm|mm|m|inch|inches|foot|feet|ft"
)
_SAME = {"temp": "temperature", "bulb": "lamp", "light": "lamp", "uv": "uvb", "lights": "lamp"}


def matches(interview: Interview, text: str) -> list[Place]:
    """The places that fit the words about as well as each other, in asking order.

    A whole name is taken alone; else questions that were asked come before finer ones.
    """
    relevant = interview.relevance()
    places = [place for place in relevant if relevant[place]]
    wanted = plain_words(text.replace("_", " "))
    for names in (_ids, _shorts, _labels):
        if exact := [p for p in places if wanted in map(plain_words, names(interview, p))]:
            return exact
    words = _content(wanted)
    if not words:
        return []
    distances = [p for p in places if _is_a_distance(interview, p)]
    found = _named(interview, distances, words) if _MOVED.search(wanted) else []
    found = found or _named(interview, places, words)
    asked = [p for p in found if p in interview.answers or interview.asked(p)]
    return (asked or found)[:_MOST]


def name_of(interview: Interview, place: Place) -> str:
    """The counter wording of a place, with the animal's number where there are several."""
    return turtle_of(interview, place) + interview.question(place).short


def turtle_of(interview: Interview, place: Place) -> str:
    """Which turtle a place is about, as “Turtle 2: ”; empty where there is only one."""
    if place.animal is None or interview.animal_count < 2:
        return ""
    return f"Turtle {place.animal + 1}: "


def _with_animal(place: Place, texts: Iterable[str]) -> list[str]:
    texts = list(texts)
    if place.animal is None:
        return texts
    return [*texts, *(f"turtle {place.animal + 1} {text}" for text in texts)]


def _ids(_: Interview, place: Place) -> list[str]:
    return _with_animal(place, [place.id.replace("_", " ")])


def _shorts(interview: Interview, place: Place) -> list[str]:
    return _with_animal(place, [interview.question(place).short])


def _labels(interview: Interview, place: Place) -> list[str]:
    return _with_animal(place, [interview.question(place).label])


def _content(words: str) -> list[str]:
    return [_SAME.get(word, word) for word in words.split() if not _FILLER.fullmatch(word)]


def _named(interview: Interview, places: list[Place], words: list[str]) -> list[Place]:
    return _with_words(interview, places, words) or _nearest(interview, places, " ".join(words))


def _with_words(interview: Interview, places: list[Place], words: list[str]) -> list[Place]:
    """Places whose name holds every word; else those whose full wording does."""
    for wordings in ((_ids, _shorts), (_ids, _shorts, _labels)):
        found = []
        for place in places:
            texts = " ".join(text for names in wordings for text in names(interview, place))
            spoken = plain_words(texts).split()
            if all(any(other.startswith(word) for other in spoken) for word in words):
                found.append(place)
        if found:
            return found
    return []


def _nearest(interview: Interview, places: list[Place], wanted: str) -> list[Place]:
    """Places whose name is spelled most like it."""
    scores: dict[Place, float] = {}
    for place in places:
        names = [*_ids(interview, place), *_shorts(interview, place)]
        likeness = (difflib.SequenceMatcher(None, wanted, plain_words(n)).ratio() for n in names)
        scores[place] = max(likeness)
    best = max(scores.values(), default=0.0)
    if best < _ALIKE:
        return []
    return [place for place, score in scores.items() if score >= best - _AS_ALIKE]


def _is_a_distance(interview: Interview, place: Place) -> bool:
    return interview.question(place).type == "length" and bool(
        re.search(r"height|line|gap", place.id)
    )
