"""What a line tells otherwise of known turtles: the slider is a girl, the second one a map."""

from __future__ import annotations

from collections.abc import Iterator

from interview.chat.hearing.turtles.known_turtles import told_of
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.graph.staleness import same
from interview.words.intents.changes import Told
from interview.words.intents.which_turtle import turtles_in
from interview.words.mentions.clauses import Clause, whole_clause

__all__ = ["told_anew"]


def told_anew(interview: Interview, line: str) -> Iterator[tuple[Clause, Place, Told]]:
    """The answers of turtles that a line tells for sure, and that were told otherwise before.

    Of turtles that it calls; by its kind alone none is another kind.
    """
    if interview.animal_count < 2 or (clause := whole_clause(line)) is None:
        return
    story, _ = told_of(interview, line)
    own = [row for row in story.answers if row[0].animal is not None and row[0] not in story.heard]
    calls = bool(turtles_in(line)) or len({at.animal for at, _ in own}) > 1
    for at, said in own if calls else ():
        held, question = interview.answers.get(at), interview.question(at)
        value = understand(question, said, interview.lists, interview.region).value
        if held is None or not same(held.value, value):
            yield clause, at, Told(at.id, said, clause.start, clause.stop)
