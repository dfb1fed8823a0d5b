"""A short line that answers another question than the one that was asked."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from interview.graph.interview import Interview, Place
from interview.graph.questions import Question
from interview.words.intents.story import is_filler
from interview.words.lexicon.files import known_words, meant_by
from interview.words.lexicon.rules import any_named, things_of
from interview.words.text.tokens import plain_words

__all__ = ["DENIALS", "answered_elsewhere", "denies_it", "is_of_others", "topics_in"]

DENIALS = frozenset({"no", "none"})

_LEAST_LETTERS = 3
_OF_ANY = frozenset({"room", "glass", "plastic", "wires", "meter", "outdoors", "circuit", "light"})
"""What any thing may be made of, or stand beside: it tells of no other question by itself."""


def is_of_others(question: Question, line: str) -> bool:
    """Whether a line names things, and none that its question is about: nothing over the dock."""
    told = topics_in(line) - known_words("animate") - _OF_ANY
    return bool(told) and told.isdisjoint(_own_topics(question))


def denies_it(line: str, told: Iterable[str]) -> bool:
    """Whether a line only denies something of “it”, and names no thing: nothing over it."""
    of_it = "it" in plain_words(line).split() and topics_in(line) <= known_words("animate")
    return of_it and DENIALS.issuperset(told)


@cache
def _own_topics(question: Question) -> frozenset[str]:
    spoken = [question.short, question.label, question.hint, question.help, *question.trade_names]
    spoken += [way for choice in question.choices for way in (choice.label, *choice.spellings)]
    return things_of(question.id).union(*map(topics_in, spoken))


def topics_in(text: str) -> frozenset[str]:
    """The topics of the things that a text names."""
    meant = {**meant_by("things"), **meant_by("topics")}
    named = any_named("things", "topics").finditer(f" {plain_words(text)} ")
    return frozenset(meant[name.group().strip()] for name in named)


def answered_elsewhere(interview: Interview, line: str) -> Place | None:
    """The open question of which a line is a choice, word for word; None where none or several."""
    said = plain_words(line)
    if len(said) < _LEAST_LETTERS or is_filler(said):
        return None
    of_one = (None, 0) if interview.animal_count == 1 else (None,)
    found = [
        place
        for place in interview.open_places()
        if place.animal in of_one
        and any(
            said in choice.spellings
            for choice in interview.lists.options_of(interview.question(place))
            if choice.name not in ("none", "unknown")
        )
    ]
    return found[0] if len(found) == 1 else None
