"""A story instead of an answer: what it says for sure becomes answers, once confirmed."""

from __future__ import annotations

from dataclasses import dataclass

from interview.graph.answers import understand
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.refusal import NotUnderstood
from interview.words.telling import tell

__all__ = ["LEAST_FACTS", "LEAST_WORDS", "Story", "keep", "read_story"]

LEAST_WORDS = 6
LEAST_FACTS = 2
"""Below these a line is an answer gone wrong, not a story."""


@dataclass(frozen=True)
class Story:
    """Answers taken from a story, in asking order, and the phrases nothing was taken from."""

    answers: tuple[tuple[Place, str], ...]
    unused: tuple[str, ...]


def read_story(interview: Interview, text: str) -> Story:
    """Take what is sure from a few sentences; nothing is recorded yet."""
    lists = interview.lists
    told = tell(
        text,
        region=interview.region,
        species=lists.options["species"],
        sizes=lists.sizes["tank_size"],
    )
    order = list(interview.questionnaire.by_id)
    answers: list[tuple[Place, str]] = []
    unused = list(told.unused)
    for fact in sorted(told.facts, key=lambda f: (order.index(f.id), f.animal or 0)):
        try:
            understand(interview.questionnaire.by_id[fact.id], fact.said, lists, interview.region)
        except NotUnderstood:
            unused.append(fact.quote)
        else:
            answers.append((Place(fact.id, fact.animal), fact.said))
    return Story(tuple(answers), tuple(unused))


def keep(interview: Interview, story: Story) -> list[str]:
    """Record a story's answers; returns a sentence for each that can't be."""
    refused = []
    for place, said in story.answers:
        try:
            interview.record(place, said)
        except (NotUnderstood, AnswerRefused) as problem:
            refused.append(str(problem))
    return refused
