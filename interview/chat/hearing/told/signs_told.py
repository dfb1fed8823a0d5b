"""Signs of illness that are told in passing: words for their question, a line of a story's list."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable
from dataclasses import dataclass, replace
from itertools import chain

from interview.chat.faces.face import Asked
from interview.chat.hearing.told.taken import Story, labels_of_several
from interview.graph.interview import AnswerRefused, Interview, Place
from interview.words.intents.people import heard_in
from interview.words.text.refusal import NotUnderstood

__all__ = ["SIGNS", "ToldSigns", "signs_in", "with_signs"]

SIGNS = Place("warning_signs")
_ADDS = re.compile(r"^(?:and|plus)\b|\balso\b|\b(?:too|as well)$", re.IGNORECASE)
"""What is named beside what stands, and not in place of it: also soft shell."""


@dataclass
class ToldSigns:
    """Signs told in passing: they stand where signs are asked for, beside those noted."""

    interview: Interview
    told: tuple[str, ...] = ()

    @property
    def news(self) -> tuple[str, ...]:
        """What was told and is not noted."""
        return _not_noted(self.interview, self.told)

    @property
    def typed(self) -> str:
        """What is noted and what was told since, as it would be typed."""
        return _as_typed(_together(_noted(self.interview), self.told))

    @property
    def labels(self) -> str:
        """The same in the words in which signs are offered."""
        there = _together(_noted(self.interview), self.told)
        return labels_of_several(self.interview, SIGNS, there)

    def hear(self, signs: Iterable[str]) -> None:
        """Keep signs till they are asked for."""
        self.told = _together(self.told, signs)

    def forget(self, left_out: Container[str]) -> None:
        """Forget what was left out of a list, and what the list noted."""
        self.told = _not_noted(self.interview, (one for one in self.told if one not in left_out))

    def settle(self) -> str:
        """Forget all, once signs are answered; the labels of what the answer leaves out."""
        left_out, self.told = self.news, ()
        return labels_of_several(self.interview, SIGNS, left_out)

    def shown_at(self, asked: Asked) -> Asked:
        """Their question, with what Enter keeps."""
        hint = f"You told of this: {self.labels}. Enter keeps that; else name all you see, or none."
        return replace(asked, hint=hint, prefill=self.typed, before="", keeps=self.typed)

    def added(self, line: str) -> str:
        """What stands with the signs that a line adds, as typed; "" where it adds none."""
        more = _ADDS.sub("", words := line.strip(" .!,")).strip(" ,")
        if more == words:
            return ""
        try:
            named = _names(self.interview.try_answer(SIGNS, more).value)
        except (NotUnderstood, AnswerRefused):
            named = heard_in(more).signs
        return _as_typed(_together(_noted(self.interview), self.told, named)) if named else ""


def signs_in(interview: Interview, story: Story) -> tuple[str, ...]:
    """The signs that a story's list has."""
    said = dict(story.answers).get(SIGNS, "")
    return _names(interview.try_answer(SIGNS, said).value) if said else ()


def with_signs(interview: Interview, story: Story, signs: Iterable[str]) -> Story:
    """The story with the signs that were heard in it beside those noted, to be agreed to."""
    told = _together(signs_in(interview, story), signs)
    if not _not_noted(interview, told):
        return story.without([SIGNS]) if told else story
    row = SIGNS, _as_typed(_together(_noted(interview), told))
    unused = tuple(phrase for phrase in story.unused if not heard_in(phrase).signs)
    return replace(story, answers=(*story.without([SIGNS]).answers, row), unused=unused)


def _noted(interview: Interview) -> tuple[str, ...]:
    answer = interview.answers.get(SIGNS)
    return _names(answer.value) if answer else ()


def _not_noted(interview: Interview, signs: Iterable[str]) -> tuple[str, ...]:
    return tuple(sign for sign in signs if sign not in _noted(interview))


def _together(*told: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(chain.from_iterable(told)))


def _as_typed(signs: Iterable[str]) -> str:
    return ", ".join(sign.replace("_", " ") for sign in signs)


def _names(value: object) -> tuple[str, ...]:
    return tuple(map(str, value)) if isinstance(value, tuple) else ()
