"""Which question a keeper means by a few words: “temperature”, “I raised the lamp”."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from typing import TypeAlias

from interview.base.spelling import nearest
from interview.graph.interview import Interview, Place
from interview.words.text.tokens import plain_words

__all__ = ["answers_behind", "matches", "name_of", "named", "thing_of", "turtle_of"]

_MOST = 9
_SHORTEST = 3
_UP_DOWN = r"raised?|lower(?:ed)?|lift(?:ed)?|higher|up|down|hung|hang"
_MOVE = rf"moved?|{_UP_DOWN}|nearer|closer|f[au]rther|shifted"
_MOVED = re.compile(rf"\b(?:{_MOVE})\b")
_W = re.compile(r"\b(\d+) ?w\b")
_WATTS = re.compile(r"\b\d+ ?watts?\b")
_BUT_SO = re.compile(r"\b(?:water change|changed? the water)\b")
_SMALL = re.compile(
    r"a|an|the|my|our|its|it|is|was|are|were|i|ive|we|weve|he|she|they|did|have|has|had|got|just|"
    r"now|and|to|by|please|some|bit|little|of|in|on|for|at|from|then|put"
)
_FILLER = re.compile(
    rf"{_SMALL.pattern}|new|chang(?:ed?|ing)|replaced?|swapped|measured?|again|anew|put|set|with|"
    rf"different|another|adjust(?:ed)?|mend|fix|edit|correct|bought|fitted|installed|made|"
    rf"{_MOVE}|\d\S*|cm|mm|m|inch|inches|foot|feet|ft|w"
)
_SAME = {
    **dict.fromkeys(("replaced", "swapped", "fitted", "installed", "bought"), "new"),
    "temp": "temperature",
    "temps": "temperature",
    "bulb": "lamp",
    "bulbs": "lamp",
    "lamps": "lamp",
    "light": "lamp",
    "lights": "lamp",
    "uv": "uvb",
    "wattage": "watts",
    "watt": "watts",
    "docks": "dock",
    "changes": "change",
    "litres": "gallons",
    "liters": "gallons",
    "aquarium": "tank",
}
_Names: TypeAlias = Callable[[Interview, Place], list[str]]


def named(interview: Interview, text: str) -> list[Place]:
    """The places that go by these words, small ones aside; none by a part or a near spelling."""
    relevant = interview.relevance()
    words = _content(plain_words(text), _SMALL)
    return _called(interview, [p for p in relevant if relevant[p]], words, _SMALL) if words else []


def matches(interview: Interview, text: str, *, ahead: bool = False) -> list[Place]:
    """The places that fit the words about as well as each other, in asking order.

    A whole name is taken alone; else, where a name is only hinted at, questions that were
    asked come before finer ones. What was moved is a distance; what has watts, a power.
    `ahead` takes in questions that may come up later, too.
    """
    relevant = interview.relevance()
    places = [p for p in relevant if relevant[p] or (ahead and relevant[p] is None)]
    wanted = _W.sub(r"\1 watts", plain_words(text.replace("_", " ")))
    for names in (_ids, _shorts, _labels):
        if exact := [p for p in places if wanted in map(plain_words, names(interview, p))]:
            return exact
    found = _meant(interview, _narrowed(interview, places, wanted), wanted, near=False)
    return (found or _meant(interview, places, wanted, near=True))[:_MOST]


def _narrowed(interview: Interview, places: list[Place], wanted: str) -> list[Place]:
    """What words of moving or of watts can be about; nothing where they say neither."""
    if _WATTS.search(wanted):
        return [place for place in places if interview.question(place).type == "power"]
    if _MOVED.search(wanted) and not _BUT_SO.search(wanted):
        return [place for place in places if _is_a_distance(interview, place, wanted)]
    return []


def answers_behind(interview: Interview, text: str) -> list[Place]:
    """For the name of a quantity that is worked out: the answers it is worked out from.

    Those its formula takes directly, where there are any; else those further up.
    """
    from interview.core.wiring import quantities

    wiring, name = quantities(), plain_words(text.replace("_", " ")).replace(" ", "_")
    spoken = {plain_words(one) for q in interview.questionnaire for one in q.trade_names}
    if name not in wiring.formulas or name in interview.questionnaire.giver:
        return []
    if name.replace("_", " ") in spoken:
        return []
    direct = {item.name for item in wiring.formulas[name].inputs}
    relevant = interview.relevance()
    found: list[Place] = []
    for names in (direct, wiring.upstream(name)):
        found = found or [
            place
            for place in interview.places()
            if relevant[place]
            and place in interview.answers
            and names & set(interview.question(place).names)
        ]
    return found[:_MOST]


def name_of(interview: Interview, place: Place) -> str:
    """The counter wording of a place, with the animal's number where there are several."""
    return turtle_of(interview, place) + interview.question(place).short


