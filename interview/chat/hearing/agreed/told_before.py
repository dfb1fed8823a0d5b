"""What of a story is news: nothing that was told before, nor what only goes without saying."""

from __future__ import annotations

from dataclasses import replace

from interview.chat.hearing.told.story import LEAST_WORDS_OF_STORY
from interview.chat.hearing.told.taken import Story
from interview.graph.answers import understand
from interview.graph.interview import Interview, Place
from interview.graph.staleness import same
from interview.words.amounts.reading import Reading

__all__ = ["OF_ANY", "may_be_asked", "not_told_yet"]

OF_ANY = frozenset({"stage", "animal_count"})
"""What any word of a turtle tells, and so nothing of a tank."""
_STAGE = Place("stage")
"""A story of a turtle goes without saying that it lives in the tank; who plans has said so."""


def not_told_yet(interview: Interview, story: Story) -> Story:
    """The story without what the answers say already, or say better."""
    news = tuple((p, said) for p, said in story.answers if _is_news(interview, story, p, said))
    return replace(story, answers=news)


def may_be_asked(
    interview: Interview, story: Story, asked: Place | None, words: int, *, single: bool
) -> bool:
    """Whether guesses are shown where nothing is sure: several of many words, or a single one.

    That answers another kind of question than the one that is asked.
    """
    if not single:
        return len(story.answers) > 1 and words >= LEAST_WORDS_OF_STORY
    if len(story.answers) != 1 or story.answers[0][0].id in OF_ANY:
        return False
    kind = interview.questionnaire.by_id[story.answers[0][0].id].type
    return asked is None or interview.question(asked).type != kind


def _is_news(interview: Interview, story: Story, place: Place, said: str) -> bool:
    before = interview.answers.get(place)
    if before is None:
        return True
    if place == _STAGE:
        return False
    question = interview.question(place)
    value = understand(question, said, interview.lists, story.region).value
    if question.count_of and isinstance(value, Reading):
        return value.best > interview.animal_count  # of several turtles one may be spoken of
    return not same(before.value, value)
