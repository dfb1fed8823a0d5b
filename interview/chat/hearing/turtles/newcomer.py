"""A turtle that comes to the others: what is told of it is its own, not theirs."""

from __future__ import annotations

from dataclasses import replace

from interview import assembly
from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.told.taken import Story
from interview.graph.interview import Interview, Place
from interview.words.intents.which_turtle import turtles_in
from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import any_of, is_said
from interview.words.mentions.clauses import whole_clause
from interview.words.mentions.parts import read_parts
from interview.words.mentions.scope.cutting import sentences
from interview.words.text.tokens import plain_words

__all__ = ["another_told", "says_one_more", "story_of_newcomer", "told_of_one"]

_COUNT, _KIND = "animal_count", "species"
_OF_IT = (_KIND, "carapace_length", "sex", "age", "mass")


def another_told(interview: Interview, line: str) -> dict[str, str] | None:
    """What a line tells of a turtle that joined, by question; None where it tells of none."""
    said = _as_only_one(interview, line)
    return None if said is None else told_of_one(interview, said)


def told_of_one(interview: Interview, line: str) -> dict[str, str]:
    """What a line tells of a turtle, whatever the others are."""
    alone = assembly.new_interview()
    if region := interview.answers.get(Place("region")):
        alone.record(Place("region"), region.said)
    told = read_story(alone, line)
    return {at.id: said for at, said in told.answers if at.animal == 0 and at.id in _OF_IT}


def _as_only_one(interview: Interview, line: str) -> str | None:
    """A line that tells of one more, as if that were the only one; None where it tells of none.

    “The second turtle” is one more where one is counted.
    """
    comes = any_of(("asked_instead", "another")).search(f" {line.casefold()} ")
    if comes:
        behind = line[comes.end() - 1 :].strip()
        return f"We have a {behind}" if _is_a_turtle(behind) else None
    many = interview.animal_count
    next_one = [one for one in turtles_in(line) if one.is_counted and one.number == many + 1]
    if not (many and next_one and next_one[0].is_named) or _is_gone(line):
        return None
    return f"{line[: next_one[0].start]}my turtle{line[next_one[0].stop :]}"


def _is_gone(line: str) -> bool:
    spoken = {*plain_words(line).split()}
    gone = known_words("asked_instead", "turtle_died") | known_words("changes", "gone")
    return not gone.isdisjoint(spoken)


def _is_a_turtle(said: str) -> bool:
    """Whether words begin with a turtle: a small male; not a filter for the turtle."""
    for word in plain_words(said).split():
        if word in known_words("asked_instead", "another_turtle"):
            return True
        if word not in known_words("asked_instead", "another_looks"):
            return False
    return False


def says_one_more(line: str) -> bool:
    """Whether a line says that there is one more, and no more: another one."""
    return is_said(plain_words(line), "asked_instead", "one_more")


def story_of_newcomer(interview: Interview, story: Story, line: str) -> Story | None:
    """The story with what it tells of a turtle as of one that came to those that are counted.

    None where it tells of none, of one that is only wished for, or of another's.
    """
    many, clause = interview.animal_count, whole_clause(line)
    turtles = {at.animal for at, _ in story.answers} - {None, 0}
    if not many or turtles or _is_gone(line) or (clause and clause.is_of_others):
        return None
    joined = another_told(interview, line)
    wished = any(sentence.wished() for sentence in sentences(line, read_parts(line)))
    if joined is None or wished:
        return None
    of_tank = [row for row in story.answers if row[0].animal is None and row[0].id != _COUNT]
    own = [(Place(name, many), said) for name, said in joined.items()]
    count = Place(_COUNT), str(many + 1)
    heard = {at: why for at, why in story.heard.items() if at.animal is None}
    served = known_words("asked_instead", "another")
    unused = tuple(one for one in story.unused if plain_words(one) not in served)
    rows = (*of_tank, count, *own)
    return replace(story, answers=rows, unused=unused, guessed=frozenset(), heard=heard)
