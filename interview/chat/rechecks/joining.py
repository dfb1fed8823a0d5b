"""The change of the count that a turtle which joined tells, and what is kept of it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from interview.chat.hearing.changes import Change
from interview.chat.hearing.people import is_sentence
from interview.chat.hearing.replies import says
from interview.chat.hearing.turtles.newcomer import another_told, told_of_one
from interview.chat.talks.answers_so_far import shown_answer
from interview.graph.interview import Interview, Place
from interview.words.intents.changes import Told
from interview.words.mentions.clauses import whole_clause

__all__ = [
    *("NEWCOMERS", "OF_NEWCOMERS", "as_newcomer", "count_told", "doubts_newcomers"),
    *("is_of_newcomer", "is_of_no_turtle", "keep_joined", "one_more"),
]

NEWCOMERS = Place("other_animals")
"""Where newcomers are asked of."""
OF_NEWCOMERS = (
    "A turtle that joined within three months is a newcomer; where it was kept apart for as long "
    "before, type what else is so, or none. "
)
_COUNT = "animal_count"
_SHARES, _APART = "newcomer_mixed", "newcomer_apart"
_ENDS = re.compile(r"[,;.]")


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


def count_told(interview: Interview, line: str, *, more: bool) -> tuple[str, dict[str, str]]:
    """The count that a line tells where turtles are counted, and what of the one that joined.

    Where one `more` was told before, a turtle told of now is that.
    """
    place = Place(_COUNT)
    if interview.takes(place, line):
        return line, {}
    joins = another_told(interview, line)
    if joins is None and says(line, "one_more"):
        joins = {}
    if joins is None and more:
        joins = told_of_one(interview, line) or None
    if joins is None:
        return line, {}
    pieces = map(str.strip, _ENDS.split(line))
    said = next((one for one in pieces if one and interview.takes(place, one)), "")
    return said or str(interview.animal_count + 1), joins
