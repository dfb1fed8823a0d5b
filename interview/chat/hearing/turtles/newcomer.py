"""A turtle that comes to the others: what is told of it is its own, not theirs."""

from __future__ import annotations

import re
from dataclasses import replace

from interview import assembly
from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.told.taken import Story
from interview.chat.hearing.turtles.called import called_in
from interview.chat.hearing.turtles.gone import tells_of_one_gone
from interview.chat.hearing.turtles.of_a_kind import of_kind
from interview.graph.interview import Interview, Place
from interview.words.lexicon.files import known_words
from interview.words.lexicon.rules import any_of
from interview.words.mentions.clauses import whole_clause
from interview.words.mentions.parts import read_parts
from interview.words.mentions.scope.cutting import sentences
from interview.words.text.tokens import plain_words

__all__ = ["another_told", "joins", "story_of_newcomer", "told_of_one"]

_COUNT = "animal_count"
_ONE = re.compile(r"one\b[\s,:;–-]*(?:(?:it|he|she|which)(?:'?s| is)\s+)?(?:an?\s+)?", re.I)
"""A third one, a musk: what it is follows."""
_SPACES = 3
"""Characters behind “another” that are none of it, where a line is searched between spaces."""
_OF_IT = ("species", "carapace_length", "sex", "age", "mass")


def another_told(interview: Interview, line: str) -> dict[str, str] | None:
    """What a line tells of a turtle that joined, by question; None where it tells of none."""
    told = _as_only_one(interview, line)
    return None if told is None else told_of_one(interview, told[0])


def told_of_one(interview: Interview, line: str) -> dict[str, str]:
    """What a line tells of a turtle, whatever the others are."""
    alone = assembly.new_interview()
    if region := interview.answers.get(Place("region")):
        alone.record(Place("region"), region.said)
    told = read_story(alone, line)
    return {at.id: said for at, said in told.answers if at.animal == 0 and at.id in _OF_IT}


def _as_only_one(interview: Interview, line: str) -> tuple[str, int] | None:
    """A line that tells of one more, as if that were the only one; None where it tells of none.

    “The second turtle” is one more where one is counted, “the second slider” beside one slider.
    With it where in the line it is called.
    """
    comes = any_of(("asked_instead", "another")).search(f" {line.casefold()} ")
    if comes:
        behind = _ONE.sub("", line[comes.end() - 1 :].strip())
        return (f"We have a {behind}", comes.end() - _SPACES) if _is_a_turtle(behind) else None
    many = interview.animal_count
    next_one = next((one for one in called_in(interview, line) if one.is_counted), None)
    if not (many and next_one and next_one.is_named) or tells_of_one_gone(line):
        return None
    kept = len(of_kind(interview, next_one.kind)) if next_one.kind else many
    if not kept or next_one.number != kept + 1:
        return None
    said = f"{line[: next_one.start]}my {next_one.kind or 'turtle'}{line[next_one.stop :]}"
    return said, next_one.start


def _is_a_turtle(said: str) -> bool:
    """Whether words begin with a turtle: a small male; not a filter for the turtle."""
    turtles = known_words("asked_instead", "another_turtle")
    looks = known_words("asked_instead", "another_looks") - turtles
    return next((word for word in plain_words(said).split() if word not in looks), "") in turtles


def story_of_newcomer(interview: Interview, story: Story, line: str) -> Story | None:
    """The story with what it tells of a turtle as of one that came to those that are counted.

    None where it tells of none, of one that is only wished for, or of another's.
    """
    many, clause = interview.animal_count, whole_clause(line)
    turtles = {at.animal for at, _ in story.answers} - {None, 0}
    if not many or turtles or tells_of_one_gone(line) or (clause and clause.is_of_others):
        return None
    told = _as_only_one(interview, line)
    if told is None or _is_wished(line, told[1]):
        return None
    joined = told_of_one(interview, told[0])
    of_tank = [row for row in story.answers if row[0].animal is None and row[0].id != _COUNT]
    own = [(Place(name, many), said) for name, said in joined.items()]
    count = Place(_COUNT), str(many + 1)
    heard = {at: why for at, why in story.heard.items() if at.animal is None}
    served = known_words("asked_instead", "another")
    unused = tuple(one for one in story.unused if plain_words(one) not in served)
    rows = (*of_tank, count, *own)
    return replace(story, answers=rows, unused=unused, guessed=frozenset(), heard=heard)


def joins(interview: Interview, story: Story) -> bool:
    """Whether a story tells of a turtle beside those that are counted."""
    count = dict(story.answers).get(Place(_COUNT), "")
    return bool(interview.animal_count) and count == str(interview.animal_count + 1)


def _is_wished(line: str, at: int) -> bool:
    """Whether what stands at a place is wished for, or was: we would like another slider."""
    return any(
        sentence.parts[n].start <= at < sentence.parts[n].end
        for sentence in sentences(line, read_parts(line))
        for n in sentence.wished()
    )
