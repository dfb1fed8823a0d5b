"""What the parts of a told line answer by themselves, where the whole tells nothing of them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from interview.chat.hearing.replies import agreed_in
from interview.chat.hearing.told.taken import Story
from interview.chat.together.row_parts import answers_at
from interview.graph.interview import Interview, Place
from interview.words.choices.absence import is_unsure
from interview.words.text.tokens import plain_words

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
        found = {part: _answers(interview, open_, part) for part in left}
        fits = False
        for part, said in found.items():
            if len(said) == 1 and not told.keys() & said.keys():
                told |= said
                fits = True
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


def _answers(interview: Interview, places: Sequence[Place], part: str) -> dict[Place, str]:
    """What a part answers by itself; “yes, there is an RCD” names its question."""
    if is_unsure(part):
        return {}
    agrees, rest = agreed_in(part)
    yes_no = [at for at in places if interview.question(at).type == "yes_no"]
    named = [at for at in yes_no if agrees is not None and rest and _names(interview, at, rest)]
    if named:
        return dict.fromkeys(named, "yes" if agrees else "no")
    return {at: part for at in places if answers_at(interview, at, part)}


def _names(interview: Interview, place: Place, words: str) -> bool:
    question = interview.question(place)
    spoken = f" {plain_words(words)} "
    return any(f" {plain_words(name)} " in spoken for name in question.trade_names)


def _parts(line: str) -> list[str]:
    return [part for part in (one.strip(" .") for one in line.split(", ")) if part]


def _kind(interview: Interview, part: str) -> str:
    """The kind of turtle that a part names, one or several: red ears; "" where it names none."""
    names = (part, part.removesuffix("s"))
    return next((name for name in names if interview.takes(Place("species", 0), name)), "")
