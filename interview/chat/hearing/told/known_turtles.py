"""Which of several known turtles a line tells of: by its number, its kind, or where it is asked."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from interview.chat.hearing.told.taken import Story
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place

__all__ = ["WHOSE", "of_known_turtles"]

WHOSE = "I can't tell which turtle that is of, so I ask of each."
_KIND = "species"
_NTH = ("first", "second", "third", "fourth", "fifth")
_NUMBERED = re.compile(
    rf"\bturtle (?:number |no\.? ?|#)?([1-9])\b|\b({'|'.join(_NTH)}) (?:turtle|one)\b", re.I
)


def of_known_turtles(
    interview: Interview, story: Story, line: str, asked: Place | None = None
) -> tuple[Story, bool]:
    """The story with what it tells of a turtle at that one of the known turtles.

    Args:
        interview: the answers so far; of one turtle nothing is to be told apart
        story: what a line seems to tell, which counts its turtles from the first
        line: the words of it
        asked: what is asked, which decides where the line doesn't

    Returns the story, and whether something in it may be of either turtle: that is left out.
    """
    known = {
        n: str(answer.value)
        for n in range(interview.animal_count)
        if (answer := interview.answers.get(Place(_KIND, n)))
    }
    told = dict(story.answers)
    turtles = sorted({at.animal for at in told if at.animal is not None})
    here = asked.animal if asked else None
    numbered = _numbers(line)
    if interview.animal_count < 2 or not turtles or not (known or numbered):
        return story, False
    meant = {turtle: _meant(interview, story, turtle, known, asked) for turtle in turtles}
    if len(turtles) == 1:
        named = [number for number in numbered if number < interview.animal_count]
        if len(numbered) == 1 and named:
            meant = {turtles[0]: named[0]}
        elif numbered:
            meant = {turtles[0]: None}
        elif Place(_KIND, turtles[0]) not in told and here is not None:
            meant = {turtles[0]: here}
    elif all(Place(_KIND, turtle) not in told for turtle in turtles):
        return story, False  # told in order: 14 and 9 cm
    sure = [n for n in meant.values() if n is not None]
    if len(set(sure)) < len(sure):  # two of a kind are told of
        meant = dict.fromkeys(turtles)
    moved = {
        at: Place(at.id, meant[at.animal])
        for at in told
        if at.animal is not None and meant[at.animal] is not None
    }
    lost = {at for at in told if at.animal is not None and at not in moved}
    return replace(
        story,
        answers=tuple((moved.get(at, at), said) for at, said in story.answers if at not in lost),
        guessed=frozenset(moved.get(at, at) for at in story.guessed - lost),
        heard={moved.get(at, at): why for at, why in story.heard.items() if at not in lost},
    ), bool(lost)


def _numbers(line: str) -> list[int]:
    """The turtles called by their number, counted from 0."""
    found = _NUMBERED.finditer(line)
    return [int(one[1]) - 1 if one[1] else _NTH.index(one[2].casefold()) for one in found]


def _meant(
    interview: Interview, story: Story, turtle: int, known: Mapping[int, str], asked: Place | None
) -> int | None:
    """The known turtle that is of the kind told, else the only one whose kind isn't known."""
    said = dict(story.answers).get(Place(_KIND, turtle))
    if said is None:
        return None
    here = asked.animal if asked else None
    if asked and asked.id == _KIND and here not in known:
        return here
    question = interview.questionnaire.by_id[_KIND]
    kind = str(understand(question, said, interview.lists, story.region).value)
    alike = [n for n, name in known.items() if name == kind]
    if not alike and asked and asked.id == _KIND:
        return here
    fit = alike or [n for n in range(interview.animal_count) if n not in known]
    return here if here in fit else fit[0] if len(fit) == 1 else None
