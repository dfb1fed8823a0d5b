"""Which answer a told change is of."""

from __future__ import annotations

from collections.abc import Sequence

from interview.chat.hearing.changes import Change, changes_in
from interview.chat.hearing.choosing import Choosing
from interview.chat.hearing.references import matches
from interview.chat.hearing.turtles.gone import tells_of_one_gone
from interview.chat.hearing.turtles.newcomer import another_told
from interview.chat.rechecks.joining import is_of_newcomer
from interview.graph.interview import Interview, Place

__all__ = ["belongs_elsewhere", "other_meant", "place_meant"]


def place_meant(talk: Choosing, change: Change) -> tuple[Place | None, list[Place]]:
    """The place meant; where several were moved alike, the first, with all of them."""
    found = list(change.places)
    if not found:  # nothing that is known yet, or nothing at all
        return talk.find(change.clause.text), []
    fit = matches(talk.interview, change.clause)
    lengths = [p for p in fit if talk.interview.question(p).type == "length"]
    if change.place is None and not (found == lengths and change.clause.is_of_a_move):
        told = change.told and talk.interview.question(found[0]).short
        return talk.find(told or change.clause.text), []
    is_told = found[0].animal is not None  # of which turtle it is
    others = lengths if len(lengths) > 1 and found[0] in lengths and not is_told else []
    return found[0], others


def other_meant(interview: Interview, others: Sequence[Place], line: str) -> Place | None:
    """The other thing that was moved, by its number in what was offered, or by its name."""
    if line.strip(" .#").isdecimal():
        number = int(line.strip(" .#"))
        return others[number - 1] if 1 <= number <= len(others) else None
    if any(letter.isdigit() for letter in line):
        return None
    meant = [place for place in matches(interview, line) if place in others]
    return meant[0] if len(meant) == 1 else None


def belongs_elsewhere(interview: Interview, place: Place, line: str) -> bool:
    """Whether a line tells of a turtle that came or went, or of a move, and nothing of a place."""
    if another_told(interview, line) is not None:
        return not is_of_newcomer(interview, place, line)
    if interview.takes(place, line):
        return False
    if tells_of_one_gone(line):
        return place.id != "stage"
    moved = [one for one in changes_in(interview, line) if one.told and one.told.way]
    return bool(moved) and all(one.places and place not in one.places for one in moved)
