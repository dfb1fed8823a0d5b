"""Which of several known turtles a line tells of: by its number, its turn, its looks, its kind."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.told.taken import Story
from interview.chat.hearing.turtles.newcomer import story_of_newcomer
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.words.amounts.reading import Reading
from interview.words.intents.which_turtle import OTHER, Mentioned, turtles_in

__all__ = ["WHOSE", "meant_by", "others_in", "told_of"]

WHOSE = "I can't tell which turtle that is of. Say it with its number, as “turtle 2 is 9 cm”."
_KIND, _COUNT = "species", Place("animal_count")
_BY = {
    "greatest": ("carapace_length", 1),
    "least": ("carapace_length", -1),
    "eldest": ("age", 1),
    "youngest": ("age", -1),
}
"""What a rank compares, and whether the most of it is meant."""
_ENDS = re.compile(r"[,;.]\s|\s(?:and|but)\s")
_JOINS = re.compile(r"[\s,]*(?:and|&|(or))?\s*", re.IGNORECASE)
_LEADS = re.compile(r"^(?:[\s:=,–-]+|(?:is|are)\b)+", re.IGNORECASE)
_IT = "my turtle"
"""What a turtle is called where no other is spoken of."""


class _Piece(NamedTuple):
    """A part of a line that tells of one turtle, or of the same thing of several."""

    turtles: tuple[int | None, ...]
    """Counted from 0; none where their kind may tell which, None for one that isn't known."""
    words: str
    behind: str
    """What stands behind the turtle."""


def told_of(
    interview: Interview, line: str, asked: Place | None = None, *, of_turtles: bool = False
) -> tuple[Story, bool]:
    """What a line tells, of a turtle at that one of the known turtles.

    Args:
        interview: the answers so far; of one turtle nothing is to be told apart
        line: what was typed
        asked: what is asked, which decides where the line doesn't
        of_turtles: whether turtles are spoken of, so that “the second one” is one of them

    Returns the story, and whether something in it may be of either turtle: that is left out.
    """
    story = read_story(interview, line)
    is_kind = asked and asked.id == _KIND and asked not in interview.answers
    joined = None if is_kind else story_of_newcomer(interview, story, line)
    if joined or interview.animal_count < 2:
        return joined or story, False
    here = asked.animal if asked else None
    of_turtles = of_turtles or here is not None
    of_turtles = of_turtles or any(at.animal is not None for at, _ in story.answers)
    mentioned = [one for one in turtles_in(line) if one.is_named or of_turtles]
    if not mentioned:
        return of_known_turtles(interview, story, asked)
    before = read_story(interview, line[: _cut(line, 0, mentioned[0].start)])
    is_told_before = any(at.animal is not None for at, _ in before.answers)
    if is_told_before:  # the map is 9 cm, the other one is a girl
        before, whose = of_known_turtles(interview, before, asked)
        first = {at.animal for at, _ in before.answers} - {None}
        here = first.pop() if len(first) == 1 and not whose else None
    meant = _resolved(interview, mentioned, here)
    if None in meant and not is_told_before and not any(one.number for one in mentioned):
        return of_known_turtles(interview, story, asked)
    return _of_pieces(interview, _pieces(line, mentioned, meant), asked, story.region)


def others_in(interview: Interview, line: str, asked: Place) -> list[int]:
    """The turtles besides the one asked of that a line calls by number, turn or looks."""
    if asked.animal is None or interview.animal_count < 2:
        return []
    meant = _resolved(interview, turtles_in(line), asked.animal)
    return [turtle for turtle in meant if turtle not in (None, asked.animal)]


def meant_by(interview: Interview, words: str, here: int | None = None) -> int | None:
    """The one turtle that words call by its number, its turn or its looks, counted from 0.

    Args:
        interview: the answers so far
        words: what was typed
        here: the turtle that is asked of, from which another is told
    """
    meant = {*_resolved(interview, turtles_in(words), here)}
    return meant.pop() if len(meant) == 1 else None


def _resolved(
    interview: Interview, mentioned: Iterable[Mentioned], here: int | None
) -> list[int | None]:
    """The turtles that are meant, counted from 0; None for what none of them is."""
    found: list[int | None] = []
    for one in mentioned:
        last = found[-1] if found else here
        found.append(_resolve(interview, one, last))
    return found


def _resolve(interview: Interview, one: Mentioned, last: int | None) -> int | None:
    many = interview.animal_count
    if one.number:
        return one.number - 1 if one.number <= many else None
    if one.rank == OTHER:
        return 1 - last if many == 2 and last is not None else None
    if one.rank not in _BY:
        return many - 1
    name, sign = _BY[one.rank]
    answers = [interview.answers.get(Place(name, turtle)) for turtle in range(many)]
    sizes = [a.value.best for a in answers if a and isinstance(a.value, Reading)]
    most = max((sign * size for size in sizes), default=0.0)
    fit = [turtle for turtle, size in enumerate(sizes) if sign * size == most]
    return fit[0] if len(sizes) == many and len(fit) == 1 else None


def _pieces(
    line: str, mentioned: Sequence[Mentioned], meant: Sequence[int | None]
) -> Iterator[_Piece]:
    """A line cut between the turtles it calls; what stands before the first is of none of them."""
    begin = _cut(line, 0, mentioned[0].start)
    if line[:begin].strip(" ,"):
        yield _Piece((), line[:begin].strip(" ,"), line[:begin])
    at = 0
    while at < len(mentioned):
        first, turtles = at, [meant[at]]
        while at + 1 < len(mentioned) and (
            joins := _JOINS.fullmatch(line[mentioned[at].stop : mentioned[at + 1].start])
        ):
            at += 1
            turtles.append(None if joins[1] else meant[at])
        stop = mentioned[at].stop
        end = _cut(line, stop, mentioned[at + 1].start) if at + 1 < len(mentioned) else len(line)
        words = f"{line[begin : mentioned[first].start]}{_IT}{line[stop:end]}"
        yield _Piece(tuple(turtles), words.strip(" ,;"), line[stop:end])
        begin, at = end, at + 1


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

    Args:
        interview: the answers so far
        story: what a line seems to tell, which counts its turtles from the first
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
    named = [turtle for turtle in turtles if Place(_KIND, turtle) in told]
    if not turtles or (len(turtles) > 1 and not named) or (named and not known):
        return story, False  # told in order: 14 and 9 cm
    meant = {turtle: _of_kind(interview, story, turtle, known, asked) for turtle in turtles}
    if not named:
        meant = {turtles[0]: here}
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


def _of_kind(
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
