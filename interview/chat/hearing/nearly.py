"""What a sentence nearly answers: the amount or the choice it names, to be offered back."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from interview.chat.hearing.changes import changes_in
from interview.chat.hearing.in_context import in_context, tells_depth, with_only_unit
from interview.graph.interview import Interview, Place
from interview.words.choices.choice import Choice
from interview.words.lexicon.files import known_words, meant_by
from interview.words.mentions.parts import read_parts
from interview.words.mentions.tank_size import with_trade_names
from interview.words.text.refusal import either
from interview.words.text.tokens import plain_words

__all__ = ["nearly", "offered"]

_ENDS = re.compile(r"[,;.!?]")
_MOST = 3
_SHOWN = 9
"""Of more options, kinds of turtle, the keeper's own word is said back, as of what is unknown."""
_LEAST_WORDS = 3
"""A shorter line is an answer gone wrong."""
_SHORTEST = 4
"""Letters of a spelling that is looked for inside a sentence."""


def nearly(interview: Interview, place: Place, line: str) -> list[str]:
    """What in a line would answer the question by itself; nothing where it names too many.

    Nor where it tells what became of another answer: the water fell by so much.
    """
    question = interview.question(place)
    options = interview.lists.options_of(question)
    words = plain_words(line).split()
    if question.type == "lit_time" or len(words) < _LEAST_WORDS:
        return []  # hours a day and months are half of a lit time each
    found = _amounts(interview, line) if not options else _named(options, _undenied(line))
    # an amount that words call a depth is never offered as what is above it
    deep = tells_depth(line) and place.id == "water_line_below_rim"
    found = (in_context(interview, place, f"{one} deep") for one in found) if deep else found
    whole = (with_only_unit(interview, place, said) or said for said in found if said)
    taken = dict.fromkeys(said for said in whole if interview.takes(place, said))
    heard = changes_in(interview, line) if taken else ()
    moved = [one.place for one in heard if one.told and one.told.way]
    return [*taken] if len(taken) <= _MOST and (place in moved or not moved) else []


def _undenied(line: str) -> str:
    """The clauses of a line that deny nothing: a mud turtle, don't know which."""
    denials = known_words("denials")
    clauses = (one for one in _ENDS.split(line) if denials.isdisjoint(plain_words(one).split()))
    return ", ".join(clauses)


def offered(found: Sequence[str]) -> str:
    """The question whether one of these is meant."""
    ask = "“yes” takes that." if len(found) == 1 else "Type the one that is right."
    return f"Do you mean {either(f'“{said}”' for said in found)}? {ask}"


def _named(options: Sequence[Choice], line: str) -> Iterator[str]:
    """The options of which a spelling stands in the line, inside no longer one of another.

    Each by one: wooden and upstairs may be the same answer, told twice.
    """
    spoken = f" {plain_words(line)} "
    spelled = {
        way: option
        for option in options
        for way in option.spellings
        if len(way) >= _SHORTEST and f" {way} " in spoken and not _is_of_else(way, spoken)
    }
    longest: dict[str, str] = {}
    for way, option in spelled.items():
        if not any(way != other and f" {way} " in f" {other} " for other in spelled):
            own = option.loose or len(options) > _SHOWN or option.name == "unknown"
            said = way if own else option.name.replace("_", " ")
            longest[option.name] = max(longest.get(option.name, ""), said, key=len)
    yield from longest.values()


def _is_of_else(way: str, spoken: str) -> bool:
    """Whether a spelling stands there as a part of another thing's name: third floor flat."""
    named = (name for table in ("things", "topics") for name in meant_by(table))
    longer = (name for name in named if " " in name)
    return any(f" {way} " in f" {name} " and f" {name} " in spoken for name in longer)


def _amounts(interview: Interview, line: str) -> Iterator[str]:
    sizes = interview.lists.sizes["tank_size"]
    yield from (part.said for part in with_trade_names(read_parts(line), sizes) if part.said)
