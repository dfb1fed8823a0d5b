"""What a line tells of several known turtles, each told apart: the slider a girl, the map a boy."""

from __future__ import annotations

from collections.abc import Iterator

from interview.chat.hearing.changes import Change
from interview.chat.hearing.turtles.known_turtles import told_of
from interview.graph.answers import understand
from interview.graph.interview import Interview
from interview.graph.staleness import same
from interview.words.intents.changes import Told
from interview.words.mentions.clauses import whole_clause

__all__ = ["of_each_turtle"]

_KIND = "species"


def of_each_turtle(interview: Interview, line: str) -> Iterator[Change]:
    """The changes a line tells of two known turtles and more; nothing of fewer."""
    if interview.animal_count < 2 or (clause := whole_clause(line)) is None:
        return
    story, _ = told_of(interview, line)
    own = [(at, said) for at, said in story.answers if at.animal is not None and at.id != _KIND]
    if len({at.animal for at, _ in own}) < 2 or story.heard:
        return
    for at, said in own:
        held, question = interview.answers.get(at), interview.question(at)
        value = understand(question, said, interview.lists, interview.region).value
        if held is None or not same(held.value, value):
            told = Told(at.id, said, clause.start, clause.stop)
            yield Change(clause, (at,), told)
