"""Answers told by what is known already: half full by the tank's height, room temperature."""

from __future__ import annotations

import re

from interview.base.units import convert
from interview.graph.interview import Interview, Place
from interview.words.amounts.amount import written
from interview.words.amounts.hedges import split_hedge
from interview.words.amounts.quantity import apart, read_quantity
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import joined, tokenise

__all__ = ["also_told", "in_context"]

_FULL = re.compile(r"^(?:it'?s |is |filled )?(?P<share>.+?)[ -](?:full|filled)$", re.IGNORECASE)
_ROOM = re.compile(
    r"^(?:about |around |at |same as (?:the )?)?(?:room|ambient) ?(?:temp(?:erature)?s?)?$",
    re.IGNORECASE,
)
_AT_ROOM = ("water_temperature", "tap_temperature", "basking_room_temperature")


def in_context(interview: Interview, place: Place, line: str) -> str:
    """The answer as it would be typed in full; empty where the words are none of these."""
    if place.id == "water_line_below_rim" and (found := _FULL.match(line.strip(" ."))):
        return _below_rim(interview, found["share"])
    if place.id in _AT_ROOM and _ROOM.match(line.strip(" .")):
        return _room(interview)
    return ""


def also_told(interview: Interview, place: Place, line: str) -> Place | None:
    """The open question that a line answers in the same breath: a quarter, every week."""
    question = interview.question(place)
    if not question.beside or apart(line, question.type, question.beside, interview.region) == line:
        return None
    for other in interview.questionnaire:
        pair = other.type == question.beside and other.beside == question.type
        if pair and interview.relevance().get(Place(other.id)):
            return None if Place(other.id) in interview.answers else Place(other.id)
    return None


def _below_rim(interview: Interview, words: str) -> str:
    """The water line of a tank that is full to a share of its height: always an estimate."""
    height = interview.known().get("tank_height")
    try:
        _, tokens = split_hedge(tokenise(words))
        share = read_quantity(joined(tokens), "share", region=interview.region).best
    except NotUnderstood:
        return ""
    if height is None or not 0 < share <= 1:
        return ""
    unit = "inch" if interview.system in ("us", "uk_inches") else "cm"
    return f"about {written(round(convert(height * (1 - share), 'm', unit), 1), unit)}"


def _room(interview: Interview) -> str:
    """Between the coldest and the warmest the room gets."""
    known = interview.known()
    low, high = known.get("room_temperature_low"), known.get("room_temperature_high")
    if low is None or high is None or not low < high:
        return ""
    unit = "degF" if interview.system == "us" else "degC"
    ends = [written(round(convert(end, "degC", unit), 1), unit) for end in (low, high)]
    return f"{ends[0]} to {ends[1]}"