def turtle_of(interview: Interview, place: Place) -> str:
    """Which turtle a place is about, as “Turtle 2: ”; empty where there is only one."""
    if place.animal is None or interview.animal_count < 2:
        return ""
    return f"Turtle {place.animal + 1}: "


def thing_of(interview: Interview, place: Place) -> str:
    """What a distance is measured from, in a keeper's words: the heat lamp, the UVB lamp."""
    things = {
        "heat_lamp_height": "the heat lamp",
        "uvb_lamp_height": "the UVB lamp",
        "water_line_below_rim": "the water line",
    }
    return things.get(place.id, f"“{name_of(interview, place)}”")


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


def _traded(interview: Interview, place: Place) -> list[str]:
    return _with_animal(place, list(interview.question(place).trade_names))


def _meant(interview: Interview, places: list[Place], wanted: str, *, near: bool) -> list[Place]:
    """Places by what is left of the words: as a whole name, as part of one, or nearly spelled."""
    for filler in (_SMALL, _FILLER):
        words = _content(wanted, filler)
        if words and (found := _called(interview, places, words, filler)):
            return found
    words = _content(wanted, _FILLER)
    if not words:
        return []
    found = _with_words(interview, places, words) or _holding(interview, places, words)
    found = found or (_nearest(interview, places, " ".join(words)) if near else [])
    asked = [place for place in found if place in interview.answers or interview.asked(place)]
    return asked or found


def _content(words: str, filler: re.Pattern[str]) -> list[str]:
    return [_SAME.get(word, word) for word in words.split() if not filler.fullmatch(word)]


def _called(
    interview: Interview, places: list[Place], words: list[str], filler: re.Pattern[str]
) -> list[Place]:
    """Places one of whose names says the same, small words and their order aside."""
    wanted = sorted(words)
    return [
        place
        for place in places
        if any(
            sorted(_content(plain_words(name), filler)) == wanted
            for names in (_ids, _shorts, _traded)
            for name in names(interview, place)
        )
    ]


def _holding(interview: Interview, places: list[Place], words: list[str]) -> list[Place]:
    """Places whose trade name stands whole among the words, the longest name first."""
    sizes: dict[Place, int] = {}
    for place in places:
        for name in (*_shorts(interview, place), *_traded(interview, place)):
            spoken = _content(plain_words(name), _FILLER)
            if spoken and set(spoken) <= set(words):
                sizes[place] = max(sizes.get(place, 0), len(spoken))
    longest = max(sizes.values(), default=0)
    return [place for place, size in sizes.items() if size == longest]


def _with_words(interview: Interview, places: list[Place], words: list[str]) -> list[Place]:
    """Places whose name holds every word; else those whose full wording does."""
    tiers: tuple[tuple[_Names, ...], ...] = ((_ids, _shorts, _traded), (_labels,))
    for wordings in tiers:
        found = []
        for place in places:
            for text in (text for names in wordings for text in names(interview, place)):
                spoken = [_SAME.get(word, word) for word in plain_words(text).split()]
                if all(any(_starts(other, word) for other in spoken) for word in words):
                    found.append(place)
                    break
        if found:
            return found
    return []


def _starts(other: str, word: str) -> bool:
    return other == word or (len(word) >= _SHORTEST and other.startswith(word))


def _nearest(interview: Interview, places: list[Place], wanted: str) -> list[Place]:
    """Places whose name is spelled most like it."""
    names: dict[str, list[Place]] = {}
    for place in places:
        for name in (*_ids(interview, place), *_shorts(interview, place)):
            names.setdefault(plain_words(name), []).append(place)
    return [place for name in nearest(wanted, names, most=1) for place in names[name]]


def _is_a_distance(interview: Interview, place: Place, wanted: str) -> bool:
    """Whether moving something changes it; a gap is not what goes up or down."""
    upright = re.search(rf"\b(?:{_UP_DOWN})\b", wanted)
    kinds = "height|line" if upright else "height|line|gap"
    return interview.question(place).type == "length" and bool(re.search(kinds, place.id))
