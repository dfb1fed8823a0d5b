"""A turtle that came to the others: what is told of it is its own, not theirs."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from interview import assembly
from interview.chat.hearing.changes import Change
from interview.chat.hearing.people import is_sentence
from interview.chat.hearing.told.story import read_story
from interview.chat.talks.answers_so_far import shown_answer
from interview.graph.interview import Interview, Place
from interview.words.intents.changes import Told
from interview.words.lexicon.files import known_words
from interview.words.mentions.clauses import whole_clause
from interview.words.text.tokens import plain_words

__all__ = [
    *("another_told", "as_newcomer", "is_of_newcomer", "is_of_no_turtle", "keep_joined"),
    *("NEWCOMERS", "OF_NEWCOMERS", "doubts_newcomers", "one_more"),
]

NEWCOMERS = Place("other_animals")
"""Where newcomers are asked of."""
OF_NEWCOMERS = (
    "A turtle that joined within three months is a newcomer; where it was kept apart for as long "
    "before, type what else is so, or none. "
)
_COUNT = "animal_count"
_SHARES, _APART = "newcomer_mixed", "newcomer_apart"
_COMES = re.compile(r"\b(?:another|an additional|one more|a (?:new|second|third|fourth))\b")
"""“The second” is there already."""
_OF_IT = ("species", "carapace_length", "sex", "age", "mass")


def another_told(interview: Interview, line: str) -> dict[str, str] | None:
    """What a line tells of a turtle that joined, by question; None where it tells of none."""
    comes = _COMES.search(line.casefold())
    if not comes or not _is_a_turtle(line[comes.end() :]):
        return None
    alone = assembly.new_interview()
    if region := interview.answers.get(Place("region")):
        alone.record(Place("region"), region.said)
    told = read_story(alone, f"We have a {line[comes.end() :].strip()}")
    return {at.id: said for at, said in told.answers if at.animal == 0 and at.id in _OF_IT}


def _is_a_turtle(said: str) -> bool:
    """Whether words begin with a turtle: a small male; not a filter for the turtle."""
    for word in plain_words(said).split():
        if word in known_words("asked_instead", "another_turtle"):
            return True
        if word not in known_words("asked_instead", "another_looks"):
            return False
    return False


def one_more(line: str) -> Iterator[Change]:
    """The change of the count that such a line tells."""
    if clause := whole_clause(line):
        told = Told(_COUNT, "1", clause.start, clause.stop, 1)
        yield Change(clause, (Place(_COUNT),), told)


def is_of_newcomer(interview: Interview, place: Place, line: str) -> bool:
    """Whether such a line answers a question of a turtle: another slider; it is a second one."""
    turtle, many = place.animal, interview.animal_count
    if turtle is None:
        return False
    joined = turtle == many - 1 > 0 and place not in interview.answers
    return joined or (not is_sentence(line) and interview.takes(place, line))


def is_of_no_turtle(change: Change) -> bool:
    """Whether a change is of the tank, not of its turtles."""
    places = change.places
    return bool(places) and all(at.animal is None and at.id != _COUNT for at in places)


def keep_joined(interview: Interview, told: Mapping[str, str]) -> list[tuple[str, str]]:
    """Record what was told of the turtle that was counted last; names and words of it."""
    rows = []
    for name, said in told.items():
        place = Place(name, interview.animal_count - 1)
        if place not in interview.answers and interview.takes(place, said):
            interview.record(place, said)
            rows.append((interview.question(place).short, shown_answer(interview, place)))
    return rows


def as_newcomer(interview: Interview) -> str:
    """What is said of newcomers and other pets when a turtle has just joined the others."""
    held = interview.answers.get(NEWCOMERS)
    before = held.value if held and isinstance(held.value, tuple) else ()
    names = [_SHARES, *(str(name) for name in before if name not in (_SHARES, _APART))]
    return ", ".join(name.replace("_", " ") for name in names)


def doubts_newcomers(interview: Interview) -> bool:
    """Whether turtles live in the tank; what was said of newcomers then holds no more."""
    stage = interview.answers.get(Place("stage"))
    lived_in = stage is not None and stage.chosen == "living"
    if lived_in and NEWCOMERS in interview.answers:
        interview.doubtful.add(NEWCOMERS)
    return lived_in
