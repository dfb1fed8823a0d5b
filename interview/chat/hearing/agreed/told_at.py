"""The answer to the question that stands, out of a sentence that tells just that."""

from __future__ import annotations

from interview.chat.hearing.told.story import read_story
from interview.chat.hearing.told.story_lines import not_used
from interview.chat.hearing.turtles.known_turtles import told_of
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.intents.which_turtle import turtles_in
from interview.words.lexicon.files import known_words
from interview.words.text.refusal import NotUnderstood
from interview.words.text.tokens import plain_words

__all__ = ["told_at"]

_LEAST_WORDS = 4
_LEAST_WORDS_OF_CHOICE, _MOST_WORDS_OF_CHOICE = 2, 25


def told_at(interview: Interview, place: Place, line: str) -> tuple[str, str]:
    """The answer to a question that a sentence tells, where it tells just that; else nothing.

    With it what to say of the phrases that nothing was taken from.
    """
    question, words = interview.question(place), len(line.split())
    is_choice = question.type == "choice"
    least = _LEAST_WORDS_OF_CHOICE if is_choice else _LEAST_WORDS
    if words < least and place.id != "region" and not turtles_in(line):
        return "", ""
    try:
        interview.try_answer(place, line)
    except NotUnderstood as problem:
        if problem.meant and words < _LEAST_WORDS:  # a slip of the finger is asked about
            return "", ""
    except AnswerRefused:
        return "", ""
    else:
        return "", ""
    if is_choice and not known_words("in_context", "past").isdisjoint(plain_words(line).split()):
        return "", ""
    story, whose = told_of(interview, line, place)
    if story.heard or whose:  # a guess has to be confirmed
        return "", ""
    told = dict(story.answers)
    if place.id != "stage":
        told.pop(Place("stage"), "")  # whoever tells of a turtle has it
    if told.keys() == {place}:
        return told[place], not_used(story, _LEAST_WORDS)
    if told or not is_choice or words > _MOST_WORDS_OF_CHOICE:
        return "", ""
    here = read_story(interview, f"the {question.short} is {line}")  # the question tells of what
    return ("" if place in here.heard else dict(here.answers).get(place, "")), ""
