"""What the parts of a told line answer by themselves, where the whole tells nothing of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from interview.chat.hearing.told.taken import Story
from interview.chat.together.row_parts import answers_at
from interview.graph.interview import Interview, Place
from interview.words.choices.absence import is_unsure

__all__ = ["with_parts"]

_STAGE = Place("stage")


def with_parts(interview: Interview, group: Sequence[Place], story: Story, line: str) -> Story:
    """The story with the parts between commas that it leaves over, at what they answer.

    A part answers the only question of the row that it can and that is open; else it may be a
    kind of turtle: red ears, 120 litre.

    Args:
        interview: the answers so far
        group: the questions asked for
        story: what the whole line tells
        line: what was typed
    """
    told, order = dict(story.answers), list(interview.questionnaire.by_id)
    heard = dict(story.heard)
    left = [part for part in _parts(line) if part in (*story.unused, *heard.values())]
    fits = True
    while fits:
        open_ = [place for place in group if place not in told and place not in interview.answers]
        found = {part: [at for at in open_ if answers_at(interview, at, part)] for part in left}
        fits = False
        for part, places in found.items():
            if len(places) == 1 and not is_unsure(part) and places[0] not in told:
                told[places[0]], fits = part, True
                left.remove(part)
    for part in left:
        kind = _kind(interview, part)
        is_told = any(at.id == "species" and at not in heard for at in [*told, *interview.answers])
        if kind and not is_told:
            told[Place("species", 0)] = kind
            told.setdefault(_STAGE, "living")
            heard.pop(Place("species", 0), None)
            left.remove(part)
            break
    rows = sorted(told.items(), key=lambda row: (order.index(row[0].id), row[0].animal or 0))
    used = {*_parts(line)} - {*left}
    unused = tuple(one for one in story.unused if one not in used)
    return replace(story, answers=tuple(rows), unused=unused, heard=heard)


def _parts(line: str) -> list[str]:
    return [part for part in (one.strip(" .") for one in line.split(", ")) if part]


def _kind(interview: Interview, part: str) -> str:
    """The kind of turtle that a part names, one or several: red ears; "" where it names none."""
    names = (part, part.removesuffix("s"))
    return next((name for name in names if interview.takes(Place("species", 0), name)), "")
