"""What is told to be different in a saved tank before it is taken up again."""

from __future__ import annotations

from interview.chat.hearing.asked_instead import supposes
from interview.chat.hearing.changes import Change, changes_in, left_at, number_now
from interview.chat.hearing.references import name_of
from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.turtles.called import each_as_mine
from interview.graph.answers import understand
from interview.graph.interview import Interview

__all__ = ["rows_told"]

_KIND, _COUNT = "species", "animal_count"


def rows_told(interview: Interview, line: str) -> list[tuple[str, str]]:
    """The answers that a line changes, with what it makes of them; none where it tells of another.

    What only names an answer, as a lamp that is new, stands with its own words.
    """
    held = interview.answers.keys()
    changes = [one for one in changes_in(interview, line) if one.places]
    is_told = any(one.told and not held.isdisjoint(one.places) for one in changes)
    if not is_told or supposes(line) or _is_of_another(interview, line):
        return []
    return [_row(interview, one) for one in changes]


def _row(interview: Interview, change: Change) -> tuple[str, str]:
    place = change.place
    if place is None or change.told is None:
        return change.clause.text, ""
    left = left_at(interview, change, number_now(interview, place))
    return name_of(interview, place), "" if left.is_open else left.by or left.at or left.amount


def _is_of_another(interview: Interview, line: str) -> bool:
    """Whether a line tells of turtles that this tank doesn't have."""
    told = read_story(interview, each_as_mine(interview, line)[0]).answers
    kinds = {answer.value for at, answer in interview.answers.items() if at.id == _KIND}
    more = any(at.id == _COUNT and said != "1" for at, said in told)
    return (more and interview.animal_count < 2) or any(
        at.id == _KIND
        and understand(interview.question(at), said, interview.lists, interview.region).value
        not in kinds
        for at, said in told
    )
