"""Signs of illness that are told in passing: words for their question, a line of a story's list."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from interview.chat.hearing.told.taken import Story, labels_of_several
from interview.graph.interview import Interview, Place
from interview.words.intents.people import heard_in

__all__ = ["SIGNS", "as_signs", "is_open", "labels_of", "with_signs"]

SIGNS = Place("warning_signs")


def is_open(interview: Interview) -> bool:
    """Whether no sign is noted; a “none” from before an illness was told is in doubt."""
    answer = interview.answers.get(SIGNS)
    return answer is None or (not answer.value and SIGNS in interview.doubtful)


def as_signs(*told: Iterable[str]) -> str:
    """Signs as they would be typed, each once."""
    return ", ".join(dict.fromkeys(sign.replace("_", " ") for signs in told for sign in signs))


def with_signs(interview: Interview, story: Story, signs: Iterable[str]) -> Story:
    """The story with the signs that were heard in it, to be agreed to with the rest."""
    if not signs or not is_open(interview):
        return story
    said = dict(story.answers).get(SIGNS, "")
    before = interview.try_answer(SIGNS, said).value if said else ()
    row = SIGNS, as_signs(map(str, before) if isinstance(before, tuple) else (), signs)
    unused = tuple(phrase for phrase in story.unused if not heard_in(phrase).signs)
    return replace(story, answers=(*story.without([SIGNS]).answers, row), unused=unused)


def labels_of(interview: Interview, said: str) -> str:
    """Signs in the words in which they are offered."""
    return labels_of_several(interview, SIGNS, said.replace(" ", "_").split(",_"))
