"""The coldest and the warmest a room gets, told in one sentence: 16 in winter and 33 in August."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import partial

from interview.words.lexicon.files import known_words
from interview.words.mentions.nearby.topics import topics_in
from interview.words.mentions.negation import Found
from interview.words.mentions.scope.sentence import Sentence
from interview.words.mentions.shared_scale import with_scale

__all__ = ["room_ends"]

_list = partial(known_words, "warmth")

_LEAST, _MOST = 1.0, 60.0
"""Degrees between the two: closer ones are one reading told twice, others not of a room."""
_BESIDE = 2
_SUMMERS, _WINTERS = {"summer", "summers"}, {"winter", "winters"}
"""A summer night is not the coldest, a winter's day not the warmest."""
_FIGURE = re.compile(r"[-−\d]")
_WARMTHS = ("temperature", "degrees", "number")


def room_ends(sentence: Sentence, off: frozenset[int]) -> Iterator[Found]:
    """Both, where a sentence about a room alone tells two temperatures of the year or the day."""
    if not _is_of_a_room(sentence):
        return
    told = [at for at, part in enumerate(sentence.parts) if part.said and part.said != "one"]
    parts = [sentence.parts[at] for at in told]
    scales = {part.unit for part in parts if part.kind == "temperature" and part.unit}
    if len(told) != 2 or len(scales) != 1 or any(part.kind not in _WARMTHS for part in parts):
        return
    if any(_is_vague(sentence, at) and not _is_dated(sentence, at) for at in told):
        return  # 18 °C in winter, age 12; about 20 °C, at worst 16 in January
    if not all(_is_sure(sentence, at, off) for at in told):
        return
    scale, (low, high) = scales.pop(), sorted(told, key=lambda at: sentence.parts[at].value)
    apart = sentence.parts[high].value - sentence.parts[low].value
    if _LEAST <= apart <= _MOST:
        seasons = sentence.known & _list("seasons")
        for at, end, other in ((low, "low", _SUMMERS), (high, "high", _WINTERS)):
            if seasons and seasons <= other:
                continue
            said = with_scale(sentence.parts[at].said, scale)
            yield Found(sentence, f"room_temperature_{end}", said, at, at + 1)


def _is_vague(sentence: Sentence, at: int) -> bool:
    """Whether an amount is a bare number, or a hedge says that it is the usual one."""
    part = sentence.parts[at]
    return part.kind == "number" or not _FIGURE.match(part.said)


def _is_dated(sentence: Sentence, at: int) -> bool:
    """Whether a bare number has a season or an extreme right beside it: July maybe 30."""
    beside = {*sentence.words[max(0, at - _BESIDE) : at + _BESIDE + 1]}
    dates = known_words("competing", "dates") | {"september"}
    return not beside.isdisjoint(_list("seasons") | _list("extremes") | dates)


def _is_sure(sentence: Sentence, at: int, off: frozenset[int]) -> bool:
    """Neither wished for, nor doubted, nor a step: up eight degrees."""
    doubted = sentence.is_doubted(at, at + 1) and "some" not in sentence.known
    steps = sentence.word(at - 1) in _list("step_behind") or sentence.word(at + 1) in _list("step")
    return not (at in off or sentence.parts[at].sides or doubted or steps)


def _is_of_a_room(sentence: Sentence) -> bool:
    """Whether a room is named, a time or an extreme of it, and nothing else that is warm."""
    topics = [one for one in topics_in(sentence) if sentence.words[one.first] != "heating"]
    names = {topic.name for topic in topics}
    if "room" not in names or sentence.known.isdisjoint(_list("seasons") | _list("extremes")):
        return False
    return names.isdisjoint(_list("not_a_room")) and sentence.known.isdisjoint(_list("slopes"))
