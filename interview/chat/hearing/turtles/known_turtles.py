"""Which of several known turtles a line tells of: by its number, its turn, its looks, its kind."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import chain
from typing import NamedTuple

from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.told.taken import Story
from interview.chat.hearing.turtles.called import (
    MINE,
    Turtles,
    amounts_in,
    called_in,
    resolved,
    untold_apart,
)
from interview.chat.hearing.turtles.newcomer import story_of_newcomer
from interview.chat.hearing.turtles.of_a_kind import of_kind
from interview.graph.interview import Interview, Place
from interview.words.amounts.spellings import label
from interview.words.intents.which_turtle import ALL, Mentioned

__all__ = ["WHOSE", "others_in", "told_of"]

WHOSE = "I can't tell which turtle that is of. Say it with its number, as “turtle 2 is 9 cm”."
_KIND, _COUNT = "species", Place("animal_count")
_ENDS = re.compile(r"[,;.]\s|\s(?:and|but)\s")
_JOINS = re.compile(r"[\s,]*(?:and|&|(or))?\s*", re.IGNORECASE)
_ARE = re.compile(
    r"^\s*(?:(?:are|were|is)\s+)?(?:(?:all|both|each)\s+)?(?=[^,;.\s])", re.IGNORECASE
)
"""What is told of all of several, as it is of one of them."""
_LEADS = re.compile(r"^(?:[\s:=,–-]+|(?:is|are)\b)+", re.IGNORECASE)


class _Piece(NamedTuple):
    """A part of a line that tells of one turtle, or of the same thing of several."""

    turtles: Turtles
    """None of them where their kind may tell which."""
    words: str
    behind: str
    """What stands behind the turtle."""


def told_of(
    interview: Interview, line: str, asked: Place | None = None, *, of_turtles: bool = False
) -> tuple[Story, bool]:
    """What a line tells, of a turtle at that one of the known turtles.

    What is asked decides where the line doesn't; where turtles are spoken of, “the second one”
    is one. With the story, whether something may be of either turtle: that is left out.
    """
    story = read_story(interview, line)
    is_kind = asked and asked.id == _KIND and asked not in interview.answers
    joined = None if is_kind else story_of_newcomer(interview, story, line)
    if joined or interview.animal_count < 2:
        return joined or story, False
    here = asked.animal if asked else None
    of_turtles = of_turtles or here is not None
    of_turtles = of_turtles or any(at.animal is not None for at, _ in story.answers)
    called = called_in(interview, line, by_kind=True)
    of_turtles = of_turtles or (asked is not None and _are_turtles(interview, line, called, asked))
    mentioned = [one for one in called if one.is_named or of_turtles]
    told_apart = [one for one in mentioned if one.number or one.rank]
    if not told_apart:
        return of_known_turtles(interview, story, asked)
    meant = resolved(interview, mentioned, here)
    ranks = {one.rank for one in mentioned}
    is_only_rank = len(ranks) == 1 and not any(one.number or one.kind for one in mentioned)
    if (None,) in meant and "" not in ranks:
        meant = untold_apart(interview, line, mentioned) or meant
    if (None,) in meant and is_only_rank:
        return of_known_turtles(interview, story, asked)
    return _of_pieces(interview, _pieces(line, mentioned, meant), asked, story.region)


def _are_turtles(
    interview: Interview, line: str, called: Sequence[Mentioned], asked: Place
) -> bool:
    """Whether “the second one” is a turtle at a question of the tank: it is 9 cm, of the water.

    What is told of it is of a turtle then, and nothing of the kind that is asked.
    """
    pieces = _pieces(line, called, [(0,)] * len(called)) if called else ()
    told = [
        at for piece in pieces if piece.turtles for at, _ in _alone(interview, piece, asked).answers
    ]
    kind = interview.question(asked).type
    own = [interview.questionnaire.by_id[at.id].type for at in told if at.animal is not None]
    return bool(own) and kind not in own


def others_in(interview: Interview, line: str, asked: Place) -> list[int | None]:
    """The turtles besides the one asked of that a line calls by number, turn or looks.

    None of them where of several that are told apart nobody can say which.
    """
    if interview.animal_count < 2:
        return []
    called = called_in(interview, line)
    meant = [*chain(*resolved(interview, called, asked.animal))]
    others: list[int | None] = [n for n in meant if n not in (None, asked.animal)]
    return others or ([None] if len({one.rank for one in called} - {""}) > 1 else [])


def _pieces(
    line: str, mentioned: Sequence[Mentioned], meant: Sequence[Turtles]
) -> Iterator[_Piece]:
    """A line cut between the turtles it calls; what stands before the first is of none of them."""
    begin = _cut(line, 0, mentioned[0].start)
    if line[:begin].strip(" ,"):
        yield _Piece((), line[:begin].strip(" ,"), line[:begin])
    at = 0
    while at < len(mentioned):
        first, turtles = at, [*meant[at]]
        while at + 1 < len(mentioned) and (
            joins := _JOINS.fullmatch(line[mentioned[at].stop : mentioned[at + 1].start])
        ):
            at += 1
            turtles += [None] if joins[1] else meant[at]
        stop = mentioned[at].stop
        end = _cut(line, stop, mentioned[at + 1].start) if at + 1 < len(mentioned) else len(line)
        behind = line[stop:end] if mentioned[at].rank != ALL else _ARE.sub(" is ", line[stop:end])
        behind = _with_unit(behind, line)
        words = f"{line[begin : mentioned[first].start]}{MINE}{behind}"
        yield _Piece(tuple(turtles), words.strip(" ,;"), behind)
        begin, at = end, at + 1


def _with_unit(words: str, line: str) -> str:
    """A lone number with the unit that others in its line have: 20 cm, the smallest 9."""
    units = {label(part.unit) for part in amounts_in(line) if part.unit}
    lone = amounts_in(words)
    bare = _LEADS.sub("", words).strip(" .,;!?")
    if len(units) != 1 or len(lone) != 1 or lone[0].text != "<number>" or lone[0].said != bare:
        return words
    return f"{words[: lone[0].end]} {units.pop()}{words[lone[0].end :]}"


def _cut(line: str, start: int, stop: int) -> int:
    """Where what is told of the turtle that is called at `stop` begins: behind the last comma."""
    ends = [one.end() for one in _ENDS.finditer(line, start, stop)]
    return ends[-1] if ends else (stop if start else 0)


def _of_pieces(
    interview: Interview, pieces: Iterable[_Piece], asked: Place | None, region: str
) -> tuple[Story, bool]:
    """What each part of a line tells by itself, of its turtle."""
    answers: dict[Place, str] = {}
    unused: list[str] = []
    guessed, heard, strange, lost = set[Place](), dict[Place, str](), list[str](), False
    for piece in pieces:
        told, turtles = _alone(interview, piece, asked), piece.turtles
        own = {at.animal for at, _ in told.answers} - {None}
        if own and not turtles:
            told, whose = of_known_turtles(interview, told, asked)
            lost = lost or whose
        elif own and None in turtles:
            told, lost = told.without({at for at, _ in told.answers if at.animal is not None}), True
        for at, said in told.answers:
            if at == _COUNT or (turtles and (at.animal or 0) > 0):
                continue
            for turtle in turtles if turtles and at.animal is not None else (at.animal,):
                place = Place(at.id, turtle)
                answers[place] = said
                guessed |= {place} if at in told.guessed else set()
                heard |= {place: told.heard[at]} if at in told.heard else {}
        unused += told.unused
        strange += told.strange
    order = list(interview.questionnaire.by_id)
    rows = sorted(answers.items(), key=lambda row: (order.index(row[0].id), row[0].animal or 0))
    shown = tuple(rows), tuple(unused), region, frozenset(guessed), tuple(strange)
    return Story(*shown, heard), lost


def _alone(interview: Interview, piece: _Piece, asked: Place | None) -> Story:
    """What a part of a line tells; a bare answer is one to what is asked."""
    told = read_story(interview, piece.words)
    bare = _LEADS.sub("", piece.behind).strip(" .,;!?")
    if any(at.animal is not None for at, _ in told.answers) or not bare:
        return told
    if asked and asked.animal is not None and interview.takes(Place(asked.id, 0), bare):
        row = Place(asked.id, 0), bare
        return replace(told, answers=(*told.answers, row), unused=())
    return told


# ---- by their kinds


def of_known_turtles(
    interview: Interview, story: Story, asked: Place | None = None
) -> tuple[Story, bool]:
    """The story with what it tells of a kind at the known turtle of that kind.

    It counts its turtles from the first; what is asked decides where the line doesn't. With it,
    whether something may be of either turtle: that is left out.
    """
    many = interview.animal_count
    known = {
        n: str(answer.value)
        for n in range(many)
        if (answer := interview.answers.get(Place(_KIND, n)))
    }
    told = dict(story.answers)
    turtles = sorted({at.animal for at in told if at.animal is not None})
    here = asked.animal if asked else None
    named = [turtle for turtle in turtles if Place(_KIND, turtle) in told]
    several = len(turtles) > 1 and not named
    if not turtles or (named and not known) or (several and len(turtles) >= many):
        return story, False  # told in order: 14 and 9 cm
    meant = _of_kinds(interview, story, named, known, asked)
    if not named:
        meant = dict.fromkeys(turtles) if several else {turtles[0]: here}
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


def _of_kinds(
    interview: Interview,
    story: Story,
    named: Sequence[int],
    known: Mapping[int, str],
    asked: Place | None,
) -> dict[int, int | None]:
    """By each turtle whose kind is told the known one it is; in order where all of a kind are."""
    meant: dict[int, int | None] = {}
    kinds = [dict(story.answers)[Place(_KIND, turtle)] for turtle in named]
    for kind in dict.fromkeys(kinds):
        told = [turtle for turtle, said in zip(named, kinds, strict=True) if said == kind]
        fit = of_kind(interview, kind)
        if len(told) == len(fit) > 1:
            meant |= dict(zip(told, fit, strict=True))
        else:
            own = _of_kind(interview, fit, known, asked) if len(told) == 1 else None
            meant |= dict.fromkeys(told, own)
    sure = [n for n in meant.values() if n is not None]
    return meant if len(set(sure)) == len(sure) else dict.fromkeys(named)


def _of_kind(
    interview: Interview, alike: Sequence[int], known: Mapping[int, str], asked: Place | None
) -> int | None:
    """The known turtle of a kind told, of those alike, else the only one of no known kind."""
    here = asked.animal if asked else None
    is_kind = asked is not None and asked.id == _KIND
    if is_kind and (here not in known or not alike):
        return here
    fit = alike or [n for n in range(interview.animal_count) if n not in known]
    return here if here in fit else fit[0] if len(fit) == 1 else None
